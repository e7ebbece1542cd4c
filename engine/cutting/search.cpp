// SPDX-License-Identifier: MIT
#include "engine/cutting/search.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

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

std::int64_t Search::open_bound() const {
  std::int64_t bound = std::min(lowest_lost_, incumbent_.cutoff());
  if (!open_.empty()) bound = std::min(bound, open_.front().bound);
  if (!packing_.empty()) bound = std::min(bound, packing_.front().bound);
  return bound;
}

Search::Node Search::pop(std::vector<Node>& heap) {
  std::pop_heap(heap.begin(), heap.end(), Later{});
  Node node = std::move(heap.back());
  heap.pop_back();
  return node;
}

// All sensible numbers of sticks are settled first, each tried by dives: that finds plans. Then those left are searched to the end.
std::int64_t Search::run(const Master& root, std::int64_t root_bound) {
  Node node;
  node.bound = model_.round_up(root_bound);
  branch(node, root);
  return finish();
}

std::int64_t Search::run(const Master& root, std::int64_t root_bound, const std::vector<std::vector<std::int64_t>>& numbers) {
  const auto seeds = std::make_shared<const std::vector<Pattern>>(root.cheap_patterns(static_cast<double>(incumbent_.best.cost - root_bound)));
  for (const std::vector<std::int64_t>& sticks : numbers) {
    Node node;
    for (std::size_t k = 0; k < sticks.size(); ++k) node.bound += sticks[k] * model_.types[k].price;
    node.sticks = sticks;
    node.seeds = seeds;
    node.serial = ++serial_;
    open_.push_back(std::move(node));
    std::push_heap(open_.begin(), open_.end(), Later{});
  }
  return finish();
}

std::int64_t Search::finish() {
  while (!budget_.stopped()) {
    budget_.best = {incumbent_.best.found, Money::from_units(incumbent_.best.cost), Money::from_units(open_bound()), 0};
    const bool settle = !open_.empty() && of_interest(open_.front().bound);
    if (!settle && (packing_.empty() || !of_interest(packing_.front().bound))) break;
    Node next = pop(settle ? open_ : packing_);
    const std::int64_t bound = next.bound;
    expand(std::move(next));
    if (budget_.stopped()) lowest_lost_ = std::min(lowest_lost_, bound);
  }
  return open_bound();
}

// With whole numbers of sticks the dive keeps to them.
void Search::dive(const Node& node, const Master& master) {
  Task task = whole_task(model_);
  std::vector<double> sticks(model_.types.size(), 0.0);
  for (const Share& share : master.shares()) sticks[share.pattern.type] += share.x;
  bool whole = true;
  for (std::size_t k = 0; k < sticks.size(); ++k) {
    if (!node.sticks.empty()) sticks[k] = static_cast<double>(node.sticks[k]);
    whole = whole && distance_to_whole(sticks[k]) <= kWhole;
  }
  if (whole && node.conditions.size() <= 40) {
    task.limit_all = true;
    for (std::size_t k = 0; k < sticks.size(); ++k) task.limit[k] = static_cast<std::int64_t>(std::floor(sticks[k] + 0.5));
    for (int variant = 0; variant < 3 && of_interest(node.bound) && !budget_.stopped(); ++variant) Dive{model_, budget_, incumbent_}.run(master, task, variant);
  } else if (serial_ < 20 || serial_ % 32 == 0) {
    Dive{model_, budget_, incumbent_}.run(master, task, dives_++ % 5);
  }
}

void Search::expand(Node node) {
  Task task = whole_task(model_);
  task.conditions = node.conditions;
  if (!node.sticks.empty()) {
    task.limit = node.sticks;
    task.limit_all = true;
  }
  Master master(model_, task);
  for (const Pattern& seed : *node.seeds) master.seed(seed);
  Master::Limits limits;
  limits.cutoff = incumbent_.cutoff();
  const bool solved = master.solve(limits, budget_);
  node.bound = std::max(node.bound, model_.round_up(master.bound()));
  if (!of_interest(node.bound)) return;
  if (!solved) {
    lowest_lost_ = std::min(lowest_lost_, node.bound);
    return;
  }
  if (master.short_of_sticks()) {
    lowest_lost_ = std::min(lowest_lost_, node.bound);  // infeasible as far as the numbers tell, but not proved
    return;
  }
  const bool packing = !node.conditions.empty() && node.conditions.back().counts != Condition::Counts::sticks;
  if (!packing || serial_ % 16 == 0) dive(node, master);
  if (of_interest(node.bound)) branch(node, master);
}

void Search::branch(const Node& node, const Master& master) {
  const std::vector<Share> shares = master.shares();
  double most = 1e-2 * master.value();
  if (incumbent_.best.found) most = static_cast<double>(incumbent_.best.cost - node.bound);
  const auto seeds = std::make_shared<const std::vector<Pattern>>(master.cheap_patterns(most));
  const auto condition = most_fractional(shares, master.can_branch_on_arcs(), node.sticks.empty());
  if (condition) {
    push_two(node, condition->first, condition->second, seeds);
  } else if (!offer_flow(shares) || incumbent_.cutoff() > node.bound) {
    lowest_lost_ = std::min(lowest_lost_, node.bound);
  }
}

// The first kind of count that is fractional anywhere, and where it is most so.
std::optional<std::pair<Condition, double>> Search::most_fractional(const std::vector<Share>& shares, bool arcs, bool numbers) const {
  std::map<std::pair<std::int64_t, int>, double> sticks;
  for (const Share& share : shares) sticks[{0, share.pattern.type}] += share.x;
  using Picked = std::pair<std::pair<std::int64_t, int>, double>;
  Condition condition;
  const auto pick = [&](const std::map<std::pair<std::int64_t, int>, double>& counts) {
    auto best = counts.end();
    double most = kWhole;
    for (auto at = counts.begin(); at != counts.end(); ++at) {
      const double distance = distance_to_whole(at->second) * (at->first.first == 0 ? 2.0 : 1.0);
      if (distance <= most) continue;
      most = distance;
      best = at;
    }
    return best == counts.end() ? Picked{{-1, -1}, 0.0} : Picked{best->first, best->second};
  };
  if (const auto best = pick(sticks); numbers && best.first.second >= 0) {
    condition.type = best.first.second;
    return std::pair{condition, best.second};
  }
  if (!arcs) return std::nullopt;
  if (const auto best = pick(arc_flow(model_, shares)); best.first.second >= 0) {
    condition.counts = Condition::Counts::pieces_at;
    std::tie(condition.position, condition.sort) = best.first;
    return std::pair{condition, best.second};
  }
  if (!model_.values_drops) return std::nullopt;
  std::map<std::pair<std::int64_t, int>, double> ends;
  for (const Share& share : shares) ends[{model_.used(share.pattern), share.pattern.type}] += share.x;
  if (const auto best = pick(ends); best.first.second >= 0) {
    condition.counts = Condition::Counts::sticks_filled_to;
    std::tie(condition.position, condition.type) = best.first;
    return std::pair{condition, best.second};
  }
  return std::nullopt;
}

void Search::push_two(const Node& parent, Condition condition, double value, const std::shared_ptr<const std::vector<Pattern>>& seeds) {
  const auto below = static_cast<std::int64_t>(std::floor(value));
  for (const bool at_least : {false, true}) {
    Node child;
    child.bound = parent.bound;
    child.conditions = parent.conditions;
    child.sticks = parent.sticks;
    condition.at_least = at_least;
    condition.bound = at_least ? below + 1 : below;
    child.conditions.push_back(condition);
    child.seeds = seeds;
    child.serial = ++serial_;
    std::vector<Node>& heap = condition.counts == Condition::Counts::sticks ? open_ : packing_;
    heap.push_back(std::move(child));
    std::push_heap(heap.begin(), heap.end(), Later{});
  }
}

// All counts are whole: splits the flow into single sticks. A stick ends where the program lets sticks end, otherwise it goes on along
// any arc; flow in equals flow out, so that this uses up both.
std::vector<std::pair<std::int64_t, Pattern>> Search::split_flow(const std::vector<Share>& shares) const {
  ArcFlow flow = arc_flow(model_, shares);
  std::map<std::int64_t, double> ends;
  double sticks = 0;
  for (const Share& share : shares) {
    ends[model_.used(share.pattern)] += share.x;
    sticks += share.x;
  }
  Task task = whole_task(model_);
  std::vector<std::pair<std::int64_t, Pattern>> fillings;
  for (auto left = static_cast<std::int64_t>(std::floor(sticks + 0.5)); left > 0; --left) {
    std::int64_t at = 0;
    std::map<int, std::int64_t> takes;
    while (ends[at] < 0.5) {
      auto arc = flow.lower_bound({at, 0});
      while (arc != flow.end() && arc->first.first == at && arc->second < 0.5) ++arc;
      if (arc == flow.end() || arc->first.first != at) return {};
      arc->second -= 1;
      const int sort = arc->first.second;
      if (task.demand[sort] > 0) {
        --task.demand[sort];
        ++takes[sort];
      }
      at += model_.sorts[sort].size;
    }
    ends[at] -= 1;
    Pattern pattern;
    for (const auto& [sort, count] : takes) pattern.takes.push_back({sort, count});
    fillings.push_back({at, std::move(pattern)});
  }
  if (!done(task)) return {};
  return fillings;
}

// Gives each filling a stick: where drops are valued one that the program ends there, otherwise the longest fillings the longest sticks.
bool Search::offer_flow(const std::vector<Share>& shares) {
  auto fillings = split_flow(shares);
  if (fillings.empty()) return false;
  std::map<std::pair<std::int64_t, int>, double> parts;  // end (0 where it does not matter) and type
  for (const Share& share : shares) parts[{model_.values_drops ? -model_.used(share.pattern) : 0, share.pattern.type}] += share.x;
  std::vector<std::pair<std::int64_t, int>> sticks;  // order, type
  for (const auto& [key, x] : parts)
    sticks.insert(sticks.end(), static_cast<std::size_t>(std::floor(x + 0.5)),
                  {model_.values_drops ? key.first : -model_.types[key.second].capacity, key.second});
  std::stable_sort(sticks.begin(), sticks.end());
  std::stable_sort(fillings.begin(), fillings.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Use> uses;
  for (std::size_t f = 0; f < fillings.size(); ++f) {
    if (f >= sticks.size()) return false;
    Pattern& pattern = fillings[f].second;
    pattern.type = sticks[f].second;
    if (model_.used(pattern) > model_.types[pattern.type].capacity) return false;
    if (!pattern.takes.empty()) uses.push_back({std::move(pattern), 1});
  }
  incumbent_.offer(model_, std::move(uses));
  return true;
}

}  // namespace railwright::cutting
