// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/setout/layout.h"

// Measured gaps against the plan: which readings can be true, which post leans, which tape slipped.
namespace railwright::asbuilt {

using measure::Length;

struct GapReport {
  std::string bay;
  int rail = 1;
  Length planned, measured;       // level
  Length residual;                // measured less what the run's sum and the plan expect, by least squares
  bool doubtful = false;          // tape it again
};

struct AsBuilt {
  fittings::Readings readings;    // accepted readings for `assemble`
  std::vector<GapReport> reports;
};

// Takes in Field::gaps. Findings: `gaps.no_such_bay`, `gaps.no_such_rail`, `gaps.twice`, `gaps.slip_inch`, `gaps.slip_foot`, `gaps.sum` (the gaps and post diameters of the run do not
// add up to the run), `gaps.lean` (top and bottom gaps differ by more than the plumb tolerance; names the post), `gaps.impossible` (longer than the bay, zero, negative).
AsBuilt take_in_gaps(const job::Job& job, const setout::Layout& layout, const grade::Heights& heights, Findings& findings);

}  // namespace railwright::asbuilt
