// SPDX-License-Identifier: MIT
#include "formats/survey.h"

#include <algorithm>
#include <cmath>

#include "formats/courses.h"
#include "formats/geo.h"
#include "formats/level_notes.h"
#include "formats/network.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Length;
using Column = std::optional<std::size_t>;

constexpr double kFarFromOrigin = 50e3;                 // m: a survey farther out than this gets a false origin
constexpr Length kTapedGrid = Length::from_nm(10'000);  // 0.01 mm

Column name_column(const CsvTable& t) { return t.find({"point", "name", "id", "pt", "stake", "label", "number", "no"}); }
Column note_column(const CsvTable& t) { return t.find({"note", "code", "description", "desc", "feature", "remark"}); }
Column line_column(const CsvTable& t) { return t.find({"line", "leg", "fence", "run"}); }
Column east_column(const CsvTable& t) { return t.find({"east", "easting", "e", "x"}); }
Column north_column(const CsvTable& t) { return t.find({"north", "northing", "n", "y"}); }
Column height_column(const CsvTable& t) { return t.find({"height", "elevation", "elev", "z", "h", "ele", "level", "rl", "up"}); }
Column latitude_column(const CsvTable& t) { return t.find({"latitude", "lat"}); }
Column longitude_column(const CsvTable& t) { return t.find({"longitude", "lon", "long", "lng"}); }
Column station_column(const CsvTable& t) { return t.find({"station", "sta", "chainage"}); }
Column offset_column(const CsvTable& t) { return t.find({"offset", "off"}); }
Column rise_column(const CsvTable& t) { return t.find({"rise", "dz", "height", "elevation", "z"}); }

bool blank(const CsvTable::Row& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return cell.empty(); });
}

bool is_spot(const std::string& note) {
  const std::string word = lower(note);
  return word == "spot" || word == "ground" || word == "shot" || word == "spot height" || word == "gl";
}

// One survey point, in lengths: exact until the false origin is off.
struct Place {
  Length east, north;
  std::optional<Length> height;
  std::string name, note, line;
  bool starts_line = false;  // after an empty row
};

// Whole kilometres off both coordinates, so that the job stays near its origin.
void take_false_origin(std::vector<Place>& places, WalkedSite& walked) {
  const auto off = [](Length first) { return std::abs(first.metres()) > kFarFromOrigin ? first.round_down_to(Length::mm(1'000'000)) : Length(); };
  walked.false_east = off(places.front().east);
  walked.false_north = off(places.front().north);
  for (Place& place : places) {
    place.east -= walked.false_east;
    place.north -= walked.false_north;
  }
  if (walked.false_east == Length() && walked.false_north == Length()) return;
  walked.findings.push_back({"walk.shifted", Severity::note, "site", {{"east", value_of(walked.false_east)}, {"north", value_of(walked.false_north)}}});
}

Vertex vertex_of(const Place& place) {
  Vertex vertex{measure::in_metres(place.east, place.north), {}, place.name, place.note};
  if (place.height) vertex.height = place.height->metres();
  return vertex;
}

// A last place within reach of the first closes a line of at least three sides.
void close(Polyline& line, double reach) {
  auto& v = line.vertices;
  line.closed = v.size() > 3 && measure::distance(v.front().at, v.back().at) <= reach;
  if (line.closed) v.pop_back();
}

Sketch sketch_of(const std::vector<Place>& places) {
  Sketch sketch;
  sketch.round = kTapedGrid;
  const auto finish = [&](Polyline& line) {
    if (line.vertices.empty()) return;
    close(line, sketch.join);
    sketch.lines.push_back(std::move(line));
    line = {};
  };
  Polyline line;
  std::string current;
  for (const Place& place : places) {
    const bool mark = is_gate(place.note) || is_gate(place.name) || is_spot(place.note);
    if (mark) {
      Mark beside{vertex_of(place), {}};
      if (is_gate(place.note)) beside.vertex.name = place.note;
      sketch.marks.push_back(std::move(beside));
      continue;
    }
    if (place.starts_line || place.line != current) finish(line);
    current = place.line;
    line.vertices.push_back(vertex_of(place));
  }
  finish(line);
  return sketch;
}

Result<std::vector<Place>> places_of(const CsvTable& table, CellReader& cells) {
  const Column east = east_column(table), north = north_column(table), height = height_column(table);
  std::vector<Place> places;
  bool after_blank = false;
  for (const CsvTable::Row& row : table.rows) {
    if (blank(row)) {
      after_blank = true;
      continue;
    }
    Place place;
    const auto x = cells.length(row, *east), y = cells.length(row, *north);
    if (!x) return tl::unexpected(x.error());
    if (!y) return tl::unexpected(y.error());
    place.east = *x;
    place.north = *y;
    if (!cells.empty(row, height)) {
      const auto z = cells.length(row, *height);
      if (!z) return tl::unexpected(z.error());
      place.height = *z;
    }
    place.name = cells.text(row, name_column(table));
    place.note = cells.text(row, note_column(table));
    place.line = cells.text(row, line_column(table));
    place.starts_line = after_blank;
    after_blank = false;
    places.push_back(std::move(place));
  }
  if (places.size() < 2) return fail("walk.no_line");
  return places;
}

}  // namespace

void tell_assumed(const CellReader& cells, Findings& findings) {
  if (cells.assumed == 0) return;
  static constexpr const char* kUnits[] = {"", "in", "ft", "mm", "m"};
  findings.push_back({"walk.unit_assumed",
                      Severity::warning,
                      "site",
                      {{"unit", std::string(kUnits[static_cast<int>(cells.fallback)])}, {"count", static_cast<std::int64_t>(cells.assumed)}}});
}

TableKind table_kind(const CsvTable& table) {
  if (latitude_column(table) && longitude_column(table)) return TableKind::degrees;
  if (has_levels(table)) return TableKind::levels;
  if (has_courses(table)) return TableKind::legs;
  if (east_column(table) && north_column(table)) return TableKind::places;
  return station_column(table) ? TableKind::stations : TableKind::none;
}

Result<void> read_places(const CsvTable& table, const WalkOptions& options, WalkedSite& walked) {
  CellReader cells{table, options.unit};
  auto places = places_of(table, cells);
  if (!places) return tl::unexpected(places.error());
  tell_assumed(cells, walked.findings);
  take_false_origin(*places, walked);
  return lay_out(sketch_of(*places), walked);
}

Result<void> read_degrees(const CsvTable& table, WalkedSite& walked) {
  CellReader cells{table, measure::BareNumber::metres};
  const Column height = height_column(table), latitude = latitude_column(table), longitude = longitude_column(table);
  GeoWalk geo;
  geo.recorded = true;
  GeoLine line;
  line.track = true;  // a long list of fixes is a track; a short one stays as it is
  const auto finish = [&] {
    if (!line.vertices.empty()) geo.lines.push_back(std::move(line));
    line = {};
    line.track = true;
  };
  for (const CsvTable::Row& row : table.rows) {
    if (blank(row)) {
      finish();
      continue;
    }
    GeoVertex vertex;
    const auto lat = cells.number(row, *latitude), lon = cells.number(row, *longitude);
    if (!lat) return tl::unexpected(lat.error());
    if (!lon) return tl::unexpected(lon.error());
    vertex.latitude_deg = *lat;
    vertex.longitude_deg = *lon;
    if (!cells.empty(row, height)) {
      const auto z = cells.length(row, *height);
      if (!z) return tl::unexpected(z.error());
      vertex.height_m = z->metres();
    }
    vertex.name = cells.text(row, name_column(table));
    vertex.note = cells.text(row, note_column(table));
    if (is_gate(vertex.note))
      geo.marks.push_back({std::move(vertex), {}});
    else
      line.vertices.push_back(std::move(vertex));
  }
  finish();
  return lay_out_geo(geo, walked);
}

namespace {

// A station as written: 125.5, 1+25.5 (hundreds and rest), or a length with its unit.
Result<Length> station_of(CellReader& cells, const CsvTable::Row& row, std::size_t column) {
  const std::string& cell = row.cells[column];
  const std::size_t plus = cell.find('+');
  if (plus == std::string::npos || plus == 0) return cells.length(row, column);
  CsvTable::Row whole = row;
  const auto hundreds = read_number(cell.substr(0, plus)), rest = read_number(cell.substr(plus + 1));
  if (!hundreds || !rest) return fail("csv.length", cells.place(row, column), {{"text", one_line(cell, 60)}});
  whole.cells[column] = cell.substr(plus + 1);
  const auto part = cells.length(whole, column);
  whole.cells[column] = cell.substr(0, plus);
  whole.cells[column] += "00";
  const auto full = cells.length(whole, column);
  if (!part) return part;
  return full ? Result<Length>(*full + *part) : full;
}

struct StationRow {
  Length station, offset;
  std::optional<Length> rise;
  std::string name, note;
};

Result<std::vector<StationRow>> station_rows(const CsvTable& table, CellReader& cells) {
  std::vector<StationRow> rows;
  for (const CsvTable::Row& row : table.rows) {
    if (blank(row)) continue;
    StationRow r;
    const auto station = station_of(cells, row, *station_column(table));
    if (!station) return tl::unexpected(station.error());
    r.station = *station;
    if (const Column column = offset_column(table); !cells.empty(row, column)) {
      const auto offset = cells.length(row, *column);
      if (!offset) return tl::unexpected(offset.error());
      r.offset = *offset;
    }
    if (const Column column = rise_column(table); !cells.empty(row, column)) {
      const auto rise = cells.length(row, *column);
      if (!rise) return tl::unexpected(rise.error());
      r.rise = *rise;
    }
    r.name = cells.text(row, name_column(table));
    r.note = cells.text(row, note_column(table));
    rows.push_back(std::move(r));
  }
  if (rows.size() < 2) return fail("walk.no_line");
  return rows;
}

// Without offsets: one leg from the least to the greatest station, its heights levelled.
Result<void> one_levelled_leg(std::vector<StationRow> rows, WalkedSite& walked) {
  std::stable_sort(rows.begin(), rows.end(), [](const StationRow& a, const StationRow& b) { return a.station < b.station; });
  const Length start = rows.front().station;
  Polyline line;
  const StationRow* ends[] = {&rows.front(), &rows.back()};
  for (const StationRow* end : ends) {
    line.vertices.push_back({Vec2{(end->station - start).metres(), 0}, {}, is_gate(end->name) ? std::string() : end->name, end->note});
  }
  Sketch sketch;
  sketch.round = Length::from_nm(1);
  sketch.lines.push_back(std::move(line));
  for (const StationRow& row : rows) {
    const Vec2 at{(row.station - start).metres(), 0};
    if (is_gate(row.note))
      sketch.marks.push_back({{at, {}, row.note, {}}, {}});
    else if (is_gate(row.name))
      sketch.marks.push_back({{at, {}, row.name, {}}, {}});
  }
  if (const auto good = lay_out(sketch, walked); !good) return good;
  const std::string leg = walked.site.legs.front().id;
  for (const StationRow& row : rows) {
    if (row.rise) walked.site.ground.profile.push_back({leg, row.station - start, *row.rise});
  }
  return {};
}

}  // namespace

Result<void> read_stations(const CsvTable& table, const WalkOptions& options, WalkedSite& walked) {
  CellReader cells{table, options.unit};
  auto rows = station_rows(table, cells);
  if (!rows) return tl::unexpected(rows.error());
  tell_assumed(cells, walked.findings);
  const bool straight = std::all_of(rows->begin(), rows->end(), [](const StationRow& r) { return r.offset == Length(); });
  if (straight) return one_levelled_leg(std::move(*rows), walked);
  std::vector<Place> places;
  for (const StationRow& row : *rows) places.push_back({row.station, -row.offset, row.rise, row.name, row.note, {}, false});
  take_false_origin(places, walked);
  return lay_out(sketch_of(places), walked);
}

Result<void> read_level_leg(const CsvTable& table, const WalkOptions& options, WalkedSite& walked) {
  CellReader cells{table, options.unit};
  const auto notes = read_levels(table, cells, walked.findings);
  if (!notes) return tl::unexpected(notes.error());
  tell_assumed(cells, walked.findings);
  std::vector<StationRow> rows;
  for (std::size_t i = 0; i < notes->stations.size(); ++i) {
    const ground::LevelledPoint& point = notes->levels.points[i];
    if (!notes->stations[i]) continue;
    rows.push_back({*notes->stations[i], {}, Length::from_metres(point.height).round_to(Length::from_nm(100'000)), {}, {}});
  }
  const auto same = [&](const StationRow& row) { return row.station == rows.front().station; };
  if (rows.size() < 2 || std::all_of(rows.begin(), rows.end(), same)) return fail("survey.levels_alone");
  const auto laid = one_levelled_leg(std::move(rows), walked);
  walked.site.ground.accuracy = Length::from_metres(kSetupError);
  return laid;
}

}  // namespace railwright::formats
