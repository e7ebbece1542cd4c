// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/ground/geodesy.h"
#include "engine/ground/grid.h"
#include "formats/start_job.h"

namespace railwright::formats {
namespace {

using measure::Length;
using measure::Vec2;

constexpr int kMargin = 3;  // cells kept around the walk
constexpr double kMostCells = 4e6;

struct Box {
  Vec2 low, high;
  bool meets(const Box& b) const { return low.x <= b.high.x && b.low.x <= high.x && low.y <= b.high.y && b.low.y <= high.y; }
};

Box box_of(const job::Site& site) {
  Box box{{1e300, 1e300}, {-1e300, -1e300}};
  for (const job::Point& point : site.points) {
    const Vec2 at = measure::in_metres(point.east, point.north);
    box.low = {std::min(box.low.x, at.x), std::min(box.low.y, at.y)};
    box.high = {std::max(box.high.x, at.x), std::max(box.high.y, at.y)};
  }
  return box;
}

Box box_of(const job::GroundGrid& grid) {
  const Vec2 low = measure::in_metres(grid.west, grid.south);
  return {low, low + Vec2{grid.cell.metres() * (grid.columns - 1), grid.cell.metres() * (grid.rows - 1)}};
}

// The part of the grid around the box.
job::GroundGrid cut(const job::GroundGrid& grid, const Box& box) {
  const double cell = grid.cell.metres();
  const auto index = [&](double metres, Length origin, int margin, int count) {
    const double at = std::floor((metres - origin.metres()) / cell) + margin;
    return static_cast<int>(std::clamp(at, 0.0, count - 1.0));
  };
  const int west = index(box.low.x, grid.west, -kMargin, grid.columns), east = index(box.high.x, grid.west, kMargin + 1, grid.columns);
  const int south = index(box.low.y, grid.south, -kMargin, grid.rows), north = index(box.high.y, grid.south, kMargin + 1, grid.rows);
  job::GroundGrid part;
  part.columns = east - west + 1;
  part.rows = north - south + 1;
  part.cell = grid.cell;
  part.west = grid.west + grid.cell * west;
  part.south = grid.south + grid.cell * south;
  for (int row = south; row <= north; ++row) {
    const auto at = grid.heights_m.begin() + static_cast<std::ptrdiff_t>(row) * grid.columns;
    part.heights_m.insert(part.heights_m.end(), at + west, at + east + 1);
  }
  return part;
}

// A new grid on the job's plane, each cell's height taken from the map grid under it.
Result<job::GroundGrid> from_map(const WalkedSite& walk, const job::GroundGrid& map, const Box& box) {
  const auto plane = ground::LevelPlane::about(*walk.site.origin);
  if (!plane) return tl::unexpected(plane.error());
  const auto centre = ground::utm(plane->to_earth({}));
  if (!centre) return fail("grid.elsewhere");
  const double cell = map.cell.metres();
  const Vec2 low = box.low - Vec2{kMargin * cell, kMargin * cell};
  const Vec2 size = box.high + Vec2{kMargin * cell, kMargin * cell} - low;
  if (size.x / cell * (size.y / cell) > kMostCells) return fail("grid.size", {}, {{"most", static_cast<std::int64_t>(kMostCells)}});
  job::GroundGrid grid;
  grid.cell = map.cell;
  grid.west = Length::from_metres(low.x).round_to(Length::mm(1));
  grid.south = Length::from_metres(low.y).round_to(Length::mm(1));
  grid.columns = static_cast<int>(size.x / cell) + 2;
  grid.rows = static_cast<int>(size.y / cell) + 2;
  bool any = false;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Vec2 at = measure::in_metres(grid.west + grid.cell * column, grid.south + grid.cell * row);
      const auto place = ground::utm(plane->to_earth(at), centre->zone);
      const auto height = place ? ground::height_at(map, {place->easting, place->northing}) : std::nullopt;
      any = any || height.has_value();
      // To the millimetre, so that both builds agree.
      grid.heights_m.push_back(height ? static_cast<float>(std::round(*height * 1000) / 1000) : std::numeric_limits<float>::quiet_NaN());
    }
  }
  if (!any) return fail("grid.elsewhere");
  return grid;
}

}  // namespace

Result<job::GroundGrid> grid_for(const WalkedSite& walk, const job::GroundGrid& grid) {
  if (walk.site.points.empty() || !ground::usable(grid)) return fail("grid.elsewhere");
  job::GroundGrid moved = grid;
  moved.west -= walk.false_east;
  moved.south -= walk.false_north;
  const Box box = box_of(walk.site);
  if (box_of(moved).meets(box)) return cut(moved, box);
  if (walk.site.origin) return from_map(walk, grid, box);
  return fail("grid.elsewhere");
}

}  // namespace railwright::formats
