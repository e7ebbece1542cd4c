// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/page.h"

namespace railwright::sheets {

// What will be built (a picture), what to buy (ten lines at most), what to watch out for (three), how sure it is.
void draw_first_sheet(Book& book, const Pack& pack);

// The same facts as short sentences, for the terminal as well.
struct Counts {
  double fence_m = 0;
  int posts = 0, bays = 0, gates = 0;
  std::size_t rails = 0, fittings = 0;
};
Counts counts_of(const Plan& plan);
std::vector<std::string> how_sure(const Pack& pack);
// What the points' error does to the quantities, in one sentence; empty where they are taped.
std::string position_sentence(const Pack& pack);
// The heaviest findings first, in words; at most `most`.
std::vector<std::string> watch_out(const Pack& pack, std::size_t most);
// Order lines by amount, at most `most`: "46 × 2-3/8 sch40, 21 ft".
std::vector<std::pair<std::string, std::string>> to_buy(const Pack& pack, std::size_t most);

// The cautions that apply to this job, each with the source seen for it.
void draw_cautions(Book& book, const Pack& pack);

}  // namespace railwright::sheets
