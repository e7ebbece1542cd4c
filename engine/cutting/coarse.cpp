// SPDX-License-Identifier: MIT
#include "engine/cutting/coarse.h"

#include <algorithm>

#include "engine/cutting/dive.h"
#include "engine/cutting/fill.h"
#include "engine/cutting/greedy.h"

namespace railwright::cutting {
namespace {

constexpr int kFew = 48;
constexpr int kMost = 600;

struct Coarse {
  Model model;
  Task task;
  std::vector<int> group;                 // by fine sort, -1 where nothing is wanted
  std::vector<std::vector<int>> members;  // by coarse sort, longest first
};

std::size_t groups_of(const Model& model, const Task& task, std::int64_t quantum) {
  std::size_t groups = 0;
  std::int64_t last = -1;
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    if (task.demand[s] == 0 || model.sorts[s].size / quantum == last) continue;
    last = model.sorts[s].size / quantum;
    ++groups;
  }
  return groups;
}

enum class Group { shortest, longest };  // which member's length the group takes

Coarse coarsen(const Model& model, const Task& task, std::size_t most_groups, Group takes) {
  std::int64_t quantum = 2;
  while (groups_of(model, task, quantum) > most_groups) quantum = quantum + (quantum + 3) / 4;
  Coarse coarse{model, task, std::vector<int>(model.sorts.size(), -1), {}};
  coarse.model.sorts.clear();
  coarse.task.demand.clear();
  std::int64_t last = -1;
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    if (task.demand[s] == 0) continue;
    if (model.sorts[s].size / quantum != last) {
      coarse.model.sorts.push_back({model.sorts[s].size, 0});
      coarse.task.demand.push_back(0);
      coarse.members.emplace_back();
    }
    last = model.sorts[s].size / quantum;
    if (takes == Group::shortest) coarse.model.sorts.back().size = model.sorts[s].size;  // descending
    coarse.model.sorts.back().demand += task.demand[s];
    coarse.task.demand.back() += task.demand[s];
    coarse.members.back().push_back(static_cast<int>(s));
    coarse.group[s] = static_cast<int>(coarse.members.size()) - 1;
  }
  return coarse;
}

// Every group's pieces dealt out to the patterns, longest first.
std::vector<Use> refined(const Coarse& coarse, const Task& task, const std::vector<Use>& uses) {
  std::vector<std::int64_t> left = task.demand;
  std::vector<std::size_t> head(coarse.members.size(), 0);
  std::vector<Use> fine;
  for (const Use& use : uses) {
    for (std::int64_t i = 0; i < use.count; ++i) {
      std::vector<int> pieces;
      for (const Take& take : use.pattern.takes) {
        for (std::int64_t n = 0; n < take.count; ++n) {
          const std::vector<int>& members = coarse.members[take.sort];
          std::size_t& at = head[take.sort];
          while (left[members[at]] == 0) ++at;
          --left[members[at]];
          pieces.push_back(members[at]);
        }
      }
      Pattern pattern{use.pattern.type, {}};
      for (const int s : pieces) {
        if (pattern.takes.empty() || pattern.takes.back().sort != s) pattern.takes.push_back({s, 0});
        ++pattern.takes.back().count;
      }
      fine.push_back({std::move(pattern), 1});
    }
  }
  return fine;
}

}  // namespace

Solution coarse_plan(const Model& model, const Task& task, const std::vector<double>& prices, std::size_t most_groups, Budget& budget) {
  const Coarse coarse = coarsen(model, task, most_groups, Group::longest);
  std::vector<double> start(coarse.members.size());
  for (std::size_t g = 0; g < start.size(); ++g) start[g] = prices[coarse.members[g].front()];
  const Solution filled = fill_by_prices(coarse.model, coarse.task, start, budget);
  Master master(coarse.model, coarse.task);
  master.start_from(start);
  for (const Use& use : filled.uses) master.seed(use.pattern);
  Incumbent incumbent;
  incumbent.best = filled;
  if (!incumbent.best.found) incumbent.best = greedy(coarse.model, coarse.task);
  Master::Limits limits;
  limits.gap = 3e-4;
  master.solve(limits, budget);
  Dive dive{coarse.model, budget, incumbent};
  dive.gap = 3e-4;
  if (!budget.stopped()) dive.run(master, coarse.task, 0);
  if (!incumbent.best.found) return {};
  Solution plan{true, 0, refined(coarse, task, incumbent.best.uses)};
  plan.cost = total_cost(model, plan.uses);
  return plan;
}

Start coarse_start(const Model& model, const Task& task, Budget& budget) {
  Start start;
  const auto wanted = static_cast<int>(std::count_if(task.demand.begin(), task.demand.end(), [](std::int64_t d) { return d > 0; }));
  if (wanted <= kFew || model.values_drops) return start;
  const Coarse coarse = coarsen(model, task, static_cast<std::size_t>(std::clamp(wanted / 3, kFew, kMost)), Group::shortest);
  const Start coarser = coarse_start(coarse.model, coarse.task, budget);
  Master master(coarse.model, coarse.task);
  if (!coarser.prices.empty()) master.start_from(coarser.prices);
  for (const Use& use : coarser.plan.uses) master.seed(use.pattern);
  Master::Limits limits;
  limits.gap = 5e-4;
  master.solve(limits, budget);
  start.bound = std::max(master.bound(), coarser.bound);
  start.prices.assign(model.sorts.size(), 0.0);
  for (std::size_t s = 0; s < model.sorts.size(); ++s)
    if (coarse.group[s] >= 0) start.prices[s] = master.prices()[coarse.group[s]];
  start.plan = fill_by_prices(model, task, start.prices, budget);
  return start;
}

}  // namespace railwright::cutting
