// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/cutting/model.h"

namespace railwright::cutting {

// A condition set by branching, on a count: of the sticks of a type; of the pieces of a sort that begin at a position, when the pieces of
// each stick are laid from zero, longest first; or of the sticks of a type that are filled exactly up to a position.
struct Condition {
  enum class Counts { sticks, pieces_at, sticks_filled_to };
  Counts counts = Counts::sticks;
  int type = -1;
  int sort = -1;
  std::int64_t position = 0;
  bool at_least = true;
  std::int64_t bound = 0;
};

// What is still to be cut, from how many sticks, under which conditions.
struct Task {
  std::vector<std::int64_t> demand;  // by sort
  std::vector<std::int64_t> limit;   // by type
  std::vector<Condition> conditions;
  bool limit_all = false;  // the limits hold for types without a count too
};

Task whole_task(const Model& model);

// Takes `times` sticks cut to this pattern out of the task.
void take_out(const Pattern& pattern, std::int64_t times, Task& task);
// How many sticks of this pattern the task has a use for in full.
std::int64_t uses_left(const Pattern& pattern, const Task& task);
bool done(const Task& task);

}  // namespace railwright::cutting
