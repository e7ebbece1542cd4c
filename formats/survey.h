// SPDX-License-Identifier: MIT
#pragma once

#include "formats/csv.h"
#include "formats/walk.h"

// Surveys written as tables.
namespace railwright::formats {

// Which survey a header announces: by its columns alone.
enum class TableKind { places, degrees, stations, legs, levels, none };
TableKind table_kind(const CsvTable& table);

Result<void> read_places(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);
Result<void> read_degrees(const CsvTable& table, WalkedSite& walked);
// Station, offset (right positive) and rise from a straight base line, which is laid towards the east. Without offsets the rows are
// heights along one leg.
Result<void> read_stations(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);
// Courses from the first bearing on; see courses.h. A walk that comes back within 1/50 of its length is closed by `options.adjustment`.
// Findings: those of courses.h; `walk.closure` (linear, ratio), `walk.poor_closure` (worse than 1/500), `walk.left_open` (its names say that it comes back, or it ends within a
// fifth of its length of its start).
Result<void> read_legs(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);
// Level notes with stations: one leg towards the east with its heights. Error `survey.levels_alone`: fewer than two rows have a station.
Result<void> read_level_leg(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);

inline constexpr double kPoorRatio = 500;
// Whether a walk comes back: at least three courses that miss the start by no more than 1/50 of their length.
bool comes_back(const ground::Closure& closure, std::size_t courses);
// `walk.unit_assumed` where figures had no unit.
void tell_assumed(const CellReader& cells, Findings& findings);

}  // namespace railwright::formats
