// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/cutting/model.h"

namespace railwright::cutting {

// A condition set by branching: so many sticks of a type, or so many pieces of a sort that begin at a position.
struct Condition {
  int type = -1;  // number of sticks of this type, or
  int sort = -1;  // number of pieces of this sort that begin at `position`
  std::int64_t position = 0;
  bool at_least = true;
  std::int64_t bound = 0;
};

// What is still to be cut, from how many sticks, under which conditions.
struct Task {
  std::vector<std::int64_t> demand;  // by sort
  std::vector<std::int64_t> limit;   // by type
  std::vector<Condition> conditions;
};

Task whole_task(const Model& model);


// Takes `times` sticks cut to this pattern out of the task.
void take_out(const Pattern& pattern, std::int64_t times, Task& task);
// How many sticks of this pattern the task has a use for in full.
std::int64_t uses_left(const Pattern& pattern, const Task& task);
bool done(const Task& task);

}  // namespace railwright::cutting
