// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/job.h"
#include "tests/plan/generated_jobs.h"

// Invented jobs for the spacing's tests and bench: walks of many legs, one fence, flat or rolling ground.
namespace railwright::testing {

struct SpacingCase {
  int runs = 5;
  int cap_inches = 96;
  std::vector<int> sticks = {21};  // feet
  int rails = 4;
  bool rolling = false;
  int longest_feet = 300;
  std::uint64_t seed = 1;
};

inline job::Job spacing_job(const SpacingCase& c) {
  using measure::Length;
  Draw draw(c.seed * 7919 + static_cast<std::uint64_t>(c.runs));
  job::Job job;
  job.name = "spacing";
  job.invented = true;
  job::Fence fence;
  fence.id = "rails";
  fence.animal = "horse";
  fence.height = Length::inches(54);
  fence.rails = c.rails;
  fence.spacing.mode = job::SpacingMode::best;
  fence.spacing.cap = Length::inches(c.cap_inches);
  fence.rail_pipe = fence.line_pipe = "2-3/8 sch40";
  fence.strong_pipe = fence.gate_pipe = "2-7/8 sch40";
  fence.soil = "clay";
  job.choices.fences.push_back(fence);
  std::int64_t east = 0, north = 0;
  for (int i = 0; i <= c.runs; ++i) {
    job::Point point;
    point.id = "P" + std::to_string(i);
    point.east = Length::sixty_fourths(east);
    point.north = Length::sixty_fourths(north);
    job.site.points.push_back(point);
    const std::int64_t length = draw.from_to(20 * 768, c.longest_feet * 768);
    (i % 2 == 0 ? east : north) += length;
  }
  for (int i = 0; i < c.runs; ++i) {
    job::Leg leg;
    leg.id = "L" + std::to_string(i) + "-";
    leg.from = "P" + std::to_string(i);
    leg.to = "P" + std::to_string(i + 1);
    leg.fence = fence.id;
    job.site.legs.push_back(leg);
    for (int k = 0; c.rolling && k <= 12; ++k)
      job.site.ground.profile.push_back({leg.id, Length::feet(25) * k, Length::mm(k == 0 ? 0 : draw.from_to(-300, 300))});
  }
  for (const char* pipe : {"2-3/8 sch40", "2-7/8 sch40"}) {
    for (const int feet : c.sticks) {
      const int cents = pipe[2] == '3' ? 280 : 440;
      job.choices.offers.push_back(
          {std::string(pipe) + " x " + std::to_string(feet), pipe, Length::feet(feet), measure::Money::cents(cents * feet), std::nullopt, "invented"});
    }
  }
  job.choices.crew.hourly = measure::Money::whole(32);
  return job;
}

}  // namespace railwright::testing
