// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <tuple>
#include <vector>

#include "engine/spacing/enumeration.h"
#include "engine/spacing/joint.h"
#include "engine/spacing/pipe_cost.h"

// Looks for the cheapest choice of one count per run.
namespace railwright::spacing {

using Allowed = std::vector<std::vector<char>>;  // by run and element

// Outline
//  1. the plain rule and the 8 ft rule are the first choices to beat;
//  2. the joint program gives a bound for every count of every run: a count that cannot beat the best choice is left out for good, and the
//     program is solved again with finer classes of lengths;
//  3. the program's answer is rounded, then one run after the other tries its other counts, the most promising first;
//  4. choices are cut in ascending order of their bounds; when the next bound is no better than the best choice, that is proved best.
// Costs are those of the layouts tried for the table, bounds hold for every layout (floor.h).
class Search {
 public:
  // `allowed`: the counts to choose from; empty: all. The path depends on nothing but the table and the limit, however it is stepped.
  Search(const Table& table, Length scatter, std::int64_t work_limit, Allowed allowed = {});
  // A small piece of the search: a round of the program or the cutting of one choice. False once nothing is left to do.
  bool step();
  void run() {
    while (step()) {
    }
  }

  bool started() const { return stage_ != Stage::start; }
  const std::vector<int>& best() const { return best_; }  // element by run
  Money cost() const { return cost_; }
  bool found() const { return found_; }  // false: the counted sticks do not suffice for any choice tried
  Money bound() const { return bound_ < cost_ ? bound_ : cost_; }
  std::int64_t work() const { return pricer_.work() + floor_.work() + joint_work_; }
  std::int64_t work_so_far() const { return work() + (joint_ ? budget_->units() : 0); }  // also within a round of the program
  const Relaxed& first_relaxed() const { return first_; }                                // of every count that was allowed at first

 private:
  enum class Stage { start, relax, improve, refine, enumerate, done };

  void start();
  void freeze();
  void begin_pass();
  bool round();
  void end_pass();
  void after_passes();
  void leave_out();
  void round_shares();
  void list_moves();
  void improve();
  void begin_enumeration();
  void enumerate();
  void finish(Money proved);
  bool offer(const std::vector<int>& choice);
  bool spent() const { return work() >= limit_; }
  Priced price(const std::vector<int>& choice);
  Money least(const std::vector<int>& choice);
  Money as_money(Wide scaled) const;  // rounded up: costs are whole
  Wide as_scaled(Money money) const { return static_cast<Wide>(money.units()) * relaxed_.scale; }

  const Table& table_;
  std::int64_t limit_, joint_work_ = 0;
  PipeCost pricer_, floor_;
  Allowed allowed_;
  std::vector<char> frozen_;
  Money frozen_bound_;
  Relaxed relaxed_, first_;
  bool exact_ = false;
  std::vector<int> best_;
  Money cost_, bound_;
  bool found_ = false;

  Stage stage_ = Stage::start;
  std::size_t pass_ = 0;
  int rounds_ = 0;
  std::unique_ptr<Joint> joint_;
  const cutting::OnProgress nothing_;
  std::optional<cutting::Budget> budget_;
  std::vector<std::tuple<Wide, std::size_t, int>> moves_;  // slack, run, element
  std::size_t move_ = 0;
  bool better_ = false;
  std::unique_ptr<Enumeration> enumeration_;
  Money enumerated_;  // no choice enumerated so far costs less
};

}  // namespace railwright::spacing
