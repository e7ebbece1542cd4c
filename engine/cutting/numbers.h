// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "engine/cutting/dive.h"
#include "engine/cutting/wide.h"

namespace railwright::cutting {

// What prices of pieces say of numbers of sticks: a stick of type k holds pieces worth at most `worth[k]`, and those wanted are worth `wanted`, in units of
// 1 / `scale` of the cost. So numbers n can only suffice when sum n_k worth[k] >= wanted, whatever the prices: exact whole numbers.
struct Valuation {
  std::vector<std::int64_t> value;  // of a piece, by sort
  std::vector<std::int64_t> worth;
  Wide wanted = 0;
  std::int64_t scale = 1;
};

Valuation value_at(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget);

// Costs are sums of prices of whole sticks. Few of the sums just above the linear program's bound belong to numbers of sticks that can suffice. Those that
// can are found from the lowest cost on; the program for just these numbers then either shows that they cannot, by prices that rule out others too, or is
// rounded to a plan by diving and by gathering. For plans in which drops are worth nothing.
class Numbers {
 public:
  using Sticks = std::vector<std::int64_t>;  // by type

  // `prices` of pieces, by sort; numbers are sought near the incumbent's.
  Numbers(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent);
  // With the prices and patterns of the solved program, near its numbers.
  Numbers(const Model& model, const Task& task, const Master& root, Budget& budget, Incumbent& incumbent);

  // Every plan costs at least this: the lowest cost from `bound` on, at most the incumbent's, at which some numbers can suffice.
  std::int64_t raised(std::int64_t bound);
  // Tries costs from `bound` on by gathering with at most `steps` exchanges each.
  void try_each(std::int64_t bound, std::int64_t steps);
  // The same again and again with numbers chosen differently; of use where there are many types.
  void vary(std::int64_t bound, std::int64_t steps, int times);
  // Solves the programs of numbers from `bound` on, up to `most` of them; returns what `raised` then tells.
  std::int64_t sharpen(std::int64_t bound, int most);
  // All numbers that may still give plans cheaper than the incumbent, by cost; empty when they are too many to list (or there are none).
  std::vector<Sticks> open(std::int64_t bound);

 private:
  struct At {
    std::vector<Sticks> sticks;  // those with the most worth to spare
    bool complete = false;       // there are no others
  };

  const At& at(std::int64_t cost);
  At few(std::int64_t cost);
  At many(std::int64_t cost, const Sticks& about, std::uint64_t variant);
  Sticks used() const;
  bool suffice(const Sticks& sticks) const;
  std::int64_t difference(const Sticks& sticks) const;
  bool attempt(std::int64_t cost, std::int64_t steps);
  void solve_for(const Sticks& sticks);

  const Model& model_;
  const Task& task_;
  Budget& budget_;
  Incumbent& incumbent_;
  std::vector<Pattern> seeds_;  // for the programs of numbers
  std::vector<Valuation> valuations_;
  Sticks about_;
  std::map<std::int64_t, At> known_;
  std::map<Sticks, bool> solved_;
  std::uint64_t tries_ = 0;
};

}  // namespace railwright::cutting
