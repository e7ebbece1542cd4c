// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/cutting/budget.h"
#include "engine/cutting/model.h"

namespace railwright::cutting {

// Price of a piece of `sort` that begins at `position` when a stick's pieces are laid from zero, longest first.
struct ArcPrice {
  int sort = 0;
  std::int64_t position = 0;
  double value = 0;
};

// Extra worth of a stick of `type` that is filled exactly up to `position`.
struct EndPrice {
  int type = 0;
  std::int64_t position = 0;
  double value = 0;
};

// What pieces and sticks are worth to the linear program, as whole numbers held in doubles: sums stay below 2^53, so that the
// knapsack below computes without rounding.
struct Quote {
  std::vector<double> value;  // by sort, >= 0
  std::vector<double> extra;  // by type, any sign
  std::vector<ArcPrice> arcs;
  std::vector<EndPrice> ends;
  double scale = 1;  // worth of one unit of cost
};

struct Offer {
  double gain = 0;  // value of its pieces + extra - scale * cost
  Pattern pattern;
};

struct Offers {
  std::vector<double> best;     // by type: no pattern of the type gains more
  std::vector<Offer> patterns;  // with positive gain, best first, all different
  double ratio = 0;             // no pattern's pieces are worth more than ratio * scale * cost (types without count only)
  bool exact = true;            // `best` is attained
};

// Finds the patterns that gain most at given prices: a bounded knapsack per stock, no sort more often than its demand.
//
// While (stages x capacity) stays moderate one dynamic program over all positions serves every stock at once, and also yields the
// best pattern that holds a given sort, for every sort. Finer grids use depth-first search in order of value per length, with the
// fractional bound, up to a fixed number of nodes; beyond it `best` is the bound, which keeps every lower bound valid.
class Knapsack {
 public:
  Knapsack(const Model& model, std::vector<std::int64_t> demand);
  // Fewer pieces of the same model are wanted than at first.
  void set_demand(const std::vector<std::int64_t>& demand) { demand_ = demand; }
  bool dynamic() const { return dynamic_; }
  Offers price(const Quote& quote, int most_patterns, Budget& budget);

 private:
  struct Stage {
    int sort;
    std::int64_t shift;
    std::int64_t copies;
    double gain;
    bool repeats;  // any number of copies in one stage
    bool arcs;
  };
  struct Walk {
    std::int64_t position;
    int type;
    int forced;  // sort put in by hand, -1
  };

  void build_stages(const Quote& quote);
  void run_stage(const Stage& stage, const double* from, double* to, const Quote& quote) const;
  void best_positions(const double* last);
  double best_of_type(int type, const Quote& quote, const double* last, std::int64_t& at) const;
  double ratio_of_type(int type, const Quote& quote, const double* last) const;
  std::vector<Walk> plan_walks(const Quote& quote, const double* last, Offers& offers) const;
  std::vector<Pattern> walk_back(const std::vector<Walk>& walks) const;
  Offers price_dynamic(const Quote& quote, int most_patterns, Budget& budget);
  Offers price_by_search(const Quote& quote, Budget& budget) const;
  double gain(const Pattern& pattern, const Quote& quote) const;
  void keep_best(const Quote& quote, std::vector<Pattern> patterns, int most, Offers& offers) const;
  double cost_at(int type, std::int64_t used) const;

  const Model& model_;
  std::vector<std::int64_t> demand_;
  std::int64_t width_ = 0;  // largest capacity + 1
  bool dynamic_ = false;
  std::vector<Stage> stages_;
  std::vector<double> rows_;
  std::vector<std::int32_t> best_at_;
  std::vector<std::vector<double>> cost_table_;  // by type and filling, where drops are valued
};

}  // namespace railwright::cutting
