// SPDX-License-Identifier: MIT
#include "engine/cutting/coarse.h"

#include <algorithm>

#include "engine/cutting/fill.h"

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

Coarse coarsen(const Model& model, const Task& task, std::size_t most_groups) {
  std::int64_t quantum = 2;
  while (groups_of(model, task, quantum) > most_groups) quantum = quantum + (quantum + 3) / 4;
  Coarse coarse{model, task, std::vector<int>(model.sorts.size(), -1), {}};
  coarse.model.sorts.clear();
  coarse.task.demand.clear();
  std::int64_t last = -1;
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    if (task.demand[s] == 0) continue;
    if (model.sorts[s].size / quantum != last) {
      coarse.model.sorts.push_back({0, 0});
      coarse.task.demand.push_back(0);
      coarse.members.emplace_back();
    }
    last = model.sorts[s].size / quantum;
    coarse.model.sorts.back().size = model.sorts[s].size;  // descending: ends at the group's shortest
    coarse.model.sorts.back().demand += task.demand[s];
    coarse.task.demand.back() += task.demand[s];
    coarse.members.back().push_back(static_cast<int>(s));
    coarse.group[s] = static_cast<int>(coarse.members.size()) - 1;
  }
  return coarse;
}

}  // namespace

Start coarse_start(const Model& model, const Task& task, Budget& budget) {
  Start start;
  const auto wanted = static_cast<int>(std::count_if(task.demand.begin(), task.demand.end(), [](std::int64_t d) { return d > 0; }));
  if (wanted <= kFew || model.values_drops) return start;
  const Coarse coarse = coarsen(model, task, static_cast<std::size_t>(std::clamp(wanted / 3, kFew, kMost)));
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
