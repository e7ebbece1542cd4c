// SPDX-License-Identifier: MIT
#include "engine/spacing/tariff.h"

#include <algorithm>

#include "engine/takeoff/orders.h"
#include "engine/takeoff/price_book.h"

namespace railwright::spacing {
namespace {

// Half the crew's day at least is taken to be work: a day that set-up fills is a fault that the plan names.
constexpr double kLeastUseful = 0.5;

double paid_per_useful_minute(const job::Crew& crew) {
  const double day = crew.hours_per_day * 60;
  const double useful = day - crew.setup_minutes_per_day - crew.travel_minutes_per_day;
  if (!(day > 0)) return 1;
  return day / std::max(useful, kLeastUseful * day);
}

std::int64_t ties_on_post(const job::Catalogue& catalogue, const job::Fence& fence) {
  if (fence.kind == job::FenceKind::rails) return 0;
  if (fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire) return takeoff::wires_of(fence);
  const job::Supply* row = catalogue.supply(fence.infill.supply);
  const Length height = fence.infill.height.nm() > 0 ? fence.infill.height : row == nullptr ? Length() : row->width;
  if (height.nm() <= 0) return 0;
  return takeoff::whole_pieces(height.metres(), takeoff::Habits{}.tie_on_post.metres()) + 1;
}

}  // namespace

Tariff::Tariff(const job::Job& job, const job::Catalogue& catalogue, Money concrete_per_m3)
    : job_(job), catalogue_(catalogue), concrete_per_m3_(concrete_per_m3) {
  const job::Crew& crew = job.choices.crew;
  per_minute_ = crew.hourly.value() / 60 * paid_per_useful_minute(crew);
  for (const job::Fitting& fitting : catalogue.fittings) fittings_.push_back(price_of_fitting(fitting));
}

Money Tariff::minutes(const std::string& operation, const std::string& unit) const {
  double sum = 0;
  for (const job::HourRow& row : catalogue_.hours) {
    if (row.operation == operation && row.unit == unit) sum += row.minutes;
  }
  return Money::whole(1).times(sum * per_minute_);
}

Money Tariff::supply(const std::string& kind, Length width) const {
  takeoff::Need need;
  need.item = kind;
  for (const job::Supply& row : catalogue_.supplies) {
    if (row.kind != kind || (width.nm() != 0 && row.width != width)) continue;
    need.item = row.id;
    need.each_length = row.length;
    need.each_kg = row.mass_kg;
    break;
  }
  Findings unused;
  return takeoff::unit_price(catalogue_, need, unused).price;
}

Money Tariff::price_of_fitting(const job::Fitting& fitting) const {
  takeoff::Need need;
  need.item = fitting.id;
  need.each_kg = fitting.mass_kg;
  need.own_price = fitting.price;
  Findings unused;
  const Money part = takeoff::unit_price(catalogue_, need, unused).price;
  return part + supply("bolt", {}) * fitting.bolts + supply("nut", {}) * fitting.nuts + minutes("band", "fitting");
}

Money Tariff::post(int fence_index, Length diameter, double concrete_m3) const {
  const job::Fence& fence = job_.choices.fences[static_cast<std::size_t>(fence_index)];
  Money cost = concrete_per_m3_.times(concrete_m3);
  if (fence.capped) cost += supply("cap", diameter);
  if (const std::int64_t ties = ties_on_post(catalogue_, fence); ties > 0) cost += supply("clip", diameter) * ties;
  for (const char* operation : {"stake", "set", "trim", "clean-up"}) cost += minutes(operation, "post");
  const char* making = fence.setting == job::Setting::driven ? "drive" : "dig";
  return cost + minutes(making, "post") + minutes(making, "hole");
}

Money Tariff::bay(int fence_index) const {
  const job::Fence& fence = job_.choices.fences[static_cast<std::size_t>(fence_index)];
  Money cost = minutes("clean-up", "bay");
  if (fence.rails > 0) cost += minutes("measure", "bay") + minutes("rail", "bay");
  switch (fence.kind) {
    case job::FenceKind::mesh:
      return cost + minutes("mesh", "bay");
    case job::FenceKind::panels:
      return cost + minutes("panel", "bay");
    case job::FenceKind::strained:
    case job::FenceKind::wire:
      return cost + minutes("wire", "bay");
    case job::FenceKind::rails:
      break;
  }
  return cost;
}

}  // namespace railwright::spacing
