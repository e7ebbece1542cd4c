// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

// Starts a job. Arguments are those after the command's word; the exit code is console.h's.
int run_new(int argc, char** argv);   // [--walk FILE] [--ground GRID.asc] [choices] --out JOB

}  // namespace railwright::cli
