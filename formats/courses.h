// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/ground/traverse.h"
#include "engine/job/finding.h"
#include "formats/csv.h"
#include "formats/walk.h"

// The courses of a traverse as a field book lists them.
namespace railwright::formats {

// Lengths in metres.
struct NotedCourse {
  std::string from, to, note;
  double azimuth_deg = 0;
  double taped = 0;        // as read
  double temperature = 0;  // correction of a steel tape; 0 where no temperature is noted
  double slope = 0;        // correction, never positive
  double level = 0;        // taped + temperature + slope
  double rise = 0;
};

struct CourseNotes {
  std::vector<NotedCourse> courses;  // never empty
  bool named_loop = false;           // the last course goes to the point where the first began
  std::vector<ground::Course> level() const;
};

// Columns: `bearing` (or azimuth), or `deflection`; then
//  `slope distance`            read along the slope, with `rise` (a height) or `slope`
//  `distance`                  level; with a figure under `slope`, along that slope
//  `slope`                     "10 %", "5.7 deg", "1:10"; a bare figure is a percentage (slope_%, slope_deg say otherwise)
//  `temperature`               of the tape, "95 F", "35 C"; a bare figure is degrees F with feet and C with metres (temperature_f, temperature_c)
//  `from`, `to`, `note`        names; `from` must be where the row before went to; a note may hold gates (formats/noted_gates.h)
// Corrections: level = S cos(slope) = sqrt(S^2 - rise^2); temperature 6.5e-6 per degree F from 68 F (engine/ground/tape.h).
// Findings: `survey.mixed_units` (warning), `survey.slope_assumed`, `survey.temperature_assumed` (notes).
// Errors (place: line, column): `csv.*`, bearing.*, `tape.rise`, `survey.slope` (steeper than 60 degrees), `survey.temperature` (beyond -60..160 F), `survey.chain`, `walk.no_line`.
Result<CourseNotes> read_courses(const CsvTable& table, CellReader& cells, Findings& findings);

bool has_courses(const CsvTable& table);  // by its columns

// Legs that cross one another without a common point: `survey.crossing_legs`. `points`: of the courses, the first included; `closed`: the last is the first.
void tell_crossings(const CourseNotes& notes, const std::vector<measure::Vec2>& points, bool closed, Findings& findings);

// "A-B", or the number of the course where its points have no names.
std::string course_name(const CourseNotes& notes, std::size_t index);
// Of the point that stands before the course of that number, or after the last; its number where it has no name.
std::string point_name(const CourseNotes& notes, std::size_t index);

}  // namespace railwright::formats
