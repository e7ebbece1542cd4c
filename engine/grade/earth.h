// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/grade/ground_under.h"
#include "engine/grade/heights.h"
#include "engine/grade/section.h"

// Ground that does not suit the rails, and what mends it: cut, fill, a filler rail, another post.
namespace railwright::grade {

// Volume of earth between two cross-sections: V = (A1 + A2) / 2 * L. Average end area method; worked example and rule in "Fundamentals of
// Transportation/Earthwork", Wikibooks. Exact where the area changes evenly, as it does under a straight rail with sides cut plumb.
double average_end_area(double area1, double area2, double length);

// Earth beyond a limit along a bay.
struct Earth {
  double from = 0, to = 0;  // metres from the bay's `from` post; equal: none
  double deepest = 0;       // metres
  double volume_m3 = 0;
};

// Where and how far a line of excess depths (positive: beyond the limit) stands beyond it; `width` of the strip in metres.
Earth earth_beyond(const std::vector<GroundPoint>& excess, double width);

// What the job does about the ground of one bay.
struct BayMends {
  bool cut = false, fill = false, filler = false;
};
// One per bay. Findings: `grade.mend_nowhere`, where a mend names no bay of a fence.
std::vector<BayMends> mends_of(const job::Job& job, const setout::Layout& layout, Findings& findings);

// How far below the lowest rail's centre a filler rail hangs, so that no opening is too large, too small or a trap; `least` and `largest` are the
// openings to the ground without it. Nothing where none fits, or where the fence has no need of one.
std::optional<Length> filler_below(const Section& section, Length least, Length largest);

// Openings under the lowest rail of one bay, as heights of the rail's underside above each point of the ground.
std::vector<GroundPoint> openings_under(const std::vector<GroundPoint>& ground, RailEnds underside);

// What would be left of a hump (or a dip) if a post stood at a point of the ground, both new bays running from post to post at the opening as drawn.
// With level rails: what each of the new bays would still be uneven by, beyond what one level may stand over.
Length left_with_post(const Section& section, const std::vector<GroundPoint>& ground, RailEnds underside, double at, bool hump);

}  // namespace railwright::grade
