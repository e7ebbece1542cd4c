// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "formats/courses.h"
#include "formats/level_notes.h"
#include "formats/walk.h"

// A field book reduced: what `railwright survey` prints and the page shows.
namespace railwright::formats {

struct TraverseReport {
  CourseNotes notes;
  ground::Traverse raw;                                      // as noted
  ground::Traverse adjusted;                                 // the same as `raw` where nothing was adjusted
  bool closed = false;                                       // meant to come back, and near enough to be adjusted
  ground::Closure closure;                                   // against the start; for an open walk only the perimeter means anything
  ground::Adjustment adjustment = ground::Adjustment::none;  // used
  double area_m2 = 0;                                        // inside a closed walk
};

struct SurveyReport {
  std::optional<TraverseReport> traverse;
  std::optional<LevelNotes> levels;
  Findings findings;
};

// Reduces a table of courses or of level notes. A walk is meant to come back when its last course goes to the point where its first began, or when it ends
// within 1/50 of its length from its start.
// Findings: those of courses.h and level_notes.h; `survey.unit_assumed` as `walk.unit_assumed`; `survey.does_not_close` (stop: misses its start by more than
// 1/50; where: the course that it points along), `walk.poor_closure` (below 1/500), `survey.open` (note: nothing proves it), `survey.one_leg` (note).
// Errors: those of read_walk; `survey.no_notes`: the table holds neither.
Result<SurveyReport> survey_report(std::string_view bytes, const WalkOptions& options = {});

// As JSON: lengths in millimetres to a hundredth, angles in degrees to a tenth of a second, area in square metres.
// {traverse: {courses, points, closed, latitude, departure, linear, perimeter, ratio, adjustment, area_m2},
//  levels: {points, closed, misclosure, allowed, setups, backsights, foresights}}; findings are left to the face.
std::string survey_json(const SurveyReport& report);

}  // namespace railwright::formats
