// SPDX-License-Identifier: MIT
#include "engine/ground/grid.h"

#include <algorithm>
#include <cmath>

namespace railwright::ground {
namespace {

using measure::Vec2;

constexpr double kSameStation = 1e-3;  // samples nearer than a millimetre are one

// Place in cells, 0,0 at the centre of the south-west cell.
Vec2 in_cells(const job::GroundGrid& grid, Vec2 place) {
  const double cell = grid.cell.metres();
  return {(place.x - grid.west.metres()) / cell, (place.y - grid.south.metres()) / cell};
}

// Shares of a-b at which the coordinate passes a whole number between 0 and count - 1.
void add_crossings(double a, double b, int count, std::vector<double>& shares) {
  if (a == b) return;
  const double low = std::max(std::min(a, b), 0.0), high = std::min(std::max(a, b), count - 1.0);
  for (double line = std::ceil(low); line <= high; line += 1) shares.push_back((line - a) / (b - a));
}

struct Corner {
  double height = 0, weight = 0;
};

Corner corner(const job::GroundGrid& grid, int column, int row, double weight) {
  const auto at = static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns) + static_cast<std::size_t>(column);
  const double height = static_cast<double>(grid.heights_m[at]);
  return std::isfinite(height) ? Corner{height, weight} : Corner{};
}

}  // namespace

bool usable(const job::GroundGrid& grid) {
  return grid.columns > 0 && grid.rows > 0 && grid.cell > measure::Length() &&
         grid.heights_m.size() == static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
}

std::optional<double> height_at(const job::GroundGrid& grid, Vec2 place) {
  const Vec2 at = in_cells(grid, place);
  if (!(at.x >= -0.5 && at.y >= -0.5 && at.x <= grid.columns - 0.5 && at.y <= grid.rows - 0.5)) {
    return std::nullopt;
  }
  const double x = std::clamp(at.x, 0.0, grid.columns - 1.0);
  const double y = std::clamp(at.y, 0.0, grid.rows - 1.0);
  const int column = std::min(static_cast<int>(x), std::max(grid.columns - 2, 0));
  const int row = std::min(static_cast<int>(y), std::max(grid.rows - 2, 0));
  const int next_column = std::min(column + 1, grid.columns - 1);
  const int next_row = std::min(row + 1, grid.rows - 1);
  const double u = x - column, v = y - row;
  double height = 0, weight = 0;
  for (const Corner& c : {corner(grid, column, row, (1 - u) * (1 - v)), corner(grid, next_column, row, u * (1 - v)),
                          corner(grid, column, next_row, (1 - u) * v), corner(grid, next_column, next_row, u * v)}) {
    height += c.height * c.weight;
    weight += c.weight;
  }
  if (!(weight > 1e-9)) return std::nullopt;
  return height / weight;
}

std::optional<double> height_near(const job::GroundGrid& grid, Vec2 place) {
  const double west = grid.west.metres(), south = grid.south.metres(), cell = grid.cell.metres();
  return height_at(grid, {std::clamp(place.x, west, west + (grid.columns - 1) * cell), std::clamp(place.y, south, south + (grid.rows - 1) * cell)});
}

std::vector<ProfilePoint> sample(const job::GroundGrid& grid, Vec2 a, Vec2 b) {
  const Vec2 from = in_cells(grid, a), to = in_cells(grid, b);
  std::vector<double> shares{0.0, 1.0};
  add_crossings(from.x, to.x, grid.columns, shares);
  add_crossings(from.y, to.y, grid.rows, shares);
  std::sort(shares.begin(), shares.end());
  const double length = measure::distance(a, b);
  std::vector<ProfilePoint> samples;
  double last = -1;
  for (const double share : shares) {
    const double station = share * length;
    const bool end = share == 1.0;
    if (station - last < kSameStation && !end) continue;
    const auto height = height_at(grid, a + (b - a) * share);
    if (!height) continue;
    if (end && !samples.empty() && station - samples.back().station < kSameStation) samples.pop_back();
    samples.push_back({station, *height});
    last = station;
  }
  return samples;
}

}  // namespace railwright::ground
