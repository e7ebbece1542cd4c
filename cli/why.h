// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

// `railwright why JOB FIGURE`.
int run_why(int argc, char** argv);

}  // namespace railwright::cli
