// SPDX-License-Identifier: MIT
#include "engine/cutting/numbers.h"

#include <algorithm>
#include <cmath>

#include "engine/cutting/gather.h"
#include "engine/cutting/knapsack.h"

namespace railwright::cutting {
namespace {

constexpr std::size_t kFewTypes = 4;
constexpr std::size_t kKept = 12;          // numbers listed at one cost
constexpr std::size_t kTried = 2;          // numbers tried by gathering at one cost
constexpr std::int64_t kMostChanged = 24;  // sticks by which numbers tried by gathering differ from the incumbent's
constexpr int kIdle = 24;                  // attempts without a better plan before varying ends
constexpr std::int64_t kMostLooks = 400'000;
constexpr std::int64_t kMostLooksMany = 20'000;  // where there are many types, so that the dynamic program gets its turn

bool suffices(const std::vector<Valuation>& valuations, const std::vector<std::int64_t>& sticks) {
  for (const Valuation& valuation : valuations) {
    Wide sum = -valuation.wanted;
    for (std::size_t k = 0; k < sticks.size(); ++k) sum += static_cast<Wide>(valuation.worth[k]) * sticks[k];
    if (sum < 0) return false;
  }
  return true;
}

// All numbers of sticks at one cost. Each stick of a type gives away what its price is above the worth it holds, or, where that is
// less than nothing, each stick left unused; no more may be given away in all than the cost is above what is wanted. Types that give away most come first.
class Few {
 public:
  Few(const Model& model, const Task& task, const std::vector<Valuation>& valuations, const std::vector<std::int64_t>& about)
      : model_(model), task_(task), valuation_(valuations.front()), valuations_(valuations), about_(about) {
    for (int k = 0; k < static_cast<int>(model.types.size()); ++k) order_.push_back(k);
    const auto size = [&](int k) { return lost(k) < 0 ? -lost(k) : lost(k); };
    std::sort(order_.begin(), order_.end(), [&](int a, int b) { return size(a) != size(b) ? size(a) > size(b) : a < b; });
    sticks_.assign(order_.size(), 0);
    most_looks_ = order_.size() <= kFewTypes ? kMostLooks : kMostLooksMany;
  }

  void run(std::int64_t cost) {
    Wide spare = static_cast<Wide>(cost) * valuation_.scale - valuation_.wanted;
    for (const int k : order_) spare += std::max<Wide>(0, -lost(k)) * task_.limit[k];
    go(0, cost, spare);
  }

  std::vector<std::pair<Wide, std::vector<std::int64_t>>> found;  // what is to spare; most first
  std::vector<std::pair<Wide, std::vector<std::int64_t>>> near;   // how far from the numbers given, negative; nearest first
  std::int64_t looks = 0;
  std::int64_t passed = 0;  // numbers found, listed or not
  bool whole() const { return looks <= most_looks_; }

 private:
  Wide lost(int k) const { return static_cast<Wide>(model_.types[k].price) * valuation_.scale - valuation_.worth[k]; }

  // `spare` assumes that of the types to come those that gain are used to their limit.
  void go(std::size_t depth, std::int64_t cost, Wide spare) {
    if (++looks > most_looks_ || spare < 0) return;
    const int k = order_[depth];
    const std::int64_t price = model_.types[k].price;
    std::int64_t least = 0;
    std::int64_t most = price > 0 ? std::min(task_.limit[k], cost / price) : task_.limit[k];
    const bool last = depth + 1 == order_.size();
    if (last) {
      if (price > 0 ? cost % price != 0 || cost / price > most : cost != 0) return;
      least = most;
    }
    const Wide loss = lost(k);
    if (loss < 0 && spare / -loss < task_.limit[k]) least = std::max(least, task_.limit[k] - static_cast<std::int64_t>(spare / -loss));
    if (loss < 0) spare += loss * task_.limit[k];
    if (loss > 0 && spare / loss < most) most = static_cast<std::int64_t>(spare / loss);
    for (std::int64_t n = least; n <= most && looks <= most_looks_; ++n) {
      sticks_[k] = n;
      const Wide left = spare - loss * n;
      if (!last) {
        go(depth + 1, cost - n * price, left);
      } else if (left >= 0) {
        keep(left);
      }
    }
  }

  void keep(Wide spare) {
    if (!suffices(valuations_, sticks_)) return;
    ++passed;
    insert(found, spare);
    Wide far = 0;
    for (std::size_t k = 0; k < sticks_.size(); ++k) far += std::abs(sticks_[k] - about_[k]);
    insert(near, -far);
  }

  void insert(std::vector<std::pair<Wide, std::vector<std::int64_t>>>& list, Wide rank) {
    if (list.size() == kKept && list.back().first >= rank) return;
    const auto spot = std::find_if(list.begin(), list.end(), [&](const auto& other) { return other.first < rank; });
    list.insert(spot, {rank, sticks_});
    if (list.size() > kKept) list.pop_back();
  }

  const Model& model_;
  const Task& task_;
  const Valuation& valuation_;
  const std::vector<Valuation>& valuations_;
  const std::vector<std::int64_t>& about_;
  std::vector<int> order_;
  std::vector<std::int64_t> sticks_;
  std::int64_t most_looks_ = 0;
};

// Where there are many types: a dynamic program over the cost by which numbers differ from given ones, each type by a few sticks.
class Many {
 public:
  // `variant` 0 lets every type change; others hold a part of them fast, by a fixed rule.
  Many(const Model& model, const Task& task, const Valuation& valuation, const std::vector<std::int64_t>& about, std::uint64_t variant)
      : model_(model), task_(task), valuation_(valuation), about_(about), variant_(variant) {
    std::int64_t dearest = 1;
    for (const Type& type : model.types) dearest = std::max(dearest, type.price);
    half_ = std::min<std::int64_t>(2 * dearest / model.cost_grid, 30'000);
    width_ = 2 * half_ + 1;
  }

  // False when no numbers with this surplus of cost, in the cost grid, were found.
  bool run(std::int64_t surplus, std::vector<std::int64_t>& sticks) {
    if (surplus < -half_ || surplus > half_) return false;
    best_.assign(static_cast<std::size_t>(width_), kNone);
    choice_.assign(static_cast<std::size_t>(width_) * about_.size(), 0);
    best_[half_] = 0;
    for (std::size_t k = 0; k < about_.size(); ++k) add_type(k);
    std::int64_t at = half_ + surplus;
    if (best_[at] == kNone) return false;
    sticks = about_;
    Wide spare = -valuation_.wanted;
    for (std::size_t k = about_.size(); k-- > 0;) {
      const std::int64_t more = choice_[k * static_cast<std::size_t>(width_) + at];
      sticks[k] += more;
      at -= more * model_.types[k].price / model_.cost_grid;
      spare += static_cast<Wide>(valuation_.worth[k]) * sticks[k];
    }
    return spare >= 0;
  }
  std::int64_t cells() const { return width_ * static_cast<std::int64_t>(about_.size()); }

 private:
  static constexpr std::int64_t kNone = INT64_MIN / 4;

  void add_type(std::size_t k) {
    const std::uint64_t hash = (variant_ * 1000003 + k + 1) * 0x9E3779B97F4A7C15ULL >> 40;
    const std::int64_t reach = variant_ > 0 && hash % 3 != 0 ? 0 : 2;
    std::vector<std::int64_t> next(static_cast<std::size_t>(width_), kNone);
    for (std::int64_t more = std::max(-reach, -about_[k]); more <= std::min(reach, task_.limit[k] - about_[k]); ++more) {
      const std::int64_t shift = more * model_.types[k].price / model_.cost_grid;
      const std::int64_t worth = more * valuation_.worth[k];
      for (std::int64_t c = std::max<std::int64_t>(0, shift); c < std::min(width_, width_ + shift); ++c) {
        if (best_[c - shift] == kNone || best_[c - shift] + worth <= next[c]) continue;
        next[c] = best_[c - shift] + worth;
        choice_[k * static_cast<std::size_t>(width_) + c] = static_cast<std::int8_t>(more);
      }
    }
    best_ = std::move(next);
  }

  const Model& model_;
  const Task& task_;
  const Valuation& valuation_;
  const std::vector<std::int64_t>& about_;
  std::uint64_t variant_;
  std::int64_t half_ = 0;
  std::int64_t width_ = 0;
  std::vector<std::int64_t> best_;
  std::vector<std::int8_t> choice_;
};

}  // namespace

Valuation value_at(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget) {
  Quote quote;
  double dearest = 1;
  for (const Type& type : model.types) dearest = std::max(dearest, static_cast<double>(type.price));
  while (quote.scale * dearest < 0x1p36 && quote.scale < 0x1p30) quote.scale *= 2;
  Valuation valuation;
  valuation.scale = static_cast<std::int64_t>(quote.scale);
  for (std::size_t s = 0; s < prices.size(); ++s) {
    quote.value.push_back(std::max(0.0, std::floor(std::min(prices[s], 64 * dearest) * quote.scale)));
    valuation.value.push_back(static_cast<std::int64_t>(quote.value.back()));
    valuation.wanted += static_cast<Wide>(valuation.value.back()) * task.demand[s];
  }
  quote.extra.assign(model.types.size(), 0.0);
  const Offers offers = Knapsack(model, task.demand).price(quote, 0, budget);
  for (std::size_t k = 0; k < model.types.size(); ++k)
    valuation.worth.push_back(static_cast<std::int64_t>(std::ceil(offers.best[k])) + valuation.scale * model.types[k].price);
  return valuation;
}

Numbers::Numbers(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent)
    : model_(model), task_(task), budget_(budget), incumbent_(incumbent), valuations_{value_at(model, task, prices, budget)} {
  about_ = used();
}

Numbers::Numbers(const Model& model, const Task& task, const Master& root, Budget& budget, Incumbent& incumbent)
    : Numbers(model, task, root.prices(), budget, incumbent) {
  seeds_ = root.cheap_patterns(1e-2 * static_cast<double>(model.types.front().price));
  std::vector<double> sticks(model.types.size(), 0.0);
  for (const Share& share : root.shares()) sticks[share.pattern.type] += share.x;
  for (std::size_t k = 0; k < sticks.size(); ++k) about_[k] = std::min(task.limit[k], static_cast<std::int64_t>(sticks[k] + 0.5));
}

const Numbers::At& Numbers::at(std::int64_t cost) {
  const auto known = known_.find(cost);
  if (known != known_.end()) return known->second;
  At found = few(cost);
  if (!found.complete && model_.types.size() > kFewTypes) found = many(cost, about_, 0);
  return known_[cost] = std::move(found);
}

Numbers::At Numbers::few(std::int64_t cost) {
  Few few(model_, task_, valuations_, about_);
  few.run(cost);
  budget_.spend(few.looks * 2);
  At at;
  at.complete = few.whole() && few.passed <= static_cast<std::int64_t>(kKept);
  if (at.complete) few.near.clear();
  for (std::size_t i = 0; i < kKept && !few.found.empty(); ++i) {  // in turn the one with the most to spare and the nearest
    auto& from = i % 2 == 0 || few.near.empty() ? few.found : few.near;
    if (std::find(at.sticks.begin(), at.sticks.end(), from.front().second) == at.sticks.end()) at.sticks.push_back(from.front().second);
    from.erase(from.begin());
  }
  return at;
}

Numbers::At Numbers::many(std::int64_t cost, const Sticks& about, std::uint64_t variant) {
  std::int64_t surplus = cost;
  for (std::size_t k = 0; k < about.size(); ++k) surplus -= about[k] * model_.types[k].price;
  Many many(model_, task_, valuations_.front(), about, variant);
  At at;
  Sticks sticks;
  if (many.run(surplus / model_.cost_grid, sticks)) at.sticks.push_back(std::move(sticks));
  budget_.spend(many.cells() * 3);
  return at;
}

std::int64_t Numbers::raised(std::int64_t bound) {
  std::int64_t looked = 0;
  while (bound < incumbent_.cutoff() && ++looked <= 400 && !budget_.stopped()) {
    if (!at(bound).complete || !at(bound).sticks.empty()) break;
    bound += model_.cost_grid;
  }
  return bound;
}

Numbers::Sticks Numbers::used() const {
  Sticks used(model_.types.size(), 0);
  for (const Use& use : incumbent_.best.uses) used[use.pattern.type] += use.count;
  return used;
}

// How many sticks of the incumbent would have to be taken apart or added.
std::int64_t Numbers::difference(const Sticks& sticks) const {
  const Sticks now = used();
  std::int64_t sum = 0;
  for (std::size_t k = 0; k < sticks.size(); ++k) sum += std::abs(now[k] - sticks[k]);
  return sum;
}

bool Numbers::attempt(std::int64_t cost, std::int64_t steps) {
  const std::vector<Sticks> all = at(cost).sticks;
  std::size_t tried = 0;
  for (const Sticks& sticks : all) {
    if (tried == kTried || difference(sticks) > kMostChanged) continue;
    ++tried;
    std::vector<Use> plan = incumbent_.best.uses;
    if (Gather(model_, budget_, ++tries_).run(sticks, steps, plan)) return incumbent_.offer(model_, std::move(plan));
    if (budget_.stopped()) return false;
  }
  return false;
}

// Costs further and further from the bound, then closer to the last that failed, as long as that finds plans.
void Numbers::try_each(std::int64_t bound, std::int64_t steps) {
  std::int64_t failed = bound - model_.cost_grid;
  std::int64_t hop = model_.cost_grid;
  while (failed + hop < incumbent_.best.cost && !budget_.stopped()) {
    const std::int64_t cost = failed + hop;
    if (attempt(cost, steps)) {
      hop = model_.cost_grid;
      continue;
    }
    failed = cost;
    if (!at(cost).sticks.empty() || model_.types.size() > kFewTypes) hop *= 2;
  }
}

// Where there are many types: numbers near the incumbent's, each time with other types held fast, at costs between the bound and the incumbent's.
void Numbers::vary(std::int64_t bound, std::int64_t steps, int times) {
  if (model_.types.size() <= kFewTypes) return;
  int idle = 0;
  for (int i = 1; i <= times && idle < kIdle && bound < incumbent_.best.cost && !budget_.stopped(); ++i) {
    const std::int64_t gap = (incumbent_.best.cost - bound) / model_.cost_grid;
    const std::int64_t cost = bound + model_.cost_grid * (gap >> (i % 6 + 1));
    for (const Sticks& sticks : many(cost, i % 2 == 0 ? about_ : used(), static_cast<std::uint64_t>(i) + tries_).sticks) {
      std::vector<Use> plan = incumbent_.best.uses;
      idle = Gather(model_, budget_, ++tries_).run(sticks, steps, plan) && incumbent_.offer(model_, std::move(plan)) ? 0 : idle + 1;
    }
  }
}

// The program for these numbers alone. Without solution its prices tell why; otherwise it is rounded.
void Numbers::solve_for(const Sticks& sticks) {
  if (!solved_.insert({sticks, true}).second) return;
  Task task = task_;
  task.limit = sticks;
  task.limit_all = true;
  Master master(model_, task);
  for (const Pattern& seed : seeds_) master.seed(seed);
  Master::Limits limits;
  limits.cutoff = incumbent_.cutoff();
  master.solve(limits, budget_);
  if (budget_.stopped()) return;
  Valuation valuation = value_at(model_, task_, master.last_prices(), budget_);
  if (!suffices({valuation}, sticks)) {
    valuations_.push_back(std::move(valuation));
    known_.clear();
    return;
  }
  if (master.bound() >= incumbent_.cutoff()) return;
  Dive{model_, budget_, incumbent_}.run(master, task, 0);
}

std::int64_t Numbers::sharpen(std::int64_t bound, int most) {
  for (std::int64_t cost = raised(bound); cost < incumbent_.cutoff() && most > 0 && !budget_.stopped(); cost += model_.cost_grid) {
    for (bool again = true; again && most > 0 && !budget_.stopped();) {
      again = false;
      for (const Sticks& sticks : std::vector<Sticks>(at(cost).sticks)) {
        if (solved_.count(sticks) > 0) continue;
        --most;
        solve_for(sticks);
        again = true;
        break;
      }
    }
    if (!at(cost).complete) break;
  }
  return raised(bound);
}

std::vector<Numbers::Sticks> Numbers::open(std::int64_t bound) {
  constexpr std::size_t kMost = 200;
  std::vector<Sticks> all;
  for (std::int64_t cost = bound; cost < incumbent_.cutoff(); cost += model_.cost_grid) {
    const At& here = at(cost);
    if (!here.complete || all.size() > kMost) return {};
    all.insert(all.end(), here.sticks.begin(), here.sticks.end());
  }
  return all;
}

}  // namespace railwright::cutting
