// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/grade/heights.h"
#include "engine/job/finding.h"
#include "engine/setout/layout.h"

// Which part serves which rail at which post, and how long each rail truly is.
namespace railwright::fittings {

using measure::Length;

// The end of one rail at one post. number: 1.. from the top, 0 for a brace rail.
struct RailEnd {
  int bay = 0;
  int number = 1;
  bool at_from = true;
};

// One fitting on a post.
struct Use {
  int post = 0;
  int fitting = 0;                 // index into the catalogue's fittings
  std::vector<RailEnd> serves;     // by port: one, or two for through and corner parts, the second clockwise from the first
  Length height;                   // of the band's middle above the ground at the post
  Length below_top;                // down from the middle of the post's top band
  double bearing_deg = 0;          // of the first port, clockwise from north (rounded to 0.01): the side its rail arrives from, where its bolt sits
  double second_bearing_deg = -1;  // of the second port; -1: none
  double nut_bearing_deg = 0;      // the bolt's nut end points here, square to the first rail and away from the animals
  int stack = 0;                   // 0: alone at its level; 1, 2 ...: place in a stack, bottom up
};

struct Rail {
  std::string name;  // `<bay>/<number>`, `<bay>/b`
  int bay = 0;
  int number = 1;
  std::string pipe;
  Length gap;             // level clear gap used (planned or measured)
  Length rise;            // of the bolt at `to` over the bolt at `from`
  Length length;          // true length before the saw's step
  Length cut;             // rounded down to the saw's step: what is cut
  Length take_off;        // both ends together, as gap - length where level
  bool measured = false;  // from a measured gap
  double tilt_deg = 0;
};

struct Assembly {
  std::vector<Use> uses;    // by post, then bottom up (the order of bolting)
  std::vector<Rail> rails;  // by bay, then from the top
};

struct GapReading {
  bool known = false;
  Length gap;
  job::GapWay way = job::GapWay::level;
};
// Index: readings[bay][k], k = rail number - 1. Empty: nothing measured.
using Readings = std::vector<std::vector<GapReading>>;

// The rail between two posts: with bolt offset p, take-off t at each end, level clear gap G and rise dz between bolts the length is
// sqrt((G - p1 - p2)^2 + dz^2) - (t1 - p1) - (t2 - p2), to the nearest micrometre; level, that is G - t1 - t2 exactly. Common practice, no source.
Length rail_length(Length level_gap, Length rise, Length take_off_1, Length bolt_1, Length take_off_2, Length bolt_2);
// Level gap from one taped along the slope: sqrt(S^2 - dz^2), to the nearest micrometre; 0 where dz is longer than S.
Length level_gap(Length slope_gap, Length rise);

// Chooses the parts of every post and rail level by exact cover over the rail directions: least cost, then least stacking, then fewest parts; stacked bands are a step apart (the larger
// of the band's height and what keeps two sleeves apart) and shift their rails' ends, as little as can be. Rails whose heights at a post differ by no
// more than 1/4 in share a level. A rail end that no part fits is reported and has no Use; its take-off counts as nothing. Findings: `fittings.none_fits`, `fittings.tilt`, `fittings.stack_too_tall`,
// `fittings.rail_too_short`, `fittings.rail_too_long`, `fittings.engagement`.
Assembly assemble(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights, const Readings& readings,
                  Findings& findings);

}  // namespace railwright::fittings
