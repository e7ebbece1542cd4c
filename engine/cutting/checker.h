// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/cutting/cutting.h"

namespace railwright::cutting {

// Verifies a plan against the text of the contract alone, sharing no code with the solver: every piece cut as often as asked,
// every stick within its length by walking the blade along it, stock counts, marks, drops, both costs, set-ups, and
// that `bound`, `proved` and `status` agree with each other. Empty: sound. Each fault is a short code with numbers, for tests.
std::vector<std::string> check_plan(const Instance& instance, const Plan& plan);

}  // namespace railwright::cutting
