// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/grade/heights.h"
#include "engine/grade/section.h"

namespace railwright::grade {

// What the ground does to a bay, and the earth that would mend it.
struct BayGround {
  bool known = false;
  Length hump, hump_at;        // how far the ground stands into the least opening, and its station on the leg; 0: nowhere
  Length dip, dip_at;          // how far the opening exceeds the largest allowed
  double cut_m3 = 0, fill_m3 = 0;   // over a strip `kStrip` wide
  Length least_height;         // of the top of the top pipe over the ground
};

// Openings of one bay, all along it: they are least or largest at a post or where the ground bends, for rails are straight.
void check_bay(const setout::Layout& layout, int bay_index, const BayHeights& heights, const Section& section, bool ground_is_known,
               std::vector<Clearance>& clearances, BayGround& ground);

}  // namespace railwright::grade
