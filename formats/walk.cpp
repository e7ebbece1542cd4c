// SPDX-License-Identifier: MIT
#include "formats/walk.h"

#include "formats/geo.h"
#include "formats/survey.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

// The first element's local name, past the declaration, comments and a document type.
std::string root_element(std::string_view text) {
  for (std::size_t at = text.find('<'); at != std::string_view::npos; at = text.find('<', at + 1)) {
    const std::string_view rest = text.substr(at + 1);
    if (rest.empty() || rest[0] == '?' || rest[0] == '/') continue;
    if (rest[0] == '!') {
      if (rest.substr(0, 3) != "!--") continue;
      const std::size_t end = text.find("-->", at);
      if (end == std::string_view::npos) return {};
      at = end;
      continue;
    }
    std::string_view name = rest.substr(0, rest.find_first_of(" \t\n/>"));
    if (const std::size_t colon = name.find(':'); colon != std::string_view::npos) name.remove_prefix(colon + 1);
    return std::string(name.substr(0, 40));
  }
  return {};
}

Result<void> read_geo(Result<GeoWalk> geo, WalkKind kind, WalkedSite& walked) {
  walked.kind = kind;
  if (!geo) return tl::unexpected(geo.error());
  return lay_out_geo(*geo, walked);
}

Result<void> read_markup(const std::string& text, WalkedSite& walked) {
  const std::string root = lower(root_element(text));
  if (root == "gpx") return read_geo(read_gpx(text), WalkKind::gpx, walked);
  if (root == "kml") return read_geo(read_kml(text), WalkKind::kml, walked);
  return fail("walk.unknown_kind", {}, {{"text", one_line(root, 40)}});
}

Result<void> read_csv(const std::string& text, const WalkOptions& options, WalkedSite& walked) {
  const auto table = read_table(text);
  if (!table) return tl::unexpected(table.error());
  const TableKind kind = table_kind(*table);
  walked.kind = kind == TableKind::legs ? WalkKind::tape_legs : kind == TableKind::levels ? WalkKind::level_notes : WalkKind::survey_points;
  switch (kind) {
    case TableKind::places:
      return read_places(*table, options, walked);
    case TableKind::degrees:
      return read_degrees(*table, walked);
    case TableKind::stations:
      return read_stations(*table, options, walked);
    case TableKind::legs:
      return read_legs(*table, options, walked);
    case TableKind::levels:
      return read_level_leg(*table, options, walked);
    case TableKind::none:
      break;
  }
  std::string titles;
  for (const CsvColumn& column : table->columns) titles += (titles.empty() ? "" : ", ") + column.title;
  return fail("csv.unknown_columns", "1", {{"text", one_line(titles, 120)}});
}

Result<void> read_any(const std::string& text, const WalkOptions& options, WalkedSite& walked) {
  const char first = trimmed(text)[0];
  if (first == '<') return read_markup(text, walked);
  if (first == '{' || first == '[') return read_geo(read_geojson(text), WalkKind::geojson, walked);
  if (lower(trimmed(text).substr(0, 5)) == "ncols") return fail("walk.is_grid");
  return read_csv(text, options, walked);
}

}  // namespace

Result<WalkedSite> read_walk(std::string_view bytes, const WalkOptions& options) {
  const auto text = readable_text(bytes);
  if (!text) return tl::unexpected(text.error());
  WalkedSite walked;
  if (const auto good = read_any(*text, options, walked); !good) return tl::unexpected(good.error());
  return walked;
}

}  // namespace railwright::formats
