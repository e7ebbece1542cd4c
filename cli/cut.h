// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

// PIECES.csv STICKS.csv [--kerf 1/8in] [--crop 0] [--keep-from L] [--drop-value P] [--time 10s] [--json] [--svg FILE]
// Arguments are those after the command's word. Exit: 0 a plan (proved or not), 1 the sticks do not suffice or no plan was found, 2 bad input.
int run_cut(int argc, char** argv);

}  // namespace railwright::cli
