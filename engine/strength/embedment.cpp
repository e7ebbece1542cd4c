// SPDX-License-Identifier: MIT
#include "engine/strength/embedment.h"

#include <cmath>
#include <limits>

namespace railwright::strength {

namespace {

constexpr double kDeepestForPressure = 12 * measure::kMetrePerFoot;
constexpr double kInfinite = std::numeric_limits<double>::infinity();

bool cannot_stand(Length width, double soil) { return width.nm() <= 0 || !(soil > 0); }

double pressure_depth(double depth) { return depth < kDeepestForPressure ? depth : kDeepestForPressure; }

}  // namespace

Embedment nonconstrained_at(const LateralLoad& load, double soil, double assumed) {
  if (load.push.si() <= 0) return {};
  if (cannot_stand(load.width, soil)) return {kInfinite, 0, {}};
  Embedment e;
  e.bearing = Pressure::si(soil * pressure_depth(assumed) / 3);
  e.a_m = 2.34 * load.push.si() / (e.bearing.si() * load.width.metres());
  e.depth_m = 0.5 * e.a_m * (1 + std::sqrt(1 + 4.36 * load.height.metres() / e.a_m));
  return e;
}

// The answer falls as the assumed depth grows, so plain repetition swings about it and settles slowly; the geometric mean of the two damps that.
Embedment nonconstrained(const LateralLoad& load, double soil) {
  if (load.push.si() <= 0) return {};
  if (cannot_stand(load.width, soil)) return {kInfinite, 0, {}};
  double depth = 1.0;
  for (int i = 0; i < 200; ++i) {
    const double answer = nonconstrained_at(load, soil, depth).depth_m;
    const bool settled = std::abs(answer - depth) <= 1e-13 * depth;
    depth = std::sqrt(depth * answer);
    if (settled) break;
  }
  return nonconstrained_at(load, soil, depth);
}

Embedment constrained(const LateralLoad& load, double soil) {
  if (load.push.si() <= 0) return {};
  if (cannot_stand(load.width, soil)) return {kInfinite, 0, {}};
  const double k = 4.25 * load.push.si() * load.height.metres() / (soil * load.width.metres());
  // Above the cap d^2 = k / cap; below it d^3 = k.
  double depth = std::sqrt(k / kDeepestForPressure);
  if (depth < kDeepestForPressure) {
    for (int i = 0; i < 100; ++i) depth = std::sqrt(depth * std::sqrt(k / depth));
  }
  return {depth, 0, Pressure::si(soil * pressure_depth(depth))};
}

double depth_for_moment_m(Moment moment, Length width, double soil) {
  if (moment.si() <= 0) return 0;
  if (cannot_stand(width, soil)) return kInfinite;
  const double k = 3 * 1.09 * 2.34 * moment.si() / (soil * width.metres());
  double depth = std::sqrt(k / kDeepestForPressure);
  if (depth < kDeepestForPressure) {
    for (int i = 0; i < 100; ++i) depth = std::sqrt(depth * std::sqrt(k / depth));
  }
  return depth;
}

// d = A/2 (1 + sqrt(1 + 4.36 h/A)) gives A = d^2 / (d + 1.09 h), and A = 2.34 P / (S1 b).
Force resisted_push(Length depth, Length height, Length width, double soil) {
  const double d = depth.metres();
  if (d <= 0 || cannot_stand(width, soil)) return Force();
  const double a = d * d / (d + 1.09 * height.metres());
  return Force::si(a * soil * pressure_depth(d) / 3 * width.metres() / 2.34);
}

Length prescriptive_depth(Length fence_height) {
  const Length above = measure::max(fence_height - Length::feet(4), Length());
  return Length::inches(24) + Length::from_metres(above.metres() / 4);
}

Length prescriptive_hole(Length post_diameter) { return post_diameter * (post_diameter <= Length::inches(4) ? 4 : 3); }

}  // namespace railwright::strength
