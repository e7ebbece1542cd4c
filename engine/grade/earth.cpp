// SPDX-License-Identifier: MIT
#include "engine/grade/earth.h"

#include <algorithm>
#include <map>

namespace railwright::grade {

double average_end_area(double area1, double area2, double length) { return (area1 + area2) / 2 * length; }

Earth earth_beyond(const std::vector<GroundPoint>& excess, double width) {
  Earth earth;
  bool any = false;
  for (std::size_t i = 1; i < excess.size(); ++i) {
    GroundPoint a = excess[i - 1], b = excess[i];
    if (a.height <= 0 && b.height <= 0) continue;
    // Where the line crosses the limit stands a section without area.
    const double cross = a.at + (b.at - a.at) * (a.height / (a.height - b.height));
    if (a.height < 0) a = {cross, 0};
    if (b.height < 0) b = {cross, 0};
    earth.volume_m3 += average_end_area(width * a.height, width * b.height, b.at - a.at);
    if (!any) earth.from = a.at;
    earth.to = b.at;
    earth.deepest = std::max({earth.deepest, a.height, b.height});
    any = true;
  }
  return earth;
}

std::vector<BayMends> mends_of(const job::Job& job, const setout::Layout& layout, Findings& findings) {
  std::vector<BayMends> mends(layout.bays.size());
  std::map<std::string, int> leg_of;
  for (std::size_t leg = 0; leg < job.site.legs.size(); ++leg) leg_of.emplace(job.site.legs[leg].id, static_cast<int>(leg));
  for (const job::Mend& mend : job.choices.mends) {
    const auto leg = leg_of.find(mend.leg);
    bool found = false;
    for (std::size_t b = 0; b < layout.bays.size() && leg != leg_of.end() && !found; ++b) {
      const setout::Bay& bay = layout.bays[b];
      if (bay.leg != leg->second || bay.kind == setout::BayKind::gate || mend.station < bay.start || mend.station > bay.end) continue;
      found = true;
      mends[b].cut = mends[b].cut || mend.way == job::MendWay::cut;
      mends[b].fill = mends[b].fill || mend.way == job::MendWay::fill;
      mends[b].filler = mends[b].filler || mend.way == job::MendWay::filler;
    }
    if (!found) findings.push_back({"grade.mend_nowhere", Severity::warning, mend.leg, {{"station", value_of(mend.station)}}});
  }
  return mends;
}

std::optional<Length> filler_below(const Section& section, Length least, Length largest) {
  if (section.infilled || !section.has_rails() || !section.has_largest_bottom() || largest <= section.largest_bottom) return std::nullopt;
  const Length sixteenth = Length::sixty_fourths(4);
  // Two bands stand one above the other on the post.
  Length below = max(max(Length::inches(4), section.rail_diameter * 3 / 2), largest - section.largest_bottom);
  const Length opening = below - section.rail_diameter;
  if (section.trap_to > Length() && opening >= section.trap_from && opening <= section.trap_to) below = section.trap_to + section.rail_diameter + sixteenth;
  below = below.round_up_to(sixteenth);
  if (section.largest_opening > Length() && below - section.rail_diameter > section.largest_opening) return std::nullopt;
  if (least - below < section.smallest_bottom) return std::nullopt;
  return below;
}

std::vector<GroundPoint> openings_under(const std::vector<GroundPoint>& ground, RailEnds underside) {
  std::vector<GroundPoint> openings;
  openings.reserve(ground.size());
  const double length = std::max(ground.back().at, 1e-9);
  for (const GroundPoint& point : ground)
    openings.push_back({point.at, underside.from.metres() + (underside.to - underside.from).metres() * (point.at / length) - point.height});
  return openings;
}

namespace {

Length uneven(const std::vector<GroundPoint>& ground, double from, double to) {
  double low = 1e300, high = -1e300;
  for (const GroundPoint& point : ground) {
    if (point.at < from - 1e-9 || point.at > to + 1e-9) continue;
    low = std::min(low, point.height);
    high = std::max(high, point.height);
  }
  return Length::from_metres(std::max(0.0, high - low));
}

}  // namespace

Length left_with_post(const Section& section, const std::vector<GroundPoint>& ground, RailEnds underside, double at, bool hump) {
  const double end = ground.back().at;
  if (section.fence->line == job::RailLine::level) {
    const Length allowed = section.has_largest_bottom() ? section.most_bottom() - section.bottom_opening() : section.fence->line_tolerance;
    return max(Length(), max(uneven(ground, 0, at), uneven(ground, at, end)) - allowed);
  }
  const auto here = std::find_if(ground.begin(), ground.end(), [&](const GroundPoint& point) { return point.at >= at - 1e-9; });
  if (here == ground.end() || at <= 0 || at >= end) return Length();
  const double middle = here->height + section.bottom_opening().metres();
  double beyond = 0;
  for (const GroundPoint& point : ground) {
    const bool first = point.at <= at;
    const double span = first ? at : end - at, along = first ? point.at : point.at - at;
    const double from = first ? underside.from.metres() : middle, to = first ? middle : underside.to.metres();
    const double opening = from + (to - from) * (along / std::max(span, 1e-9)) - point.height;
    beyond = std::max(beyond, hump ? section.least_bottom().metres() - opening : opening - section.most_bottom().metres());
  }
  return Length::from_metres(beyond);
}

}  // namespace railwright::grade
