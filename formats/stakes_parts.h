// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/job.h"
#include "engine/measure/geometry.h"

// What the stake-out files have in common.
namespace railwright::formats {

// A number with fixed decimals, by whole numbers: no locale, the same in every build.
std::string fixed_text(double value, int decimals);

struct LegEnds {
  measure::Vec2 from, to;
  const job::Leg* leg = nullptr;
};
// Of every leg whose points exist.
std::vector<LegEnds> leg_ends(const job::Site& site);

// "end", "corner", "line" ... as plan JSON writes them.
const char* kind_text(int kind);

}  // namespace railwright::formats
