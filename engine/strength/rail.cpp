// SPDX-License-Identifier: MIT
#include "engine/strength/rail.h"

#include "engine/strength/beam.h"

namespace railwright::strength {

RailAnswer rail_under_load(const Section& section, const RailLoad& load, Length pitch) {
  const double stiffness = kSteelModulus.si() * section.inertia_m4;
  if (stiffness <= 0) return {};
  const Bent point = point_load(Support::simple, load.push, pitch, stiffness);
  const Bent uniform = uniform_load(Support::simple, load.uniform, pitch, stiffness);
  return {point.moment + uniform.moment, point.sag_m + uniform.sag_m};
}

// Both demands grow with the pitch, so the greatest whole millimetre is found by halving.
Length max_pitch(const Section& section, Pressure yield, const RailLoad& load, double sag_ratio, Length most) {
  const Moment allowable = pipe_flexure(section, yield).allowable;
  const auto carries = [&](std::int64_t millimetres) {
    const Length pitch = Length::mm(millimetres);
    const RailAnswer answer = rail_under_load(section, load, pitch);
    return answer.moment <= allowable && (sag_ratio <= 0 || answer.sag_m * sag_ratio <= pitch.metres());
  };
  std::int64_t low = 0, high = most.nm() / Length::kNmPerMm;
  if (allowable.si() <= 0) return Length();
  if (carries(high)) return most;
  while (high - low > 1) {
    const std::int64_t middle = low + (high - low) / 2;
    (carries(middle) ? low : high) = middle;
  }
  return Length::mm(low);
}

}  // namespace railwright::strength
