// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/ground/profile.h"
#include "engine/setout/layout.h"
#include "engine/takeoff/pipe_cuts.h"

// What each count of bays costs each run, and what is cut for it.
namespace railwright::spacing {

using measure::Length;
using measure::Money;

struct Piece {
  int pipe = 0;                   // index into Table::pipes
  Length length;
  Length least;                   // no layout of this run makes it shorter: as if level where the line is not the ground's own
  bool grows = false;             // cut to a gap that is not measured yet: setting scatter may lengthen it
  std::int64_t count = 0;
};

// All that belongs to a run with so many bays, or to no run: shared posts, gates.
struct Share {
  int bays = 0;
  Money fixed;                    // everything but pipe
  int faults = 0;                 // findings that stop or warn
  std::vector<Piece> pieces;      // sorted, like ones together
};

// Stocks and rules of one pipe; its pieces are of no account.
struct PipeStock {
  std::string pipe;
  std::vector<cutting::Stock> stocks;
  cutting::Rules rules;
  Length longest;                 // usable of the longest stock
};

struct Table {
  std::vector<PipeStock> pipes;
  std::vector<std::vector<Share>> runs;   // by run the counts to choose from, fewest bays first; element 0 is the plain rule's
  Money concrete_per_m3;          // as bought for the plain rule
  Share shared;                   // as with the plain rule
  Money least_shared;             // cheapest fixed cost of the shared things in any layout seen
  std::vector<int> eight_foot;    // by run: the element that an 8 ft rule takes
};

struct Site {
  const job::Job& job;
  const job::Catalogue& catalogue;
  const setout::Limits& limits;
  const std::vector<ground::Profile>& profiles;
};

Table tabulate(const Site& site);

// The true account of one vector of counts: shares by run, the last for what is shared. Pipes are those of the table (new ones are added).
std::vector<Share> account_of(const Site& site, const std::vector<int>& bays, Table& table);

}  // namespace railwright::spacing
