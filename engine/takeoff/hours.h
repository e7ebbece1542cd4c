// SPDX-License-Identifier: MIT
#pragma once

#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

// Lines for every row of the hours catalogue that this job has work for, in the catalogue's order, then set-up and travel. What an operation counts:
//  stake, set, trim per post; dig, drive per hole (post); measure per rail or bay; cut per cut (piece); band per fitting; rail per rail or bay; mesh, panel, wire per
//  ft or bay of such fences; brace per assembly (brace bay); gate per gate; clean-up per ft, bay or post.
// A row whose unit does not fit its operation gives `takeoff.hour_unit`.
void count_hours(const Orders& orders, Takeoff& takeoff);

}  // namespace railwright::takeoff
