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
  int pipe = 0;  // index into Table::pipes
  Length length;
  bool grows = false;  // cut to a gap that is not measured yet: setting scatter may lengthen it
  std::int64_t count = 0;
};

// Everything but pipe, and what is cut from pipe (sorted, like ones together).
struct Bill {
  Money fixed;
  std::vector<Piece> pieces;
};

// All that belongs to a run with so many bays, or to no run: shared posts, gates.
struct Share {
  int bays = 0;
  Bill seen;                  // in the layout that was tried
  Bill least;                 // no layout with this count in this run needs less (floor.h)
  int faults = 0;             // findings that stop (1000 each) or warn, and `strays`
  int strays = 0;             // pieces that fit no stick once they have grown by the scatter
  std::vector<Length> looks;  // clear gaps of the bays between its posts, each once; a single bay has no look
};

// Stocks and rules of one pipe; its pieces are of no account.
struct PipeStock {
  std::string pipe;
  std::vector<cutting::Stock> stocks;
  cutting::Rules rules;
  Length longest;  // usable of the longest stock
};

struct Table {
  std::vector<PipeStock> pipes;
  std::vector<std::vector<Share>> runs;  // by run the counts to choose from, fewest bays first; element 0 is the plain rule's
  std::vector<int> fence;                // by run
  Money concrete_per_m3;                 // as bought for the plain rule
  Share shared;                          // as with the plain rule
  std::vector<int> eight_foot;           // by run: the element that an 8 ft rule takes
};

struct Site {
  const job::Job& job;
  const job::Catalogue& catalogue;
  const setout::Limits& limits;
  const std::vector<ground::Profile>& profiles;
};

// How the counts of one run may vary: `least` to `most`.
struct Range {
  int least = 1, most = 1;
};

// Makes the table layout by layout: the whole job is set out once for each rank j, with j bays more than the fewest in every free run; each layout gives one
// column. Counts reach from the fewest up to twice as many, at most `most_more` more.
class Tabulator {
 public:
  Tabulator(const Site& site, int most_more);
  // Sets the job out once. False: the table was whole already.
  bool step();
  const Table& table() const { return table_; }
  Table take() { return std::move(table_); }

 private:
  void begin();

  Site site_;
  int most_more_, rank_ = -1, ranks_ = 0;
  std::vector<Range> ranges_;
  Table table_;
};

Table tabulate(const Site& site, int most_more = 24);

}  // namespace railwright::spacing
