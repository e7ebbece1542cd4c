// SPDX-License-Identifier: MIT
#include <cmath>

#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

struct Holes {
  double volume = 0, squares = 0;
};

Holes holes(const Orders& orders) {
  Holes sum;
  for (const PostSize& post : orders.posts) {
    sum.volume += post.concrete_m3;
    sum.squares += post.concrete_m3 * post.concrete_m3;
  }
  return sum;
}

// Holes that come out larger and smaller on their own: the deviation of the sum grows with the root of their number.
Spread spread_of(const Holes& holes, const Losses& losses) {
  return {holes.volume * (1 + losses.hole_excess), losses.hole_deviation * std::sqrt(holes.squares)};
}

OrderLine line_for(Orders orders, const job::Supply& supply, const Holes& holes, Findings& findings) {
  std::vector<OrderLine> lines;
  Orders own{orders.in, orders.posts, orders.remaining, orders.stretches, lines, findings, orders.losses, orders.habits};
  const bool bags = supply.kind == "concrete-bag";
  Need need = own.need_of(&supply, supply.kind, "concrete", bags ? "concrete_bags" : "concrete_yards");
  need.unit = bags ? "bag" : "yard";
  if (!bags) need.each_kg = 0;  // it comes by its own lorry
  need.needed = holes.volume / supply.volume_m3;
  own.measured(need, spread_of(holes, orders.losses), supply.volume_m3, 0);
  return lines.front();
}

}  // namespace

// Bags or ready mix, whichever the price book makes cheaper; bags where only one has a price.
void order_concrete(Orders& orders) {
  const Holes sum = holes(orders);
  if (!(sum.volume > 0)) return;
  const job::Supply* best = nullptr;
  OrderLine line;
  Findings findings;
  for (const char* kind : {"concrete-bag", "concrete-yard"}) {
    for (const job::Supply& row : orders.in.catalogue.supplies) {
      if (row.kind != kind || !(row.volume_m3 > 0)) continue;
      Findings own;
      OrderLine next = line_for(orders, row, sum, own);
      const bool better = best == nullptr || (next.priced && (!line.priced || next.amount < line.amount));
      if (!better) continue;
      best = &row;
      line = std::move(next);
      findings = std::move(own);
    }
  }
  if (best == nullptr) {
    orders.findings.push_back({"takeoff.no_supply", Severity::note, "concrete-bag", {}});
    return;
  }
  orders.findings.insert(orders.findings.end(), findings.begin(), findings.end());
  orders.lines.push_back(std::move(line));
}

}  // namespace railwright::takeoff
