// SPDX-License-Identifier: MIT
#include "formats/level_notes.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "formats/text.h"

namespace railwright::formats {
namespace {

using Column = std::optional<std::size_t>;
using measure::Length;

struct Columns {
  Column point, station, backsight, intermediate, foresight, known;
};

Columns columns_of(const CsvTable& t) {
  Columns c;
  c.point = t.find({"point", "name", "id", "pt"});
  c.station = t.find({"station", "sta", "chainage", "distance"});
  c.backsight = t.find({"backsight", "back sight", "bs", "b.s.", "plus"});
  c.intermediate = t.find({"intermediate", "intermediate sight", "is", "i.s."});
  c.foresight = t.find({"foresight", "fore sight", "fs", "f.s.", "minus"});
  c.known = t.find({"known", "known height", "benchmark", "elevation", "elev", "height", "rl"});
  return c;
}

bool blank(const CsvTable::Row& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return cell.empty(); });
}

Result<std::optional<double>> reading(CellReader& cells, const CsvTable::Row& row, Column column) {
  if (cells.empty(row, column)) return std::optional<double>();
  const auto length = cells.length(row, *column);
  if (!length) return tl::unexpected(length.error());
  return std::optional<double>(length->metres());
}

// A station is a distance when it begins with a figure; 1+25.5 is 125.5.
std::optional<Length> station_of(CellReader& cells, const CsvTable::Row& row, Column column) {
  const std::string& text = cells.text(row, column);
  if (text.empty() || text[0] < '0' || text[0] > '9') return std::nullopt;
  CsvTable::Row plain = row;
  Length hundreds;
  if (const std::size_t plus = text.find('+'); plus != std::string::npos && plus > 0) {
    plain.cells[*column] = text.substr(0, plus) + "00";
    const auto whole = cells.length(plain, *column);
    if (!whole) return std::nullopt;
    hundreds = *whole;
    plain.cells[*column] = text.substr(plus + 1);
  }
  const auto length = cells.length(plain, *column);
  if (!length) return std::nullopt;
  return hundreds + *length;
}

Result<ground::LevelSight> sight_of(CellReader& cells, const CsvTable::Row& row, const Columns& columns) {
  ground::LevelSight sight;
  sight.point = cells.text(row, columns.point ? columns.point : columns.station);
  struct Part {
    Column column;
    std::optional<double>* value;
  };
  for (const Part& part : {Part{columns.backsight, &sight.backsight}, Part{columns.intermediate, &sight.intermediate},
                           Part{columns.foresight, &sight.foresight}, Part{columns.known, &sight.known}}) {
    const auto value = reading(cells, row, part.column);
    if (!value) return tl::unexpected(value.error());
    *part.value = *value;
  }
  return sight;
}

Length shown(double metres) { return Length::from_metres(metres).round_to(Length::from_nm(100'000)); }

void tell_closure(const ground::Levelled& levels, Findings& findings) {
  if (!levels.closed) {
    findings.push_back({"survey.levels_open", Severity::note, "site", {}});
    return;
  }
  const bool poor = std::abs(levels.misclosure) > 3 * levels.allowed;
  findings.push_back({poor ? "survey.levels_poor" : "survey.levels_closure",
                      poor ? Severity::warning : Severity::note,
                      "site",
                      {{"misclosure", value_of(shown(levels.misclosure))},
                       {"setups", static_cast<std::int64_t>(levels.setups)},
                       {"allowed", value_of(shown(3 * levels.allowed))}}});
}

}  // namespace

bool has_levels(const CsvTable& table) {
  const Columns columns = columns_of(table);
  return columns.backsight || columns.foresight;
}

Result<LevelNotes> read_levels(const CsvTable& table, CellReader& cells, Findings& findings) {
  const Columns columns = columns_of(table);
  LevelNotes notes;
  std::vector<ground::LevelSight> sights;
  std::vector<std::size_t> lines;
  for (const CsvTable::Row& row : table.rows) {
    if (blank(row)) continue;
    auto sight = sight_of(cells, row, columns);
    if (!sight) return tl::unexpected(sight.error());
    sights.push_back(std::move(*sight));
    lines.push_back(row.line);
    notes.stations.push_back(station_of(cells, row, columns.station));
  }
  auto levels = ground::reduce_levels(sights, kSetupError);
  if (!levels) {
    Error error = levels.error();
    const auto number = read_number(error.place);  // of the sight; the reader of the file wants its line
    if (number && *number >= 1 && *number <= static_cast<double>(lines.size())) error.place = std::to_string(lines[static_cast<std::size_t>(*number) - 1]);
    return tl::unexpected(std::move(error));
  }
  notes.levels = std::move(*levels);
  if (!cells.mixed.empty()) findings.push_back({"survey.mixed_units", Severity::warning, cells.mixed, {}});
  tell_closure(notes.levels, findings);
  return notes;
}

void add_levels(const LevelNotes& notes, job::Site& site, Findings& findings) {
  std::map<std::string, Length> heights;
  for (const ground::LevelledPoint& point : notes.levels.points) heights.insert({point.point, shown(point.height)});
  std::size_t matched = 0;
  for (job::Point& point : site.points) {
    const auto found = heights.find(point.id);
    if (found == heights.end()) continue;
    point.height = found->second;
    ++matched;
  }
  if (matched > 0) site.ground.accuracy = Length::from_metres(kSetupError);
  if (matched < heights.size()) {
    findings.push_back({"survey.levels_unmatched", Severity::note, "site", {{"count", static_cast<std::int64_t>(heights.size() - matched)}}});
  }
}

}  // namespace railwright::formats
