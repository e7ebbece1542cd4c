// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/job/job.h"
#include "engine/setout/no_dig.h"

// How many bays a run gets and where their line posts stand.
namespace railwright::setout {

// A run between the middles of two posts.
struct Stretch {
  Length start, end;
  Length from_diameter, to_diameter;
};

struct RunRule {
  Length line_diameter;
  Length cap;  // no pitch above it
  job::SpacingMode mode = job::SpacingMode::equal;
  Length pitch;              // at_pitch and module; 0: the cap
  std::vector<Length> list;  // list
  Length panel;              // joints fall on posts; 0: none
  std::int64_t forced = 0;   // equal and best: this many bays if the cap allows; 0: by rule
  std::int64_t most_bays = 200'000;
};

// A bay wider than the cap, because no post may stand in between.
struct TooWide {
  Length from, to;
  int zone = 0;
};

struct Division {
  std::vector<Length> line;  // stations of the line posts, ascending
  std::vector<TooWide> too_wide;
  bool too_short = false;       // the two posts overlap
  bool too_many = false;        // more bays than allowed: planned as one
  bool cap_too_small = false;   // no clear gap is left at this cap: planned as one
  bool pitch_over_cap = false;  // a pitch asked for was held to the cap
  bool panel_mismatch = false;  // the pitch asked for does not divide the panel
  Length one_bay_less_cap;      // a cap this little larger saves a bay; 0: none
};

// Middle of line post k (1 .. bays - 1) when the stretch has equal level clear gaps. The gaps differ by at most 1 nm and add up, with the posts between
// them, to the stretch. O(1).
Length equal_station(const Stretch& stretch, Length line_diameter, std::int64_t bays, std::int64_t k);
// Widest pitch of that division.
Length widest_pitch(const Stretch& stretch, Length line_diameter, std::int64_t bays);
// Fewest equal bays with no pitch above the cap; 0 when the posts leave no gap first. `most`: give up beyond.
std::int64_t fewest_bays(const Stretch& stretch, Length line_diameter, Length cap, std::int64_t most);

// Divides a run by its rule, with every line post clear of the blocked stretches. Where equal bays cannot be clear with one bay more than the
// fewest possible, the run is divided into parts of equal bays that begin and end at the zones' edges: fewest bays, then
// fewest parts, then the smallest widest pitch (least-cost path over the edges). A zone that no bay under the cap spans is spanned all the same and named
// in `too_wide`: a hole in a no-dig zone is the worse fault.
// Properties: (1) ascending, strictly inside; (2) no pitch above the cap but those in `too_wide`; (3) no post strictly inside a blocked stretch.
Division divide(const Stretch& run, const RunRule& rule, const std::vector<Blocked>& blocked);

}  // namespace railwright::setout
