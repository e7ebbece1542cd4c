// SPDX-License-Identifier: MIT
#include "engine/cutting/master.h"

#include <algorithm>
#include <cmath>

#include "engine/cutting/wide.h"

namespace railwright::cutting {
namespace {

std::int64_t to_whole(Wide value) {
  constexpr Wide kMost = static_cast<Wide>(INT64_MAX) / 4;
  return static_cast<std::int64_t>(std::clamp(value, -kMost, kMost));
}

Wide ceil_div(Wide a, Wide b) { return a >= 0 ? (a + b - 1) / b : -((-a) / b); }

}  // namespace

Master::Master(const Model& model, Task task) : model_(model), task_(std::move(task)), knapsack_(model, task_.demand) {
  std::int64_t dearest = 1;
  for (const Type& type : model.types) dearest = std::max(dearest, type.price);
  unit_ = static_cast<double>(dearest);
  while (scale_ * unit_ < 0x1p39 && scale_ < 0x1p30) scale_ *= 2;
  prices_.assign(model.sorts.size(), 0.0);
  double rate = 1e300;  // the lowest price per length: worth that any program gives at least to a length
  for (const Type& type : model.types) rate = std::min(rate, static_cast<double>(type.price) / static_cast<double>(type.capacity));
  for (const Sort& sort : model.sorts) center_.push_back(rate * static_cast<double>(sort.size));
  build_rows();
  simplex_ = std::make_unique<Simplex>(rows_);
}

void Master::build_rows() {
  sort_row_.assign(model_.sorts.size(), -1);
  type_row_.assign(model_.types.size(), -1);
  bool counted = !task_.conditions.empty() || task_.limit_all;
  for (const Type& type : model_.types) counted = counted || type.counted;
  for (std::size_t s = 0; s < model_.sorts.size(); ++s) {
    if (task_.demand[s] == 0) continue;
    // No piece is worth more than the cheapest unlimited stick that holds it; where sticks are counted it may be.
    double penalty = counted ? 10.0 : 1e300;
    for (const Type& type : model_.types)
      if (!counted && type.capacity >= model_.sorts[s].size) penalty = std::min(penalty, static_cast<double>(type.price) / unit_ * 1.0001 + 1e-6);
    sort_row_[s] = static_cast<int>(rows_.size());
    rows_.push_back({static_cast<double>(task_.demand[s]), true, std::min(penalty, 1e6)});
  }
  for (std::size_t k = 0; k < model_.types.size(); ++k) {
    if (!model_.types[k].counted && !task_.limit_all) continue;
    type_row_[k] = static_cast<int>(rows_.size());
    rows_.push_back({static_cast<double>(task_.limit[k]), false, 0});
  }
  for (const Condition& condition : task_.conditions) {
    condition_row_.push_back(static_cast<int>(rows_.size()));
    rows_.push_back({static_cast<double>(condition.bound), condition.at_least, 10.0});
  }
}

// How often a pattern counts towards a condition.
double Master::weight(const Condition& condition, const Pattern& pattern) const {
  if (condition.counts == Condition::Counts::sticks) return pattern.type == condition.type ? 1 : 0;
  if (condition.counts == Condition::Counts::sticks_filled_to) return pattern.type == condition.type && model_.used(pattern) == condition.position ? 1 : 0;
  std::int64_t at = 0;
  for (const Take& take : pattern.takes) {
    const std::int64_t size = model_.sorts[take.sort].size;
    if (take.sort == condition.sort) {
      const std::int64_t ahead = condition.position - at;
      return ahead >= 0 && ahead % size == 0 && ahead / size < take.count ? 1 : 0;
    }
    at += size * take.count;
  }
  return 0;
}

bool Master::add(const Pattern& pattern) {
  std::vector<std::int64_t> key{pattern.type};
  for (const Take& take : pattern.takes) {
    key.push_back(take.sort);
    key.push_back(take.count);
  }
  if (!seen_.insert(std::move(key)).second) return false;
  std::vector<Simplex::Entry> entries;
  for (const Take& take : pattern.takes) entries.push_back({sort_row_[take.sort], static_cast<double>(take.count)});
  if (type_row_[pattern.type] >= 0) entries.push_back({type_row_[pattern.type], 1.0});
  for (std::size_t c = 0; c < task_.conditions.size(); ++c)
    if (const double w = weight(task_.conditions[c], pattern); w != 0) entries.push_back({condition_row_[c], w});
  column_.push_back(simplex_->add_column(static_cast<double>(model_.cost(pattern)) / unit_, entries));
  pool_.push_back(pattern);
  return true;
}

// A pattern from elsewhere, with what is no longer wanted left out.
void Master::seed(const Pattern& pattern) {
  Pattern fitted{pattern.type, {}};
  for (const Take& take : pattern.takes)
    if (const std::int64_t count = std::min(take.count, task_.demand[take.sort]); count > 0) fitted.takes.push_back({take.sort, count});
  if (!fitted.takes.empty() && task_.limit[fitted.type] > 0) add(fitted);
}

// What meeting a condition once more is worth, in whole quote units, with the sign that its direction allows.
double Master::condition_price(std::size_t c) const {
  const double value = std::clamp(std::floor(simplex_->duals()[condition_row_[c]] * unit_ * scale_), -0x1p48, 0x1p48);
  return task_.conditions[c].at_least ? std::max(value, 0.0) : std::min(value, 0.0);
}

Quote Master::quote(double hold) const {
  const auto whole = [&](int row) { return row < 0 ? 0.0 : std::floor(simplex_->duals()[row] * unit_ * scale_); };
  Quote quote;
  quote.scale = scale_;
  double densest = 0;
  std::int64_t longest = 0;
  for (const Type& type : model_.types) longest = std::max(longest, type.capacity);
  for (std::size_t s = 0; s < model_.sorts.size(); ++s) {
    const double price = sort_row_[s] < 0 ? 0.0 : simplex_->duals()[sort_row_[s]] * unit_ * (1 - hold) + center_[s] * hold;
    quote.value.push_back(std::max(0.0, std::floor(price * scale_)));
    densest = std::max(densest, quote.value.back() / static_cast<double>(model_.sorts[s].size));
  }
  // Sums of values must stay exact: prices that could add up beyond 2^52 are lowered, which only weakens the bound.
  if (const double most = densest * static_cast<double>(longest); most > 0x1p51)
    for (double& value : quote.value) value = std::floor(value * (0x1p51 / most));
  for (std::size_t k = 0; k < model_.types.size(); ++k) quote.extra.push_back(task_.limit[k] == 0 ? -0x1p51 : std::clamp(whole(type_row_[k]), -0x1p50, 0.0));
  for (std::size_t c = 0; c < task_.conditions.size(); ++c) {
    const Condition& condition = task_.conditions[c];
    const double value = condition_price(c);
    switch (condition.counts) {
      case Condition::Counts::sticks:
        quote.extra[condition.type] += value;
        break;
      case Condition::Counts::pieces_at:
        quote.arcs.push_back({condition.sort, condition.position, value});
        break;
      case Condition::Counts::sticks_filled_to:
        quote.ends.push_back({condition.type, condition.position, value});
        break;
    }
  }
  return quote;
}

// With whole prices u >= 0, and V_k the most that a stick of type k gains, every plan with n_k <= L_k sticks costs at least
// u d - sum L_k max(0, V_k); and without conditions at least u d / r - ..., where r is the highest ratio of value to cost among
// the types without a count, since u / r gains nothing on them.
void Master::raise_bound(const Quote& quote, const Offers& offers, std::int64_t cutoff) {
  Wide sum = 0;
  for (std::size_t s = 0; s < model_.sorts.size(); ++s) sum += static_cast<Wide>(static_cast<std::int64_t>(quote.value[s])) * task_.demand[s];
  Wide conditional = 0;
  std::vector<double> kept(model_.types.size(), 0.0);  // extra that stems from conditions
  for (std::size_t c = 0; c < task_.conditions.size(); ++c) {
    const Condition& condition = task_.conditions[c];
    const double value = condition_price(c);
    if (condition.counts == Condition::Counts::sticks) kept[condition.type] += value;
    conditional += static_cast<Wide>(static_cast<std::int64_t>(value)) * condition.bound;
  }
  Wide charged = 0;
  Wide charged_counted = 0;
  for (std::size_t k = 0; k < model_.types.size(); ++k) {
    if (task_.limit[k] == 0) continue;
    const double gains = std::max(0.0, offers.best[k] - quote.extra[k] + kept[k]);
    std::int64_t most = task_.limit[k];
    if (!model_.values_drops && model_.types[k].price > 0 && cutoff < INT64_MAX) most = std::min(most, cutoff / model_.types[k].price + 1);
    const Wide charge = static_cast<Wide>(static_cast<std::int64_t>(std::ceil(std::min(gains, 0x1p60)))) * most;
    charged += charge;
    if (model_.types[k].counted) charged_counted += charge;
  }
  const auto scale = static_cast<Wide>(static_cast<std::int64_t>(scale_));
  bound_ = std::max(bound_, to_whole(ceil_div(sum + conditional - charged, scale)));
  if (!task_.conditions.empty() || offers.ratio >= 1e299) return;
  const double shrink = 1.0 / (std::max(1.0, offers.ratio) * (1 + 1e-14));
  const auto parts = static_cast<Wide>(static_cast<std::int64_t>(std::floor(shrink * 0x1p40)));  // sum < 2^84, so the product fits
  bound_ = std::max(bound_, to_whole(ceil_div(((sum >> 20) * parts >> 20) - charged_counted, scale)));
}

bool Master::settled(const Limits& limits) const {
  if (model_.round_up(bound_) >= limits.cutoff) return true;
  if (short_of_sticks()) return false;
  const double value = this->value();
  const double least = value * (1 - 1e-9);
  if (static_cast<double>(model_.round_up(bound_)) >= least) return true;
  return value - static_cast<double>(bound_) <= limits.gap * value;
}

bool Master::raise_penalty() {
  if (!short_of_sticks() || penalty_raises_ >= 4) return false;
  ++penalty_raises_;
  simplex_->set_penalty(32.0);
  scale_ = std::max(1.0, scale_ / 32);  // prices grow with the penalty; their sums must stay exact
  return true;
}

// One question to the knapsack. `hold` in 0..1 asks at prices between the program's and the center's, which keeps the program's prices from
// swinging (Wentges 1997). Returns how many new columns came of it, -1 when the bound settles the matter.
int Master::ask(double hold, const Limits& limits, bool& exact, Budget& budget) {
  const Quote quote = this->quote(hold);
  const Offers offers = knapsack_.price(quote, std::max(10, simplex_->rows()), budget);
  exact = offers.exact;
  const std::int64_t before = bound_;
  raise_bound(quote, offers, limits.cutoff);
  if (bound_ > before || hold == 0) {
    const double shrink = offers.ratio > 1 && offers.ratio < 1e299 ? 1 / offers.ratio : 1;
    for (std::size_t s = 0; s < center_.size(); ++s) {
      prices_[s] = quote.value[s] / scale_;
      if (bound_ > before) center_[s] = prices_[s] * shrink;
    }
  }
  if (settled(limits)) return -1;
  int added = 0;
  for (const Offer& offer : offers.patterns) {
    const double gain = hold == 0 ? offer.gain / scale_ : -reduced_cost(offer.pattern);
    if (gain > 1e-8 * unit_) added += add(offer.pattern);
  }
  return added;
}

bool Master::solve(const Limits& limits, Budget& budget) {
  double hold = task_.conditions.empty() ? 1.0 : 0.0;
  for (int round = 0; round < limits.rounds; ++round) {
    if (!simplex_->optimise(budget)) return false;
    bool exact = true;
    int added = hold > 0 ? ask(hold, limits, exact, budget) : 0;
    if (added == 0) {
      hold = hold > 0.35 ? hold - 0.1 : hold;
      added = ask(0, limits, exact, budget);
    }
    if (budget.stopped()) return false;
    if (added < 0) return true;
    if (added == 0 && !raise_penalty()) return exact;
  }
  return true;
}

std::vector<Share> Master::shares() const {
  const std::vector<double> values = simplex_->values();
  std::vector<Share> shares;
  for (std::size_t p = 0; p < pool_.size(); ++p)
    if (values[column_[p]] > 1e-6) shares.push_back({pool_[p], values[column_[p]]});
  return shares;
}

std::vector<double> Master::last_prices() const {
  std::vector<double> prices;
  for (const int row : sort_row_) prices.push_back(row < 0 ? 0.0 : simplex_->duals()[row] * unit_);
  return prices;
}

double Master::reduced_cost(const Pattern& pattern) const {
  double cost = static_cast<double>(model_.cost(pattern)) / unit_;
  for (const Take& take : pattern.takes) cost -= simplex_->duals()[sort_row_[take.sort]] * static_cast<double>(take.count);
  if (type_row_[pattern.type] >= 0) cost -= simplex_->duals()[type_row_[pattern.type]];
  return cost * unit_;
}

std::vector<Pattern> Master::cheap_patterns(double most) const {
  std::vector<Pattern> cheap;
  for (std::size_t p = 0; p < pool_.size(); ++p)
    if (simplex_->basic(column_[p])) cheap.push_back(pool_[p]);
  for (std::size_t p = 0; p < pool_.size(); ++p)
    if (!simplex_->basic(column_[p]) && reduced_cost(pool_[p]) <= most) cheap.push_back(pool_[p]);
  return cheap;
}

}  // namespace railwright::cutting
