// SPDX-License-Identifier: MIT
#pragma once

#include "cli/console.h"
#include "engine/plan/plan.h"

// The commands that plan a job. Arguments are those after the command's word; the exit code is console.h's.
namespace railwright::cli {

int run_plan(int argc, char** argv);  // JOB [--json]
int run_pack(int argc, char** argv);  // JOB --out DIR [--paper letter|a4] [--no-issue]
int run_gaps(int argc, char** argv);  // JOB GAPS.csv

// The job named by the first word, or the exit code to leave with.
struct Opened {
  int code = kSound;
  job::Job job;
};
Opened open_job(const Arguments& arguments);

// Adds the names that the plan gives for the first time to what the job has issued.
void issue_names(job::Job& job, const Plan& plan);

// What is printed is issued: its names go into the job file, so that no later plan gives them to another post. Not with --no-issue.
Result<void> keep_names(const Arguments& arguments, job::Job job, const Plan& plan);

}  // namespace railwright::cli
