// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "formats/courses.h"
#include "formats/network.h"
#include "formats/noted_gates.h"
#include "formats/survey.h"

// A traverse as the line of a job.
namespace railwright::formats {
namespace {

using measure::Length;

constexpr double kClosingRatio = 50, kNearlyBack = 5;
constexpr Length kTapedGrid = Length::from_nm(10'000);  // 0.01 mm

Values closure_values(const ground::Closure& closure) {
  return {{"linear", value_of(Length::from_metres(closure.linear).round_to(Length::mm(1)))},
          {"perimeter", value_of(Length::from_metres(closure.perimeter).round_to(Length::mm(1)))},
          {"ratio", static_cast<std::int64_t>(std::floor(closure.ratio))}};
}

// A walk that comes back most of the way, or whose names say so, was meant as a loop: one leg is wrong.
void tell_if_left_open(const ground::Closure& closure, const CourseNotes& notes, WalkedSite& walked) {
  const bool nearly = notes.courses.size() >= 3 && closure.linear * kNearlyBack <= closure.perimeter;
  if (!nearly && !notes.named_loop) return;
  walked.findings.push_back({"walk.left_open", Severity::warning, "site", closure_values(closure)});
}

// The walk as a loop when it comes back near enough; else open.
Result<ground::Traverse> closed_or_open(const CourseNotes& notes, const WalkOptions& options, WalkedSite& walked, bool& closed) {
  const std::vector<ground::Course> courses = notes.level();
  ground::TraverseOptions how;
  const ground::Closure closure = ground::closure(courses);
  closed = comes_back(closure, courses.size());
  if (closed) {
    how.end = Vec2{};
    how.adjustment = options.adjustment;
    how.error = options.course_error;
  }
  auto walk = ground::traverse(courses, how);
  if (!walk) return walk;
  if (!closed) {
    tell_if_left_open(closure, notes, walked);
    return walk;
  }
  const bool poor = closure.ratio > 0 && closure.ratio < kPoorRatio;
  walked.findings.push_back({poor ? "walk.poor_closure" : "walk.closure", poor ? Severity::warning : Severity::note, "site", closure_values(closure)});
  walked.site.position_accuracy = Length::from_metres(closure.linear / 2).round_to(Length::mm(1));
  return walk;
}

// Corners of the walk with their heights. The rises of a loop should come back to nothing: what is left is spread over the legs.
Polyline line_of(const CourseNotes& notes, const ground::Traverse& walk, bool closed) {
  Polyline line;
  line.closed = closed;
  double height = 0, rises = 0;
  for (const NotedCourse& course : notes.courses) rises += course.rise;
  const bool sloping = std::any_of(notes.courses.begin(), notes.courses.end(), [](const NotedCourse& course) { return course.rise != 0; });
  const double spread = closed ? rises / static_cast<double>(notes.courses.size()) : 0;
  const std::size_t count = walk.points.size() - (closed ? 1 : 0);
  for (std::size_t i = 0; i < count; ++i) {
    Vertex vertex{walk.points[i], {}, notes.courses.front().from, {}};
    if (i > 0) vertex.name = notes.courses[i - 1].to;
    if (i > 0 && !is_gate(notes.courses[i - 1].note)) vertex.note = notes.courses[i - 1].note;
    if (sloping) vertex.height = height - spread * static_cast<double>(i);
    if (i < notes.courses.size()) height += notes.courses[i].rise;
    line.vertices.push_back(std::move(vertex));
  }
  return line;
}

// A gate noted beside a course stands on it: its middle where the note says, else at the middle of the course.
void mark_gates(const CourseNotes& notes, const ground::Traverse& walk, measure::BareNumber bare, Sketch& sketch, WalkedSite& walked) {
  for (std::size_t i = 0; i < notes.courses.size(); ++i) {
    const Vec2 from = walk.points[i], along = walk.points[(i + 1) % walk.points.size()] - from;
    const double taped = notes.courses[i].taped;  // the gate was read on the same tape
    for (const NotedGate& gate : noted_gates(notes.courses[i].note, bare)) {
      const bool placed = gate.at && *gate.at >= Length() && gate.at->metres() <= taped;
      if (!placed) walked.findings.push_back({"walk.gate_in_the_middle", Severity::note, course_name(notes, i), {{"gate", gate.name}}});
      const double share = placed && taped > 0 ? gate.at->metres() / taped : 0.5;
      sketch.marks.push_back({{from + along * share, {}, gate.name, {}}, gate_width(gate.name)});
    }
  }
}

}  // namespace

bool comes_back(const ground::Closure& closure, std::size_t courses) { return courses >= 3 && closure.linear * kClosingRatio <= closure.perimeter; }

Result<void> read_legs(const CsvTable& table, const WalkOptions& options, WalkedSite& walked) {
  CellReader cells{table, options.unit};
  const auto notes = read_courses(table, cells, walked.findings);
  if (!notes) return tl::unexpected(notes.error());
  tell_assumed(cells, walked.findings);
  bool closed = false;
  const auto walk = closed_or_open(*notes, options, walked, closed);
  if (!walk) return tl::unexpected(walk.error());
  tell_crossings(*notes, walk->points, closed, walked.findings);
  Sketch sketch;
  sketch.round = kTapedGrid;
  sketch.lines.push_back(line_of(*notes, *walk, closed));
  mark_gates(*notes, *walk, options.unit, sketch, walked);
  return lay_out(sketch, walked);
}

}  // namespace railwright::formats
