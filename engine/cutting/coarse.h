// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/master.h"

namespace railwright::cutting {

// What a coarser problem tells about a finer one before its program is solved.
struct Start {
  std::vector<double> prices;  // of one piece, by sort; empty: nothing known
  Solution plan;               // of the finer problem, by those prices
  std::int64_t bound = 0;      // holds for the finer problem too
};

// Measured pieces come in hundreds of lengths a sixteenth apart, and their program takes long because its prices swing at first.
// Here neighbouring lengths are taken for one, the shortest of them: what fits then fitted before, so the coarse program bounds the fine
// one and its prices hold there. It is solved first, itself after a coarser one, until few lengths are left.
Start coarse_start(const Model& model, const Task& task, Budget& budget);

// The other way round: every length is taken for the longest of its group, so that the coarse program's plan is a plan for the pieces. What it
// loses by that, a small part of each stick, is there to be gathered.
Solution coarse_plan(const Model& model, const Task& task, const std::vector<double>& prices, std::size_t most_groups, Budget& budget);

}  // namespace railwright::cutting
