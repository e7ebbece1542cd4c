// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cli {

int run_survey(int argc, char** argv);  // NOTES.csv [LEVELS.csv] [--adjust HOW] [--json] [--out JOB] ...

}  // namespace railwright::cli
