// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/ground/levelling.h"
#include "engine/job/finding.h"
#include "engine/measure/length.h"
#include "formats/csv.h"
#include "formats/walk.h"

// Level notes: backsights, intermediate sights and foresights by rows.
namespace railwright::formats {

struct LevelNotes {
  ground::Levelled levels;                               // metres; `points` one for each row
  std::vector<std::optional<measure::Length>> stations;  // as `levels.points`: distance along the leg where the row says one
};

// A builder's level reads to 3 mm a set-up (common practice, no source).
inline constexpr double kSetupError = 0.003;

bool has_levels(const CsvTable& table);  // by its columns: backsight or foresight

// Columns: `point` (name), `station` (a distance along the line: 125, 1+25, 12 ft 3 in; text is taken as a name), `backsight`, `intermediate`, `foresight`, and
// `known` or `elevation` (height of a benchmark; needed in the first row). Short forms: bs, is, fs.
// Findings: `survey.mixed_units`, `survey.levels_open` (note: ends on no known height), `survey.levels_closure` (note), `survey.levels_poor` (warning: misclosure above
// three times kSetupError times the root of the set-ups). Errors: `csv.*`, `levels.*` (place: line of the file).
Result<LevelNotes> read_levels(const CsvTable& table, CellReader& cells, Findings& findings);

// Heights of the points of a site that the notes name. Findings: `survey.levels_unmatched` (note, how many rows name no point).
void add_levels(const LevelNotes& notes, job::Site& site, Findings& findings);

}  // namespace railwright::formats
