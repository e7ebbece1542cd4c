// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/setout/layout.h"

namespace railwright::grade {

struct ChainBay {
  int bay = 0;
  bool reversed = false;
};

// Bays of one fence that follow each other without a gate between: along a leg, through tees, and round a corner where two ends of one
// fence meet and nothing else of it does. The top line of a chain is drawn as one.
struct Chain {
  int fence = 0;
  std::vector<ChainBay> bays;
  std::vector<int> posts;  // one more than bays
  bool closed() const { return posts.front() == posts.back(); }
};

// Every bay that is no gate's is in one chain. Those that end on the middle of another chain come last.
std::vector<Chain> chains_of(const setout::Layout& layout);

}  // namespace railwright::grade
