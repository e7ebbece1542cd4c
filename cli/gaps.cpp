// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstdio>
#include <string>

#include "cli/console.h"
#include "cli/files.h"
#include "cli/plan_commands.h"
#include "engine/asbuilt/gaps_csv.h"
#include "engine/plan/plan.h"
#include "sheets/sheets.h"

namespace railwright::cli {
namespace {

constexpr const char* kHelp =
    "usage: railwright gaps JOB GAPS.csv\n\n"
    "Takes measured gaps into JOB (rewritten whole or not at all), names readings that cannot be true, plans again.\n"
    "GAPS.csv has the columns bay,rail,gap,way: gap is post face to post face at the rail's height, with its unit or in inches;\n"
    "way is level or slope. A later reading of the same rail replaces the earlier one.\n"
    "exit code: 0 sound, 1 a reading or the plan needs another look, 2 bad input, nothing changed\n\n"
    "example: railwright gaps my-job.json my-gaps.csv\n";

void merge(std::vector<job::MeasuredGap>& known, const std::vector<job::MeasuredGap>& fresh) {
  for (const job::MeasuredGap& reading : fresh) {
    const auto same = [&](const job::MeasuredGap& old) { return old.bay == reading.bay && old.rail == reading.rail; };
    const auto old = std::find_if(known.begin(), known.end(), same);
    if (old == known.end()) {
      known.push_back(reading);
    } else {
      *old = reading;
    }
  }
}

// Readings of nothing that stands in the plan must not get into the job.
bool names_nothing(const Finding& finding) { return finding.code == "gaps.no_such_bay" || finding.code == "gaps.no_such_rail"; }

void print_cuts(const job::Job& job, const Plan& plan) {
  const measure::LengthFormat format = sheets::length_format(job.units);
  const std::string gap = words(job.language).text("gaps.gap"), cut = words(job.language).text("gaps.cut");
  for (const fittings::Rail& rail : plan.assembly.rails) {
    if (!rail.measured) continue;
    std::printf("%-16s %s %-18s %s %s\n", rail.name.c_str(), gap.c_str(), format_length(rail.gap, format).c_str(), cut.c_str(),
                format_length(rail.cut, format).c_str());
  }
}

int take_gaps(const std::string& path, job::Job job, std::string_view csv, const std::string& csv_path) {
  const asbuilt::ReadGaps read = asbuilt::read_gaps(csv);
  if (!read.findings.empty()) {
    print_findings(read.findings, "gaps", job.language, {}, true);
    return kBadInput;
  }
  if (read.gaps.empty()) return complain({"gaps.nothing_measured", csv_path, {}});
  merge(job.field.gaps, read.gaps);
  const Plan plan = make_plan(job, shipped_catalogue());
  print_findings(plan.findings, path, job.language, sheets::length_format(job.units), false);
  if (std::any_of(plan.findings.begin(), plan.findings.end(), names_nothing)) return kBadInput;
  issue_names(job, plan);
  if (const auto written = write_file(path, job::write_job(job)); !written) return complain(written.error());
  print_cuts(job, plan);
  const bool doubtful = std::any_of(plan.asbuilt.reports.begin(), plan.asbuilt.reports.end(), [](const asbuilt::GapReport& report) { return report.doubtful; });
  return doubtful || stops_work(plan.findings) ? kStopped : kSound;
}

}  // namespace

int run_gaps(int argc, char** argv) {
  const Result<Arguments> arguments = parse_arguments(argc, argv, {}, {"--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(kHelp, stdout);
    return kSound;
  }
  Opened opened = open_job(*arguments);
  if (opened.code != kSound) return opened.code;
  if (arguments->positional.size() < 2) {
    return complain({"command.missing", "GAPS.csv", {{"word", std::string("GAPS.csv")}}});
  }
  const Result<std::string> csv = read_file(arguments->positional[1]);
  if (!csv) return complain(csv.error());
  return take_gaps(arguments->positional[0], std::move(opened.job), *csv, arguments->positional[1]);
}

}  // namespace railwright::cli
