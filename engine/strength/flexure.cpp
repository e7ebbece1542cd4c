// SPDX-License-Identifier: MIT
#include "engine/strength/flexure.h"

#include <cmath>

namespace railwright::strength {

Flexure pipe_flexure(const Section& section, Pressure yield) {
  Flexure f;
  f.slenderness = section.slenderness();
  const double ratio = yield.si() > 0 ? kSteelModulus / yield : 0;
  f.compact = f.slenderness <= 0.07 * ratio;
  f.covered = f.slenderness <= 0.31 * ratio;
  if (!f.covered) return f;
  f.nominal = Moment::si(yield.si() * (f.compact ? section.plastic_m3 : section.modulus_m3));
  f.allowable = f.nominal / kSafetyFactor;
  return f;
}

Pressure bending_stress(const Section& section, Moment moment) { return Pressure::si(section.modulus_m3 > 0 ? moment.si() / section.modulus_m3 : 0); }

Moment elastic_moment(const Section& section, Pressure stress) { return Moment::si(stress.si() * section.modulus_m3); }

Force allowable_compression(const Section& section, Pressure yield, Length length) {
  if (section.area_m2 <= 0 || yield.si() <= 0) return Force();
  const double slender = length.metres() / section.radius_m;
  const double over_elastic = yield.si() * slender * slender / (measure::kPi * measure::kPi * kSteelModulus.si());
  // pow differs in its last bits between C libraries; nine decimals are the same everywhere.
  const double reduction = over_elastic <= 2.25 ? std::round(std::pow(0.658, over_elastic) * 1e9) * 1e-9 : 0.877 / over_elastic;
  return Force::si(reduction * yield.si() * section.area_m2 / kSafetyFactor);
}

}  // namespace railwright::strength
