// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "tests/spacing/spacing_jobs.h"

// Small invented jobs of many kinds, for exhaustive search: every line mode, level and rolling ground, one pipe or several, counted and held sticks, gates,
// no-dig zones, set posts, braces.
namespace railwright::testing {

inline job::Job small_spacing_job(std::uint64_t seed) {
  Draw draw(seed * 104729 + 17);
  SpacingCase c;
  c.runs = static_cast<int>(draw.from_to(1, 2));
  c.cap_inches = static_cast<int>(draw.from_to(84, 120));
  c.longest_feet = c.runs == 1 ? 36 : 28;
  c.rails = static_cast<int>(draw.from_to(1, 2));
  c.rolling = draw.from_to(0, 2) != 0;
  c.sticks = draw.from_to(0, 1) == 0 ? std::vector<int>{21} : std::vector<int>{21, 24};
  c.seed = seed;
  job::Job job = spacing_job(c);
  job::Fence& fence = job.choices.fences[0];
  fence.line = static_cast<job::RailLine>(draw.from_to(0, 2));
  job.choices.cutting.saw_step = draw.from_to(0, 2) == 0 ? Length::sixty_fourths(4) : Length::inches(1);
  if (draw.from_to(0, 2) == 0) fence.strong_pipe = fence.gate_pipe = fence.line_pipe;
  if (draw.from_to(0, 3) == 0) fence.setting = job::Setting::driven;
  if (draw.from_to(0, 3) == 0) job.choices.allowances.scatter = Length::inches(draw.from_to(0, 2));
  if (draw.from_to(0, 3) == 0) job.choices.allowances.stick_tolerance = Length::inches(draw.from_to(0, 3));
  if (draw.from_to(0, 3) == 0)
    job.field.sticks.push_back({"rack", fence.rail_pipe, Length::feet(draw.from_to(8, 18)), static_cast<int>(draw.from_to(1, 3)), {}});
  if (draw.from_to(0, 4) == 0) job.choices.offers[0].count = static_cast<int>(draw.from_to(3, 8));
  if (draw.from_to(0, 4) == 0) {
    job::Gate gate;
    gate.id = "G1";
    gate.leg = "L0-";
    gate.station = Length::feet(draw.from_to(7, 12));
    gate.leaf = Length::feet(4);
    gate.hinge_clearance = gate.latch_clearance = Length::inches(3);
    job.site.gates.push_back(gate);
  }
  if (draw.from_to(0, 4) == 0) {
    job::Zone zone;
    zone.id = "Z1";
    const Length at = Length::feet(draw.from_to(4, 16));
    zone.shape = {{at, Length::feet(-20)}, {at, Length::feet(20)}};
    zone.tolerance = Length::inches(draw.from_to(6, 24));
    job.site.zones.push_back(zone);
  }
  if (draw.from_to(0, 5) == 0) job.field.posts.push_back({"S1", "L0-", Length::feet(draw.from_to(5, 14)), {}, {}});
  return job;
}

}  // namespace railwright::testing
