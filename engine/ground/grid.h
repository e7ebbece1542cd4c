// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/ground/profile.h"
#include "engine/job/job.h"
#include "engine/measure/geometry.h"

namespace railwright::ground {

// A grid is usable when its size fits its heights and its cell is not zero.
bool usable(const job::GroundGrid& grid);

// Height between the cell centres, bilinear; cells without a height are left out and the others weighted up. The outer half cell
// takes the height of the nearest centres. Nothing outside the cells, or where no neighbour is known.
std::optional<double> height_at(const job::GroundGrid& grid, measure::Vec2 place);

// As `height_at`; a place outside the grid takes the height of the nearest place on its edge.
std::optional<double> height_near(const job::GroundGrid& grid, measure::Vec2 place);

// Heights along a-b: at both ends and wherever the line crosses a line between cell centres, so that a straight line between
// neighbouring samples strays from the bilinear surface only by the twist inside one cell. Stations from `a`, strictly increasing;
// places without a height are missing.
std::vector<ProfilePoint> sample(const job::GroundGrid& grid, measure::Vec2 a, measure::Vec2 b);

}  // namespace railwright::ground
