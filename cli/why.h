// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

int run_why(int argc, char** argv);  // JOB FIGURE ... or JOB --list; 2 for a figure that the plan does not have

}  // namespace railwright::cli
