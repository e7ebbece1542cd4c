// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "cli/console.h"
#include "formats/start_job.h"

namespace railwright::cli {

int run_new(int argc, char** argv);  // [--walk FILE] [--ground GRID] ... --out JOB

// What `new` and `survey` share: the fence chosen by --animals, --height, --rails, --pitch, --pipe, --kind, --units and --name, and writing the job.
Result<formats::StartChoices> start_choices(const Arguments& arguments);
int save_started(const formats::StartedJob& started, const std::string& path);

}  // namespace railwright::cli
