// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "engine/spacing/looks.h"
#include "engine/spacing/search.h"

// Looks for the cheapest choice that keeps the limits on looks.
namespace railwright::spacing {

// Sets of windows come in ascending order of a bound (looks.h); the counts that each allows are searched as if there were no others, until the bound of the next
// set is no better than the best choice. A set that allows no more than one searched before is passed over. With one window to a fence the sets are all the ways there are to keep
// the limit, so that what their searches prove bounds the limited choice too. Where no set keeps the limits they are raised one by one: `found` then has more looks than was asked for.
class Limited {
 public:
  // `free`: the search without limits, at its end.
  Limited(const Table& table, Length scatter, std::int64_t work_limit, std::vector<LookRule> rules, const Search& free);
  bool step();  // false at the end

  bool found() const { return !best_.empty(); }
  const std::vector<int>& best() const { return best_; }
  Money cost() const { return cost_; }
  Money bound() const;
  std::int64_t work() const { return spent_ + sets_work() + (search_ ? search_->work_so_far() : 0); }

 private:
  void next_set();
  void end_set();
  bool searched_before(const Allowed& allowed) const;
  Money as_money(Wide scaled) const;
  std::int64_t sets_work() const { return sets_->work(); }

  const Table& table_;
  Length scatter_;
  std::int64_t limit_, spent_ = 0;
  std::vector<LookRule> rules_;
  const Search& free_;
  std::optional<LookSets> sets_;
  std::optional<Search> search_;
  Money set_bound_;            // of the set that is searched
  Allowed allowed_;            // what it allows
  std::vector<Allowed> seen_;  // what the sets searched allow
  std::vector<int> best_;
  Money cost_;
  std::optional<Money> searched_;  // no choice of the sets searched costs less
  bool done_ = false;
};

}  // namespace railwright::spacing
