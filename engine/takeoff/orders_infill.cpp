// SPDX-License-Identifier: MIT
#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

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
    panels[fence.infill.supply] += panel.nm() > 0 ? whole_pieces(stretch.slope_m, panel.metres()) : stretch.bays;
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

// Ties by the pipe that they go round: mesh and panels on each post every 14 in of height and on one rail every 18 in; wires once on each post between the
// ends of the stretch.
void count_ties(const Orders& orders, const Stretch& stretch, std::map<Length, std::int64_t>& ties) {
  const job::Fence& fence = orders.fence(stretch.fence);
  if (fence.kind == job::FenceKind::rails) return;
  const bool wires = fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire;
  const Length height = infill_height(orders, fence);
  const std::int64_t on_mesh = height.nm() > 0 ? whole_pieces(height.metres(), orders.habits.tie_on_post.metres()) + 1 : 0;
  const std::int64_t on_post = wires ? wires_of(fence) : on_mesh;
  const int last = stretch.first_bay + stretch.bays;
  for (int bay = stretch.first_bay + (wires ? 1 : 0); bay < last; ++bay) ties[orders.post_of(bay, true).diameter] += on_post;
  if (wires) return;
  ties[orders.post_of(last - 1, false).diameter] += on_post;
  const job::Pipe* rail = orders.in.catalogue.pipe(fence.rail_pipe);
  if (fence.rails <= 0 || rail == nullptr) return;
  ties[rail->diameter] += whole_pieces(stretch.slope_m, orders.habits.tie_on_rail.metres());
}

}  // namespace

void order_infill(Orders& orders) {
  order_mesh(orders);
  order_panels(orders);
  std::map<Length, std::int64_t> ties;
  for (const Stretch& stretch : orders.stretches) count_ties(orders, stretch, ties);
  for (const auto& [diameter, count] : ties) {
    if (count == 0) continue;
    Need need = orders.need_of(orders.supply("clip", diameter), "clip", "infill", "clips");
    need.needed = static_cast<double>(count);
    orders.counted(need, orders.losses.clip);
  }
}

}  // namespace railwright::takeoff
