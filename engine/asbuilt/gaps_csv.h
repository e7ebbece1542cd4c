// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <vector>

#include "engine/job/finding.h"
#include "engine/job/job.h"

namespace railwright::asbuilt {

struct ReadGaps {
  std::vector<job::MeasuredGap> gaps;  // in the order of the lines
  Findings findings;                   // severity stop; `where` is line:column of the cell
};

// Reads GAPS.csv: a header line `bay,rail,gap,way` (columns in any order; `way` may be left out and is level where empty), then one reading per line, RFC 4180
// quoting. A gap carries its unit or is in inches. Lines without a gap (blanks of the bay sheet) are passed over. All faults are named at once; lines at fault give no reading.
// Findings: `gaps_csv.empty`, `gaps_csv.header`, `gaps_csv.quote`, `gaps_csv.bay`, `gaps_csv.rail`, `gaps_csv.gap`, `gaps_csv.way`, `gaps_csv.not_text`.
// Example: read_gaps("bay,rail,gap,way\nL.1,1,7 ft 9 5/8 in,level\n") gives one reading of 93 5/8 in.
ReadGaps read_gaps(std::string_view text);

}  // namespace railwright::asbuilt
