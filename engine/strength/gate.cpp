// SPDX-License-Identifier: MIT
#include "engine/strength/gate.h"

namespace railwright::strength {

Moment leaf_moment(measure::Mass leaf, Length leaf_width, Length hinge_clearance) {
  return Moment::si(measure::weight(leaf).si() * (hinge_clearance.metres() + leaf_width.metres() / 2));
}

std::optional<GatePostRow> gate_post_mil_hdbk(Length leaf_width) {
  struct Row {
    int feet, post_thousandths, footing_inches;
  };
  static constexpr Row kRows[] = {{6, 2875, 18}, {12, 4000, 24}, {18, 6625, 36}, {24, 8625, 40}};
  for (const Row& row : kRows) {
    if (leaf_width > Length::feet(row.feet)) continue;
    return GatePostRow{Length::from_nm(row.post_thousandths * (Length::kNmPerInch / 1000)), Length::inches(row.footing_inches), Length::feet(3)};
  }
  return std::nullopt;
}

GatePostRow gate_post_federal_highway(Length leaf_width) {
  if (leaf_width <= Length::mm(1800)) return {Length::mm(73), {}, {}};
  if (leaf_width <= Length::mm(4000)) return {Length::mm(102), {}, {}};
  if (leaf_width <= Length::mm(5500)) return {Length::mm(168), {}, {}};
  return {Length::mm(219), {}, {}};
}

}  // namespace railwright::strength
