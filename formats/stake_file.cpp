// SPDX-License-Identifier: MIT
#include "formats/stakes.h"
#include "formats/stakes_parts.h"
#include "formats/text.h"

// The stake-out of a plan in the format asked for, and its table.
namespace railwright::formats {
namespace {

using measure::Length;

struct Units {
  bool metric = false;
  const char* name() const { return metric ? "m" : "ft"; }
  std::string text(double metres) const { return fixed_text(metric ? metres : metres / 0.3048, 4); }
  std::string text(Length length) const { return fixed_text(metric ? length.metres() : length.feet_value(), 4); }
};

// RFC 4180: a cell with a comma, a quotation mark or a line end is quoted.
std::string csv_cell(const std::string& text) {
  const std::string line = one_line(text);
  if (line.find_first_of(",\"") == std::string::npos) return line;
  std::string quoted = "\"";
  for (const char c : line) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string header(const Units& units, bool degrees) {
  std::string line = "name,kind,line";
  for (const char* column : {"station", "tape", "string_to_centre", "east", "north", "height"}) {
    line += std::string(",") + column + "_" + units.name();
  }
  return line + (degrees ? ",latitude_deg,longitude_deg\r\n" : "\r\n");
}

}  // namespace

std::vector<Stake> stakes_of(const setout::Layout& layout) {
  std::vector<Stake> stakes;
  for (const setout::Post& post : layout.posts) stakes.push_back({post.name, kind_text(static_cast<int>(post.kind)), post.at, post.ground});
  return stakes;
}

std::optional<StakeFormat> stake_format(std::string_view file_name) {
  const std::size_t dot = file_name.rfind('.');
  if (dot == std::string_view::npos) return std::nullopt;
  const std::string ending = lower(file_name.substr(dot + 1));
  if (ending == "gpx") return StakeFormat::gpx;
  if (ending == "geojson" || ending == "json") return StakeFormat::geojson;
  if (ending == "kml") return StakeFormat::kml;
  if (ending == "dxf") return StakeFormat::dxf;
  if (ending == "csv") return StakeFormat::csv;
  return std::nullopt;
}

std::string stakes_csv(const job::Job& job, const setout::Layout& layout, const stakeout::StakeOut& stakes) {
  const Units units{job.units == job::UnitSystem::metric};
  const bool degrees = !stakes.places.empty();
  std::string csv = header(units, degrees);
  for (const stakeout::LegStakes& leg : stakes.legs) {
    for (const stakeout::Stake& stake : leg.stakes) {
      const setout::Post& post = layout.posts[static_cast<std::size_t>(stake.post)];
      csv += csv_cell(post.name) + "," + kind_text(static_cast<int>(post.kind)) + "," + csv_cell(job.site.legs[static_cast<std::size_t>(leg.leg)].id);
      for (const Length length : {stake.station, stake.tape, stake.string_to_centre}) csv += "," + units.text(length);
      for (const double metres : {post.at.x, post.at.y, post.ground}) csv += "," + units.text(metres);
      if (degrees) {
        const stakeout::GeoPost& place = stakes.places[static_cast<std::size_t>(stake.post)];
        csv += "," + fixed_text(place.latitude_deg, 8) + "," + fixed_text(place.longitude_deg, 8);
      }
      csv += "\r\n";
    }
  }
  return csv;
}

Result<std::string> stake_file(StakeFormat format, const job::Job& job, const setout::Layout& layout, const stakeout::StakeOut& stakes) {
  const std::vector<Stake> posts = stakes_of(layout);
  switch (format) {
    case StakeFormat::gpx:
      return gpx_of(job.site, posts, job.name);
    case StakeFormat::geojson:
      return geojson_of(job.site, posts);
    case StakeFormat::kml:
      return kml_of(job.site, posts, job.name);
    case StakeFormat::dxf:
      return dxf_of(job.site, posts);
    case StakeFormat::csv:
      break;
  }
  return stakes_csv(job, layout, stakes);
}

}  // namespace railwright::formats
