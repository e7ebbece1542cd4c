// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "engine/grade/chains.h"
#include "engine/grade/earth.h"
#include "engine/grade/heights.h"
#include "engine/grade/section.h"

namespace railwright::grade {

// Heights of the top rail's centre above the datum at both ends of a chain's bays, in the chain's direction.
struct TopLine {
  std::vector<RailEnds> bays;
  std::vector<int> no_line;  // smooth: places in the chain of bays that no line passes
  bool fewest_known = true;  // smooth: false where the search ended at its limit
};

// Heights that shared posts have been given by an earlier chain of the same fence: by post and fence.
using SharedHeights = std::map<std::pair<int, int>, Length>;

struct LineInput {
  const setout::Layout& layout;
  const Chain& chain;
  const Section& section;
  double steepest = 1;                 // rise per run between the bolts
  Length bolt_offset;                  // largest, of the post face
  const std::vector<BayMends>& mends;  // as Layout::bays
};

TopLine follow_line(const LineInput& input);
TopLine level_line(const LineInput& input);
TopLine smooth_top_line(const LineInput& input, const SharedHeights& shared);

}  // namespace railwright::grade
