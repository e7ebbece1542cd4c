// SPDX-License-Identifier: MIT
#include "engine/cutting/greedy.h"

#include <algorithm>
#include <cmath>

namespace railwright::cutting {
namespace {

class Greedy {
 public:
  Greedy(const Model& model, const Task& task) : model_(model), left_(task.demand), next_(model.sorts.size() + 1), sticks_(task.limit) {
    for (std::size_t s = 0; s < next_.size(); ++s) next_[s] = static_cast<int>(s < left_.size() && left_[s] == 0 ? s + 1 : s);
  }

  Solution run() {
    Solution solution;
    while (true) {
      const int first = wanted_from(0);
      if (first == static_cast<int>(left_.size())) break;
      Pattern best;
      if (!choose(first, best)) return solution;
      const std::int64_t times = repeats(best);
      solution.cost += times * model_.cost(best);
      sticks_[best.type] -= times;
      for (const Take& take : best.takes) {
        left_[take.sort] -= take.count * times;
        if (left_[take.sort] == 0) next_[take.sort] = take.sort + 1;
      }
      solution.uses.push_back({std::move(best), times});
    }
    solution.found = true;
    return solution;
  }

 private:
  // First sort from s on with pieces left (union-find with path halving, so that a million sorts stay cheap).
  int wanted_from(int s) {
    while (next_[s] != s) s = next_[s] = next_[next_[s]];
    return s;
  }

  bool choose(int first, Pattern& best) {
    double best_rate = 0;
    bool found = false;
    for (std::size_t k = 0; k < model_.types.size(); ++k) {
      const Type& type = model_.types[k];
      if (sticks_[k] == 0 || type.capacity < model_.sorts[first].size) continue;
      Pattern pattern = fill(static_cast<int>(k), first);
      const std::int64_t used = model_.used(pattern);
      const double rate = static_cast<double>(model_.cost(pattern.type, used)) / static_cast<double>(used);
      if (found && !(rate < best_rate)) continue;
      found = true;
      best_rate = rate;
      best = std::move(pattern);
    }
    return found;
  }

  Pattern fill(int type, int first) {
    Pattern pattern{type, {}};
    std::int64_t room = model_.types[type].capacity;
    const auto& sorts = model_.sorts;
    for (int s = first; s < static_cast<int>(sorts.size()); s = wanted_from(s + 1)) {
      if (sorts[s].size > room) {
        const auto fits = std::lower_bound(sorts.begin() + s, sorts.end(), room, [](const Sort& a, std::int64_t r) { return a.size > r; });
        s = wanted_from(static_cast<int>(fits - sorts.begin()));
        if (s == static_cast<int>(sorts.size())) break;
      }
      const std::int64_t count = std::min(left_[s], room / sorts[s].size);
      pattern.takes.push_back({s, count});
      room -= count * sorts[s].size;
    }
    return pattern;
  }

  std::int64_t repeats(const Pattern& pattern) const {
    std::int64_t times = sticks_[pattern.type];
    for (const Take& take : pattern.takes) times = std::min(times, left_[take.sort] / take.count);
    return times;
  }

  const Model& model_;
  std::vector<std::int64_t> left_;
  std::vector<int> next_;
  std::vector<std::int64_t> sticks_;
};

// Lowest cost per unit filled of one stick. With valued drops the cost as a function of the filling is straight between the
// smallest filling and the largest that leaves a kept drop, so that its lowest rate lies at an end or at a full stick.
double lowest_rate(const Model& model, int type) {
  const auto capacity = model.types[type].capacity;
  double rate = static_cast<double>(model.types[type].price) / static_cast<double>(capacity);
  if (!model.values_drops) return rate;
  const auto& rules = model.instance().rules();
  const Stock& stock = model.instance().stocks()[model.types[type].stock];
  const std::int64_t most = (model.instance().usable(stock) - *rules.keep_from).nm() / model.grid_nm();
  for (const std::int64_t used : {model.sorts.back().size, std::min(most, capacity)}) {
    if (used < model.sorts.back().size) continue;
    const auto cost = static_cast<double>(model.cost(type, used) - 1);  // the worth was rounded down
    rate = std::min(rate, std::max(0.0, cost) / static_cast<double>(used));
  }
  return rate;
}

}  // namespace

Solution greedy(const Model& model, const Task& task) { return Greedy(model, task).run(); }

std::int64_t material_bound(const Model& model, bool* enough) {
  std::vector<std::pair<double, int>> rates;
  for (int k = 0; k < static_cast<int>(model.types.size()); ++k) rates.push_back({lowest_rate(model, k), k});
  std::sort(rates.begin(), rates.end());
  double wanted = 0;
  for (const Sort& sort : model.sorts) wanted += static_cast<double>(sort.size) * static_cast<double>(sort.demand);
  double cost = 0;
  for (const auto& [rate, k] : rates) {
    const double room = static_cast<double>(model.types[k].capacity) * static_cast<double>(model.types[k].limit);
    const double take = std::min(wanted, room);
    cost += take * rate;
    wanted -= take;
  }
  *enough = wanted <= 0;
  // A relative 1e-12 covers the rounding of at most a few thousand operations on positive numbers.
  return model.round_up(static_cast<std::int64_t>(std::ceil(std::floor(cost * 1e6 * (1 - 1e-12)) / 1e6 - 1e-6)));
}

}  // namespace railwright::cutting
