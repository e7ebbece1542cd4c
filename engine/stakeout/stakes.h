// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/job/job.h"
#include "engine/setout/layout.h"

// What the crew stakes by, leg by leg.
namespace railwright::stakeout {

using measure::Length;

// One stake: a post as it is met on one leg. A corner is met on each of its legs.
struct Stake {
  int post = 0;             // index in Layout::posts
  Length station;           // level, from the leg's start; on a curve along the arc
  Length from_before;       // level and straight, from the post before; 0 for the first
  Length tape;              // reading of a tape laid along the ground from the leg's first post
  Length string_to_centre;  // across the leg, from the string to the post's centre
  Length string_to_face;    // from the string to the post's near face: 0 where the post touches it
};

// The string is pulled parallel to the line of centres on the side away from the animals, so that it just touches the thickest post of the leg; at a
// thinner end post a block of `string_to_face` holds it off. So one string serves posts of all sizes (common practice, no source). A string does not bend: on a curve
// the figures are those of the circle beside the posts, and the string goes from post to post.
struct LegStakes {
  int leg = 0;                               // index in Site::legs
  job::Side string_side = job::Side::right;  // seen walking the leg
  Length level, tape;                        // of the whole leg
  std::vector<Stake> stakes;                 // by station
};

struct GeoPost {
  double latitude_deg = 0, longitude_deg = 0;
};  // WGS 84, on a grid of 1e-8 degrees (a millimetre)

struct StakeOut {
  std::vector<LegStakes> legs;  // as Site::legs
  std::vector<GeoPost> places;  // as Layout::posts; empty when the job has no place on the earth
};

// Properties: (1) tape >= station less the first post's, both grow along a leg; (2) string_to_centre >= half the post's diameter, equal for all posts of
// a leg that stand on its line; (3) the places lie where `ground::LevelPlane` puts the posts.
StakeOut stake_out(const job::Site& site, const setout::Layout& layout);

}  // namespace railwright::stakeout
