// SPDX-License-Identifier: MIT
#include "engine/grade/section.h"

#include "engine/grade/heights.h"

namespace railwright::grade {

std::vector<Length> centre_heights(const job::Fence& fence, Length rail_diameter) {
  if (!fence.rail_centres.empty()) return fence.rail_centres;
  std::vector<Length> centres;
  for (int i = 0; i < fence.rails; ++i) centres.push_back(fence.height * (fence.rails - i) / fence.rails - rail_diameter / 2);
  return centres;
}

std::vector<Length> wire_heights(const job::Fence& fence, Length rail_diameter) {
  const job::Infill& infill = fence.infill;
  if (!infill.wire_heights.empty()) return infill.wire_heights;
  const std::vector<Length> centres = centre_heights(fence, rail_diameter);
  const bool below_rail = fence.kind != job::FenceKind::wire && !centres.empty();
  const Length top = below_rail ? centres.back() : fence.height;
  const bool to_gap = infill.ground_gap > Length() && infill.ground_gap < top;
  // n wires share n spaces below a rail that ends at the lowest wire; the top wire of a wire fence is the top itself.
  const int spaces = infill.wires - (below_rail ? 0 : 1) + (to_gap ? 0 : 1);
  const Length height = to_gap ? top - infill.ground_gap : top;
  std::vector<Length> wires;
  for (int i = 0; i < infill.wires; ++i) {
    const int down = i + (below_rail ? 1 : 0);
    wires.push_back(spaces > 0 ? top - height * down / spaces : top);
  }
  return wires;
}

Length brace_height(const job::Fence& fence, Length rail_diameter) {
  const Length wished = fence.braces.rail_height > Length() ? fence.braces.rail_height : fence.height * 3 / 4;
  const std::vector<Length> centres = centre_heights(fence, rail_diameter);
  const Length room = max(Length::inches(4), rail_diameter * 3 / 2);  // for two bands one above the other
  for (std::size_t i = 0; i < centres.size(); ++i) {
    if (abs(centres[i] - wished) >= room) continue;
    const Length below = i + 1 < centres.size() ? centres[i + 1] : Length();
    if (wished <= centres[i] || i == 0) return (centres[i] + below) / 2;
    return (centres[i - 1] + centres[i]) / 2;
  }
  return wished;
}

Length Section::bottom_opening() const {
  if (infilled) return infill_bottom;
  return has_rails() ? centres.back() - rail_diameter / 2 : Length();
}

namespace {

void take_infill(const job::Fence& fence, const job::Catalogue& catalogue, Section& section) {
  using job::FenceKind;
  const job::Infill& infill = fence.infill;
  if (fence.kind == FenceKind::strained || fence.kind == FenceKind::wire) {
    section.wires = wire_heights(fence, section.rail_diameter);
    section.infilled = !section.wires.empty();
    if (section.infilled) {
      section.infill_top = section.wires.front();
      section.infill_bottom = section.wires.back();
    }
    return;
  }
  if (fence.kind != FenceKind::mesh && fence.kind != FenceKind::panels) return;
  const job::Supply* supply = catalogue.supply(infill.supply);
  const Length height = infill.height > Length() ? infill.height : supply ? supply->width : Length();
  section.infilled = height > Length();
  section.infill_bottom = infill.ground_gap;
  section.infill_top = infill.ground_gap + height;
}

}  // namespace

Section section_of(const job::Fence& fence, const job::Catalogue& catalogue) {
  Section section;
  section.fence = &fence;
  if (const job::Pipe* pipe = catalogue.pipe(fence.rail_pipe)) section.rail_diameter = pipe->diameter;
  if (fence.kind != job::FenceKind::wire) section.centres = centre_heights(fence, section.rail_diameter);
  section.brace = brace_height(fence, section.rail_diameter);
  take_infill(fence, catalogue, section);
  if (const job::Animal* animal = catalogue.animal(fence.animal)) {
    section.largest_opening = animal->largest_opening;
    section.trap_from = animal->trap_from;
    section.trap_to = animal->trap_to;
    section.least_height = animal->least_height;
    section.largest_bottom = animal->largest_bottom_gap;
    // A gap that lets a hoof roll out from under a rail is closed by mesh or panels: they only must not stand in the ground.
    const bool closed = fence.kind == job::FenceKind::mesh || fence.kind == job::FenceKind::panels;
    section.smallest_bottom = closed ? Length() : animal->smallest_bottom_gap;
  }
  return section;
}

}  // namespace railwright::grade
