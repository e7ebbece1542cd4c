// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/grade/stabber.h"

namespace railwright::grade {

// A post, or a place between two posts where the ground's clearances bind. Stations strictly increase; the first and last are posts.
struct Gate {
  double x = 0;
  Interval window;  // heights allowed by clearances; finite
  bool post = false;
  double wish = 0;      // posts: the height that follows the ground
  bool pinned = false;  // posts: exactly `window.low`, whatever the tolerance
  double cap = 1;       // steepest slope, rise per run, of the bay that this place lies in or ends
};

struct SmoothLine {
  std::vector<double> heights;  // one per post
  std::vector<int> breaks;      // posts, without the ends, where the slope may change
  int links = 0;                // straight pieces
  bool fewest_known = true;     // false: the search reached its work limit, and fewer pieces may be possible
  double deviation = 0;         // largest departure from the wishes
  std::vector<int> released;    // bays (counted from 0) that no line can pass: their clearances were let go
  std::vector<int> too_steep;   // of these, bays whose slope cap was let go too
};

// Windows passed after which few starts of each piece are followed: fifty times what the worst line of 10,000 posts was seen to need.
inline constexpr long kMostSmoothWork = 20'000'000;

// The line with the fewest straight pieces that breaks only at posts, stays within `tolerance` of the wishes at every post, passes every window
// and keeps the slope caps; among those one whose largest departure is least, to within `resolution`.
//
// Exact: P(k, i), the set of heights at post i that k pieces can reach, is a union of intervals, found level by level (`link_search.h`).
// Properties: (1) every post within tolerance, every window passed (1 nm); (2) no line of fewer pieces exists; (3) `deviation` exceeds the least
// possible of that many pieces by at most `resolution`, unless narrowing stopped at its work limit (a count of windows passed, never a clock);
// even then it is within the tolerance; (4) the fewest pieces of the mirrored problem are as many.
// Past `most_work` windows a few starts of each piece, evenly spread, stand for all, and `fewest_known` is false. (1) holds even then.
// Where no line exists at all, the first bay from the start that cannot be passed is released and the answer holds for the rest.
// Cost: posts times some tens of starts that are followed a piece; at worst posts times the length of a straight piece in posts.
// Source of the idea: Guibas, Hershberger, Mitchell and Snoeyink, "Approximating polygons and subdivisions with minimum-link paths",
// Int. J. Comput. Geom. Appl. 3(4), 1993 (from memory).
SmoothLine smooth_line(std::vector<Gate> gates, double tolerance, double resolution, long most_work = kMostSmoothWork);

}  // namespace railwright::grade
