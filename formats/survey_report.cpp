// SPDX-License-Identifier: MIT
#include "formats/survey_report.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "formats/survey.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Length;
using Json = nlohmann::ordered_json;

Length shown(double metres) { return Length::from_metres(metres).round_to(Length::mm(1)); }

Values closure_values(const ground::Closure& closure) {
  return {{"linear", value_of(shown(closure.linear))},
          {"perimeter", value_of(shown(closure.perimeter))},
          {"ratio", static_cast<std::int64_t>(std::floor(closure.ratio))}};
}

// What the walk's misclosure says of it.
void tell_closure(TraverseReport& report, Findings& findings) {
  const bool back = report.notes.named_loop || comes_back(report.closure, report.notes.courses.size());
  if (report.notes.courses.size() == 1)
    findings.push_back({"survey.one_leg", Severity::note, "site", {}});
  else if (!back)
    findings.push_back({"survey.open", Severity::note, "site", {}});
  else if (!report.closed) {
    const std::size_t worst = ground::suspect(report.notes.level());
    findings.push_back({"survey.does_not_close", Severity::stop, course_name(report.notes, worst), closure_values(report.closure)});
  } else if (report.closure.ratio > 0 && report.closure.ratio < kPoorRatio) {
    findings.push_back({"walk.poor_closure", Severity::warning, "site", closure_values(report.closure)});
  }
}

Result<TraverseReport> traverse_report(CourseNotes notes, const WalkOptions& options, Findings& findings) {
  TraverseReport report;
  const std::vector<ground::Course> courses = notes.level();
  ground::TraverseOptions open;
  const auto raw = ground::traverse(courses, open);
  if (!raw) return tl::unexpected(raw.error());
  report.notes = std::move(notes);
  report.raw = report.adjusted = *raw;
  report.closure = ground::closure(courses);
  report.closed = comes_back(report.closure, courses.size());
  if (report.closed) {
    ground::TraverseOptions loop;
    loop.end = measure::Vec2{};
    loop.adjustment = report.adjustment = options.adjustment;
    loop.error = options.course_error;
    const auto adjusted = ground::traverse(courses, loop);
    if (!adjusted) return tl::unexpected(adjusted.error());
    report.adjusted = *adjusted;
    report.area_m2 = ground::area(report.adjusted.points);
  }
  tell_closure(report, findings);
  tell_crossings(report.notes, report.adjusted.points, report.closed, findings);
  return report;
}

// A hundredth of a millimetre and a tenth of a second: the same in both builds.
double mm(double metres) { return std::round(metres * 1e5) / 100 + 0.0; }
double degrees(double value) { return std::round(value * 36000) / 36000 + 0.0; }

Json courses_json(const TraverseReport& report) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < report.notes.courses.size(); ++i) {
    const NotedCourse& noted = report.notes.courses[i];
    const ground::AdjustedCourse &raw = report.raw.courses[i], &adjusted = report.adjusted.courses[i];
    rows.push_back({{"name", course_name(report.notes, i)},
                    {"azimuth_deg", degrees(noted.azimuth_deg)},
                    {"taped", mm(noted.taped)},
                    {"temperature", mm(noted.temperature)},
                    {"slope", mm(noted.slope)},
                    {"level", mm(noted.level)},
                    {"latitude", mm(raw.latitude)},
                    {"departure", mm(raw.departure)},
                    {"adjusted_level", mm(adjusted.distance)},
                    {"adjusted_azimuth_deg", degrees(adjusted.azimuth_deg)}});
  }
  return rows;
}

Json points_json(const TraverseReport& report) {
  Json rows = Json::array();
  const std::size_t count = report.adjusted.points.size() - (report.closed ? 1 : 0);
  for (std::size_t i = 0; i < count; ++i) {
    rows.push_back({{"name", point_name(report.notes, i)}, {"east", mm(report.adjusted.points[i].x)}, {"north", mm(report.adjusted.points[i].y)}});
  }
  return rows;
}

Json levels_json(const LevelNotes& notes) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < notes.levels.points.size(); ++i) {
    const ground::LevelledPoint& point = notes.levels.points[i];
    Json row = {{"name", point.point}, {"height", mm(point.height)}, {"raw", mm(point.raw)}};
    if (point.instrument) row["instrument"] = mm(*point.instrument);
    if (notes.stations[i]) row["station"] = mm(notes.stations[i]->metres());
    rows.push_back(std::move(row));
  }
  const ground::Levelled& levels = notes.levels;
  return {{"points", std::move(rows)},          {"closed", levels.closed}, {"misclosure", mm(levels.misclosure)},
          {"allowed", mm(3 * levels.allowed)},  {"setups", levels.setups}, {"backsights", mm(levels.backsights)},
          {"foresights", mm(levels.foresights)}};
}

}  // namespace

Result<SurveyReport> survey_report(std::string_view bytes, const WalkOptions& options) {
  const auto text = readable_text(bytes);
  if (!text) return tl::unexpected(text.error());
  const auto table = read_table(*text);
  if (!table) return tl::unexpected(table.error());
  SurveyReport report;
  CellReader cells{*table, options.unit};
  if (has_levels(*table)) {
    auto levels = read_levels(*table, cells, report.findings);
    if (!levels) return tl::unexpected(levels.error());
    report.levels = std::move(*levels);
  } else if (has_courses(*table)) {
    auto notes = read_courses(*table, cells, report.findings);
    if (!notes) return tl::unexpected(notes.error());
    auto traverse = traverse_report(std::move(*notes), options, report.findings);
    if (!traverse) return tl::unexpected(traverse.error());
    report.traverse = std::move(*traverse);
  } else {
    return fail("survey.no_notes", "1");
  }
  tell_assumed(cells, report.findings);
  return report;
}

std::string survey_json(const SurveyReport& report) {
  static constexpr const char* kAdjustments[] = {"none", "compass", "least-squares"};
  Json document = Json::object();
  if (report.traverse) {
    const TraverseReport& t = *report.traverse;
    document["traverse"] = {{"courses", courses_json(t)},
                            {"points", points_json(t)},
                            {"closed", t.closed},
                            {"latitude", mm(t.closure.latitude)},
                            {"departure", mm(t.closure.departure)},
                            {"linear", mm(t.closure.linear)},
                            {"perimeter", mm(t.closure.perimeter)},
                            {"ratio", std::floor(t.closure.ratio)},
                            {"adjustment", kAdjustments[static_cast<int>(t.adjustment)]},
                            {"area_m2", std::round(t.area_m2 * 1000) / 1000}};
  }
  if (report.levels) document["levels"] = levels_json(*report.levels);
  return document.dump(1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace railwright::formats
