// SPDX-License-Identifier: MIT
#include "engine/cutting/dive.h"

#include <algorithm>
#include <cmath>

#include "engine/cutting/greedy.h"

namespace railwright::cutting {
namespace {

double spread(int variant, std::size_t index) {
  const auto hash = (static_cast<std::uint64_t>(variant) * 1000003ULL + index + 1) * 0x9E3779B97F4A7C15ULL;
  return static_cast<double>(hash >> 40) / static_cast<double>(1 << 24);
}

void by_share(std::vector<Share>& shares, int variant) {
  std::vector<std::pair<double, std::size_t>> keys;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const double part = shares[i].x - std::floor(shares[i].x + 1e-6);
    keys.push_back({part * (variant == 0 ? 1.0 : 0.5 + spread(variant, i)), i});
  }
  std::sort(keys.begin(), keys.end(), [](const auto& a, const auto& b) { return a.first != b.first ? a.first > b.first : a.second < b.second; });
  std::vector<Share> sorted;
  for (const auto& key : keys) sorted.push_back(std::move(shares[key.second]));
  shares = std::move(sorted);
}

// Takes the whole parts; returns how many sticks that were.
std::int64_t take_whole_parts(const std::vector<Share>& shares, Task& task, std::vector<Use>& uses) {
  std::int64_t taken = 0;
  for (const Share& share : shares) {
    const auto whole = static_cast<std::int64_t>(std::floor(share.x + 1e-6));
    const std::int64_t times = std::min(whole, uses_left(share.pattern, task));
    if (times <= 0) continue;
    take_out(share.pattern, times, task);
    uses.push_back({share.pattern, times});
    taken += times;
  }
  return taken;
}

// Rounds up the first shares in order: one, or where many are left a tenth of them at once.
bool round_up_some(const std::vector<Share>& shares, Task& task, std::vector<Use>& uses) {
  std::size_t most = std::max<std::size_t>(1, shares.size() / 12);
  bool any = false;
  for (const Share& share : shares) {
    if (most == 0) break;
    if (any && share.x - std::floor(share.x + 1e-6) < 0.55) break;
    if (uses_left(share.pattern, task) < 1) continue;
    take_out(share.pattern, 1, task);
    uses.push_back({share.pattern, 1});
    any = true;
    --most;
  }
  return any;
}

}  // namespace

bool Incumbent::offer(const Model& model, std::vector<Use> uses) {
  const std::int64_t cost = total_cost(model, uses);
  if (best.found && cost >= best.cost) return false;
  best = {true, cost, std::move(uses)};
  return true;
}

void Dive::run(const Master& root, Task task, int variant) {
  std::vector<Use> uses = before;
  std::vector<Share> shares = root.shares();
  std::vector<double> prices = root.prices();
  std::vector<Pattern> seeds = root.cheap_patterns(1e-6 * root.value() + 1e-9);
  while (true) {
    by_share(shares, variant);
    const std::int64_t taken = take_whole_parts(shares, task, uses);
    if (taken == 0 && !round_up_some(shares, task, uses)) break;
    if (done(task)) {
      incumbent.offer(model, std::move(uses));
      return;
    }
    if (Solution rest = greedy(model, task); rest.found) {
      std::vector<Use> whole = uses;
      whole.insert(whole.end(), rest.uses.begin(), rest.uses.end());
      incumbent.offer(model, std::move(whole));
    }
    const std::int64_t spent = total_cost(model, uses);
    Master master(model, task);
    for (const Pattern& seed : seeds) master.seed(seed);
    master.start_from(prices);
    Master::Limits limits;
    limits.cutoff = incumbent.cutoff() - spent;
    limits.gap = gap;
    if (!master.solve(limits, budget) && budget.stopped()) return;
    if (model.round_up(spent + master.bound()) >= incumbent.cutoff()) return;
    shares = master.shares();
    prices = master.prices();
    seeds = master.cheap_patterns(1e-3 * static_cast<double>(model.types.front().price));
  }
}

}  // namespace railwright::cutting
