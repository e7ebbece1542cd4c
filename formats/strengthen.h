// SPDX-License-Identifier: MIT
#pragma once

#include "engine/job/catalogue.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"

namespace railwright::formats {

// The next size up of the same make for which there are fittings on rails of `rail`; the pipe itself when there is none.
job::Pipe next_size_up(const job::Catalogue& catalogue, const job::Pipe& pipe, const job::Pipe& rail);

// Sets posts deeper, takes the next size of pipe, lengthens brace bays and eases the wires of a job that has just begun, step by step, until its own plan's
// checks pass: the fences as they would stand on the job's ground. What no step mends is told. The checks advise; they approve nothing.
// Findings: `start.over` (note), one for each check that stays over its figure, with `check` and `ratio`; the plan's own about openings between rails that were asked for.
Findings strengthen(job::Job& job, const job::Catalogue& shipped);

}  // namespace railwright::formats
