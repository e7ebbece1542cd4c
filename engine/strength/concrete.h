// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Holes and what fills them.
namespace railwright::strength {

using measure::Length;
using measure::Volume;

// pi/4 D^2 L
Volume cylinder(Length diameter, Length depth);
// Concrete round a post of `post` diameter that stands `in_hole` of the hole's `depth`: hole less post. The post's bore counts as closed.
Volume concrete_round_post(Length hole, Length depth, Length post, Length in_hole);
// Bags for a volume, unrounded: volume / yield. The yield is the bag's own figure, as no standard fixes one. Zero yield: 0.
double bags(Volume volume, Volume yield);
double in_cubic_yards(Volume volume);
// Mass of concrete, 150 lb/ft3 unless given.
measure::Mass concrete_mass(Volume volume, double pounds_per_cubic_foot = 150);

}  // namespace railwright::strength
