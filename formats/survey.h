// SPDX-License-Identifier: MIT
#pragma once

#include "formats/csv.h"
#include "formats/walk.h"

// Surveys written as tables.
namespace railwright::formats {

// Which survey a header announces: by its columns alone.
enum class TableKind { places, degrees, stations, legs, none };
TableKind table_kind(const CsvTable& table);

Result<void> read_places(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);
Result<void> read_degrees(const CsvTable& table, WalkedSite& walked);
// Station, offset (right positive) and rise from a straight base line, which is laid towards the east. Without offsets the rows are
// heights along one leg.
Result<void> read_stations(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);
// Courses from the first bearing on; see engine/ground/traverse.h. A walk that comes back within 1/50 of its length is closed by the compass rule.
// Findings: `walk.closure` (linear, ratio), `walk.poor_closure` (worse than 1/500), `walk.left_open` (ends within a fifth of its length of its start).
Result<void> read_legs(const CsvTable& table, const WalkOptions& options, WalkedSite& walked);

}  // namespace railwright::formats
