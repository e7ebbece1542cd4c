// SPDX-License-Identifier: MIT
// Clear openings: between two pipes, and from the lowest pipe or the infill to the ground.
#include <algorithm>

#include "engine/grade/ground_under.h"
#include "engine/grade/section.h"
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

struct Here {
  const Asked& asked;
  const grade::Clearance& found;
  const setout::Bay& bay;
  const grade::BayHeights& heights;
  grade::Section section;
  bool least;

  Length value() const { return least ? found.least : found.largest; }
  Answer say(std::string formula, std::vector<Input> inputs, const char* source) const {
    return answer(asked, value_of(value()), std::move(formula), std::move(inputs), source, {bay.name});
  }
};

std::string rail_figure(const Here& here, int number, bool at_from) {
  return "rail/" + here.bay.name + "/" + std::to_string(number) + (at_from ? "/from" : "/to");
}

// Rails are straight, so an opening between two of them is least and largest at its ends.
Answer between(const Here& here) {
  const auto k = static_cast<std::size_t>(here.found.below_rail - 1);
  const grade::RailEnds upper = here.heights.rails[k];
  const Length half = here.section.rail_diameter / 2;
  if (k + 1 < here.heights.rails.size()) {
    const grade::RailEnds lower = here.heights.rails[k + 1];
    for (const bool at_from : {true, false}) {
      const Length high = at_from ? upper.from : upper.to, low = at_from ? lower.from : lower.to;
      if ((high - half) - (low + half) != here.value()) continue;
      const Length ground = Length::from_metres(here.asked.post(at_from ? here.bay.from : here.bay.to).ground);
      return here.say("upper - lower - diameter",
                      {figure(rail_figure(here, here.found.below_rail, at_from), "upper", high - ground),
                       figure(rail_figure(here, here.found.below_rail + 1, at_from), "lower", low - ground), input("diameter", here.section.rail_diameter)},
                      "geometry");
    }
  }
  return plainly(here.asked, input("opening", here.value()), "geometry", {here.bay.name});
}

// The straight underside less the ground, which is least and largest at a post or where the ground bends.
Answer to_ground(const Here& here) {
  const Length from_ground = Length::from_metres(here.asked.post(here.bay.from).ground), to_ground = Length::from_metres(here.asked.post(here.bay.to).ground);
  const Length half = here.section.rail_diameter / 2;
  const bool filled = here.section.infilled;
  const Length from = filled ? from_ground + here.section.infill_bottom : here.heights.rails.back().from - half;
  const Length to = filled ? to_ground + here.section.infill_bottom : here.heights.rails.back().to - half;
  const double pitch = std::max(here.bay.pitch.metres(), 1e-9);
  double worst = 0, at = 0, ground = 0;
  bool first = true;
  for (const grade::GroundPoint& point : grade::ground_under(here.asked.plan.layout, here.bay)) {
    const double opening = from.metres() + (to - from).metres() * (point.at / pitch) - point.height;
    if (!first && (here.least ? opening >= worst : opening <= worst)) continue;
    first = false;
    worst = opening;
    at = point.at;
    ground = point.height;
  }
  return here.say("line_from + (line_to - line_from) * along / pitch - ground_there",
                  {input("line_from", from), input("line_to", to), input("along", Length::from_metres(at)),
                   figure("bay/" + here.bay.name + "/pitch", "pitch", here.bay.pitch), input("ground_there", Length::from_metres(ground))},
                  "opening");
}

std::optional<Answer> opening(const Asked& asked) {
  if (asked.part != "least" && asked.part != "largest") return std::nullopt;
  for (const grade::Clearance& clearance : asked.plan.heights.clearances) {
    const setout::Bay& bay = asked.bay(clearance.bay);
    if (asked.thing != bay.name + "/" + std::to_string(clearance.below_rail)) continue;
    const job::Fence* fence = asked.fence(bay.fence);
    if (fence == nullptr) return std::nullopt;
    const Here here{asked,
                    clearance,
                    bay,
                    asked.plan.heights.bays[static_cast<std::size_t>(clearance.bay)],
                    grade::section_of(*fence, asked.plan.catalogue),
                    asked.part == "least"};
    const int rails = static_cast<int>(here.heights.rails.size());
    const bool ground = clearance.below_rail == rails + (here.section.infilled ? 1 : 0);
    Answer made = ground ? to_ground(here) : between(here);
    if (const job::Animal* animal = asked.plan.catalogue.animal(fence->animal)) made.row = animal->source;
    return made;
  }
  return std::nullopt;
}

void list_openings(const job::Job&, const Plan& plan, const Listed& add) {
  for (const grade::Clearance& clearance : plan.heights.clearances) {
    const std::string thing = plan.layout.bays[static_cast<std::size_t>(clearance.bay)].name + "/" + std::to_string(clearance.below_rail);
    add(thing, "least");
    add(thing, "largest");
  }
}

// How far a taped gap lies off what is expected.
std::optional<Answer> gap(const Asked& asked) {
  for (const asbuilt::GapReport& report : asked.plan.asbuilt.reports) {
    if (asked.thing != report.bay + "/" + std::to_string(report.rail) || asked.part != "residual") continue;
    return answer(asked, value_of(report.residual), "measured_gap - expected_gap",
                  {input("measured_gap", report.measured), input("expected_gap", report.measured - report.residual)}, "adjustment", {report.bay});
  }
  return std::nullopt;
}

void list_gaps(const job::Job&, const Plan& plan, const Listed& add) {
  for (const asbuilt::GapReport& report : plan.asbuilt.reports) add(report.bay + "/" + std::to_string(report.rail), "residual");
}

}  // namespace

const Family kOpenings{"opening", opening, list_openings};
const Family kGaps{"gap", gap, list_gaps};

}  // namespace railwright::why
