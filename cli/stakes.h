// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/plan/plan.h"

namespace railwright::cli {

int run_stakes(int argc, char** argv);  // JOB --out FILE [--no-issue]

// Every stake-out file that the job allows, into an existing folder: stakes.dxf and stakes.csv, and with a place on the earth stakes.gpx, .geojson and .kml.
Result<void> write_stake_files(const std::string& folder, const job::Job& job, const Plan& plan);

}  // namespace railwright::cli
