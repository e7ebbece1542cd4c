// SPDX-License-Identifier: MIT
#include "engine/grade/report.h"

#include <algorithm>
#include <cmath>

namespace railwright::grade {
namespace {

double degrees_of(double rise_per_run) { return std::round(std::atan(rise_per_run) * (180.0 / measure::kPi) * 100) / 100; }

constexpr int kMostRails = 8;  // openings are counted by the rail above them, from the top

// The opening under a rail over all bays of a fence.
struct Opening {
  Length least, largest;
  bool any = false;
};
using Openings = std::vector<Opening>;

std::vector<Openings> openings_of(const setout::Layout& layout, const Heights& heights, const Seen& seen) {
  std::vector<Openings> openings(seen.sections.size(), Openings(kMostRails));
  for (const Clearance& c : heights.clearances) {
    const int fence = layout.bays[c.bay].fence;
    const Section& section = seen.sections[fence];
    const int rails = static_cast<int>(section.centres.size());
    const bool to_ground = section.infilled ? c.below_rail > rails : c.below_rail >= rails;
    if (to_ground || c.below_rail >= kMostRails) continue;
    Opening& opening = openings[fence][c.below_rail];
    opening.least = opening.any ? min(opening.least, c.least) : c.least;
    opening.largest = max(opening.largest, c.largest);
    opening.any = true;
  }
  return openings;
}

// One finding for all rails of a fence that have the same faulty opening under them: "1, 2, 3".
void report_alike(const Openings& openings, bool (*faulty)(const Opening&, const Section&), const Section& section, const char* code, const Values& limits,
                  Findings& findings) {
  std::vector<std::pair<Length, std::string>> alike;
  for (int rail = 1; rail < kMostRails; ++rail) {
    const Opening& opening = openings[rail];
    if (!opening.any || !faulty(opening, section)) continue;
    const auto same = std::find_if(alike.begin(), alike.end(), [&](const auto& seen) { return seen.first == opening.largest; });
    if (same == alike.end())
      alike.push_back({opening.largest, std::to_string(rail)});
    else
      same->second += ", " + std::to_string(rail);
  }
  for (const auto& [largest, rails] : alike) {
    Values values{{"rail", rails}, {"opening", value_of(largest)}};
    values.insert(values.end(), limits.begin(), limits.end());
    findings.push_back({code, Severity::warning, section.fence->id, values});
  }
}

bool traps(const Opening& opening, const Section& section) {
  return section.trap_to > Length() && opening.largest >= section.trap_from && opening.least <= section.trap_to;
}
bool too_large(const Opening& opening, const Section& section) { return section.largest_opening > Length() && opening.largest > section.largest_opening; }

// Openings between rails are alike in all bays of a fence: the worst of each rail is told once.
void report_openings(const setout::Layout& layout, const Heights& heights, const Seen& seen, Findings& findings) {
  const auto openings = openings_of(layout, heights, seen);
  for (std::size_t f = 0; f < openings.size(); ++f) {
    const Section& section = seen.sections[f];
    report_alike(openings[f], traps, section, "grade.opening_traps", {{"from", value_of(section.trap_from)}, {"to", value_of(section.trap_to)}}, findings);
    report_alike(openings[f], too_large, section, "grade.opening_large", {{"largest", value_of(section.largest_opening)}}, findings);
  }
}

void report_height(const setout::Layout& layout, const Seen& seen, Findings& findings) {
  std::vector<bool> told(seen.sections.size(), false);
  for (std::size_t f = 0; f < seen.sections.size(); ++f) {
    const Section& section = seen.sections[f];
    if (section.fence->height >= section.least_height) continue;
    told[f] = true;
    findings.push_back(
        {"grade.too_low", Severity::warning, section.fence->id, {{"height", value_of(section.fence->height)}, {"least", value_of(section.least_height)}}});
  }
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    const Section& section = seen.sections[layout.bays[b].fence];
    const Length slack = max(section.fence->line_tolerance, Length::inches(1));  // what the job tolerates of a top line
    if (layout.bays[b].kind == setout::BayKind::gate || told[layout.bays[b].fence] || !seen.ground[b].known) continue;
    if (seen.ground[b].least_height + slack >= section.least_height) continue;
    findings.push_back({"grade.too_low",
                        Severity::warning,
                        layout.bays[b].name,
                        {{"height", value_of(seen.ground[b].least_height)}, {"least", value_of(section.least_height)}}});
  }
}

const std::string& leg_name(const job::Job& job, const setout::Bay& bay) { return job.site.legs[static_cast<std::size_t>(bay.leg)].id; }

Value volume_of(const Earth& earth) { return VolumeValue{std::round(earth.volume_m3 * 1e4) / 1e4}; }

Finding hump_in(const setout::Bay& bay, const std::string& leg, const BayGround& ground, const Section& section) {
  const bool buried = ground.hump > section.smallest_bottom;  // the ground stands in the pipe itself
  return {"grade.hump",
          buried ? Severity::stop : Severity::warning,
          bay.name,
          {{"leg_station", value_of(ground.hump_at)},
           {"from_post", value_of(ground.hump_at - bay.start)},
           {"short_by", value_of(ground.hump)},
           {"cut", volume_of(ground.cut)},
           {"leg", leg},
           {"with_post", value_of(ground.hump_with_post)}}};
}

Finding dip_in(const setout::Bay& bay, const std::string& leg, const BayGround& ground, const Section& section) {
  Finding finding{ground.filler ? "grade.dip" : "grade.dip_deep",
                  Severity::warning,
                  bay.name,
                  {{"leg_station", value_of(ground.dip_at)},
                   {"from_post", value_of(ground.dip_at - bay.start)},
                   {"opening", value_of(section.largest_bottom + ground.dip)},
                   {"largest", value_of(section.largest_bottom)},
                   {"over_by", value_of(ground.dip)},
                   {"fill", volume_of(ground.fill)},
                   {"leg", leg},
                   {"with_post", value_of(ground.dip_with_post)}}};
  if (ground.filler) finding.values.push_back({"filler_below", value_of(*ground.filler)});
  return finding;
}

// The worst bay of a run stands for all of the run that are alike in fault: `count` of them, and the code with an `s` when they are several.
class WorstOfRun {
 public:
  explicit WorstOfRun(Findings& findings) : findings_(findings) {}
  ~WorstOfRun() { tell(); }
  WorstOfRun(const WorstOfRun&) = delete;
  WorstOfRun& operator=(const WorstOfRun&) = delete;

  void add(int run, Length size, Finding finding) {
    if (run != run_) tell();
    run_ = run;
    ++count_;
    if (size > size_) {
      size_ = size;
      worst_ = std::move(finding);
    }
  }

 private:
  void tell() {
    if (count_ > 1) {
      worst_.code += 's';
      worst_.values.push_back({"count", count_});
    }
    if (count_ > 0) findings_.push_back(std::move(worst_));
    count_ = 0;
    size_ = Length();
  }

  Findings& findings_;
  Finding worst_;
  Length size_;
  std::int64_t count_ = 0;
  int run_ = -2;
};

void report_ground(const job::Job& job, const setout::Layout& layout, const Seen& seen, Findings& findings) {
  WorstOfRun humps(findings), dips(findings);
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    const setout::Bay& bay = layout.bays[b];
    const BayGround& ground = seen.ground[b];
    if (bay.kind == setout::BayKind::gate || !ground.known) continue;
    const Section& section = seen.sections[bay.fence];
    const std::string leg = leg_name(job, bay);
    if (ground.hump > Length()) humps.add(bay.run, ground.hump, hump_in(bay, leg, ground, section));
    if (ground.dip > Length()) dips.add(bay.run, ground.dip, dip_in(bay, leg, ground, section));
  }
}

void report_no_line(const job::Job& job, const setout::Layout& layout, const Seen& seen, Findings& findings) {
  for (const int b : seen.hurried) findings.push_back({"grade.fewest_unknown", Severity::note, layout.bays[b].name, {}});
  for (const int b : seen.no_line) {
    const BayGround& ground = seen.ground[b];
    const bool hump = ground.hump >= ground.dip;
    const Length at = hump ? ground.hump_at : ground.dip_at;
    findings.push_back({"grade.no_line",
                        Severity::warning,
                        layout.bays[b].name,
                        {{"leg_station", value_of(at)},
                         {"from_post", value_of(at - layout.bays[b].start)},
                         {"by", value_of(max(ground.hump, ground.dip))},
                         {"cut", volume_of(ground.cut)},
                         {"fill", volume_of(ground.fill)},
                         {"leg", leg_name(job, layout.bays[b])},
                         {"with_post", value_of(hump ? ground.hump_with_post : ground.dip_with_post)}}});
    if (ground.filler) findings.back().values.push_back({"filler_below", value_of(*ground.filler)});
  }
}

// Mends that find nothing to mend.
void report_idle(const setout::Layout& layout, const Seen& seen, Findings& findings) {
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    const BayMends mends = seen.mends[b];
    if ((mends.cut || mends.fill || mends.filler) && !seen.ground[b].mended) findings.push_back({"grade.mend_idle", Severity::note, layout.bays[b].name, {}});
  }
}

// The steepest rail of each leg stands for all of the leg that are too steep.
void report_tilt(const setout::Layout& layout, const Heights& heights, const Seen& seen, Findings& findings) {
  struct Steep {
    std::int64_t count = 0;
    double slope = 0;
    int bay = -1;
  };
  std::vector<Steep> steep(layout.legs.size());
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    const BayHeights& bay = heights.bays[b];
    if (bay.rails.empty() && !bay.has_brace_rail) continue;
    const RailEnds ends = bay.rails.empty() ? bay.brace : bay.rails.front();
    const Length run = layout.bays[b].gap - seen.bolt_offset * 2;
    const double slope = run > Length() ? std::abs((ends.to - ends.from) / run) : 0;
    if (slope <= seen.steepest + 1e-6) continue;
    Steep& leg = steep[layout.bays[b].leg];
    ++leg.count;
    if (slope > leg.slope) {
      leg.slope = slope;
      leg.bay = static_cast<int>(b);
    }
  }
  for (const Steep& leg : steep)
    if (leg.count > 0)
      findings.push_back({"grade.tilt",
                          Severity::warning,
                          layout.bays[leg.bay].name,
                          {{"tilt", AngleValue{degrees_of(leg.slope)}}, {"limit", AngleValue{seen.tilt_deg}}, {"count", leg.count}}});
}

// Steps of level rails, by leg: how many, and the largest.
void report_steps(const setout::Layout& layout, const Heights& heights, const Seen& seen, Findings& findings) {
  struct Steps {
    std::int64_t count = 0;
    Length largest;
    int post = -1;
  };
  std::vector<Steps> steps(layout.legs.size());
  for (std::size_t b = 1; b < layout.bays.size(); ++b) {
    const setout::Bay& bay = layout.bays[b];
    if (seen.sections[bay.fence].fence->line != job::RailLine::level || layout.bays[b - 1].to != bay.from) continue;
    if (heights.bays[b].rails.empty() || heights.bays[b - 1].rails.empty() || layout.bays[b - 1].fence != bay.fence) continue;
    const Length step = abs(heights.bays[b].rails.front().from - heights.bays[b - 1].rails.front().to);
    if (step == Length()) continue;
    Steps& leg = steps[bay.leg];
    ++leg.count;
    if (step > leg.largest) {
      leg.largest = step;
      leg.post = bay.from;
    }
  }
  for (std::size_t leg = 0; leg < steps.size(); ++leg)
    if (steps[leg].count > 0)
      findings.push_back(
          {"grade.step", Severity::note, layout.posts[steps[leg].post].name, {{"count", steps[leg].count}, {"step", value_of(steps[leg].largest)}}});
}

void report_unknown(const job::Job& job, const setout::Layout& layout, const Seen& seen, Findings& findings) {
  std::int64_t count = 0;
  std::string first;
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    if (layout.bays[b].kind == setout::BayKind::gate || seen.ground[b].known) continue;
    if (count++ == 0) first = layout.bays[b].name;
  }
  if (count > 0) findings.push_back({"grade.unknown_ground", Severity::note, first, {{"count", count}, {"needs", value_of(job.choices.clearance_accuracy)}}});
}

}  // namespace

void report(const job::Job& job, const setout::Layout& layout, const Heights& heights, const Seen& seen, Findings& findings) {
  report_height(layout, seen, findings);
  report_openings(layout, heights, seen, findings);
  report_no_line(job, layout, seen, findings);
  report_ground(job, layout, seen, findings);
  report_idle(layout, seen, findings);
  report_tilt(layout, heights, seen, findings);
  report_steps(layout, heights, seen, findings);
  report_unknown(job, layout, seen, findings);
}

}  // namespace railwright::grade
