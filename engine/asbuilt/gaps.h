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
  Length planned, measured;  // level
  Length residual;           // measured less what the run's sum and the plan expect, by least squares
  bool doubtful = false;     // tape it again
};

struct AsBuilt {
  fittings::Readings readings;  // accepted readings for `assemble`
  std::vector<GapReport> reports;
};

// Takes in Field::gaps. Findings: `gaps.no_such_bay`, `gaps.no_such_rail`, `gaps.twice`, `gaps.slip_inch`, `gaps.slip_foot`, `gaps.sum` (the gaps and post diameters of the run do not
// add up to the run), `gaps.lean` (top and bottom gaps differ by more than the plumb tolerance; names the post), `gaps.lean_either` (readings cannot tell which of two posts),
// `gaps.impossible` (longer than the bay, zero, negative), `gaps.retape` (surprises, but by no whole inch or foot), `gaps.partly` (some rails of a bay have no reading and
// keep the planned gap). Readings with a slip, a surprise or an impossible value are doubtful and not accepted. Of two readings of one rail the later counts.
// Properties: (1) readings equal to the plan give no finding but `gaps.partly` and no residual; (2) mirroring a run mirrors its answer; (3) one slip of a foot in any
// bay of a run is named in that bay; (4) near-linear in bays and readings.
AsBuilt take_in_gaps(const job::Job& job, const setout::Layout& layout, const grade::Heights& heights, Findings& findings);

}  // namespace railwright::asbuilt
