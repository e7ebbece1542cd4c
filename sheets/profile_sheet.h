// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/page.h"

namespace railwright::sheets {

// Each leg seen from its right-hand side, laid out flat: ground, posts, rails, gates, and a band of heights below. Heights are drawn larger than lengths; the head of
// the sheet says how much. A long leg takes several sheets that overlap by a post.
void draw_profiles(Book& book, const Pack& pack);

}  // namespace railwright::sheets
