// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/spacing/joint.h"
#include "engine/spacing/pipe_cost.h"

// Looks for the cheapest choice of one count per run.
namespace railwright::spacing {

// Outline
//  1. the plain rule and the 8 ft rule are the first choices to beat;
//  2. the joint program gives a bound for every count of every run: a count that cannot beat the best choice is left out for good, and the
//     program is solved again with finer classes of lengths;
//  3. the program's answer is rounded, then one run after the other tries its other counts, the most promising first;
//  4. choices are cut in ascending order of their bounds; when the next bound is no better than the best choice, that is proved best.
class Search {
 public:
  Search(const Table& table, Length scatter, std::int64_t work_limit);
  void run();

  const std::vector<int>& best() const { return best_; }     // element by run
  Money cost() const { return cost_; }
  Money bound() const { return measure_min(cost_, bound_); }
  Money cost_of(const std::vector<int>& choice);

 private:
  static Money measure_min(Money a, Money b) { return b < a ? b : a; }
  void freeze();
  bool relax(int most_classes, int rounds);
  void leave_out();
  void round_shares();
  void improve();
  void enumerate();
  bool offer(const std::vector<int>& choice);
  bool spent() const { return pricer_.work() + joint_work_ >= limit_; }
  Priced price(const std::vector<int>& choice);
  Money as_money(Wide scaled) const;                         // rounded up: costs are whole
  Wide as_scaled(Money money) const { return static_cast<Wide>(money.units()) * relaxed_.scale; }
  std::vector<Wide> smallest() const;                        // by run, over what is still allowed

  const Table& table_;
  std::int64_t limit_, joint_work_ = 0;
  PipeCost pricer_;
  std::vector<std::vector<char>> allowed_;
  std::vector<char> frozen_;
  Money frozen_bound_;
  Relaxed relaxed_;
  bool exact_ = false;
  std::vector<int> best_;
  Money cost_, bound_;
};

}  // namespace railwright::spacing
