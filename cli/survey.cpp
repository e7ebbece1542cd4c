// SPDX-License-Identifier: MIT
#include "cli/survey.h"

#include <cstdio>
#include <string>

#include "cli/files.h"
#include "cli/new.h"
#include "cli/survey_text.h"
#include "engine/plan/plan.h"
#include "formats/survey_report.h"
#include "formats/text.h"

namespace railwright::cli {
namespace {

using formats::SurveyReport;
using measure::BareNumber;

constexpr const char* kHelp =
    "usage: railwright survey NOTES.csv [LEVELS.csv] [--adjust compass|least-squares|none] [--tape-error L]\n"
    "                         [--angle-error DEG] [--units feet-inches|metric] [--language en|es] [--json]\n"
    "                         [--out JOB with the choices of railwright new]\n\n"
    "Reduces a field book. Taped legs give closure, precision ratio, adjusted points and area; level notes give\n"
    "heights and their misclosure. Both have a header that names columns and units:\n"
    "  from,to,bearing,distance_ft,slope_%,temperature_f        distance along the slope where a slope is noted\n"
    "  from,to,bearing,slope_distance_ft,rise_ft\n"
    "  point,station_ft,backsight_ft,intermediate_ft,foresight_ft,known_ft\n\n"
    "  --adjust        how a walk that comes back is closed: compass rule (default), least squares, or not at all\n"
    "  --tape-error    of one taped leg, for least squares (10 mm)\n"
    "  --angle-error   of one bearing, for least squares (1/60 degree; a hand compass: 0.5)\n"
    "  --out JOB       starts a job from the line; heights of LEVELS go to the points of the same names\n\n"
    "exit code: 0 sound, 1 the walk does not close, 2 bad input\n\n"
    "example: railwright survey examples/walks/traverse.csv examples/walks/levels.csv --adjust least-squares\n";

Error bad_value(const std::string& option, const std::string& text) { return {"command.value", option, {{"word", option}, {"text", text}}}; }

Result<formats::WalkOptions> options_of(const Arguments& arguments, job::UnitSystem units) {
  formats::WalkOptions options;
  const bool metric = units == job::UnitSystem::metric;
  if (metric) options.unit = BareNumber::metres;
  const std::string adjust = arguments.get("--adjust");
  if (adjust == "none")
    options.adjustment = ground::Adjustment::none;
  else if (adjust == "least-squares")
    options.adjustment = ground::Adjustment::least_squares;
  else if (!adjust.empty() && adjust != "compass")
    return tl::unexpected(bad_value("--adjust", adjust));
  if (arguments.has("--tape-error")) {
    const auto error = measure::parse_length(arguments.get("--tape-error"), metric ? BareNumber::metres : BareNumber::feet);
    if (!error || error->nm() <= 0) return tl::unexpected(bad_value("--tape-error", arguments.get("--tape-error")));
    options.course_error.distance = error->metres();
  }
  if (arguments.has("--angle-error")) {
    const auto degrees = formats::read_number(arguments.get("--angle-error"));
    if (!degrees || !(*degrees > 0 && *degrees <= 45)) return tl::unexpected(bad_value("--angle-error", arguments.get("--angle-error")));
    options.course_error.azimuth_deg = *degrees;
  }
  return options;
}

struct Notes {
  std::string path, bytes;
  SurveyReport report;
};

Result<Notes> read_notes(const std::string& path, const formats::WalkOptions& options) {
  auto bytes = read_file(path);
  if (!bytes) return tl::unexpected(bytes.error());
  auto report = formats::survey_report(*bytes, options);
  if (!report) {
    Error error = report.error();
    error.place = error.place.empty() ? path : path + ": " + error.place;
    return tl::unexpected(std::move(error));
  }
  return Notes{path, std::move(*bytes), std::move(*report)};
}

// One or two files; with two the traverse comes first.
Result<std::vector<Notes>> all_notes(const Arguments& arguments, const formats::WalkOptions& options) {
  std::vector<Notes> all;
  for (const std::string& path : arguments.positional) {
    auto notes = read_notes(path, options);
    if (!notes) return tl::unexpected(notes.error());
    all.push_back(std::move(*notes));
  }
  if (all.size() == 2 && all[0].report.traverse.has_value() == all[1].report.traverse.has_value()) {
    return fail("survey.two_kinds", all[1].path);
  }
  if (all.size() == 2 && all[1].report.traverse) std::swap(all[0], all[1]);
  return all;
}

int start_from(const std::vector<Notes>& all, const formats::StartChoices& choices, const formats::WalkOptions& options, const std::string& out) {
  auto walk = formats::read_walk(all[0].bytes, options);
  if (!walk) {
    Error error = walk.error();
    error.place = error.place.empty() ? all[0].path : all[0].path + ": " + error.place;
    return complain(error);
  }
  if (all.size() == 2) formats::add_levels(*all[1].report.levels, walk->site, walk->findings);
  const auto started = formats::start_job(choices, shipped_catalogue(), &*walk);
  return started ? save_started(*started, out) : complain(started.error());
}

}  // namespace

int run_survey(int argc, char** argv) {
  const auto arguments = parse_arguments(argc, argv,
                                         {"--adjust", "--tape-error", "--angle-error", "--language", "--animals", "--height", "--rails", "--pitch", "--pipe",
                                          "--kind", "--units", "--name", "--out"},
                                         {"--help", "--json"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(kHelp, stdout);
    return kSound;
  }
  if (arguments->positional.empty()) return complain({"command.missing", "NOTES.csv", {{"word", std::string("NOTES.csv")}}});
  if (arguments->positional.size() > 2) return complain({"command.option", arguments->positional[2], {{"word", arguments->positional[2]}}});
  const std::string language = arguments->has("--language") ? arguments->get("--language") : "en";
  if (language != "en" && language != "es") return complain(bad_value("--language", language));
  const auto choices = start_choices(*arguments);
  if (!choices) return complain(choices.error());
  const auto options = options_of(*arguments, choices->units);
  if (!options) return complain(options.error());
  const auto all = all_notes(*arguments, *options);
  if (!all) return complain(all.error());
  bool sound = true;
  for (const Notes& notes : *all) {
    const std::string text = arguments->has("--json") ? formats::survey_json(notes.report) + "\n" : survey_text(notes.report, words(language), choices->units);
    std::fputs(text.c_str(), stdout);
    print_findings(notes.report.findings, notes.path, language, survey_lengths(choices->units), true);
    sound = sound && !stops_work(notes.report.findings);
  }
  if (!sound) return kStopped;
  const std::string out = arguments->get("--out");
  return out.empty() ? kSound : start_from(*all, *choices, *options, out);
}

}  // namespace railwright::cli
