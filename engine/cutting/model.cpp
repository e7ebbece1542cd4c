// SPDX-License-Identifier: MIT
#include "engine/cutting/model.h"

#include <algorithm>
#include <numeric>

namespace railwright::cutting {

Model::Model(const Instance& instance) : instance_(&instance) {
  values_drops = instance.rules().keep_from && instance.rules().drop_value.units() > 0;
  collect_sorts();
  collect_types();
}

void Model::collect_sorts() {
  const auto& pieces = instance_->pieces();
  const std::int64_t kerf = instance_->rules().kerf.nm();
  std::vector<int> order;
  for (std::size_t p = 0; p < pieces.size(); ++p)
    if (pieces[p].count > 0) order.push_back(static_cast<int>(p));
  std::sort(order.begin(), order.end(), [&](int a, int b) { return pieces[a].length != pieces[b].length ? pieces[a].length > pieces[b].length : a < b; });
  sort_of_piece.assign(pieces.size(), -1);
  std::int64_t divisor = 0;
  for (const int p : order) {
    const std::int64_t size = pieces[p].length.nm() + kerf;
    if (sorts.empty() || sorts.back().size != size) sorts.push_back({size, 0});
    sorts.back().demand += pieces[p].count;
    sort_of_piece[p] = static_cast<int>(sorts.size()) - 1;
    divisor = std::gcd(divisor, size);
  }
  grid_nm_ = std::max<std::int64_t>(divisor, 1);
  for (Sort& sort : sorts) sort.size /= grid_nm_;
}

void Model::collect_types() {
  if (sorts.empty()) return;
  const std::int64_t all = pieces();
  std::vector<Type> candidates;
  for (std::size_t k = 0; k < instance_->stocks().size(); ++k) {
    const Stock& stock = instance_->stocks()[k];
    const std::int64_t room = instance_->usable(stock).nm() + instance_->rules().kerf.nm();
    const std::int64_t limit = std::min(all, stock.count.value_or(all));
    if (room / grid_nm_ < sorts.back().size || limit == 0) continue;
    candidates.push_back({room / grid_nm_, stock.price.units(), limit, stock.count.has_value() && *stock.count < all, static_cast<int>(k)});
  }
  types = std::move(candidates);
  std::vector<Type> kept;
  for (std::size_t k = 0; k < types.size(); ++k)
    if (!dominated(k)) kept.push_back(types[k]);
  types = std::move(kept);
  std::int64_t divisor = 0;
  for (const Type& type : types) divisor = std::gcd(divisor, type.price);
  cost_grid = values_drops ? 1 : std::max<std::int64_t>(divisor, 1);
}

// Another stock, to be had without limit, is no shorter and no dearer.
bool Model::dominated(std::size_t k) const {
  const auto room = [&](std::size_t t) { return instance_->stocks()[types[t].stock].length; };
  for (std::size_t other = 0; other < types.size(); ++other) {
    if (other == k || types[other].counted || room(other) < room(k) || types[other].price > types[k].price) continue;
    const bool equal = room(other) == room(k) && types[other].price == types[k].price && !types[k].counted;
    if (!equal || other < k) return true;
  }
  return false;
}

std::int64_t Model::cost(int type, std::int64_t used) const {
  if (!values_drops) return types[type].price;
  const Stock& stock = instance_->stocks()[types[type].stock];
  const std::int64_t drop = instance_->usable(stock).nm() - used * grid_nm_;
  return types[type].price - instance_->worth(stock, Length::from_nm(std::max<std::int64_t>(drop, 0))).units();
}

std::int64_t Model::used(const Pattern& pattern) const {
  std::int64_t sum = 0;
  for (const Take& take : pattern.takes) sum += sorts[take.sort].size * take.count;
  return sum;
}

std::int64_t Model::pieces() const {
  std::int64_t sum = 0;
  for (const Sort& sort : sorts) sum += sort.demand;
  return sum;
}

std::int64_t Model::round_up(std::int64_t bound) const {
  const std::int64_t rest = bound % cost_grid;
  return rest > 0 ? bound + (cost_grid - rest) : bound;
}

std::int64_t total_cost(const Model& model, const std::vector<Use>& uses) {
  std::int64_t cost = 0;
  for (const Use& use : uses) cost += model.cost(use.pattern) * use.count;
  return cost;
}

}  // namespace railwright::cutting
