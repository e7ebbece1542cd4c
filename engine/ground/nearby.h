// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "engine/measure/geometry.h"

namespace railwright::ground {

using measure::Vec2;

// Answers "which places are near here?" without looking at all of them: a balanced k-d tree laid out in one array.
// Building takes O(n log n); a question takes O(log n) plus the size of its answer. Ties are broken by index, so the same places
// give the same answers in any build. `looked`, where given, grows by the places that were looked at.
class Nearby {
 public:
  explicit Nearby(std::vector<Vec2> places);

  struct Neighbour {
    std::size_t index = 0;
    double squared = 0;  // squared distance, m2
  };
  // The `count` nearest places, nearest first (fewer if there are fewer).
  std::vector<Neighbour> nearest(Vec2 from, std::size_t count, std::size_t* looked = nullptr) const;

  // Indices of the places within `reach` of the segment a-b, ascending.
  std::vector<std::size_t> along(Vec2 a, Vec2 b, double reach, std::size_t* looked = nullptr) const;

  bool empty() const { return places_.empty(); }

 private:
  struct Segment {
    Vec2 a, step;
    double reach = 0;
    std::size_t* looked = nullptr;
  };
  void arrange(std::size_t first, std::size_t last);
  void search(std::size_t first, std::size_t last, Vec2 from, std::size_t count, std::vector<Neighbour>& best, std::size_t* looked) const;
  void sweep(std::size_t first, std::size_t last, const Segment& segment, double t0, double t1, std::vector<std::size_t>& found) const;

  std::vector<Vec2> places_;
  std::vector<std::size_t> order_;  // places in tree order: the median of a range is its root
  std::vector<char> by_east_;       // how the range with this root is split: across its longer side, as fences are long and thin
};

// Where the foot of the perpendicular from `place` falls on a-b, as a share of its length clamped to 0..1.
double share_along(Vec2 a, Vec2 b, Vec2 place);

}  // namespace railwright::ground
