// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/labels.h"
#include "sheets/scale.h"

namespace railwright::sheets {

// The site from above. A site whose posts would stand too close to be named gets an overview and as many part plans as it takes.
void draw_site_plan(Book& book, const Pack& pack);

enum class Naming { all, fixed, sketch, none };  // sketch: fixed posts, gates and zones, but no runs

// Fence, posts, gates and no-dig zones inside a view, without names or with those that are asked for. Gives the names of posts that found no room.
std::vector<std::string> draw_site(Svg& svg, const Pack& pack, const View& view, Naming naming, Labels& labels);

// The part of the site that the fence and its zones take, metres.
struct Extent {
  double west = 0, south = 0, east = 0, north = 0;
};
Extent extent_of(const Pack& pack);

}  // namespace railwright::sheets
