// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "engine/cutting/dive.h"

namespace railwright::cutting {

// Branch and bound on the linear program, best bound first and deeper first among equals.
//
//  1. how many sticks of a type are used, while that is fractional;
//  2. how many pieces of a sort begin at a position (pieces laid from zero, longest first), an arc of the flow model of
//     Valerio de Carvalho (1999);
//  3. where drops are valued, how many sticks of a type are filled up to a position.
// All leave the knapsack a dynamic program. When all of these are whole, the flow splits into whole patterns.
class Search {
 public:
  Search(const Model& model, Budget& budget, Incumbent& incumbent) : model_(model), budget_(budget), incumbent_(incumbent) {}

  // Continues from the solved root. Returns a lower bound on every plan; at or above the incumbent's cost when the search is complete.
  std::int64_t run(const Master& root, std::int64_t root_bound);
  // Instead: every plan cheaper than the incumbent uses one of these numbers of sticks, or fewer.
  std::int64_t run(const Master& root, std::int64_t root_bound, const std::vector<std::vector<std::int64_t>>& numbers);

 private:
  struct Node {
    std::int64_t bound = 0;
    std::vector<Condition> conditions;
    std::vector<std::int64_t> sticks;  // how many there may be of each type; empty: not settled
    std::shared_ptr<const std::vector<Pattern>> seeds;
    std::int64_t serial = 0;
  };
  struct Later {
    bool operator()(const Node& a, const Node& b) const;
  };

  std::int64_t open_bound() const;
  Node pop(std::vector<Node>& heap);
  void dive(const Node& node, const Master& master);
  std::int64_t finish();
  void expand(Node node);
  void branch(const Node& node, const Master& master);
  std::optional<std::pair<Condition, double>> most_fractional(const std::vector<Share>& shares, bool arcs, bool numbers) const;
  void push_two(const Node& parent, Condition condition, double value, const std::shared_ptr<const std::vector<Pattern>>& seeds);
  std::vector<std::pair<std::int64_t, Pattern>> split_flow(const std::vector<Share>& shares) const;
  bool offer_flow(const std::vector<Share>& shares);
  bool of_interest(std::int64_t bound) const { return model_.round_up(bound) < incumbent_.cutoff(); }

  const Model& model_;
  Budget& budget_;
  Incumbent& incumbent_;
  std::vector<Node> open_;                // heaps: numbers of sticks are still fractional,
  std::vector<Node> packing_;             // or whole
  std::int64_t lowest_lost_ = INT64_MAX;  // bound of nodes given up
  std::int64_t serial_ = 0;
  int dives_ = 0;
};

}  // namespace railwright::cutting
