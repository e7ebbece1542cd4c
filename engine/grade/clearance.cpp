// SPDX-License-Identifier: MIT
#include "engine/grade/clearance.h"

#include <algorithm>

#include "engine/grade/ground_under.h"

namespace railwright::grade {
namespace {

Verdict verdict_of(bool known, bool fails) {
  if (!known) return Verdict::unknown;
  return fails ? Verdict::fails : Verdict::clear;
}

bool traps(const Section& section, Length least, Length largest) {
  return section.trap_to > Length() && largest >= section.trap_from && least <= section.trap_to;
}

// Between rail k (from 0) and what comes below it, where nothing covers it.
void check_opening(const setout::Bay& bay, int bay_index, int k, RailEnds upper, RailEnds lower, const Section& section, std::vector<Clearance>& clearances) {
  const Length at_from = upper.from - lower.from, at_to = upper.to - lower.to;
  Clearance clearance;
  clearance.bay = bay_index;
  clearance.below_rail = k + 1;
  clearance.least = min(at_from, at_to);
  clearance.largest = max(at_from, at_to);
  clearance.at = at_to > at_from ? bay.end : bay.start;
  if (clearance.largest <= Length()) return;
  const bool wide = section.largest_opening > Length() && clearance.largest > section.largest_opening;
  clearance.verdict = verdict_of(true, wide || traps(section, clearance.least, clearance.largest));
  clearances.push_back(clearance);
}

void check_between(const setout::Layout& layout, int bay_index, const BayHeights& heights, const Section& section, std::vector<Clearance>& clearances) {
  const setout::Bay& bay = layout.bays[bay_index];
  const Length half = section.rail_diameter / 2;
  const Length g_from = Length::from_metres(layout.posts[bay.from].ground), g_to = Length::from_metres(layout.posts[bay.to].ground);
  const RailEnds infill{g_from + section.infill_top, g_to + section.infill_top};
  const int count = static_cast<int>(heights.rails.size());
  for (int k = 0; k < count; ++k) {
    const RailEnds upper{heights.rails[k].from - half, heights.rails[k].to - half};
    const bool last = k + 1 == count;
    if (last && !section.infilled) return;  // what is below is the ground
    RailEnds lower = last ? infill : RailEnds{heights.rails[k + 1].from + half, heights.rails[k + 1].to + half};
    if (section.infilled) lower = {max(lower.from, infill.from), max(lower.to, infill.to)};
    check_opening(bay, bay_index, k, upper, lower, section, clearances);
  }
}

// The largest and the least opening of a bay and where they are.
struct Extremes {
  GroundPoint least, largest;
};

Extremes extremes_of(const std::vector<GroundPoint>& openings) {
  Extremes found{openings.front(), openings.front()};
  for (const GroundPoint& opening : openings) {
    if (opening.height < found.least.height) found.least = opening;
    if (opening.height > found.largest.height) found.largest = opening;
  }
  return found;
}

// Heights by which each opening is below `limit` (`sign` 1) or above it (-1).
std::vector<GroundPoint> beyond(std::vector<GroundPoint> openings, Length limit, double sign) {
  for (GroundPoint& opening : openings) opening.height = sign * (limit.metres() - opening.height);
  return openings;
}

void add_work(const CheckInput& input, job::MendWay way, const Earth& earth, Heights& heights) {
  if (earth.to <= earth.from) return;
  const Length start = input.layout.bays[input.bay].start;
  heights.earthwork.push_back(
      {input.bay, way, start + Length::from_metres(earth.from), start + Length::from_metres(earth.to), Length::from_metres(earth.deepest), earth.volume_m3});
}

// What the ground does to the bay as the rails hang, and what would mend it.
BayGround judge(const CheckInput& input, const BayHeights& bay_heights, const Extremes& worst, const std::vector<GroundPoint>& openings) {
  const setout::Bay& bay = input.layout.bays[input.bay];
  const Section& section = input.section;
  const std::vector<GroundPoint> ground = ground_under(input.layout, bay);
  const RailEnds under = underside(input.layout, bay, bay_heights, section);
  const Length least = Length::from_metres(worst.least.height), largest = Length::from_metres(worst.largest.height);
  BayGround result;
  result.hump = max(Length(), section.smallest_bottom - least);
  result.cut = earth_beyond(beyond(openings, section.smallest_bottom, 1), input.earth_width);
  if (result.hump > Length()) result.hump_with_post = left_with_post(section, ground, under, worst.least.at, true);
  if (section.has_largest_bottom()) {
    result.dip = max(Length(), largest - section.largest_bottom);
    result.fill = earth_beyond(beyond(openings, section.largest_bottom, -1), input.earth_width);
    if (result.dip > Length()) result.dip_with_post = left_with_post(section, ground, under, worst.largest.at, false);
    if (bay_heights.rails.size() == section.centres.size()) result.filler = filler_below(section, least, largest);
  }
  result.hump_at = bay.start + Length::from_metres(worst.least.at);
  result.dip_at = bay.start + Length::from_metres(worst.largest.at);
  return result;
}

void check_ground(const CheckInput& input, const BayHeights& bay_heights, Heights& heights, BayGround& result) {
  const setout::Bay& bay = input.layout.bays[input.bay];
  const Section& section = input.section;
  const auto openings = openings_under(ground_under(input.layout, bay), underside(input.layout, bay, bay_heights, section));
  const Extremes worst = extremes_of(openings);
  result = judge(input, bay_heights, worst, openings);
  Clearance clearance;
  clearance.bay = input.bay;
  clearance.below_rail = static_cast<int>(bay_heights.rails.size()) + (section.infilled ? 1 : 0);
  clearance.least = Length::from_metres(worst.least.height);
  clearance.largest = Length::from_metres(worst.largest.height);
  const bool hump = result.hump > result.dip || !section.has_largest_bottom();
  clearance.at = hump ? result.hump_at : result.dip_at;
  result.mended = bay_heights.rails.size() > section.centres.size();
  if (input.mends.cut && input.ground_known && result.hump > Length()) {
    add_work(input, job::MendWay::cut, result.cut, heights);
    clearance.least = section.smallest_bottom;
    result.hump = Length();
    result.mended = true;
  }
  if (input.mends.fill && input.ground_known && result.dip > Length()) {
    add_work(input, job::MendWay::fill, result.fill, heights);
    clearance.largest = section.largest_bottom;
    result.dip = Length();
    result.mended = true;
  }
  clearance.verdict = verdict_of(input.ground_known, result.hump > Length() || result.dip > Length());
  heights.clearances.push_back(clearance);
}

Length least_height(const setout::Layout& layout, const setout::Bay& bay, const BayHeights& heights, const Section& section) {
  if (heights.rails.empty()) return section.fence->height;
  const RailEnds top = heights.rails.front();
  const double pitch = std::max(bay.pitch.metres(), 1e-9);
  double least = 1e300;
  for (const GroundPoint& point : ground_under(layout, bay))
    least = std::min(least, top.from.metres() + (top.to - top.from).metres() * (point.at / pitch) - point.height);
  return Length::from_metres(least) + section.rail_diameter / 2;
}

}  // namespace

// The straight line whose opening to the ground counts: the underside of the lowest pipe, or the infill's bottom.
RailEnds underside(const setout::Layout& layout, const setout::Bay& bay, const BayHeights& heights, const Section& section) {
  if (section.infilled) {
    return {Length::from_metres(layout.posts[bay.from].ground) + section.infill_bottom,
            Length::from_metres(layout.posts[bay.to].ground) + section.infill_bottom};
  }
  const Length half = section.rail_diameter / 2;
  return {heights.rails.back().from - half, heights.rails.back().to - half};
}

void check_bay(const CheckInput& input, Heights& heights, BayGround& ground) {
  const BayHeights& bay = heights.bays[input.bay];
  check_between(input.layout, input.bay, bay, input.section, heights.clearances);
  if (input.section.infilled || !bay.rails.empty()) check_ground(input, bay, heights, ground);
  ground.known = input.ground_known;
  ground.least_height = least_height(input.layout, input.layout.bays[input.bay], bay, input.section);
  if (!input.mends.cut || !ground.mended || bay.rails.empty()) return;
  // Over ground that is cut the lowest opening is at least the least allowed, and the fence as much higher.
  ground.least_height = max(ground.least_height, input.section.smallest_bottom + input.section.depth() + input.section.rail_diameter / 2);
}

}  // namespace railwright::grade
