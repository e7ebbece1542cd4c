// SPDX-License-Identifier: MIT
#include "engine/grade/heights.h"

#include <cmath>

#include "engine/grade/chains.h"
#include "engine/grade/ground_under.h"
#include "engine/grade/report.h"
#include "engine/grade/top_line.h"
#include "engine/ground/trig.h"

namespace railwright::grade {
namespace {

double slope_of(double degrees) {
  const ground::SineCosine angle = ground::sine_cosine(degrees < 0 ? 0 : degrees > 89 ? 89 : degrees);
  return angle.sine / angle.cosine;
}

Length largest_bolt_offset(const job::Catalogue& catalogue) {
  Length largest;
  for (const job::Fitting& fitting : catalogue.fittings) largest = max(largest, fitting.bolt_offset);
  return largest;
}

TopLine top_line(const LineInput& input, const SharedHeights& shared) {
  if (input.section.fence->line == job::RailLine::level) return level_line(input);
  if (input.section.fence->line == job::RailLine::smooth) return smooth_top_line(input, shared);
  return follow_line(input);
}

// All rails hang below the top rail at their drawn distances.
void hang_rails(const Section& section, RailEnds top, BayHeights& bay) {
  bay.rails.reserve(section.centres.size());
  for (const Length centre : section.centres) {
    const Length down = section.centres.front() - centre;
    bay.rails.push_back({top.from - down, top.to - down});
  }
}

// One more rail below the lowest, where it fits.
void hang_filler(const setout::Layout& layout, const setout::Bay& bay, const Section& section, BayHeights& heights) {
  if (section.infilled) return;
  Length least, largest;
  bool first = true;
  for (const GroundPoint& opening : openings_under(ground_under(layout, bay), underside(layout, bay, heights, section))) {
    const Length here = Length::from_metres(opening.height);
    least = first ? here : min(least, here);
    largest = max(largest, here);
    first = false;
  }
  const RailEnds lowest = heights.rails.back();
  if (const auto below = filler_below(section, least, largest)) heights.rails.push_back({lowest.from - *below, lowest.to - *below});
}

void place_brace(const setout::Layout& layout, const setout::Bay& bay, const Section& section, BayHeights& heights) {
  if (bay.kind != setout::BayKind::brace) return;
  heights.has_brace_rail = true;
  if (heights.rails.empty()) {
    heights.brace = {Length::from_metres(layout.posts[bay.from].ground) + section.brace, Length::from_metres(layout.posts[bay.to].ground) + section.brace};
    return;
  }
  const Length down = section.centres.front() - section.brace;
  heights.brace = {heights.rails.front().from - down, heights.rails.front().to - down};
}

void place_chain(const setout::Layout& layout, const Chain& chain, const Section& section, Seen& seen, SharedHeights& shared, Heights& heights) {
  if (section.has_rails()) {
    const LineInput input{layout, chain, section, seen.steepest, seen.bolt_offset, seen.mends};
    const TopLine line = top_line(input, shared);
    for (std::size_t i = 0; i < chain.bays.size(); ++i) {
      const RailEnds along = line.bays[i];
      const RailEnds ends = chain.bays[i].reversed ? RailEnds{along.to, along.from} : along;
      const int b = chain.bays[i].bay;
      hang_rails(section, ends, heights.bays[b]);
      if (seen.mends[b].filler) hang_filler(layout, layout.bays[b], section, heights.bays[b]);
      if (layout.posts[chain.posts[i]].on.size() > 1) shared.insert({{chain.posts[i], chain.fence}, along.from});
    }
    if (layout.posts[chain.posts.back()].on.size() > 1) shared.insert({{chain.posts.back(), chain.fence}, line.bays.back().to});
    for (const int place : line.no_line) seen.no_line.push_back(chain.bays[place].bay);
    if (!line.fewest_known) seen.hurried.push_back(chain.bays.front().bay);
  }
  for (const ChainBay& place : chain.bays) place_brace(layout, layout.bays[place.bay], section, heights.bays[place.bay]);
}

}  // namespace

Heights rail_heights(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const Limits& limits, Findings& findings) {
  Seen seen;
  seen.tilt_deg = limits.tilt_deg;
  seen.steepest = slope_of(limits.tilt_deg);
  seen.bolt_offset = largest_bolt_offset(catalogue);
  seen.sections.reserve(job.choices.fences.size());
  for (const job::Fence& fence : job.choices.fences) seen.sections.push_back(section_of(fence, catalogue));
  seen.ground.resize(layout.bays.size());
  seen.mends = mends_of(job, layout, findings);

  Heights heights;
  heights.bays.resize(layout.bays.size());
  SharedHeights shared;
  for (const Chain& chain : chains_of(layout)) place_chain(layout, chain, seen.sections[chain.fence], seen, shared, heights);
  std::vector<bool> known(layout.legs.size());
  for (std::size_t leg = 0; leg < known.size(); ++leg) known[leg] = ground_known(layout, static_cast<int>(leg), job.choices.clearance_accuracy);
  for (int b = 0; b < static_cast<int>(layout.bays.size()); ++b) {
    const setout::Bay& bay = layout.bays[b];
    if (bay.kind != setout::BayKind::gate)
      check_bay({layout, b, seen.sections[bay.fence], known[bay.leg], seen.mends[b], job.choices.allowances.earth_width.metres()}, heights, seen.ground[b]);
  }
  report(job, layout, heights, seen, findings);
  return heights;
}

}  // namespace railwright::grade
