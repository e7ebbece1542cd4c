// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/model.h"
#include "engine/cutting/task.h"

namespace railwright::cutting {

// Largest pieces first: each stick takes the longest piece still wanted, then as many as fit of each shorter length in turn; of all
// stocks the one is opened that costs least per length filled. A pattern is repeated while its pieces last.
// `found` is false when the counted sticks run out.
Solution greedy(const Model& model, const Task& task);

// Bound from length alone: every stick sells its length at best at its lowest cost per length filled. Exact rounding (down).
// `*enough` tells whether the counted sticks hold the length at all.
std::int64_t material_bound(const Model& model, bool* enough);

}  // namespace railwright::cutting
