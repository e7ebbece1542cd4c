// SPDX-License-Identifier: MIT
#include "engine/takeoff/orders.h"

#include <cmath>
#include <utility>

namespace railwright::takeoff {

void Orders::counted(Need need, double loss) {
  if (!(need.needed > 0)) return;
  const auto needed = static_cast<std::int64_t>(need.needed);
  need.spare = static_cast<double>(spares(needed, loss, accepted()));
  OrderLine line = order_line(in.catalogue, need, findings);
  line.running_short = chance_short(needed, static_cast<std::int64_t>(line.order), loss);
  lines.push_back(std::move(line));
}

void Orders::measured(Need need, const Spread& use, double holds, double least) {
  if (!(use.mean > 0) || !(holds > 0)) return;
  const double wanted = enough(use, accepted()) / holds;
  need.spare = std::max(0.0, wanted - need.needed);
  if (need.needed + need.spare < least) need.spare = least - need.needed;
  OrderLine line = order_line(in.catalogue, need, findings);
  line.running_short = chance_short(use, line.order * holds);
  lines.push_back(std::move(line));
}

const job::Supply* Orders::supply(const std::string& kind, Length width) const {
  for (const job::Supply& row : in.catalogue.supplies) {
    if (row.kind == kind && (width.nm() == 0 || row.width == width)) return &row;
  }
  return nullptr;
}

Need Orders::need_of(const job::Supply* row, const std::string& kind, const std::string& group, const std::string& why) {
  Need need;
  need.group = group;
  need.why = why;
  need.unit = "each";
  need.item = row == nullptr ? kind : row->id;
  if (row == nullptr) {
    findings.push_back({"takeoff.no_supply", Severity::note, kind, {}});
  } else {
    need.each_length = row->length;
    need.each_kg = row->mass_kg;
  }
  return need;
}

int wires_of(const job::Fence& fence) { return std::max(fence.infill.wires, static_cast<int>(fence.infill.wire_heights.size())); }

bool braced_with_wire(const job::Fence& fence, const setout::Bay& bay, const grade::BayHeights& heights) {
  const bool pulled = fence.kind == job::FenceKind::mesh || fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire;
  return pulled && bay.kind == setout::BayKind::brace && heights.has_brace_rail;
}

}  // namespace railwright::takeoff
