// SPDX-License-Identifier: MIT
#include "engine/cutting/search.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace railwright::cutting {
namespace {

constexpr double kWhole = 1e-5;

double distance_to_whole(double x) { return std::abs(x - std::floor(x + 0.5)); }

using ArcFlow = std::map<std::pair<std::int64_t, int>, double>;  // position and sort

ArcFlow arc_flow(const Model& model, const std::vector<Share>& shares) {
  ArcFlow flow;
  for (const Share& share : shares) {
    std::int64_t at = 0;
    for (const Take& take : share.pattern.takes) {
      for (std::int64_t i = 0; i < take.count; ++i) {
        flow[{at, take.sort}] += share.x;
        at += model.sorts[take.sort].size;
      }
    }
  }
  return flow;
}

}  // namespace

bool Search::Later::operator()(const Node& a, const Node& b) const {
  if (a.bound != b.bound) return a.bound > b.bound;
  if (a.conditions.size() != b.conditions.size()) return a.conditions.size() < b.conditions.size();
  return a.serial < b.serial;
}

std::int64_t Search::run(const Master& root, std::int64_t root_bound) {
  Node node;
  node.bound = model_.round_up(root_bound);
  branch(node, root);
  std::int64_t bound = node.bound;
  while (!open_.empty()) {
    std::pop_heap(open_.begin(), open_.end(), Later{});
    Node next = std::move(open_.back());
    open_.pop_back();
    bound = std::max(bound, std::min(next.bound, lowest_lost_));
    budget_.best = {incumbent_.best.found, Money::from_units(incumbent_.best.cost), Money::from_units(bound), 0};
    if (!of_interest(next.bound)) break;
    if (!budget_.spend(1)) return std::min(bound, incumbent_.cutoff());
    expand(std::move(next));
  }
  return std::max(bound, std::min(incumbent_.cutoff(), lowest_lost_));
}

void Search::expand(Node node) {
  Task task = whole_task(model_);
  task.conditions = node.conditions;
  Master master(model_, task);
  for (const Pattern& seed : *node.seeds) master.seed(seed);
  Master::Limits limits;
  limits.cutoff = incumbent_.cutoff();
  const bool solved = master.solve(limits, budget_);
  node.bound = std::max(node.bound, model_.round_up(master.bound()));
  if (!solved) {
    lowest_lost_ = std::min(lowest_lost_, node.bound);
    return;
  }
  if (!of_interest(node.bound)) return;
  if (master.short_of_sticks()) {
    lowest_lost_ = std::min(lowest_lost_, node.bound);  // infeasible as far as the numbers tell, but not proved
    return;
  }
  task.conditions.clear();
  if (serial_ < 40 || serial_ % 16 == 0) Dive{model_, budget_, incumbent_}.run(master, task, dives_++ % 5);
  if (of_interest(node.bound)) branch(node, master);
}

void Search::branch(const Node& node, const Master& master) {
  const std::vector<Share> shares = master.shares();
  double most = 1e-2 * master.value();
  if (incumbent_.best.found) most = static_cast<double>(incumbent_.best.cost - node.bound);
  const auto seeds = std::make_shared<const std::vector<Pattern>>(master.cheap_patterns(most));
  if (branch_on_type(node, shares, seeds) || branch_on_arc(node, shares, seeds)) return;
  if (!offer_flow(shares)) lowest_lost_ = std::min(lowest_lost_, node.bound);
}

bool Search::branch_on_type(const Node& node, const std::vector<Share>& shares, const std::shared_ptr<const std::vector<Pattern>>& seeds) {
  std::vector<double> sticks(model_.types.size(), 0.0);
  for (const Share& share : shares) sticks[share.pattern.type] += share.x;
  int best = -1;
  for (int k = 0; k < static_cast<int>(sticks.size()); ++k)
    if (distance_to_whole(sticks[k]) > kWhole && (best < 0 || distance_to_whole(sticks[k]) > distance_to_whole(sticks[best]))) best = k;
  if (best < 0) return false;
  Condition condition;
  condition.type = best;
  push_two(node, condition, sticks[best], seeds);
  return true;
}

bool Search::branch_on_arc(const Node& node, const std::vector<Share>& shares, const std::shared_ptr<const std::vector<Pattern>>& seeds) {
  const ArcFlow flow = arc_flow(model_, shares);
  auto best = flow.end();
  double most = kWhole;
  for (auto arc = flow.begin(); arc != flow.end(); ++arc) {
    const double distance = distance_to_whole(arc->second) * (arc->first.first == 0 ? 2.0 : 1.0);
    if (distance <= most) continue;
    most = distance;
    best = arc;
  }
  if (best == flow.end()) return false;
  Condition condition;
  condition.sort = best->first.second;
  condition.position = best->first.first;
  push_two(node, condition, best->second, seeds);
  return true;
}

void Search::push_two(const Node& parent, Condition condition, double value, const std::shared_ptr<const std::vector<Pattern>>& seeds) {
  const auto below = static_cast<std::int64_t>(std::floor(value));
  for (const bool at_least : {false, true}) {
    Node child;
    child.bound = parent.bound;
    child.conditions = parent.conditions;
    condition.at_least = at_least;
    condition.bound = at_least ? below + 1 : below;
    child.conditions.push_back(condition);
    child.seeds = seeds;
    child.serial = ++serial_;
    open_.push_back(std::move(child));
    std::push_heap(open_.begin(), open_.end(), Later{});
  }
}

// All flows are whole: follows them from position zero, one stick at a time, and gives the longest fillings to the longest sticks.
bool Search::offer_flow(const std::vector<Share>& shares) {
  ArcFlow flow = arc_flow(model_, shares);
  Task task = whole_task(model_);
  std::vector<std::int64_t> sticks(model_.types.size(), 0);
  std::vector<double> parts(model_.types.size(), 0.0);
  for (const Share& share : shares) parts[share.pattern.type] += share.x;
  for (std::size_t k = 0; k < parts.size(); ++k) sticks[k] = static_cast<std::int64_t>(std::floor(parts[k] + 0.5));
  std::vector<std::pair<std::int64_t, std::map<int, std::int64_t>>> fillings;
  while (true) {
    std::int64_t at = 0;
    std::map<int, std::int64_t> takes;
    for (auto arc = flow.lower_bound({at, 0}); arc != flow.end() && arc->first.first == at;) {
      if (arc->second < 0.5) {
        ++arc;
        continue;
      }
      arc->second -= 1;
      const int sort = arc->first.second;
      if (task.demand[sort] > 0) {
        --task.demand[sort];
        ++takes[sort];
      }
      at += model_.sorts[sort].size;
      arc = flow.lower_bound({at, 0});
    }
    if (at == 0) break;
    fillings.push_back({at, std::move(takes)});
  }
  if (!done(task)) return false;
  std::sort(fillings.begin(), fillings.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<int> types;
  for (int k = 0; k < static_cast<int>(sticks.size()); ++k) types.insert(types.end(), static_cast<std::size_t>(sticks[k]), k);
  std::stable_sort(types.begin(), types.end(), [&](int a, int b) { return model_.types[a].capacity > model_.types[b].capacity; });
  std::vector<Use> uses;
  for (std::size_t f = 0; f < fillings.size(); ++f) {
    if (f >= types.size()) return false;
    Pattern pattern{types[f], {}};
    for (const auto& [sort, count] : fillings[f].second) pattern.takes.push_back({sort, count});
    if (model_.used(pattern) > model_.types[types[f]].capacity) return false;
    if (!pattern.takes.empty()) uses.push_back({std::move(pattern), 1});
  }
  incumbent_.offer(model_, std::move(uses));
  return true;
}

}  // namespace railwright::cutting
