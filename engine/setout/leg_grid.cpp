// SPDX-License-Identifier: MIT
#include "engine/setout/leg_grid.h"

#include <algorithm>
#include <cmath>

namespace railwright::setout {
namespace {

// Rounding may put a point of a segment just outside the cells computed for it; this much more is marked on every side.
constexpr double kMargin = 1e-6;

double margin_at(double metres) { return kMargin + 1e-12 * std::fabs(metres); }

}  // namespace

LegGrid::LegGrid(const std::vector<Segment>& segments) {
  double total = 0;
  for (const Segment& s : segments) total += measure::distance(s.from, s.to);
  const double mean = segments.empty() ? 1 : total / static_cast<double>(segments.size());
  cell_ = std::max(1.0, mean);
  for (const Segment& s : segments) add(s.leg, s.from, s.to);
  std::sort(entries_.begin(), entries_.end());
  entries_.erase(std::unique(entries_.begin(), entries_.end()), entries_.end());
}

std::int64_t LegGrid::cell_of(double metres) const { return static_cast<std::int64_t>(std::floor(metres / cell_)); }

void LegGrid::add_column(int segment, std::int64_t column, double low, double high) {
  const std::int64_t last = cell_of(high + margin_at(high));
  for (std::int64_t row = cell_of(low - margin_at(low)); row <= last; ++row) {
    entries_.emplace_back(column, row, segment);
  }
}

void LegGrid::add(int segment, Vec2 from, Vec2 to) {
  if (to.x < from.x) std::swap(from, to);
  const std::int64_t first = cell_of(from.x - margin_at(from.x));
  const std::int64_t last = cell_of(to.x + margin_at(to.x));
  const double slope = to.x > from.x ? (to.y - from.y) / (to.x - from.x) : 0;
  for (std::int64_t column = first; column <= last; ++column) {
    const double west = static_cast<double>(column) * cell_;
    double y1 = column == first ? from.y : from.y + (west - from.x) * slope;
    double y2 = column == last ? to.y : from.y + (west + cell_ - from.x) * slope;
    // An upright segment has no slope to speak of: all its rows, in every column that it may touch.
    if (first == last || to.x - from.x < 1e-3) {
      y1 = from.y;
      y2 = to.y;
    }
    // A steep segment leaves the column early: its own ends bound it.
    const double low = std::min(from.y, to.y), high = std::max(from.y, to.y);
    y1 = std::clamp(y1, low, high);
    y2 = std::clamp(y2, low, high);
    add_column(segment, column, std::min(y1, y2), std::max(y1, y2));
  }
}

std::vector<int> LegGrid::near(Vec2 low, Vec2 high) const {
  std::vector<int> found;
  const std::int64_t last_column = cell_of(high.x), first_row = cell_of(low.y), last_row = cell_of(high.y);
  for (std::int64_t column = cell_of(low.x); column <= last_column; ++column) {
    const Entry start(column, first_row, -1);
    for (auto it = std::lower_bound(entries_.begin(), entries_.end(), start); it != entries_.end(); ++it) {
      if (std::get<0>(*it) != column || std::get<1>(*it) > last_row) break;
      found.push_back(std::get<2>(*it));
    }
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

std::vector<std::pair<int, int>> LegGrid::pairs() const {
  std::vector<std::pair<int, int>> found;
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    for (std::size_t j = i + 1; j < entries_.size(); ++j) {
      if (std::get<0>(entries_[j]) != std::get<0>(entries_[i])) break;
      if (std::get<1>(entries_[j]) != std::get<1>(entries_[i])) break;
      found.emplace_back(std::get<2>(entries_[i]), std::get<2>(entries_[j]));
    }
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

}  // namespace railwright::setout
