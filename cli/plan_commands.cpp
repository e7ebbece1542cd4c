// SPDX-License-Identifier: MIT
#include "cli/plan_commands.h"

#include <cstdio>
#include <string>

#include "cli/console.h"
#include "cli/files.h"
#include "cli/pdf.h"
#include "cli/stakes.h"
#include "engine/plan/plan.h"
#include "sheets/sheets.h"

namespace railwright::cli {

Opened open_job(const Arguments& arguments) {
  if (arguments.positional.empty()) return {complain({"command.missing", "JOB", {{"word", std::string("JOB")}}}), {}};
  LoadedJob loaded = load_job(arguments.positional[0]);
  return {loaded.sound ? kSound : kBadInput, std::move(loaded.job)};
}

void issue_names(job::Job& job, const Plan& plan) {
  job.issued.posts.insert(job.issued.posts.end(), plan.layout.new_posts.begin(), plan.layout.new_posts.end());
  job.issued.bays.insert(job.issued.bays.end(), plan.layout.new_bays.begin(), plan.layout.new_bays.end());
}

Result<void> keep_names(const Arguments& arguments, job::Job job, const Plan& plan) {
  const bool nothing_new = plan.layout.new_posts.empty() && plan.layout.new_bays.empty();
  if (nothing_new || arguments.has("--no-issue")) return {};
  issue_names(job, plan);
  return write_file(arguments.positional[0], job::write_job(job));
}

namespace {

int exit_code(const Plan& plan) { return stops_work(plan.findings) ? kStopped : kSound; }

int help(const char* text) {
  std::fputs(text, stdout);
  return kSound;
}

Result<void> write_tables(const std::string& folder, const job::Job& job, const Plan& plan) {
  for (const sheets::Table& table : sheets::tables(job, plan, words(job.language))) {
    if (auto written = write_file(folder + "/" + table.id + ".csv", sheets::to_csv(table)); !written) return written;
  }
  return {};
}

Result<void> write_sheets(const std::string& folder, const std::vector<sheets::Sheet>& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    char number[8];
    std::snprintf(number, sizeof number, "%02d", static_cast<int>(i + 1) % 1000);
    const std::string path = folder + "/svg/" + number + "-" + pages[i].id + ".svg";
    if (auto written = write_file(path, pages[i].svg); !written) return written;
  }
  const Result<std::string> pdf = bind_pdf(pages);
  if (!pdf) return tl::unexpected<Error>(pdf.error());
  return write_file(folder + "/sheets.pdf", *pdf);
}

Result<void> write_pack(const std::string& folder, const job::Job& job, const Plan& plan, sheets::Paper paper) {
  const std::vector<sheets::Sheet> pages = sheets::draw_sheets(job, plan, words(job.language), paper);
  for (const std::string& part : {folder, folder + "/svg", folder + "/tables", folder + "/stakes"}) {
    if (auto made = make_folder(part); !made) return made;
  }
  if (auto written = write_tables(folder + "/tables", job, plan); !written) return written;
  if (auto written = write_file(folder + "/GAPS.csv", sheets::gap_form(plan)); !written) return written;
  if (auto written = write_stake_files(folder + "/stakes", job, plan); !written) return written;
  if (auto written = write_file(folder + "/plan.json", plan_json(job, plan)); !written) return written;
  return write_sheets(folder, pages);
}

// The pack is made beside its folder, then the names are kept, then the pack takes its place: a failure leaves neither half done.
Result<void> make_pack(const Arguments& arguments, const std::string& folder, const job::Job& job, const Plan& plan, sheets::Paper paper) {
  const std::string beside = folder + ".part";
  remove_folder(beside);
  const auto give_up = [&](const Error& error) {
    remove_folder(beside);
    return tl::unexpected<Error>(error);
  };
  if (const auto made = make_folder(folder); !made) return give_up(made.error());
  if (const auto written = write_pack(beside, job, plan, paper); !written) return give_up(written.error());
  const Result<std::string> before = read_file(arguments.positional[0]);
  if (!before) return give_up(before.error());
  if (const auto kept = keep_names(arguments, job, plan); !kept) return give_up(kept.error());
  if (const auto moved = move_files(beside, folder); !moved) {
    if (const auto restored = write_file(arguments.positional[0], *before); !restored) return give_up(restored.error());
    return give_up(moved.error());
  }
  return {};
}

}  // namespace

int run_plan(int argc, char** argv) {
  const Result<Arguments> arguments = parse_arguments(argc, argv, {}, {"--json", "--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    return help(
        "usage: railwright plan JOB [--json]\n\n"
        "Plans the job and prints what it comes to; --json prints the whole plan (schema/plan.schema.json).\n"
        "exit code: 0 sound, 1 a finding stops work, 2 bad input\n\n"
        "example: railwright plan examples/donkey-sanctuary/job.json\n");
  }
  Opened opened = open_job(*arguments);
  if (opened.code != kSound) return opened.code;
  const Plan plan = make_plan(opened.job, shipped_catalogue());
  const std::string shown = arguments->has("--json") ? plan_json(opened.job, plan) + "\n" : sheets::summary_text(opened.job, plan, words(opened.job.language));
  std::fputs(shown.c_str(), stdout);
  return exit_code(plan);
}

int run_pack(int argc, char** argv) {
  const Result<Arguments> arguments = parse_arguments(argc, argv, {"--out", "--paper"}, {"--help", "--no-issue"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    return help(
        "usage: railwright pack JOB --out DIR [--paper letter|a4] [--no-issue]\n\n"
        "Writes sheets.pdf, the same pages as SVG (svg/), a CSV for each table (tables/), the posts for instruments and\nphones (stakes/: CSV, DXF; GPX, "
        "GeoJSON and KML where the job has a place on the earth), a form for the\nmeasured gaps (GAPS.csv, for the command gaps) and plan.json into DIR.\n"
        "The names printed are issued: they are kept in JOB, so that later plans honour them. --no-issue leaves JOB as it is.\n\n"
        "example: railwright pack examples/donkey-sanctuary/job.json --out build/example\n");
  }
  const std::string folder = arguments->get("--out");
  if (folder.empty()) return complain({"command.missing", "--out", {{"word", std::string("--out DIR")}}});
  const std::string paper = arguments->has("--paper") ? arguments->get("--paper") : "letter";
  if (paper != "letter" && paper != "a4") {
    return complain({"command.value", "--paper", {{"word", std::string("--paper")}, {"text", paper}}});
  }
  Opened opened = open_job(*arguments);
  if (opened.code != kSound) return opened.code;
  const Plan plan = make_plan(opened.job, shipped_catalogue());
  const auto made = make_pack(*arguments, folder, opened.job, plan, paper == "a4" ? sheets::Paper::a4 : sheets::Paper::letter);
  if (!made) return complain(made.error());
  print_findings(plan.findings, arguments->positional[0], opened.job.language, sheets::length_format(opened.job.units), false);
  std::printf("%s/sheets.pdf  (pages in svg/, tables in tables/, posts in stakes/, GAPS.csv to fill in, plan.json)\n", folder.c_str());
  return exit_code(plan);
}

}  // namespace railwright::cli
