// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

#include "engine/measure/geometry.h"

namespace railwright::setout {

using measure::Vec2;

struct Segment {
  Vec2 from, to;
  int leg = 0;  // a curved leg has several segments
};

// A square grid laid over straight segments, its cell the mean length of a segment, so that segments and cells stay in
// proportion: building takes O(n log n), and a question costs about as much as the answer is long.
// Properties: (1) every leg with a segment that comes within the box is in `near(box)`; (2) every pair of legs whose segments touch is in `pairs()`.
class LegGrid {
 public:
  explicit LegGrid(const std::vector<Segment>& segments);

  // Legs that may come within the box, ascending, each once.
  std::vector<int> near(Vec2 low, Vec2 high) const;
  // Pairs of legs (a < b) that share a cell, ascending, each once.
  std::vector<std::pair<int, int>> pairs() const;

 private:
  using Entry = std::tuple<std::int64_t, std::int64_t, int>;  // column, row, leg
  std::int64_t cell_of(double metres) const;
  void add(int segment, Vec2 from, Vec2 to);
  void add_column(int segment, std::int64_t column, double low, double high);

  double cell_ = 1;
  std::vector<Entry> entries_;  // sorted
};

}  // namespace railwright::setout
