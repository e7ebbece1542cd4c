// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Gate posts: what a leaf's weight does to the post, and the sizes that tables prescribe.
namespace railwright::strength {

using measure::Length;
using measure::Moment;

// Overturning moment at the ground of a hinge post: the leaf's weight at its middle, m g (hinge clearance + leaf / 2). A swinging leaf turns it any way.
Moment leaf_moment(measure::Mass leaf, Length leaf_width, Length hinge_clearance);

struct GatePostRow {
  Length post;
  Length footing;
  Length depth;
};

// MIL-HDBK-1013/10 (1993), Table 1: leaf to 6, 12, 18, 24 ft -> post 2.875, 4, 6.625, 8.625 in; footing 18, 24, 36, 40 in; 3 ft deep at least.
// Nothing for a wider leaf.
std::optional<GatePostRow> gate_post_mil_hdbk(Length leaf_width);
// Federal highway standard specification, Table 710.03-1M (fence of 1.8 m or less): leaf to 1.8, 4, 5.5 m, above -> 73, 102, 168, 219 mm. Its
// breaks differ from the table above; a 12.5 ft leaf falls in different rows. No footing is given (0).
GatePostRow gate_post_federal_highway(Length leaf_width);

}  // namespace railwright::strength
