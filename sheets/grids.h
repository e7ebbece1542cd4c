// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/grid.h"

// The tables of the plan, each of which is drawn and written as CSV.
namespace railwright::sheets {

Grid stake_grid(const Pack& pack);          // where every post stands
Grid corner_grid(const Pack& pack);         // tapes across that prove the corners
Grid post_grid(const Pack& pack);           // how long it is and what holds it
Grid mark_grid(const Pack& pack);           // where each band goes: up from the ground, down from the top
Grid mark_sheet_grid(const Pack& pack);     // the same for the sheet: a row for each post, a column for each rail
Grid fitting_grid(const Pack& pack);        // which part at each post
Grid rail_grid(const Pack& pack);           // each rail: gap, take-off, length, cut
Grid bay_grid(const Pack& pack);            // gaps to measure, with blanks
Grid bolting_grid(const Pack& pack);        // the order of bolting, from the bottom rail up
Grid bolting_sheet_grid(const Pack& pack);  // the same for the sheet: bays and rails that are alike share a line
Grid cut_grid(const Pack& pack);            // sticks with running marks
Grid order_grid(const Pack& pack);          // what to buy
Grid hour_grid(const Pack& pack);
Grid load_grid(const Pack& pack);
Grid spacing_grid(const Pack& pack);  // what the chosen bays cost, beside the plain rules, the bound and other allowances; empty where none were chosen
Grid earth_grid(const Pack& pack);    // ground that is cut and filled
Grid check_grid(const Pack& pack);
Grid finding_grid(const Pack& pack);

std::string kind_word(const Pack& pack, setout::PostKind kind);
// A catalogue id or offer name as a person reads it: the words' `item.<id>` where there is one, else the id.
std::string item_word(const Pack& pack, const std::string& id);
// How an item is counted: each, roll, bag.
std::string unit_word(const Pack& pack, const std::string& unit);
// "rail 2" or "brace rail".
std::string rail_word(const Pack& pack, int number);
// The post at the other end of a rail.
const std::string& far_post(const Plan& plan, const fittings::RailEnd& end);
std::string serves_word(const Pack& pack, const fittings::Use& use);

// True when a piece may be cut as listed: a post, a rail of a measured gap, or any rail when the job cuts rails first.
bool piece_final(const Pack& pack, const takeoff::PipeCuts& pipe, int piece);
// How many pieces from the start of a stick may be cut; what follows waits for its gap.
std::size_t ready_pieces(const Pack& pack, const takeoff::PipeCuts& pipe, const cutting::Stick& stick);

}  // namespace railwright::sheets
