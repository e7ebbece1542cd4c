// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/plan/plan.h"

namespace railwright::remedy {

// A change untried: `code` and `values` as in Remedy, the job with the change made.
struct Candidate {
  std::string code;
  Values values;
  job::Job job;
};

// Changes that may cure a finding, in the order in which they are to be tried. Empty: no change is known that does.
std::vector<Candidate> candidates(const job::Job& job, const Plan& plan, const Finding& finding);

}  // namespace railwright::remedy
