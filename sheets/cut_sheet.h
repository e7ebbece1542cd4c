// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/page.h"

namespace railwright::sheets {

// Sticks as bars to scale: pieces with their names or lengths inside, kerfs as gaps, running tape marks below, the drop hatched with its length and fate. Sticks
// cut alike are drawn once with their number and the names of all their pieces. Tape marks stand only where every piece of a stick may be cut as it is:
// posts, rails of measured gaps, and all rails when the job cuts rails first. Otherwise the sheet says that it is for buying.
void draw_cut_sheets(Book& book, const Pack& pack);

// What the cuts cost and how far from the best they can be at most.
struct CutTotals {
  Money cost, bound;
  std::int64_t sticks = 0;
  bool proved = true, priced = true;
};
CutTotals cut_totals(const Plan& plan);
// "No plan can beat this by more than $3.10.", or that it is proved, or that prices are missing.
std::string bound_sentence(const Pack& pack, const CutTotals& totals);

}  // namespace railwright::sheets
