// SPDX-License-Identifier: MIT
#include "cli/stakes.h"

#include <cstdio>
#include <string>

#include "cli/console.h"
#include "cli/files.h"
#include "cli/plan_commands.h"
#include "formats/stakes.h"

namespace railwright::cli {
namespace {

constexpr const char* kHelp =
    "usage: railwright stakes JOB --out FILE [--no-issue]\n\n"
    "Writes where every post stands, for a phone, an instrument or a drawing program. The ending of FILE says how:\n"
    "  .csv      stations, tape on the ground, string, east, north, height; latitude and longitude where known\n"
    "  .gpx      a waypoint for each post, a route along each leg\n"
    "  .geojson  a point for each post, a line for each leg (RFC 7946)\n"
    "  .kml      the same for viewers of the earth\n"
    "  .dxf      points, names and legs on the job's plane, metres (release 12)\n"
    "gpx, geojson and kml need a job with a place on the earth. A phone finds such a place only to some metres: stake by tape and string.\n"
    "The names written are issued: they are kept in JOB, so that later plans honour them. --no-issue leaves JOB as it is.\n\n"
    "example: railwright stakes examples/donkey-sanctuary/job.json --out build/stakes.csv --no-issue\n";

}  // namespace

Result<void> write_stake_files(const std::string& folder, const job::Job& job, const Plan& plan) {
  for (const char* ending : {".csv", ".dxf", ".gpx", ".geojson", ".kml"}) {
    const auto text = formats::stake_file(*formats::stake_format(ending), job, plan.layout, plan.stakes);
    if (!text && text.error().code == "export.no_origin") continue;
    if (!text) return tl::unexpected(text.error());
    if (auto written = write_file(folder + "/stakes" + ending, *text); !written) return written;
  }
  return {};
}

int run_stakes(int argc, char** argv) {
  const auto arguments = parse_arguments(argc, argv, {"--out"}, {"--help", "--no-issue"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(kHelp, stdout);
    return kSound;
  }
  const std::string out = arguments->get("--out");
  if (out.empty()) return complain({"command.missing", "--out", {{"word", std::string("--out FILE")}}});
  const auto format = formats::stake_format(out);
  if (!format) return complain({"export.format", out, {{"text", out}}});
  Opened opened = open_job(*arguments);
  if (opened.code != kSound) return opened.code;
  const Result<std::string> before = read_file(arguments->positional[0]);
  if (!before) return complain(before.error());
  // With the effort of `plan` and `pack`: the best spacing depends on it, and the stakes must be theirs.
  const Plan plan = make_plan(opened.job, shipped_catalogue());
  const auto text = formats::stake_file(*format, opened.job, plan.layout, plan.stakes);
  if (!text) return complain(text.error());
  if (const auto issued = keep_names(*arguments, opened.job, plan); !issued) return complain(issued.error());
  if (const auto written = write_file(out, *text); !written) {
    complain(written.error());
    // Nothing is staked by these names: the job goes back to what it was.
    if (const auto restored = write_file(arguments->positional[0], *before); !restored) complain(restored.error());
    return kBadInput;
  }
  print_findings(plan.findings, arguments->positional[0], opened.job.language, sheets::length_format(opened.job.units), false);
  std::printf("%s: %zu posts on %zu legs\n", out.c_str(), plan.layout.posts.size(), plan.stakes.legs.size());
  return stops_work(plan.findings) ? kStopped : kSound;
}

}  // namespace railwright::cli
