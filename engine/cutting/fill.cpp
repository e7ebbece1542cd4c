// SPDX-License-Identifier: MIT
#include "engine/cutting/fill.h"

#include <algorithm>
#include <cmath>

#include "engine/cutting/greedy.h"

namespace railwright::cutting {
namespace {

double left_worth(const Task& task, const std::vector<double>& prices) {
  double sum = 0;
  for (std::size_t s = 0; s < prices.size(); ++s) sum += prices[s] * static_cast<double>(task.demand[s]);
  return sum;
}

Quote raised_quote(const Model& model, const Task& task, const std::vector<double>& prices, double raise) {
  Quote quote;
  double dearest = 1;
  for (const Type& type : model.types) dearest = std::max(dearest, static_cast<double>(type.price));
  while (quote.scale * dearest < 0x1p40 && quote.scale < 0x1p30) quote.scale *= 2;
  for (std::size_t s = 0; s < prices.size(); ++s)
    quote.value.push_back(task.demand[s] > 0 ? std::floor(std::min(prices[s], dearest) * raise * quote.scale) : 0.0);
  for (std::size_t k = 0; k < model.types.size(); ++k) quote.extra.push_back(task.limit[k] > 0 ? 0.0 : -0x1p51);
  return quote;
}

// Some of the pieces that a pattern asks for may be gone. They give way to the next shorter ones, and what room that leaves
// goes to exchanging another piece for a longer one.
class Repair {
 public:
  Repair(const Model& model, const Task& task) : model_(model), task_(task) {}

  bool run(Pattern& pattern) const {
    std::vector<int> pieces;
    std::vector<std::int64_t> left = task_.demand;
    std::int64_t room = model_.types[pattern.type].capacity;
    for (const Take& take : pattern.takes) {
      for (std::int64_t i = 0; i < take.count; ++i) {
        const int s = next_shorter(take.sort, left);
        if (s < 0) return false;
        --left[s];
        room -= model_.sorts[s].size;
        pieces.push_back(s);
      }
    }
    for (int& piece : pieces) room = lengthen(piece, room, left);
    std::sort(pieces.begin(), pieces.end());
    pattern.takes.clear();
    for (const int s : pieces) {
      if (pattern.takes.empty() || pattern.takes.back().sort != s) pattern.takes.push_back({s, 0});
      ++pattern.takes.back().count;
    }
    return true;
  }

 private:
  static constexpr int kReach = 12;  // neighbours looked at

  int next_shorter(int sort, const std::vector<std::int64_t>& left) const {
    const int end = std::min(sort + kReach, static_cast<int>(left.size()));
    for (int s = sort; s < end; ++s)
      if (left[s] > 0) return s;
    return -1;
  }

  std::int64_t lengthen(int& piece, std::int64_t room, std::vector<std::int64_t>& left) const {
    for (int s = std::max(0, piece - kReach); s < piece && room > 0; ++s) {
      const std::int64_t more = model_.sorts[s].size - model_.sorts[piece].size;
      if (left[s] <= 0 || more > room) continue;
      ++left[piece];
      --left[s];
      piece = s;
      return room - more;
    }
    return room;
  }

  const Model& model_;
  const Task& task_;
};

double worth_of(const Pattern& pattern, const std::vector<double>& prices) {
  double sum = 0;
  for (const Take& take : pattern.takes) sum += prices[take.sort] * static_cast<double>(take.count);
  return sum;
}

// Cuts what the knapsack offers until the quota is spent; returns what was spent.
double cut_offers(const Model& model, Task& task, const std::vector<double>& prices, double raise, double quota, Offers& offers, std::vector<Use>& uses) {
  double spent = 0;
  for (Offer& offer : offers.patterns) {
    const auto cost = static_cast<double>(model.cost(offer.pattern));
    if (uses_left(offer.pattern, task) < 1) {
      if (task.limit[offer.pattern.type] < 1 || !Repair(model, task).run(offer.pattern)) continue;
      if (worth_of(offer.pattern, prices) * raise < static_cast<double>(model.cost(offer.pattern))) continue;
    }
    const std::int64_t times = uses_left(offer.pattern, task);
    const std::int64_t some = cost > 0 ? std::clamp<std::int64_t>(static_cast<std::int64_t>((quota - spent) / cost), 1, times) : times;
    take_out(offer.pattern, some, task);
    uses.push_back({offer.pattern, some});
    spent += cost * static_cast<double>(some);
    if (spent >= quota) break;
  }
  return spent;
}

// The program's prices may be equal over a stretch of lengths; a little of the price by length makes the longest that fits the choice.
std::vector<double> tempered(const Model& model, const std::vector<double>& prices, double by_length) {
  double rate = 1e300;
  for (const Type& type : model.types) rate = std::min(rate, static_cast<double>(type.price) / static_cast<double>(type.capacity));
  std::vector<double> mixed;
  for (std::size_t s = 0; s < prices.size(); ++s) mixed.push_back(prices[s] * (1 - by_length) + rate * by_length * static_cast<double>(model.sorts[s].size));
  return mixed;
}

}  // namespace

std::vector<Use> peel_by_prices(const Model& model, Task& task, const std::vector<double>& given, const Peel& how, Budget& budget) {
  const std::vector<double> prices = tempered(model, given, how.by_length);
  std::vector<Use> uses;
  double extra = how.loose;
  const double enough = left_worth(task, prices) * how.leave;
  Knapsack knapsack(model, task.demand);
  if (!knapsack.dynamic()) return uses;
  for (int round = 0; round < 200 && extra < 3 && !done(task) && !budget.stopped(); ++round) {
    const double worth = left_worth(task, prices);
    if (worth <= enough) break;
    knapsack.set_demand(task.demand);
    Offers offers = knapsack.price(raised_quote(model, task, prices, 1 + extra), 1'000'000, budget);
    const double quota = std::min(worth / 4, worth - enough);
    if (cut_offers(model, task, prices, 1 + extra, quota, offers, uses) < quota / 2) extra *= 1.7;
  }
  return uses;
}

Solution fill_by_prices(const Model& model, Task task, const std::vector<double>& prices, Budget& budget, double loose) {
  std::vector<Use> uses = peel_by_prices(model, task, prices, {0, 0.05, loose}, budget);
  Solution rest = greedy(model, task);
  if (!rest.found) return {};
  uses.insert(uses.end(), rest.uses.begin(), rest.uses.end());
  const std::int64_t cost = total_cost(model, uses);
  return {true, cost, std::move(uses)};
}

}  // namespace railwright::cutting
