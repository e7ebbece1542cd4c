// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/grade/earth.h"
#include "engine/grade/heights.h"
#include "engine/grade/section.h"

namespace railwright::grade {

// What the ground does to a bay, and what would mend it.
struct BayGround {
  bool known = false;
  Length hump, hump_at;  // how far the ground stands into the least opening, and its station on the leg; 0: nowhere
  Length dip, dip_at;    // how far the opening exceeds the largest allowed
  Earth cut, fill;
  Length hump_with_post, dip_with_post;  // what would be left of them with a post there
  std::optional<Length> filler;          // below the lowest rail's centre; nothing: none fits
  bool mended = false;                   // the job mends something of it
  Length least_height;                   // of the top of the top pipe over the ground
};

// Openings of one bay, all along it: they are least or largest at a post or where the ground bends, for rails are straight.
struct CheckInput {
  const setout::Layout& layout;
  int bay = 0;
  const Section& section;
  bool ground_known = false;
  BayMends mends;
  double earth_width = 0;  // metres
};
// Adds to the clearances and the earthwork of `heights`.
void check_bay(const CheckInput& input, Heights& heights, BayGround& ground);

// The straight line whose opening to the ground counts: the underside of the lowest pipe, or the infill's bottom.
RailEnds underside(const setout::Layout& layout, const setout::Bay& bay, const BayHeights& heights, const Section& section);

}  // namespace railwright::grade
