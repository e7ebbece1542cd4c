// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// A single-span H-brace: end post, brace post, a rail between them near the top and a wire from the top of the brace post to the bottom of the end post.
namespace railwright::strength {

using measure::Force;
using measure::Length;

struct HBrace {
  Force pull;          // all wires together
  Length pull_height;  // of their resultant above the ground
  Length rail_height;
  Length span;  // centre to centre of the two posts
};

struct HBraceForces {
  Force compression;   // in the rail: C = F h / H
  Force wire_tension;  // T = C sqrt(L^2 + H^2) / L
  Force uplift;        // of the end post: C H / L = F h / L
};

// Posts pinned at the ground, so that the brace takes all of the pull. Standard statics; no published worked example was found.
// Property: the three forces balance at the top of the brace post. Zero span or height: all zero.
HBraceForces h_brace(const HBrace& brace);

// Resistance of a post to being pulled up, from New Zealand tests quoted by The Conservation Volunteers' fencing handbook: dug in and
// rammed 90 kgf, driven 900 kgf (soil not stated). A post in concrete has in addition its own weight and the concrete's.
enum class PostSetting { dug_and_rammed, driven };
Force pull_out_resistance(PostSetting setting);

}  // namespace railwright::strength
