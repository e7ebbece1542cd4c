// SPDX-License-Identifier: MIT
#include "engine/grade/clearance.h"

#include <algorithm>

#include "engine/grade/ground_under.h"

namespace railwright::grade {
namespace {

constexpr double kStrip = 0.6;   // metres of width that are cut or filled under a fence (common practice, no source)

// The area over `step` metres of the positive part of a line that goes from a to b.
double positive_area(double a, double b, double step) {
  if (a <= 0 && b <= 0) return 0;
  if (a >= 0 && b >= 0) return (a + b) / 2 * step;
  const double high = std::max(a, b), low = std::min(a, b);
  return high * high / (high - low) / 2 * step;
}

Verdict verdict_of(bool known, bool fails) {
  if (!known) return Verdict::unknown;
  return fails ? Verdict::fails : Verdict::clear;
}

bool traps(const Section& section, Length least, Length largest) {
  return section.trap_to > Length() && largest >= section.trap_from && least <= section.trap_to;
}

// Between rail k (from 0) and what comes below it, where nothing covers it.
void check_opening(const setout::Bay& bay, int bay_index, int k, RailEnds upper, RailEnds lower, const Section& section,
                   std::vector<Clearance>& clearances) {
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

void check_between(const setout::Layout& layout, int bay_index, const BayHeights& heights, const Section& section,
                   std::vector<Clearance>& clearances) {
  const setout::Bay& bay = layout.bays[bay_index];
  const Length half = section.rail_diameter / 2;
  const Length g_from = Length::from_metres(layout.posts[bay.from].ground), g_to = Length::from_metres(layout.posts[bay.to].ground);
  const RailEnds infill{g_from + section.infill_top, g_to + section.infill_top};
  const int count = static_cast<int>(heights.rails.size());
  for (int k = 0; k < count; ++k) {
    const RailEnds upper{heights.rails[k].from - half, heights.rails[k].to - half};
    const bool last = k + 1 == count;
    if (last && !section.infilled) return;   // what is below is the ground
    RailEnds lower = last ? infill : RailEnds{heights.rails[k + 1].from + half, heights.rails[k + 1].to + half};
    if (section.infilled) lower = {max(lower.from, infill.from), max(lower.to, infill.to)};
    check_opening(bay, bay_index, k, upper, lower, section, clearances);
  }
}

// The straight line whose opening to the ground counts: the underside of the lowest pipe, or the infill's bottom.
RailEnds underside(const setout::Layout& layout, const setout::Bay& bay, const BayHeights& heights, const Section& section) {
  if (section.infilled) {
    return {Length::from_metres(layout.posts[bay.from].ground) + section.infill_bottom,
            Length::from_metres(layout.posts[bay.to].ground) + section.infill_bottom};
  }
  const Length half = section.rail_diameter / 2;
  return {heights.rails.back().from - half, heights.rails.back().to - half};
}

void check_ground(const setout::Layout& layout, int bay_index, const BayHeights& heights, const Section& section, bool known,
                  std::vector<Clearance>& clearances, BayGround& result) {
  const setout::Bay& bay = layout.bays[bay_index];
  const RailEnds ends = underside(layout, bay, heights, section);
  const double pitch = std::max(bay.pitch.metres(), 1e-9);
  const double least = section.smallest_bottom.metres();
  const bool limited = section.has_largest_bottom();
  const double most = limited ? section.largest_bottom.metres() : 0;
  double low = 1e300, high = -1e300, low_at = 0, high_at = 0, before = 0, before_at = 0;
  bool first = true;
  for (const GroundPoint& point : ground_under(layout, bay)) {
    const double line = ends.from.metres() + (ends.to - ends.from).metres() * (point.at / pitch);
    const double opening = line - point.height;
    if (opening < low) { low = opening; low_at = point.at; }
    if (opening > high) { high = opening; high_at = point.at; }
    if (!first) {
      result.cut_m3 += kStrip * positive_area(least - before, least - opening, point.at - before_at);
      if (limited) result.fill_m3 += kStrip * positive_area(before - most, opening - most, point.at - before_at);
    }
    first = false;
    before = opening;
    before_at = point.at;
  }
  Clearance clearance;
  clearance.bay = bay_index;
  clearance.below_rail = static_cast<int>(heights.rails.size()) + (section.infilled ? 1 : 0);
  clearance.least = Length::from_metres(low);
  clearance.largest = Length::from_metres(high);
  result.hump = max(Length(), section.smallest_bottom - clearance.least);
  if (limited) result.dip = max(Length(), clearance.largest - section.largest_bottom);
  result.hump_at = bay.start + Length::from_metres(low_at);
  result.dip_at = bay.start + Length::from_metres(high_at);
  clearance.at = result.hump > result.dip || !limited ? result.hump_at : result.dip_at;
  clearance.verdict = verdict_of(known, result.hump > Length() || result.dip > Length());
  clearances.push_back(clearance);
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

void check_bay(const setout::Layout& layout, int bay_index, const BayHeights& heights, const Section& section, bool ground_is_known,
               std::vector<Clearance>& clearances, BayGround& ground) {
  ground.known = ground_is_known;
  check_between(layout, bay_index, heights, section, clearances);
  if (section.infilled || !heights.rails.empty()) check_ground(layout, bay_index, heights, section, ground_is_known, clearances, ground);
  ground.least_height = least_height(layout, layout.bays[bay_index], heights, section);
}

}  // namespace railwright::grade
