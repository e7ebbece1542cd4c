// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Moments and deflections of straight members of one section.
namespace railwright::strength {

using measure::Force;
using measure::Length;
using measure::LineLoad;
using measure::Moment;

// simple: a rail between two sleeves. fixed: both ends held. cantilever: a post from the ground; loads at the free end, or uniform.
enum class Support { simple, fixed, cantilever };

struct Bent {
  Moment moment;     // largest, without sign
  double sag_m = 0;  // largest deflection
};

// A point load at mid-span (cantilever: at the free end). `stiffness_n_m2` is E I.
//  simple Pl/4, Pl^3/48EI; fixed Pl/8, Pl^3/192EI; cantilever Pl, Pl^3/3EI.
// A uniform load: simple wl^2/8, 5wl^4/384EI; fixed wl^2/12, wl^4/384EI; cantilever wl^2/2, wl^4/8EI.
// Source: AISC Steel Construction Manual, Table 3-23.
Bent point_load(Support support, Force load, Length span, double stiffness_n_m2);
Bent uniform_load(Support support, LineLoad load, Length span, double stiffness_n_m2);

// A beam over equal spans on simple supports, some of them under a uniform load, by the three-moment equation.
// All figures are coefficients: reactions of w L, moments of w L^2, sag of w L^4 / E I, places of L from the span's left support.
struct SpanBent {
  double largest_moment = 0;  // within the span, sagging positive; 0 where the span only hogs
  double sag = 0;             // largest deflection, down positive (an upward one is not counted)
  double sag_at = 0;
};
struct ContinuousBeam {
  std::vector<double> support_moments;  // hogging negative; zero at the ends
  std::vector<double> reactions;
  std::vector<SpanBent> spans;
};
// Property: the reactions add up to the number of loaded spans. Source: three-moment equation (Clapeyron); checked against AISC Table 3-22c.
ContinuousBeam continuous_beam(const std::vector<bool>& loaded);

}  // namespace railwright::strength
