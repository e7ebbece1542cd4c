// SPDX-License-Identifier: MIT
#include "engine/strength/concrete.h"

namespace railwright::strength {

Volume cylinder(Length diameter, Length depth) { return Volume::si(measure::kPi / 4 * diameter.metres() * diameter.metres() * depth.metres()); }

Volume concrete_round_post(Length hole, Length depth, Length post, Length in_hole) {
  const Volume rest = cylinder(hole, depth) - cylinder(post, measure::min(in_hole, depth));
  return rest.si() > 0 ? rest : Volume();
}

double bags(Volume volume, Volume yield) { return yield.si() > 0 ? volume / yield : 0; }

double in_cubic_yards(Volume volume) { return measure::in_cubic_feet(volume) / 27; }

measure::Mass concrete_mass(Volume volume, double pounds_per_cubic_foot) { return measure::pounds(measure::in_cubic_feet(volume) * pounds_per_cubic_foot); }

}  // namespace railwright::strength
