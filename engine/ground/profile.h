// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/job/finding.h"
#include "engine/job/job.h"

namespace railwright::ground {

enum class Source { none, levelled, spots, grid };

struct ProfilePoint {
  double station = 0, height = 0;
};  // metres: level distance from the leg's start; height above the datum

// The ground along one leg: straight between points of strictly increasing station, the first at 0, the last at the leg's level length.
// Without any height the ground is level at 0 and `source` is none.
struct Profile {
  std::vector<ProfilePoint> points;
  Source source = Source::none;
  double accuracy = 0;  // metres, one sigma

  // Height at a station; clamped to the ends. O(log n).
  double height_at(double station) const;
};

// One profile per leg of the site, in its order. Heights come from, best first: levelled heights along the leg; spot heights (inverse-distance
// weighted, exact at a spot) and point heights; the grid (bilinear, sampled where the leg crosses cell lines). Legs meeting at a point get one height there.
// Findings: `ground.none` (note), `ground.outside_grid`, `ground.coarse` (accuracy too poor for clearances), `ground.cliff`.
// `clearance_accuracy`: the job's allowance, how well ground must be known before clearances are judged by it.
std::vector<Profile> profiles(const job::Site& site, Findings& findings, measure::Length clearance_accuracy = job::Choices().clearance_accuracy);

}  // namespace railwright::ground
