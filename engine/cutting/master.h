// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <set>
#include <vector>

#include "engine/cutting/knapsack.h"
#include "engine/cutting/simplex.h"
#include "engine/cutting/task.h"

namespace railwright::cutting {

struct Share {
  Pattern pattern;
  double x = 0;
};

// The linear program over all patterns, solved by column generation (Gilmore and Gomory 1961), and a lower bound from it that is
// exact whatever the simplex method's rounding: its prices are rounded to whole numbers, the knapsack answers exactly, and what a
// stick could still gain is charged to the bound (Lagrange), or the prices are shrunk until none gains (Farley 1990).
class Master {
 public:
  Master(const Model& model, Task task);
  void seed(const Pattern& pattern);
  // Prices of pieces from a like problem, to start from.
  void start_from(const std::vector<double>& prices) { center_ = prices; }

  struct Limits {
    std::int64_t cutoff = INT64_MAX;  // plans of this cost or more are of no interest
    double gap = 0;                   // stop when value and bound are relatively this close
    int rounds = 1'000'000;
  };
  // False when the budget ended or the numbers failed; bound and shares are then still valid and may be weak.
  bool solve(const Limits& limits, Budget& budget);

  bool can_branch_on_arcs() const { return knapsack_.dynamic(); }
  std::int64_t bound() const { return bound_; }  // safe lower bound on the task's cost
  double value() const { return simplex_->objective() * unit_; }
  bool short_of_sticks() const { return simplex_->shortfall() > 1e-4; }
  std::vector<Share> shares() const;  // patterns in use, x > 0
  const std::vector<Pattern>& pool() const { return pool_; }
  const std::vector<double>& prices() const { return center_; }  // of one piece, by sort, with which the bound was reached
  std::vector<double> last_prices() const;                       // with which the program ended
  // Pool members whose reduced cost is below `most` (in cost units).
  std::vector<Pattern> cheap_patterns(double most) const;

 private:
  void build_rows();
  bool add(const Pattern& pattern);
  double reduced_cost(const Pattern& pattern) const;
  double condition_price(std::size_t c) const;
  Quote quote(double hold) const;
  int ask(double hold, const Limits& limits, bool& exact, Budget& budget);
  double weight(const Condition& condition, const Pattern& pattern) const;
  void raise_bound(const Quote& quote, const Offers& offers, std::int64_t cutoff);
  bool settled(const Limits& limits) const;
  bool raise_penalty();

  const Model& model_;
  Task task_;
  Knapsack knapsack_;
  std::vector<int> sort_row_, type_row_;  // -1: none
  std::vector<int> condition_row_;
  std::vector<Simplex::Row> rows_;
  std::unique_ptr<Simplex> simplex_;
  double unit_ = 1;   // cost of one unit of the simplex objective
  double scale_ = 1;  // quote units per cost unit
  std::vector<Pattern> pool_;
  std::vector<int> column_;
  std::set<std::vector<std::int64_t>> seen_;
  std::vector<double> prices_;
  std::vector<double> center_;  // prices with the best bound so far
  std::int64_t bound_ = 0;
  int penalty_raises_ = 0;
};

}  // namespace railwright::cutting
