// SPDX-License-Identifier: MIT
#pragma once

#include "engine/job/job.h"
#include "engine/takeoff/takeoff.h"

namespace railwright::takeoff {

// What must be carried, from the buying list: trips by payload, the longest thing, tie-downs of one trip's bundle (49 CFR 393.110, not blocked forward),
// and whether it stands out more than 4 ft behind the bed (49 CFR 393.87). Ready-mixed concrete comes by itself.
// Findings: `takeoff.overhang`, `takeoff.overloaded` (no payload given).
Load load_of(const job::Job& job, const std::vector<OrderLine>& orders, const std::vector<PipeCuts>& cuts, Findings& findings);

}  // namespace railwright::takeoff
