// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/page.h"

namespace railwright::sheets {

// Which part at which post, with a sketch from above: the post a ring, the bolt a stub on the side that the rail comes from, the rail a bar with the name of
// the post it comes from. Posts fitted alike and facing alike share a card.
void draw_fitting_sheets(Book& book, const Pack& pack);

}  // namespace railwright::sheets
