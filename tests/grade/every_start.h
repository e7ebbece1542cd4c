// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <vector>

#include "engine/grade/smooth_line.h"

// The smooth line's fewest pieces without any of its savings, for its test and its bench.
namespace railwright::testing_line {

using grade::Gate;
using grade::Interval;

inline Interval window_of(const Gate& gate, double tolerance) {
  if (!gate.post || gate.pinned) return gate.window;
  return {std::max(gate.window.low, gate.wish - tolerance), std::min(gate.window.high, gate.wish + tolerance)};
}

// The fewest pieces by following every start of every level, leaving nothing out. With `Stabber`, which the exhaustive test covers.
class EveryStart {
 public:
  EveryStart(const std::vector<Gate>& gates, double tolerance) : gates_(gates), tolerance_(tolerance), level_(gates.size()) {}
  int fewest() {
    level_[0] = {window_of(gates_[0], tolerance_)};
    for (int pieces = 1; pieces <= static_cast<int>(gates_.size()); ++pieces) {
      std::vector<std::vector<Interval>> next(gates_.size());
      for (std::size_t from = 0; from < gates_.size(); ++from)
        for (const Interval& start : level_[from]) follow(from, start, next);
      level_ = next;
      if (!level_.back().empty()) return pieces;
    }
    return 0;
  }

 private:
  static void add(std::vector<Interval>& all, Interval more) {
    std::vector<Interval> kept;
    for (const Interval& one : all) {
      if (one.high < more.low - 1e-9 || one.low > more.high + 1e-9)
        kept.push_back(one);
      else
        more = {std::min(one.low, more.low), std::max(one.high, more.high)};
    }
    kept.push_back(more);
    all = kept;
  }
  void follow(std::size_t from, Interval start, std::vector<std::vector<Interval>>& next) const {
    grade::Stabber lines;
    lines.start(gates_[from].x, start);
    for (std::size_t g = from + 1; g < gates_.size(); ++g) {
      const Interval window = window_of(gates_[g], tolerance_);
      const Interval all = lines.range(gates_[g].x, gates_[g].cap);
      const Interval reach{std::max(all.low, window.low), std::min(all.high, window.high)};
      if (reach.empty()) return;
      if (gates_[g].post) add(next[g], reach);
      if (!lines.add(gates_[g].x, window, gates_[g].cap)) return;
    }
  }
  const std::vector<Gate>& gates_;
  double tolerance_;
  std::vector<std::vector<Interval>> level_;
};

}  // namespace railwright::testing_line
