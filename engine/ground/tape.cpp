// SPDX-License-Identifier: MIT
#include "engine/ground/tape.h"

#include <cmath>

namespace railwright::ground {

Result<double> level_from_slope(double slope_distance, double rise) {
  const double square = slope_distance * slope_distance - rise * rise;
  if (!(square > 0)) return fail("tape.rise", {}, {{"distance", slope_distance}, {"rise", rise}});
  return std::sqrt(square);
}

double slope_correction_approximate(double slope_distance, double rise) { return -rise * rise / (2 * slope_distance); }

TapeCorrections correct(const Tape& tape, const Taped& line) {
  TapeCorrections sum;
  const double pull = line.pull.value_or(tape.standard_pull);
  for (const TapedBay& bay : line.bays) {
    sum.recorded += bay.length;
    if (bay.supported || !(pull > 0)) continue;
    const double weight = tape.weight_per_length;
    sum.sag -= weight * weight * bay.length * bay.length * bay.length / (24 * pull * pull);
  }
  sum.length = (tape.true_length - tape.nominal) / tape.nominal * sum.recorded;
  sum.temperature = tape.expansion_per_f * (line.temperature_f - tape.standard_f) * sum.recorded;
  if (tape.section > 0) sum.pull = (pull - tape.standard_pull) * sum.recorded / (tape.section * tape.elasticity);
  return sum;
}

}  // namespace railwright::ground
