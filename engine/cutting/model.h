// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/cutting/cutting.h"

namespace railwright::cutting {

// The problem on its own whole-number grid. Every piece is lengthened by one kerf and every stick's usable length too, so that
// pieces fit exactly when their sizes add up to at most the capacity; sizes are divided by their greatest common divisor.
struct Sort {  // all pieces of one length
  std::int64_t size = 0;
  std::int64_t demand = 0;
};

struct Type {  // a stock, cut to the grid
  std::int64_t capacity = 0;
  std::int64_t price = 0;
  std::int64_t limit = 0;  // most sticks a sensible plan can use; the stock's count where it has one
  bool counted = false;
  int stock = 0;
};

struct Take {
  int sort = 0;
  std::int64_t count = 0;
  friend bool operator==(const Take&, const Take&) = default;
};

// How one stick is cut; `takes` by ascending sort, that is by descending length.
struct Pattern {
  int type = 0;
  std::vector<Take> takes;
  friend bool operator==(const Pattern&, const Pattern&) = default;
};

struct Use {
  Pattern pattern;
  std::int64_t count = 0;
};

struct Solution {
  bool found = false;
  std::int64_t cost = 0;
  std::vector<Use> uses;
};

class Model {
 public:
  explicit Model(const Instance& instance);

  std::vector<Sort> sorts;     // by descending size
  std::vector<Type> types;     // stocks worth using, in the order given; dominated ones left out
  std::int64_t cost_grid = 1;  // every plan's cost is a multiple
  bool values_drops = false;
  std::vector<int> sort_of_piece;  // -1 for pieces of count zero

  // Cost of a stick of this type with `used` of its capacity filled. Never grows when `used` shrinks.
  std::int64_t cost(int type, std::int64_t used) const;
  std::int64_t used(const Pattern& pattern) const;
  std::int64_t cost(const Pattern& pattern) const { return cost(pattern.type, used(pattern)); }
  std::int64_t pieces() const;
  // Smallest multiple of the cost grid at or above.
  std::int64_t round_up(std::int64_t bound) const;
  const Instance& instance() const { return *instance_; }
  std::int64_t grid_nm() const { return grid_nm_; }

 private:
  void collect_sorts();
  void collect_types();
  bool dominated(std::size_t k) const;

  const Instance* instance_;
  std::int64_t grid_nm_ = 1;
};

std::int64_t total_cost(const Model& model, const std::vector<Use>& uses);

}  // namespace railwright::cutting
