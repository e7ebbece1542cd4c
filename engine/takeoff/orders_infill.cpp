// SPDX-License-Identifier: MIT
#include <cmath>

#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

std::int64_t whole(double value) { return static_cast<std::int64_t>(std::ceil(value - 1e-9)); }

void order_mesh(Orders& orders) {
  std::map<std::string, std::vector<double>> pieces;
  for (const Stretch& stretch : orders.stretches) {
    const job::Fence& fence = orders.fence(stretch.fence);
    if (fence.kind == job::FenceKind::mesh) pieces[fence.infill.supply].push_back(stretch.slope_m + 2 * orders.habits.mesh_wrap);
  }
  for (const auto& [id, lengths] : pieces) {
    const job::Supply* supply = orders.in.catalogue.supply(id);
    Need need = orders.need_of(supply, "mesh", "infill", "mesh");
    const double roll = supply == nullptr || supply->length.nm() <= 0 ? measure::kMetrePerFoot : supply->length.metres();
    const bool by_foot = supply == nullptr || supply->length.nm() <= 0;
    const Rolls rolls = rolls_needed(lengths, by_foot ? 1e9 : roll, orders.habits.mesh_splice, orders.habits.mesh_least);
    need.unit = by_foot ? "ft" : "roll";
    if (by_foot) need.each_length = Length::feet(1);
    need.needed = rolls.used_m / roll;
    const Spread use{rolls.used_m * (1 + orders.losses.roll_excess), rolls.used_m * orders.losses.roll_deviation};
    orders.measured(need, use, roll, by_foot ? 0 : static_cast<double>(rolls.count));
  }
}

void order_panels(Orders& orders) {
  std::map<std::string, std::int64_t> panels;
  for (const Stretch& stretch : orders.stretches) {
    const job::Fence& fence = orders.fence(stretch.fence);
    if (fence.kind != job::FenceKind::panels) continue;
    const job::Supply* supply = orders.in.catalogue.supply(fence.infill.supply);
    const Length own = supply == nullptr ? Length() : supply->length;
    const Length panel = fence.spacing.panel.nm() > 0 ? fence.spacing.panel : own;
    panels[fence.infill.supply] += panel.nm() > 0 ? whole(stretch.slope_m / panel.metres()) : stretch.bays;
  }
  for (const auto& [id, count] : panels) {
    Need need = orders.need_of(orders.in.catalogue.supply(id), "panel", "infill", "panels");
    need.needed = static_cast<double>(count);
    orders.counted(need, orders.losses.panel);
  }
}

Length infill_height(const Orders& orders, const job::Fence& fence) {
  const job::Supply* supply = orders.in.catalogue.supply(fence.infill.supply);
  if (fence.infill.height.nm() > 0) return fence.infill.height;
  return supply == nullptr ? Length() : supply->width;
}

// Mesh and panels: on each post every 14 in of height, on one rail every 18 in. Wires: one clip a wire on each post between the ends of the stretch.
std::int64_t ties(const Orders& orders, const Stretch& stretch) {
  const job::Fence& fence = orders.fence(stretch.fence);
  if (fence.kind == job::FenceKind::rails) return 0;
  if (fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire) {
    return static_cast<std::int64_t>(wires_of(fence)) * (stretch.bays - 1);
  }
  const Length height = infill_height(orders, fence);
  const std::int64_t on_post = height.nm() > 0 ? whole(height / orders.habits.tie_on_post) + 1 : 0;
  const std::int64_t on_rail = fence.rails > 0 ? whole(stretch.slope_m / orders.habits.tie_on_rail.metres()) : 0;
  return on_post * (stretch.bays + 1) + on_rail;
}

}  // namespace

void order_infill(Orders& orders) {
  order_mesh(orders);
  order_panels(orders);
  std::int64_t clips = 0;
  for (const Stretch& stretch : orders.stretches) clips += ties(orders, stretch);
  if (clips == 0) return;
  Need need = orders.need_of(orders.supply("clip"), "clip", "infill", "clips");
  need.needed = static_cast<double>(clips);
  orders.counted(need, orders.losses.clip);
}

}  // namespace railwright::takeoff
