// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/setout/layout.h"
#include "engine/takeoff/remaining.h"

// What mesh, panels and wire are pulled or laid along.
namespace railwright::takeoff {

using measure::Length;

// Consecutive bays of one leg and one fence between gates, corners and bays already done.
struct Stretch {
  int leg = 0, fence = 0;
  int first_bay = 0, bays = 0;
  double level_m = 0;  // centre to centre of the two outer posts
  double slope_m = 0;  // along the ground, post to post: the length that is paid for (California DOT Standard Specifications 80-1.04)
};
std::vector<Stretch> stretches(const setout::Layout& layout, const Remaining& remaining);

// Ground length of one bay.
double slope_length_m(const setout::Layout& layout, const setout::Bay& bay);

// Whole pieces of one length that cover a length; a hair over does not count as another.
std::int64_t whole_pieces(double length, double piece);

// Whole rolls for pieces of the given lengths, in their order, each piece made up from what is left of the last roll and new ones. Where a roll ends within a
// piece the next one overlaps it by `splice`; a rest shorter than `least` is thrown away. Every length in metres.
struct Rolls {
  std::int64_t count = 0;
  std::int64_t splices = 0;
  double used_m = 0;
};
Rolls rolls_needed(const std::vector<double>& pieces, double roll, double splice, double least);

}  // namespace railwright::takeoff
