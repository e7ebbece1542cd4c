// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/grade/clearance.h"

namespace railwright::grade {

// What was seen while heights were found; `Reporter` turns it into findings, few and in a fixed order.
struct Seen {
  std::vector<Section> sections;  // as Choices::fences
  std::vector<BayGround> ground;  // as Layout::bays
  std::vector<int> no_line;       // bays
  std::vector<int> hurried;       // first bays of chains whose smooth line may not be of the fewest pieces
  std::vector<BayMends> mends;    // as Layout::bays
  double tilt_deg = 30, steepest = 1;
  Length bolt_offset;
};

void report(const job::Job& job, const setout::Layout& layout, const Heights& heights, const Seen& seen, Findings& findings);

}  // namespace railwright::grade
