// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/plan/plan.h"

// What may be done about a finding.
namespace railwright::remedy {

struct Remedy {
  std::string code;  // words: `remedy.<code>`, filled with `values`
  Values values;
  job::Job job;            // the job with the change made
  measure::Money price;    // what the change adds to the total; below zero: what it saves
  std::int64_t posts = 0;  // posts more
};

// Changes of the job after which the finding (its code at its place) is gone, fewer places are at fault as it says (a whole fence: what is left of it are bays), and no stop more than before is there. A
// finding that tells of several bays may be left with fewer. Each has been planned, with quick cutting, before it is offered, and its price is against the
// unchanged job planned likewise; cheapest first. Empty where the job cannot cure it: a tape has to be read again, the ground levelled, a part asked for.
// `plan`: of this very job. Cost: a quick plan for each candidate, six at most, and one of the job as it is.
std::vector<Remedy> remedies(const job::Job& job, const job::Catalogue& shipped, const Plan& plan, const Finding& finding);

}  // namespace railwright::remedy
