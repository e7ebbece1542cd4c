// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/cutting/cutting.h"
#include "engine/fittings/assembly.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/setout/layout.h"

// What is cut from which pipe: rails, brace rails and posts of one pipe are pieces of one cutting problem.
namespace railwright::takeoff {

using measure::Length;
using measure::Money;
struct PostSize;

enum class StockKind { offered, held, assumed };

// Where a stock of the instance comes from.
struct StockSource {
  StockKind kind = StockKind::offered;
  int index = -1;  // into Choices::offers or Field::sticks; -1: assumed, nobody offered this pipe
  Length nominal;  // length as sold or measured
  // Taken off the start before the tape is laid: where a held stick's own crop is larger than the job's. Marks run from there.
  Length cut_first;
  bool priced = true;  // false: a nominal price per length stands in, so that the shortest plan is found
};

enum class PieceKind { rail, brace, post };
struct PieceSource {
  PieceKind kind = PieceKind::rail;
  int index = 0;  // into Assembly::rails or Layout::posts
};

struct PipeCuts {
  std::string pipe;  // pipe id
  cutting::Instance instance;
  cutting::Plan plan;               // empty until solved
  std::vector<StockSource> stocks;  // as instance.stocks()
  std::vector<PieceSource> pieces;  // as instance.pieces()
};

// The cutting problems of a job, one for each pipe that is cut, in order of pipe id, unsolved.
//
// Pieces: every rail and brace rail at its `cut` length (pieces of one bay share a group), every post at its `length`. What the field reports as cut,
// bolted or set is left out. Stocks: every offer of the pipe less the stick tolerance, then the sticks held. A held stick is priced at what its length would
// be worth as a kept drop, so it is used first when that is cheaper. Both ends of a stick lose the larger of the crop and the squaring allowance.
// A pipe that nobody offers is taken as 21 ft sticks at the price book's price.
// Findings: `takeoff.no_offer` (warning), `takeoff.no_price` (note), `takeoff.piece_too_long` (stop; the piece is left out, the rest is planned).
std::vector<PipeCuts> gather_pieces(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const fittings::Assembly& assembly,
                                    const std::vector<PostSize>& posts, Findings& findings);

// Drops long enough to go back on the rack, longest first.
struct ReturnedDrop {
  std::string pipe;
  Length length;
  std::int64_t count = 0;
  Money worth;  // of all `count`
};
std::vector<ReturnedDrop> returned_drops(const std::vector<PipeCuts>& cuts);

}  // namespace railwright::takeoff
