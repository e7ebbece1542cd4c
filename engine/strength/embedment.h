// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// How deep a post must stand in the ground.
namespace railwright::strength {

using measure::Force;
using measure::Length;
using measure::Moment;
using measure::Pressure;

// A load P across a post at `height` above the ground, on a round post or footing of `width` (of a square one: its diagonal).
struct LateralLoad {
  Force push;
  Length height;
  Length width;
};

struct Embedment {
  double depth_m = 0;  // d
  double a_m = 0;      // A = 2.34 P / (S1 b); 0 where constrained
  Pressure bearing;    // S1 at d/3 (nonconstrained) or S3 at d
};

// IBC 1807.3.2, sections 1 and 2. `soil_pa_per_m` is the allowable lateral bearing per metre of depth (IBC Table 1806.2), with every increase that the caller
// is entitled to already in it. Depth used for the pressure is not over 12 ft.
// Nonconstrained (nothing holds the post at grade): d = A/2 (1 + sqrt(1 + 4.36 h/A)), S1 at d/3, solved for the d that is its own answer.
// Constrained at grade by a rigid floor or pavement: d^2 = 4.25 P h / (S3 b), S3 at d.
// Accuracy: d repeats to 1e-12 of itself. Zero load: depth 0. Zero soil or width: depth is infinite and so reported.
Embedment nonconstrained(const LateralLoad& load, double soil_pa_per_m);
Embedment constrained(const LateralLoad& load, double soil_pa_per_m);
// One evaluation at a depth assumed beforehand, without repeating: to see how far off a guess is.
Embedment nonconstrained_at(const LateralLoad& load, double soil_pa_per_m, double assumed_depth_m);

// A moment at the ground without a net push (a gate's weight): the limit of the nonconstrained formula for P -> 0 with P h = M, that is
// d^3 = 3 x 1.09 x 2.34 M / (soil b), or with the pressure capped at 12 ft, d^2 = the same over 12 ft. Derived here from IBC 1807.3.2.1; no published example.
double depth_for_moment_m(Moment moment, Length width, double soil_pa_per_m);

// The push at `height` that a post set `depth` deep resists: the nonconstrained formula solved for P. A = d^2 / (d + 1.09 h),
// P = A S1 b / 2.34. Property: nonconstrained(resisted_push(d)) gives d back.
Force resisted_push(Length depth, Length height, Length width, double soil_pa_per_m);

// Prescriptive: 24 in + 3 in per foot of height above 4 ft. ASTM F567-07 section 5.
Length prescriptive_depth(Length fence_height);
// Hole diameter: 4 times the post up to 4 in outside diameter, 3 times above that. ASTM F567-07 section 5.
Length prescriptive_hole(Length post_diameter);

// One psf of lateral bearing per foot of depth, in pascal per metre.
inline constexpr double kPascalPerMetreOfPsfPerFoot = measure::psf(1).si() / measure::kMetrePerFoot;

}  // namespace railwright::strength
