// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "engine/job/finding.h"
#include "engine/job/job.h"

namespace railwright::job {

// What was read, and everything that is wrong with it, all at once. `job` is usable only when `sound()`.
struct ReadJob {
  Job job;
  Findings findings;  // severity stop: bad input (exit code 2); `where` is a JSON pointer such as /site/legs/2/from
  bool sound() const;
};

// Reads and validates a job document. Unknown keys, wrong types, lengths without a unit, duplicate ids, dangling references, impossible values (NaN, negative,
// beyond 1000 km) are all named with place and remedy. Text that is not UTF-8 JSON gives one finding with line and column. Never throws.
ReadJob read_job(std::string_view json);

// Checks a job built in memory by the same rules as `read_job`.
Findings validate(const Job& job, const Catalogue& catalogue);

// The document: keys in the schema's order, two-space indent, defaults left out, lengths as exact text. Property: read_job(write_job(j)).job == j.
std::string write_job(const Job& job);

// Reads one catalogue file (an object with any of pipes, fittings, animals, soils, prices, supplies, hours) into `into`; rows of the same id replace.
Findings read_catalogue(std::string_view json, Catalogue& into);
// The shipped catalogue with the job's own rows laid over it.
Catalogue overlay(const Catalogue& shipped, const Catalogue& own);

}  // namespace railwright::job
