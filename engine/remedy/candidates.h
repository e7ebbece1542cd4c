// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/plan/plan.h"

namespace railwright::remedy {

struct Candidate { std::string code; Values values; job::Job job; };

// Changes that may cure a finding, untried.
std::vector<Candidate> candidates(const job::Job& job, const Plan& plan, const Finding& finding);

}  // namespace railwright::remedy
