// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "sheets/page.h"

namespace railwright::sheets {

// Each leg seen from its right-hand side, laid out flat: ground, posts, rails, gates, and a band of heights below. Heights are drawn larger than lengths; the head of
// the sheet says how much. A long leg takes several sheets that overlap by a post.
void draw_profiles(Book& book, const Pack& pack);

// Height of a rail above the ground at a post, for the sheets that list it: from the bay after the post on that leg, else from the one before. `rail` counts from 0.
std::optional<Length> rail_above_ground(const Plan& plan, int post, int leg, std::size_t rail);

}  // namespace railwright::sheets
