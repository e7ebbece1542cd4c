// SPDX-License-Identifier: MIT
#include "engine/takeoff/takeoff.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/takeoff/hours.h"
#include "engine/takeoff/load.h"
#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

// Length that a fence is priced by: along the ground, gates left out (California DOT Standard Specifications 80-1.04).
double priced_feet(const std::vector<Stretch>& stretches) {
  double metres = 0;
  for (const Stretch& stretch : stretches) metres += stretch.slope_m;
  return metres / measure::kMetrePerFoot;
}

// Overhead on materials and labour, profit on both with overhead, tax on materials.
Price price_of(const job::Job& job, const std::vector<OrderLine>& orders, double person_hours, double feet) {
  const job::PriceRules& rules = job.choices.price;
  Price price;
  price.currency = rules.currency;
  for (const OrderLine& line : orders) price.materials += line.amount;
  price.labour = job.choices.crew.hourly.times(person_hours).round_to_cents();
  const Money work = price.materials + price.labour;
  price.overhead = work.times(rules.overhead).round_to_cents();
  price.profit = (work + price.overhead).times(rules.profit).round_to_cents();
  price.tax = price.materials.times(rules.tax).round_to_cents();
  price.total = work + price.overhead + price.profit + price.tax;
  if (feet > 0) price.per_foot = price.total.times(1 / feet).round_to_cents();
  return price;
}

// One finding for one cause: the same item may be asked for more than once.
void keep_first_of_each(Findings& findings) {
  Findings kept;
  for (Finding& finding : findings) {
    const bool twice = std::any_of(kept.begin(), kept.end(), [&](const Finding& other) { return other.code == finding.code && other.where == finding.where; });
    if (!twice) kept.push_back(std::move(finding));
  }
  findings = std::move(kept);
}

std::vector<Stretch> known_stretches(const Input& input, const Remaining& remaining) {
  std::vector<Stretch> all = stretches(input.layout, remaining);
  const auto fences = static_cast<int>(input.job.choices.fences.size());
  all.erase(std::remove_if(all.begin(), all.end(), [&](const Stretch& s) { return s.fence < 0 || s.fence >= fences; }), all.end());
  return all;
}

}  // namespace

Takeoff take_off(const Input& input, std::vector<PostSize> posts, Findings& findings) {
  Takeoff takeoff;
  takeoff.posts = std::move(posts);
  Findings own;
  const Remaining remaining(input.job, input.layout);
  const std::vector<Stretch> along = known_stretches(input, remaining);
  Orders orders{input, takeoff.posts, remaining, along, takeoff.orders, own};
  order_pipe(orders);
  order_fittings(orders);
  order_concrete(orders);
  order_infill(orders);
  order_wire(orders);
  order_gates(orders);
  count_hours(orders, takeoff);
  takeoff.load = load_of(input.job, takeoff.orders, input.cuts, own);
  takeoff.price = price_of(input.job, takeoff.orders, takeoff.person_hours, priced_feet(along));
  keep_first_of_each(own);
  findings.insert(findings.end(), own.begin(), own.end());
  return takeoff;
}

}  // namespace railwright::takeoff
