// SPDX-License-Identifier: MIT
#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

const job::Supply* leaf_of(const Orders& orders, const job::Gate& gate) {
  if (!gate.supply.empty()) return orders.in.catalogue.supply(gate.supply);
  return orders.supply("gate-leaf", gate.leaf);
}

}  // namespace

void order_gates(Orders& orders) {
  struct Leaves {
    const job::Supply* supply = nullptr;
    std::int64_t count = 0;
    double kg = 0;
  };
  std::map<std::pair<std::string, Length>, Leaves> leaves;
  std::int64_t hinges = 0, latches = 0;
  for (const job::Gate& gate : orders.in.job.site.gates) {
    if (!orders.remaining.gate(gate.id)) continue;
    const std::int64_t count = gate.hinge == job::LeafEnd::both ? 2 : 1;
    const job::Supply* supply = leaf_of(orders, gate);
    Leaves& row = leaves[{supply == nullptr ? "" : supply->id, gate.leaf}];
    row.supply = supply;
    row.count += count;
    if (gate.leaf_mass_kg > 0) row.kg = std::max(row.kg, gate.leaf_mass_kg);
    hinges += count;
    ++latches;
  }
  for (const auto& [key, row] : leaves) {
    Need need = orders.need_of(row.supply, "gate-leaf", "gates", "gate_leaf");
    need.needed = static_cast<double>(row.count);
    need.each_length = key.second;
    if (row.kg > 0) need.each_kg = row.kg;
    orders.counted(need, 0);
  }
  const std::pair<const char*, std::int64_t> parts[] = {{"hinge-set", hinges}, {"latch", latches}};
  for (const auto& [kind, count] : parts) {
    if (count == 0) continue;
    Need need = orders.need_of(orders.supply(kind), kind, "gates", kind == std::string("latch") ? "latches" : "hinges");
    need.needed = static_cast<double>(count);
    orders.counted(need, 0);
  }
}

}  // namespace railwright::takeoff
