// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/job/catalogue.h"
#include "engine/measure/geometry.h"

// The choice of parts for the rails that meet a post at one level.
namespace railwright::fittings {

using measure::Length;
using measure::Money;
using measure::Vec2;

// A rail as seen from the post: level unit vector away from it.
struct Direction {
  Vec2 away;
  Length rail_diameter;
  double tilt_deg = 0;  // out of level, without sign, rounded to 0.01
};

// A fitting (index into the catalogue) and the directions at its ports; the second is clockwise from the first. -1: none.
struct Part {
  int fitting = 0, first = 0, second = -1;
};

struct Cover {
  bool possible = false;
  Money cost;
  Length stack;             // from the bottom band's middle to the top band's
  std::vector<Part> parts;  // bottom up
};

// Every direction served once, at least cost (prices, and `stacking` for each part above the first), then least stack, then fewest parts, then the
// first in order of directions and catalogue rows.
// Properties: (1) cost and stack equal those of trying every way and every order, up to six directions; beyond six parts their order is that of
// the directions; (2) turning all directions by one angle changes nothing but rounding; (3) `possible` is false only where some direction fits no part.
Cover cheapest_cover(const job::Catalogue& catalogue, Length post_diameter, const std::vector<Direction>& directions, Money stacking = {});

// Angle between two directions, degrees 0..180, rounded to 0.01.
double angle_between_deg(Vec2 a, Vec2 b);

// Ports of one part for the step: where its sleeves and rails are.
struct Ports {
  const job::Fitting* fitting = nullptr;
  std::vector<Direction> directions;
};

// Least distance between the middles of two bands one above the other: half of each band's height, or more where sleeves or rails would
// touch. Two level cylinders of radius r whose square ends stand R from the post's axis and whose directions part by angle a overlap in plan while
// R tan(a/2) < r; they clear each other at a step of 2 sqrt(r^2 - (R tan(a/2))^2). Geometry; larger r and smaller R of the two are taken.
Length least_step(Length post_diameter, const Ports& lower, const Ports& upper);

}  // namespace railwright::fittings
