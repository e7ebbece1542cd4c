// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

// Serves the page to this machine's browser until it is stopped. Arguments are those after the command's word; the exit code is console.h's.
int run_serve(int argc, char** argv);  // [--folder DIR] [--port N]

}  // namespace railwright::cli
