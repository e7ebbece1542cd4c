// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "engine/cutting/numbers.h"

namespace railwright::cutting {

// Every plan of a job of few lengths and few pieces, type of stick by type of stick: what is cut so far is a cell of a table, and of the ways to cut as much after as many
// types only the cheapest goes on (dynamic programming, Bellman 1957). Prices of pieces prune: what is left costs at least its worth, less what the sticks still to
// come may gain on it, so that cells from which no plan cheaper than the incumbent follows are left out. Exact whole numbers. For plans in which drops are worth nothing.
class Staged {
 public:
  Staged(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent);

  // Whether the table is small enough to be worth a try.
  bool small() const { return cells_ > 0; }
  // Improves the incumbent where it can. True when nothing is cheaper than the incumbent: proved. False when the labels or the work ran out.
  bool run();

 private:
  struct Label {
    std::int64_t cost = 0;
    std::int32_t cell = 0;
    std::int32_t before = -1;   // label before this stick
    std::int32_t pattern = -1;  // of the stick
  };

  void list_patterns(int type, std::size_t sort, std::int64_t room, Pattern& pattern);
  void weigh();
  bool of_interest(std::int64_t cost, std::int32_t cell, Wide gain) const;
  std::int32_t after(std::int32_t cell, const Pattern& pattern) const;
  bool add_type(int type);
  bool add_stick(int type, Wide gain, const std::vector<std::int32_t>& from, std::vector<std::int32_t>& to);
  void settle(const std::vector<std::int32_t>& fresh);
  void offer(std::int32_t label);

  const Model& model_;
  const Task& task_;
  Budget& budget_;
  Incumbent& incumbent_;
  Valuation valuation_;
  std::int64_t cells_ = 0;
  std::vector<std::int64_t> step_;         // of a piece in the number of a cell, by sort
  std::vector<Wide> wanted_;               // worth of the pieces that a cell leaves
  std::vector<Pattern> patterns_;          // in which no further piece fits
  std::vector<std::vector<int>> of_type_;  // their indices
  std::vector<Wide> gain_after_;           // most that the sticks of later types gain
  std::vector<Label> labels_;
  std::vector<std::int32_t> current_, spot_;  // labels of the types done, one a cell; where a cell's label stands among them
  std::vector<std::int32_t> fresh_spot_;      // the same among the sticks being added
};

}  // namespace railwright::cutting
