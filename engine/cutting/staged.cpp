// SPDX-License-Identifier: MIT
#include "engine/cutting/staged.h"

#include <algorithm>

namespace railwright::cutting {
namespace {

constexpr std::int64_t kMostCells = 1'000'000;
constexpr std::size_t kMostLabels = 3'000'000;  // of 24 bytes
constexpr std::size_t kMostPatterns = 20'000;   // of all types
constexpr std::int64_t kStepsOfAPattern = 12;   // in the budget

}  // namespace

Staged::Staged(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent)
    : model_(model), task_(task), budget_(budget), incumbent_(incumbent) {
  std::int64_t cells = 1;
  for (const std::int64_t demand : task.demand) {
    step_.push_back(cells);
    cells *= demand + 1;
    if (cells > kMostCells) return;
  }
  valuation_ = value_at(model, task, prices, budget);
  of_type_.resize(model.types.size());
  for (std::size_t k = 0; k < model.types.size(); ++k) {
    Pattern pattern{static_cast<int>(k), {}};
    list_patterns(static_cast<int>(k), 0, model.types[k].capacity, pattern);
    if (patterns_.size() > kMostPatterns) return;
  }
  cells_ = cells;
}

// Pieces of the last sort fill what is left, so that no shorter one fits; where a longer one would, the pattern is needless but does no harm.
void Staged::list_patterns(int type, std::size_t sort, std::int64_t room, Pattern& pattern) {
  if (patterns_.size() > kMostPatterns) return;
  if (sort == model_.sorts.size()) {
    if (!pattern.takes.empty()) {
      of_type_[type].push_back(static_cast<int>(patterns_.size()));
      patterns_.push_back(pattern);
    }
    return;
  }
  const std::int64_t most = std::min(task_.demand[sort], room / model_.sorts[sort].size);
  const std::int64_t least = sort + 1 == model_.sorts.size() ? most : 0;
  for (std::int64_t count = most; count >= least; --count) {
    if (count > 0) pattern.takes.push_back({static_cast<int>(sort), count});
    list_patterns(type, sort + 1, room - count * model_.sorts[sort].size, pattern);
    if (count > 0) pattern.takes.pop_back();
  }
}

void Staged::weigh() {
  wanted_.assign(static_cast<std::size_t>(cells_), 0);
  for (std::int64_t cell = 0; cell < cells_; ++cell) {
    Wide worth = 0;
    for (std::size_t s = 0; s < step_.size(); ++s) {
      const std::int64_t cut = cell / step_[s] % (task_.demand[s] + 1);
      worth += static_cast<Wide>(valuation_.value[s]) * (task_.demand[s] - cut);
    }
    wanted_[static_cast<std::size_t>(cell)] = worth;
  }
  gain_after_.assign(model_.types.size() + 1, 0);
  for (std::size_t k = model_.types.size(); k-- > 0;) {
    const Wide gain = std::max<Wide>(0, static_cast<Wide>(valuation_.worth[k]) - static_cast<Wide>(valuation_.scale) * model_.types[k].price);
    gain_after_[k] = gain_after_[k + 1] + gain * task_.limit[k];
  }
}

bool Staged::of_interest(std::int64_t cost, std::int32_t cell, Wide gain) const {
  const Wide least = static_cast<Wide>(cost) * valuation_.scale + wanted_[static_cast<std::size_t>(cell)] - gain;
  return cost < incumbent_.cutoff() && least <= static_cast<Wide>(incumbent_.cutoff() - model_.cost_grid) * valuation_.scale;
}

// Pieces cut beyond those wanted count for nothing.
std::int32_t Staged::after(std::int32_t cell, const Pattern& pattern) const {
  std::int64_t next = cell;
  for (const Take& take : pattern.takes) {
    const auto s = static_cast<std::size_t>(take.sort);
    const std::int64_t cut = cell / step_[s] % (task_.demand[s] + 1);
    next += std::min(take.count, task_.demand[s] - cut) * step_[s];
  }
  return static_cast<std::int32_t>(next);
}

bool Staged::add_stick(int type, Wide gain, const std::vector<std::int32_t>& from, std::vector<std::int32_t>& to) {
  const std::int64_t price = model_.types[type].price;
  for (const std::int32_t label : from) {
    const std::int64_t cost = labels_[label].cost + price;
    const std::int32_t cell = labels_[label].cell;
    for (const int p : of_type_[type]) {
      const std::int32_t next = after(cell, patterns_[p]);
      if (next == cell || !of_interest(cost, next, gain)) continue;
      std::int32_t& spot = fresh_spot_[next];
      if (spot >= 0 && labels_[spot].cost <= cost) continue;
      if (spot < 0) {
        if (labels_.size() >= kMostLabels) return false;
        spot = static_cast<std::int32_t>(labels_.size());
        to.push_back(spot);
        labels_.emplace_back();
      }
      labels_[spot] = {cost, next, label, p};
      if (next + 1 == cells_) offer(spot);
    }
    if (!budget_.spend(kStepsOfAPattern * static_cast<std::int64_t>(of_type_[type].size()))) return false;
  }
  for (const std::int32_t label : to) fresh_spot_[labels_[label].cell] = -1;
  return true;
}

// Of two labels of one cell the cheaper goes on.
void Staged::settle(const std::vector<std::int32_t>& fresh) {
  for (const std::int32_t label : fresh) {
    std::int32_t& spot = spot_[labels_[label].cell];
    if (spot < 0) {
      spot = static_cast<std::int32_t>(current_.size());
      current_.push_back(label);
    } else if (labels_[current_[spot]].cost > labels_[label].cost) {
      current_[spot] = label;
    }
  }
}

// None, one, two ... sticks of a type after whatever came before.
bool Staged::add_type(int type) {
  const Wide own = gain_after_[type] - gain_after_[type + 1];
  const std::int64_t limit = task_.limit[type];
  std::vector<std::int32_t> last = current_, fresh;
  for (std::int64_t stick = 1; stick <= limit && !last.empty(); ++stick) {
    fresh.clear();
    if (!add_stick(type, gain_after_[type + 1] + own / limit * (limit - stick), last, fresh)) return false;
    settle(fresh);
    last.swap(fresh);
  }
  std::vector<std::int32_t> left;
  for (const std::int32_t label : current_) {
    spot_[labels_[label].cell] = -1;
    if (of_interest(labels_[label].cost, labels_[label].cell, gain_after_[type + 1])) left.push_back(label);
  }
  current_ = std::move(left);
  for (std::size_t i = 0; i < current_.size(); ++i) spot_[labels_[current_[i]].cell] = static_cast<std::int32_t>(i);
  return true;
}

void Staged::offer(std::int32_t label) {
  std::vector<std::int32_t> sticks;
  for (std::int32_t at = label; labels_[at].pattern >= 0; at = labels_[at].before) sticks.push_back(at);
  Task left = task_;
  std::vector<Use> uses;
  for (const std::int32_t at : sticks) {
    Pattern pattern{patterns_[labels_[at].pattern].type, {}};
    for (const Take& take : patterns_[labels_[at].pattern].takes) {
      const std::int64_t count = std::min(take.count, left.demand[take.sort]);
      left.demand[take.sort] -= count;
      if (count > 0) pattern.takes.push_back({take.sort, count});
    }
    if (!pattern.takes.empty()) uses.push_back({std::move(pattern), 1});
  }
  incumbent_.offer(model_, std::move(uses));
}

bool Staged::run() {
  if (!small()) return false;
  weigh();
  labels_ = {Label{}};
  current_ = {0};
  spot_.assign(static_cast<std::size_t>(cells_), -1);
  fresh_spot_.assign(static_cast<std::size_t>(cells_), -1);
  spot_[0] = 0;
  for (std::size_t k = 0; k < model_.types.size(); ++k)
    if (!add_type(static_cast<int>(k))) return false;
  return true;
}

}  // namespace railwright::cutting
