// SPDX-License-Identifier: MIT
#include <cmath>

#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

bool has_wires(const job::Fence& fence) { return fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire; }

void order_by_roll(Orders& orders, const job::Supply* supply, const std::string& kind, const std::string& group, const std::vector<double>& pieces) {
  Need need = orders.need_of(supply, kind, group, kind == "wire" ? "wire" : "brace_wire");
  const bool by_foot = supply == nullptr || supply->length.nm() <= 0;
  const double roll = by_foot ? measure::kMetrePerFoot : supply->length.metres();
  const Rolls rolls = rolls_needed(pieces, by_foot ? 1e9 : roll, orders.habits.wire_splice, orders.habits.mesh_least);
  need.unit = by_foot ? "ft" : "roll";
  if (by_foot) need.each_length = Length::feet(1);
  need.needed = rolls.used_m / roll;
  const Spread use{rolls.used_m * (1 + orders.losses.roll_excess), rolls.used_m * orders.losses.roll_deviation};
  orders.measured(need, use, roll, by_foot ? 0 : static_cast<double>(rolls.count));
}

void order_strands(Orders& orders) {
  std::map<std::string, std::vector<double>> pieces;
  std::int64_t strainers = 0;
  for (const Stretch& stretch : orders.stretches) {
    const job::Fence& fence = orders.fence(stretch.fence);
    if (!has_wires(fence)) continue;
    const int wires = wires_of(fence);
    strainers += wires;
    std::vector<double>& into = pieces[fence.infill.supply];
    into.insert(into.end(), static_cast<std::size_t>(wires), stretch.slope_m + 2 * orders.habits.wire_tie);
  }
  for (const auto& [id, lengths] : pieces) order_by_roll(orders, orders.in.catalogue.supply(id), "wire", "wire", lengths);
  if (strainers == 0) return;
  Need need = orders.need_of(orders.supply("strainer"), "strainer", "wire", "strainers");
  need.needed = static_cast<double>(strainers);
  orders.counted(need, orders.losses.fitting);
}

bool is_pulled_against(const setout::Post& post) {
  using setout::PostKind;
  return post.kind != PostKind::line && post.kind != PostKind::brace && post.kind != PostKind::fixed;
}

// From the ground at one post of a brace bay to the brace rail at the other: on a slope the two diagonals differ.
double diagonal_m(const setout::Post& foot, Length rail, const setout::Bay& bay) {
  const double rise = rail.metres() - foot.ground;
  const double run = bay.pitch.metres();
  return std::sqrt(run * run + rise * rise);
}

// Beside an end, corner, gate, tee or cross the pull comes from one side and one diagonal from that post's foot holds it; in the middle of a line it takes both.
std::vector<double> diagonals(const Orders& orders, const setout::Bay& bay, const grade::BayHeights& heights) {
  const setout::Post& from = orders.in.layout.posts[static_cast<std::size_t>(bay.from)];
  const setout::Post& to = orders.in.layout.posts[static_cast<std::size_t>(bay.to)];
  const double from_foot = diagonal_m(from, heights.brace.to, bay), to_foot = diagonal_m(to, heights.brace.from, bay);
  if (is_pulled_against(from)) return {from_foot};
  if (is_pulled_against(to)) return {to_foot};
  return {from_foot, to_foot};
}

}  // namespace

void order_wire(Orders& orders) {
  order_strands(orders);
  std::vector<double> loops;
  const auto& bays = orders.in.layout.bays;
  for (std::size_t k = 0; k < bays.size() && k < orders.in.heights.bays.size(); ++k) {
    const setout::Bay& bay = bays[k];
    const grade::BayHeights& heights = orders.in.heights.bays[k];
    if (!orders.has_fence(bay.fence) || !orders.remaining.bay(static_cast<int>(k))) continue;
    if (!braced_with_wire(orders.fence(bay.fence), bay, heights)) continue;
    for (const double diagonal : diagonals(orders, bay, heights)) loops.push_back(2 * diagonal + orders.habits.brace_tie);
  }
  if (!loops.empty()) order_by_roll(orders, orders.supply("brace-wire"), "brace-wire", "braces", loops);
}

}  // namespace railwright::takeoff
