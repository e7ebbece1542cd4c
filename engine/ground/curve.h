// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "engine/job/job.h"
#include "engine/measure/arc.h"

namespace railwright::ground {

// What is wrong with the arc of a leg.
enum class CurveFault {
  none,
  too_tight,   // the radius is less than half the distance between the ends: no arc
  no_size,     // nothing says how large it is
  ends_apart,  // radius and turn do not fit the distance between the ends; the radius is kept
  centre_off,  // the circle's first point does not lie a radius from its centre; the point is kept
};

// The curve of a leg and how far its description misses its points (metres; `wanted` where 0.. the given figure, `found` what the points have).
struct Curve {
  std::optional<measure::Arc> arc;  // none: straight, or no arc is possible
  CurveFault fault = CurveFault::none;
  double wanted = 0, found = 0;
};

// The arc of a leg between two places; both ends at one point: a full circle.
//   bend:   R as given; or R = c / (2 sin(turn / 2)); or R = (c^2 / 4 + m^2) / (2 m) with chord c and middle ordinate m
//   circle: centre as given; or the centre lies R from the first point in the direction `bearing_deg`
// Differences up to `snap` pass without a fault.
// Source: US Army FM 5-233 "Construction Surveying" (1985), chapter 3 (LC = 2 R sin(I/2), M = R (1 - cos(I/2))), solved for R.
Curve curve_of(const job::Arc& arc, measure::Vec2 from, measure::Vec2 to, bool circle, double snap);

}  // namespace railwright::ground
