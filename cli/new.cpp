// SPDX-License-Identifier: MIT
#include "cli/new.h"

#include <cstdio>
#include <optional>
#include <string>

#include "cli/console.h"
#include "cli/files.h"
#include "engine/job/read.h"
#include "formats/start_job.h"
#include "formats/text.h"
#include "formats/walk.h"

namespace railwright::cli {
namespace {

using formats::StartChoices;
using measure::BareNumber;
using measure::Length;

constexpr const char* kHelp =
    "usage: railwright new [--walk FILE] [--ground GRID.asc] [--animals A] [--height H] [--rails N]\n"
    "                      [--pitch P] [--pipe ID] [--kind rails|mesh|panels|strained|wire]\n"
    "                      [--units feet-inches|metric] [--name NAME] --out JOB\n\n"
    "Starts a job: the line from FILE (GPX, GeoJSON, KML, CSV of survey points, taped legs or level notes), the ground\n"
    "from an ESRI ASCII grid, everything else from your choices and the shipped catalogues. Without --walk\n"
    "the job holds a small paddock to draw over. A job of the same name is replaced.\n\n"
    "  --walk FILE     its kind is found in its content; a CSV needs a header such as\n"
    "                  east_ft,north_ft,height_ft   or   bearing,distance_ft,rise_ft\n"
    "  --ground GRID   heights in the walk's coordinates, or in UTM for a walk in degrees\n"
    "  --animals A     donkey, horse, cattle, goat, sheep ... (cattle)\n"
    "  --height H      top of the top rail above ground (the animal's least height)\n"
    "  --rails N       1 to 6 (as few as the animal's openings allow)\n"
    "  --pitch P       widest bay, post to post (8 ft)\n"
    "  --pipe ID       rails and line posts: 2-3/8, \"1-7/8 sch40\" ... (2-3/8)\n"
    "  --kind K        what fills the fence (rails)\n"
    "  --units U       how lengths are shown (feet-inches); also the unit of figures without one\n\n"
    "example: railwright new --animals donkey --height \"4 ft 6 in\" --rails 3 --pitch 8ft --out paddock.json\n";

tl::unexpected<Error> bad_value(const std::string& option, const std::string& text) {
  return fail("command.value", option, {{"word", option}, {"text", text}});
}

Result<std::optional<Length>> length_option(const Arguments& arguments, const std::string& name, BareNumber bare) {
  if (!arguments.has(name)) return std::optional<Length>();
  const auto length = measure::parse_length(arguments.get(name), bare);
  if (!length) return tl::unexpected(length.error());
  return std::optional<Length>(*length);
}

Result<std::optional<job::FenceKind>> kind_option(const Arguments& arguments) {
  static constexpr const char* kKinds[] = {"rails", "mesh", "panels", "strained", "wire"};
  if (!arguments.has("--kind")) return std::optional<job::FenceKind>();
  const std::string text = arguments.get("--kind");
  for (int i = 0; i < 5; ++i) {
    if (text == kKinds[i]) return std::optional<job::FenceKind>(static_cast<job::FenceKind>(i));
  }
  return bad_value("--kind", text);
}

Result<std::optional<int>> rails_option(const Arguments& arguments) {
  if (!arguments.has("--rails")) return std::optional<int>();
  const auto number = formats::read_number(arguments.get("--rails"));
  if (!number || *number != static_cast<int>(*number < 1000 && *number > -1000 ? *number : 0.5)) {
    return bad_value("--rails", arguments.get("--rails"));
  }
  return std::optional<int>(static_cast<int>(*number));
}

}  // namespace

Result<StartChoices> start_choices(const Arguments& arguments) {
  StartChoices choices;
  const std::string units = arguments.get("--units");
  if (units == "metric")
    choices.units = job::UnitSystem::metric;
  else if (!units.empty() && units != "feet-inches")
    return bad_value("--units", units);
  const bool metric = choices.units == job::UnitSystem::metric;
  const auto height = length_option(arguments, "--height", metric ? BareNumber::metres : BareNumber::inches);
  const auto pitch = length_option(arguments, "--pitch", metric ? BareNumber::metres : BareNumber::feet);
  const auto kind = kind_option(arguments);
  const auto rails = rails_option(arguments);
  if (!height) return tl::unexpected(height.error());
  if (!pitch) return tl::unexpected(pitch.error());
  if (!kind) return tl::unexpected(kind.error());
  if (!rails) return tl::unexpected(rails.error());
  choices.height = *height;
  choices.pitch = *pitch;
  choices.kind = *kind;
  choices.rails = *rails;
  choices.name = formats::one_line(arguments.get("--name"));
  if (arguments.has("--animals")) choices.animal = arguments.get("--animals");
  if (arguments.has("--pipe")) choices.pipe = arguments.get("--pipe");
  return choices;
}

namespace {

// An error of a file names the file before its place.
template <class T>
Result<T> in_file(Result<T> result, const std::string& path) {
  if (result || result.error().place == path) return result;
  Error error = result.error();
  error.place = error.place.empty() ? path : path + ": " + error.place;
  return tl::unexpected(std::move(error));
}

Result<std::optional<formats::WalkedSite>> walk_of(const Arguments& arguments, job::UnitSystem units) {
  if (!arguments.has("--walk")) return std::optional<formats::WalkedSite>();
  const std::string path = arguments.get("--walk");
  const auto bytes = read_file(path);
  if (!bytes) return tl::unexpected(bytes.error());
  formats::WalkOptions options;
  if (units == job::UnitSystem::metric) options.unit = BareNumber::metres;
  auto walk = in_file(formats::read_walk(*bytes, options), path);
  if (!walk) return tl::unexpected(walk.error());
  return std::optional<formats::WalkedSite>(std::move(*walk));
}

Result<std::optional<job::GroundGrid>> grid_of(const Arguments& arguments) {
  if (!arguments.has("--ground")) return std::optional<job::GroundGrid>();
  const std::string path = arguments.get("--ground");
  const auto bytes = read_file(path);
  if (!bytes) return tl::unexpected(bytes.error());
  auto grid = in_file(formats::read_grid(*bytes), path);
  if (!grid) return tl::unexpected(grid.error());
  return std::optional<job::GroundGrid>(std::move(*grid));
}

Result<formats::StartedJob> start(const Arguments& arguments) {
  const auto choices = start_choices(arguments);
  if (!choices) return tl::unexpected(choices.error());
  const auto walk = walk_of(arguments, choices->units);
  if (!walk) return tl::unexpected(walk.error());
  const auto grid = grid_of(arguments);
  if (!grid) return tl::unexpected(grid.error());
  return formats::start_job(*choices, shipped_catalogue(), *walk ? &**walk : nullptr, *grid ? &**grid : nullptr);
}

}  // namespace

int save_started(const formats::StartedJob& started, const std::string& path) {
  measure::LengthFormat lengths;
  if (started.job.units == job::UnitSystem::metric) lengths.style = measure::LengthStyle::metres;
  print_findings(started.findings, path, "en", lengths, true);
  const Findings faults = job::validate(started.job, shipped_catalogue());
  bool sound = true;
  for (const Finding& fault : faults) sound = sound && fault.severity != Severity::stop;
  print_findings(faults, path, "en", lengths, true);
  if (!sound) return kBadInput;
  if (const auto written = write_file(path, job::write_job(started.job)); !written) return complain(written.error());
  const job::Site& site = started.job.site;
  const auto counted = [](std::size_t n, const char* one) { return std::to_string(n) + " " + one + (n == 1 ? "" : "s"); };
  std::printf("%s: %s, %s, %s\n", path.c_str(), counted(site.points.size(), "point").c_str(), counted(site.legs.size(), "leg").c_str(),
              counted(site.gates.size(), "gate").c_str());
  return kSound;
}

int run_new(int argc, char** argv) {
  const auto arguments = parse_arguments(
      argc, argv, {"--walk", "--ground", "--animals", "--height", "--rails", "--pitch", "--pipe", "--kind", "--units", "--name", "--out"}, {"--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(kHelp, stdout);
    return kSound;
  }
  if (!arguments->positional.empty()) return complain({"command.option", arguments->positional[0], {{"word", arguments->positional[0]}}});
  const std::string out = arguments->get("--out");
  if (out.empty()) return complain({"command.missing", "--out", {{"word", std::string("--out")}}});
  const auto started = start(*arguments);
  return started ? save_started(*started, out) : complain(started.error());
}

}  // namespace railwright::cli
