// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Carrying pipe on the road and under wires.
namespace railwright::strength {

using measure::Length;
using measure::Mass;

// Least number of tie-downs of one article: 49 CFR 393.110. Not blocked forward: 1 to 5 ft and 1100 lb; 2 to 10 ft; then 2 and one more for each further 10 ft
// or part. Blocked forward (header board): one for each 10 ft or part. A bundle of pipe counts as one article.
int tie_downs(Length article, Mass mass, bool blocked_forward);
// Working load limit that the tie-downs must have together: half the cargo's weight. 49 CFR 393.106(d).
Mass least_working_load_limit(Mass cargo);
// Whether flags are due: more than 4 ft beyond the rear. 49 CFR 393.87.
bool needs_flags(Length beyond_rear);

// Distance to keep from an overhead line of `kilovolts`, people and whatever they hold: 10 ft to 50 kV and 4 in more for each 10 kV above.
// 29 CFR 1910.269, line-clearance work (definitions).
Length overhead_distance(double kilovolts);

}  // namespace railwright::strength
