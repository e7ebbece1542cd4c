// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/budget.h"
#include "engine/cutting/model.h"

namespace railwright::cutting {

// The same sticks cut in fewer different ways, at the same cost: a stick that is cut like no other takes over a pattern that is already there, exchanging
// pieces with a second stick, wherever that leaves fewer patterns. Sticks keep their type and each exchange keeps the sum of both costs, so that the cost cannot
// change. The fewest possible is not proved. Ends after `steps` elementary steps.
void tidy(const Model& model, std::vector<Use>& uses, std::int64_t steps);

// Equal patterns counted together.
std::vector<Use> merged(const std::vector<Use>& uses);

}  // namespace railwright::cutting
