// SPDX-License-Identifier: MIT
#include "engine/cutting/corner.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "engine/cutting/numbers.h"

namespace railwright::cutting {
namespace {

constexpr std::size_t kMostSorts = 40;
constexpr std::int64_t kMostCells = 4'000'000;  // of the table of worths
constexpr std::int64_t kMostNodes = 1'500'000;  // of the enumeration of patterns
constexpr std::size_t kMostPatterns = 120'000;
constexpr std::int64_t kMostElements = 60'000;
constexpr std::int64_t kMostSums = 150'000'000;  // group elements x steps
constexpr std::int64_t kMostLooked = 6'000'000;  // steps tried on paths
constexpr std::size_t kMostFree = 3000;          // patterns in the programs of what a path leaves
constexpr std::int64_t kFar = INT64_MAX / 4;

constexpr std::int64_t kReasonScale = 1 << 16;
constexpr std::size_t kMostReasons = 200;

// Why what a path leaves cannot be cut to free patterns: prices of pieces, and what a stick of each type gains at most at them, in units of 1 / kReasonScale.
struct Reason {
  std::vector<std::int64_t> price;
  std::vector<std::int64_t> gain;
};

// What a path leaves, to be cut to the free patterns only: a program over these, rounded by branching a few times.
class Rest {
 public:
  enum class Answer { found, impossible, unknown };

  Rest(const Model& model, const std::vector<const Pattern*>& free, Budget& budget) : model_(model), free_(free), budget_(budget) {
    for (const Type& type : model.types) dearest_ = std::max(dearest_, static_cast<double>(type.price));
  }

  // Appends sticks that cover what the task wants and cost, with those already there, at most `most`. What is impossible was shown to be so in whole numbers.
  // At which prices that is plain.
  const Reason& reason() const { return reason_; }

  Answer run(const Task& task, std::vector<Use>& uses, std::int64_t most, int nodes) {
    nodes_left_ = nodes;
    most_ = most;
    impossible_ = false;
    std::vector<char> barred(free_.size(), 0);
    reason_ = {};
    const bool found = go(task, uses, barred, true);
    return found ? Answer::found : impossible_ ? Answer::impossible : Answer::unknown;
  }

 private:
  bool go(Task task, std::vector<Use>& uses, std::vector<char>& barred, bool first) {
    if (done(task)) return true;
    if (--nodes_left_ < 0) return false;
    std::vector<double> x;
    if (!solve(task, barred, most_ - total_cost(model_, uses), first, x)) return false;
    double most = 1e-6;
    int best = -1;
    for (std::size_t p = 0; p < free_.size(); ++p) {
      const auto whole = static_cast<std::int64_t>(std::floor(x[p] + 1e-6));
      if (whole > 0) {
        take(*free_[p], whole, task);
        uses.push_back({*free_[p], whole});
      }
      const double part = x[p] - static_cast<double>(whole);
      if (part > most) most = part, best = static_cast<int>(p);
    }
    if (best < 0) return done(task);
    const std::size_t kept = uses.size();
    if (task.limit[free_[best]->type] > 0) {
      Task with = task;
      take(*free_[best], 1, with);
      uses.push_back({*free_[best], 1});
      if (go(std::move(with), uses, barred, false)) return true;
      uses.resize(kept);
    }
    barred[best] = 1;
    const bool found = go(std::move(task), uses, barred, false);
    barred[best] = 0;
    return found;
  }

  static void take(const Pattern& pattern, std::int64_t times, Task& task) {
    for (const Take& take : pattern.takes) task.demand[take.sort] = std::max<std::int64_t>(0, task.demand[take.sort] - take.count * times);
    task.limit[pattern.type] -= times;
  }

  // The program over the free patterns; false when they do not suffice, or cost more than `most`.
  bool solve(const Task& task, const std::vector<char>& barred, std::int64_t most, bool first, std::vector<double>& x) {
    std::vector<Simplex::Row> rows;
    std::vector<int> sort_row(task.demand.size(), -1), type_row(task.limit.size(), -1);
    for (std::size_t s = 0; s < task.demand.size(); ++s) {
      if (task.demand[s] == 0) continue;
      sort_row[s] = static_cast<int>(rows.size());
      rows.push_back({static_cast<double>(task.demand[s]), true, 10.0});
    }
    for (std::size_t k = 0; k < task.limit.size(); ++k) {
      if (!model_.types[k].counted && !task.limit_all) continue;
      type_row[k] = static_cast<int>(rows.size());
      rows.push_back({static_cast<double>(task.limit[k]), false, 0});
    }
    Simplex simplex(rows);
    std::vector<int> column(free_.size(), -1);
    for (std::size_t p = 0; p < free_.size(); ++p) {
      const Pattern& pattern = *free_[p];
      if (barred[p] || task.limit[pattern.type] == 0) continue;
      std::vector<Simplex::Entry> entries;
      for (const Take& take : pattern.takes)
        if (sort_row[take.sort] >= 0) entries.push_back({sort_row[take.sort], static_cast<double>(take.count)});
      if (type_row[pattern.type] >= 0) entries.push_back({type_row[pattern.type], 1.0});
      column[p] = simplex.add_column(static_cast<double>(model_.types[pattern.type].price) / dearest_, entries);
    }
    if (!simplex.optimise(budget_)) return false;
    if (simplex.shortfall() > 1e-5 || simplex.objective() * dearest_ > static_cast<double>(most) + 0.5 * static_cast<double>(model_.cost_grid)) {
      if (first) impossible_ = costs_more(task, simplex, sort_row, most);
      return false;
    }
    const std::vector<double> values = simplex.values();
    x.assign(free_.size(), 0.0);
    for (std::size_t p = 0; p < free_.size(); ++p)
      if (column[p] >= 0) x[p] = values[column[p]];
    return true;
  }

  // At the program's prices, made whole: what the pieces are worth less what the sticks gain is more than `most`.
  bool costs_more(const Task& task, const Simplex& simplex, const std::vector<int>& sort_row, std::int64_t most) {
    std::vector<std::int64_t> price(task.demand.size(), 0);
    Wide worth = 0;
    for (std::size_t s = 0; s < price.size(); ++s) {
      if (sort_row[s] < 0) continue;
      price[s] = static_cast<std::int64_t>(std::clamp(simplex.duals()[sort_row[s]] * dearest_ * kReasonScale, 0.0, 0x1p44));
      worth += static_cast<Wide>(price[s]) * task.demand[s];
    }
    std::vector<std::int64_t> gain(task.limit.size(), 0);
    for (const Pattern* pattern : free_) {
      std::int64_t here = -model_.types[pattern->type].price * kReasonScale;
      for (const Take& take : pattern->takes) here += price[take.sort] * take.count;
      gain[pattern->type] = std::max(gain[pattern->type], here);
    }
    for (std::size_t k = 0; k < gain.size(); ++k) worth -= static_cast<Wide>(gain[k]) * task.limit[k];
    reason_ = {std::move(price), std::move(gain)};
    return worth > static_cast<Wide>(most) * kReasonScale;
  }

  const Model& model_;
  const std::vector<const Pattern*>& free_;
  Budget& budget_;
  double dearest_ = 1;
  std::int64_t most_ = 0;
  int nodes_left_ = 0;
  bool impossible_ = false;
  Reason reason_;
};

// Leaves out pieces that are cut more often than wanted.
std::vector<Use> without_surplus(const std::vector<Use>& uses, std::vector<std::int64_t> left) {
  std::vector<Use> exact;
  for (Use use : uses) {
    while (use.count > 0) {
      Use some{{use.pattern.type, {}}, use.count};
      for (const Take& take : use.pattern.takes) {
        const std::int64_t count = std::min(take.count, left[take.sort]);
        if (count == 0) continue;
        some.pattern.takes.push_back({take.sort, count});
        some.count = std::min(some.count, left[take.sort] / count);
      }
      if (some.pattern.takes.empty()) break;
      for (const Take& take : some.pattern.takes) left[take.sort] -= take.count * some.count;
      use.count -= some.count;
      exact.push_back(std::move(some));
    }
  }
  return exact;
}

}  // namespace

Corner::Corner(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent)
    : model_(model), task_(task), budget_(budget), incumbent_(incumbent), group_(model.sorts.size()) {
  std::int64_t width = 0;
  for (const Type& type : model.types) width = std::max(width, type.capacity + 1);
  if (model.values_drops || model.sorts.size() > kMostSorts || width > kMostCells / static_cast<std::int64_t>(model.sorts.size() + 1)) return;
  appraise(prices);
  const Wide gap = static_cast<Wide>(incumbent.cutoff()) * scale_ - base_;
  const auto most = static_cast<Cost>(std::clamp<Wide>(gap, 0, kFar));
  // At first just beyond the next cost that plans can have.
  const Cost step = scale_ * model.cost_grid;
  const auto next = static_cast<Cost>(step - (base_ % step + step) % step) + step / 50;
  for (Cost reach = std::min(most, next); !budget.stopped(); reach = std::min(most, std::max(2 * step, 4 * reach))) {
    if (!reach_for(reach) || known_ < reach || reach == most) return;
  }
}

// Lists all patterns that lose no more than that and measures the group's paths up to it.
bool Corner::reach_for(Cost reach) {
  known_ = -1;
  enumerate(reach);
  if (!whole_ || !build_group()) return false;
  list_steps(reach);
  measure(reach);
  reach_ = reach;
  refutations_.clear();
  return known_ >= 0;
}

void Corner::appraise(const std::vector<double>& prices) {
  const Valuation valuation = value_at(model_, task_, prices, budget_);
  scale_ = valuation.scale;
  value_ = valuation.value;
  base_ = valuation.wanted;
  for (std::size_t k = 0; k < model_.types.size(); ++k) {
    rent_.push_back(std::max<Cost>(0, valuation.worth[k] - valuation.scale * model_.types[k].price));
    base_ -= static_cast<Wide>(rent_.back()) * task_.limit[k];
  }
  std::int64_t width = 0;
  for (const Type& type : model_.types) width = std::max(width, type.capacity + 1);
  most_worth_.assign(model_.sorts.size() + 1, std::vector<Cost>(static_cast<std::size_t>(width), 0));
  for (std::size_t s = model_.sorts.size(); s-- > 0;) {
    auto& row = most_worth_[s];
    row = most_worth_[s + 1];
    for (std::int64_t room = model_.sorts[s].size; room < width; ++room) row[room] = std::max(row[room], row[room - model_.sorts[s].size] + value_[s]);
  }
  budget_.spend(width * static_cast<std::int64_t>(model_.sorts.size()));
}

// All patterns that lose at most `reach`.
void Corner::enumerate(Cost reach) {
  patterns_.clear();
  loss_.clear();
  nodes_ = 0;
  for (int k = 0; k < static_cast<int>(model_.types.size()) && nodes_ <= kMostNodes && patterns_.size() <= kMostPatterns; ++k) enumerate_type(k, reach);
  whole_ = nodes_ <= kMostNodes && patterns_.size() <= kMostPatterns && budget_.spend(4 * nodes_);
}

void Corner::enumerate_type(int k, Cost reach) {
  const Cost full = model_.types[k].price * scale_ + rent_[k];
  Pattern pattern{k, {}};
  const auto go = [&](const auto& self, std::size_t s, std::int64_t room, Cost worth) -> void {
    if (++nodes_ > kMostNodes || patterns_.size() > kMostPatterns || worth + most_worth_[s][room] < full - reach) return;
    if (s == model_.sorts.size()) {
      patterns_.push_back(pattern);
      loss_.push_back(std::max<Cost>(0, full - worth));
      return;
    }
    const std::int64_t size = model_.sorts[s].size;
    const std::int64_t most = std::min(task_.demand[s], room / size);
    self(self, s + 1, room, worth);
    for (std::int64_t n = 1; n <= most; ++n) {
      if (n == 1) pattern.takes.push_back({static_cast<int>(s), 0});
      pattern.takes.back().count = n;
      self(self, s + 1, room - n * size, worth + n * value_[s]);
    }
    if (most > 0) pattern.takes.pop_back();
  };
  go(go, 0, model_.types[k].capacity, 0);
}

// How a pattern's use changes the remainder; where its type has a rent it takes the place of the type's base pattern.
Remainders::Vector Corner::shift_of(const Pattern& pattern, bool instead) const {
  Remainders::Vector shift(model_.sorts.size(), 0);
  for (const Take& take : pattern.takes) shift[take.sort] += take.count;
  if (const int base = base_pattern_[pattern.type]; instead && base >= 0)
    for (const Take& take : patterns_[base].takes) shift[take.sort] -= take.count;
  return shift;
}

bool Corner::build_group() {
  base_pattern_.assign(model_.types.size(), -1);
  for (std::size_t p = 0; p < patterns_.size(); ++p) {
    const int k = patterns_[p].type;
    if (rent_[k] > no_loss() && loss_[p] <= no_loss() && base_pattern_[k] < 0) base_pattern_[k] = static_cast<int>(p);
  }
  group_ = Remainders(model_.sorts.size());
  Remainders::Vector wanted = task_.demand;
  for (std::size_t k = 0; k < model_.types.size(); ++k) {
    if (rent_[k] <= no_loss()) continue;
    if (base_pattern_[k] < 0) return false;
    for (const Take& take : patterns_[base_pattern_[k]].takes) wanted[take.sort] -= take.count * task_.limit[k];
  }
  for (std::size_t p = 0; p < patterns_.size(); ++p)
    if (loss_[p] <= no_loss() && !group_.add(shift_of(patterns_[p], true))) return false;
  if (!group_.close(kMostElements)) return false;
  target_ = group_.element(wanted);
  return true;
}

void Corner::list_steps(Cost reach) {
  steps_.clear();
  for (std::size_t p = 0; p < patterns_.size(); ++p)
    if (loss_[p] > no_loss()) steps_.push_back({loss_[p], group_.element(shift_of(patterns_[p], true)), static_cast<int>(p), -1});
  for (int k = 0; k < static_cast<int>(model_.types.size()); ++k) {
    if (base_pattern_[k] < 0 || rent_[k] > reach) continue;
    const std::int64_t used = group_.element(shift_of(patterns_[base_pattern_[k]], false));
    steps_.push_back({rent_[k], group_.difference(0, used), -1, k});
  }
  Remainders::Vector surplus(model_.sorts.size(), 0);
  for (std::size_t s = 0; s < value_.size(); ++s) {
    if (value_[s] > reach) continue;
    surplus[s] = -1;
    steps_.push_back({value_[s], group_.element(surplus), -1, -1});
    surplus[s] = 0;
  }
  std::stable_sort(steps_.begin(), steps_.end(), [](const Step& a, const Step& b) { return a.cost < b.cost; });
}

// Shortest paths (Dijkstra) from the neutral element, each step its cheapest way.
void Corner::measure(Cost reach) {
  const std::int64_t order = group_.order();
  std::vector<Cost> cheapest(static_cast<std::size_t>(order), kFar);
  std::vector<Step> steps;
  for (const Step& step : steps_) {
    if (step.element == 0 || step.cost >= cheapest[step.element]) continue;
    cheapest[step.element] = step.cost;
    steps.push_back(step);
  }
  to_go_.assign(static_cast<std::size_t>(order), kFar);
  known_ = -1;
  if (order * static_cast<std::int64_t>(steps.size()) > kMostSums) return;
  using Entry = std::pair<Cost, std::int64_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
  to_go_[0] = 0;
  open.push({0, 0});
  std::int64_t sums = 0;
  while (!open.empty()) {
    const auto [cost, at] = open.top();
    open.pop();
    if (cost > to_go_[at]) continue;
    for (const Step& step : steps) {
      if (cost + step.cost > reach) break;
      ++sums;
      const std::int64_t next = group_.sum(at, step.element);
      if (cost + step.cost >= to_go_[next]) continue;
      to_go_[next] = cost + step.cost;
      open.push({to_go_[next], next});
    }
  }
  budget_.spend(8 * sums + order);
  known_ = std::min(to_go_[target_], reach);
}

std::int64_t Corner::bound() const {
  if (known_ < 0) return excluded_;
  const Wide cost = base_ + known_;
  return cost <= 0 ? 0 : std::max(excluded_, model_.round_up(static_cast<std::int64_t>((cost + scale_ - 1) / scale_)));
}

Corner::Cost Corner::loss_of(std::int64_t cost) const { return static_cast<Cost>(std::clamp<Wide>(static_cast<Wide>(cost) * scale_ - base_, -kFar, kFar)); }

bool Corner::list_free() {
  free_.clear();
  for (std::size_t p = 0; p < patterns_.size(); ++p)
    if (loss_[p] <= no_loss()) free_.push_back(&patterns_[p]);
  return free_.size() <= kMostFree;
}

// Costs one after the other; while all paths of a cost were shown to lead nowhere, the bound goes up.
void Corner::try_paths(int most) {
  if (known_ < 0) return;
  if (!list_free()) return;
  paths_left_ = most;
  found_ = false;
  looked_ = 0;
  bool all = free_use_is_free();
  int samples = 200;
  for (std::int64_t cost = bound(); cost < incumbent_.cutoff() && !found_ && !budget_.stopped(); cost += model_.cost_grid) {
    if (const Cost lost = loss_of(cost); lost >= reach_ && (nodes_ > kMostNodes / 20 || !reach_for(4 * lost) || !list_free())) break;
    sample(cost, std::min(samples, 40));
    samples -= 40;
    const bool enough = paths_left_ <= 0 || looked_ > kMostLooked;
    if (found_ || (samples <= 0 && enough)) break;
    if (enough) {
      all = false;
      continue;
    }
    all = try_cost(cost) && all;
    if (all) excluded_ = cost + model_.cost_grid;
  }
}

// Random paths of a cost, so that they differ from each other.
void Corner::sample(std::int64_t cost, int times) {
  const auto all = static_cast<Cost>(std::min<Wide>(static_cast<Wide>(cost) * scale_ - base_, kFar));
  cost_ = cost;
  for (int i = 0; i < times && !found_ && !budget_.stopped(); ++i) {
    path_.clear();
    free_sticks_ = task_.limit;
    std::int64_t at = 0;
    Cost left = all;
    for (int misses = 0; at != target_ && misses < 300 && path_.size() < 100;) {
      const std::size_t affordable = static_cast<std::size_t>(
          std::upper_bound(steps_.begin(), steps_.end(), left, [](Cost most, const Step& step) { return most < step.cost; }) - steps_.begin());
      if (affordable == 0) break;
      random_ = random_ * 6364136223846793005ULL + 1442695040888963407ULL;
      const std::size_t j = (random_ >> 33) % affordable;
      const std::int64_t next = group_.sum(at, steps_[j].element);
      const int k = type_of(steps_[j]);
      if (k < 0 || free_sticks_[k] == 0 || next == at || to_go_[group_.difference(target_, next)] > left - steps_[j].cost) {
        ++misses;
        continue;
      }
      --free_sticks_[k];
      path_.push_back(static_cast<int>(j));
      left -= steps_[j].cost;
      at = next;
    }
    budget_.spend(5000);
    if (at == target_) offer();
  }
  path_.clear();
}

// What free patterns and sticks do lose must not add up to a step of cost, or a plan might be sought at a cost that is not its own.
bool Corner::free_use_is_free() const {
  Wide most = 0;
  Cost worst = 0;
  for (std::size_t p = 0; p < patterns_.size(); ++p)
    if (loss_[p] <= no_loss()) worst = std::max(worst, loss_[p]);
  for (std::size_t k = 0; k < rent_.size(); ++k) most += static_cast<Wide>(rent_[k] <= no_loss() ? std::max(worst, rent_[k]) : worst) * task_.limit[k];
  return most < static_cast<Wide>(scale_) * model_.cost_grid;
}

// Short paths first: they leave most of the program's solution as it is. True when there are no plans of this cost.
bool Corner::try_cost(std::int64_t cost) {
  const auto left = static_cast<Cost>(std::min<Wide>(static_cast<Wide>(cost) * scale_ - base_, kFar));
  if (left >= reach_) return false;
  free_sticks_ = task_.limit;
  cost_ = cost;
  for (const std::size_t longest : {2U, 5U, 10U, 20U, 60U}) {
    shortest_ = longest == 2 ? 0 : longest_ + 1;
    longest_ = longest;
    unknown_ = cut_short_ = false;
    walk(0, 0, left);
    if (found_ || paths_left_ <= 0 || budget_.stopped()) return false;
    any_unknown_ = (shortest_ > 0 && any_unknown_) || unknown_;
    if (!cut_short_) return !any_unknown_;
    if (looked_ > kMostLooked) return false;
  }
  return false;
}

// Every multiset of steps once, as long as its remainder can still be met.
void Corner::walk(std::size_t from, std::int64_t at, Cost left) {
  const std::int64_t rest = group_.difference(target_, at);
  if (to_go_[rest] > left || found_ || paths_left_ <= 0) return;
  if (rest == 0 && path_.size() >= shortest_ && left < scale_ * model_.cost_grid && !refuted()) {
    --paths_left_;
    offer();
  }
  for (std::size_t j = from; j < steps_.size() && steps_[j].cost <= left && !found_ && paths_left_ > 0; ++j) {
    if (++looked_ > kMostLooked || !budget_.spend(10)) {
      cut_short_ = true;
      return;
    }
    const std::int64_t next = group_.sum(at, steps_[j].element);
    if (to_go_[group_.difference(target_, next)] > left - steps_[j].cost) continue;
    const int k = type_of(steps_[j]);
    if (k < 0) unknown_ = true;  // pieces cut in excess
    if (k < 0 || free_sticks_[k] == 0) continue;
    if (path_.size() == longest_) {
      cut_short_ = true;
      return;
    }
    --free_sticks_[k];
    path_.push_back(static_cast<int>(j));
    walk(j, next, left - steps_[j].cost);
    path_.pop_back();
    ++free_sticks_[k];
  }
}

int Corner::type_of(const Step& step) const {
  if (step.idle >= 0) return step.idle;
  return step.pattern >= 0 ? patterns_[step.pattern].type : -1;
}

// Cuts what the path leaves to free patterns.
void Corner::offer() {
  Task rest = task_;
  rest.limit = free_sticks_;
  std::vector<Use> uses;
  for (const int j : path_) {
    const Step& step = steps_[j];
    if (step.pattern < 0) continue;
    uses.push_back({patterns_[step.pattern], 1});
    for (const Take& take : patterns_[step.pattern].takes)
      if ((rest.demand[take.sort] -= take.count) < 0) return;  // no plan cuts more than is wanted
  }
  Rest cutter(model_, free_, budget_);
  const Rest::Answer answer = cutter.run(rest, uses, cost_, 24);
  if (answer == Rest::Answer::found) {
    incumbent_.offer(model_, without_surplus(uses, task_.demand));
    found_ = true;
  } else if (answer == Rest::Answer::unknown) {
    unknown_ = true;
  } else if (refutations_.size() < kMostReasons) {
    refute_by(cutter.reason().price, cutter.reason().gain);
  }
}

// What shows one path to lead nowhere often shows it of others, for a few additions.
void Corner::refute_by(const std::vector<std::int64_t>& price, const std::vector<std::int64_t>& gain) {
  Refutation refutation;
  for (std::size_t s = 0; s < price.size(); ++s) refutation.start += static_cast<Wide>(price[s]) * task_.demand[s];
  for (std::size_t k = 0; k < gain.size(); ++k) refutation.start -= static_cast<Wide>(gain[k]) * task_.limit[k];
  for (const Step& step : steps_) {
    const int k = type_of(step);
    std::int64_t change = k < 0 ? 0 : gain[k];
    if (step.pattern >= 0) {
      change += model_.types[k].price * kReasonScale;
      for (const Take& take : patterns_[step.pattern].takes) change -= price[take.sort] * take.count;
    }
    refutation.change.push_back(change);
  }
  budget_.spend(20 * static_cast<std::int64_t>(steps_.size()));
  refutations_.push_back(std::move(refutation));
}

bool Corner::refuted() {
  budget_.spend(static_cast<std::int64_t>(path_.size() + 4));
  const Wide most = static_cast<Wide>(cost_) * kReasonScale;
  for (std::size_t r = 0; r < refutations_.size(); ++r) {
    Wide cost = refutations_[r].start;
    for (const int j : path_) cost += refutations_[r].change[j];
    if (cost <= most) continue;
    if (r > 0) std::swap(refutations_[r], refutations_[r / 2]);  // those that serve often come first
    return true;
  }
  return false;
}

}  // namespace railwright::cutting
