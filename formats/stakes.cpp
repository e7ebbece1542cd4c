// SPDX-License-Identifier: MIT
#include "formats/stakes.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/ground/geodesy.h"
#include "formats/stakes_parts.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Vec2;

std::string xml_escaped(const std::string& text) {
  std::string out;
  for (const char c : one_line(text)) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

Result<ground::LevelPlane> plane_of(const job::Site& site) {
  if (!site.origin) return fail("export.no_origin");
  return ground::LevelPlane::about(*site.origin);
}

std::string lat_lon(const ground::LevelPlane& plane, Vec2 at) {
  const ground::GeoPlace place = plane.to_earth(at);
  return "lat=\"" + fixed_text(place.latitude_deg, 8) + "\" lon=\"" + fixed_text(place.longitude_deg, 8) + "\"";
}

nlohmann::ordered_json position(const ground::LevelPlane& plane, Vec2 at) {
  const ground::GeoPlace place = plane.to_earth(at);
  const auto grid = [](double degrees) { return std::round(degrees * 1e8) / 1e8; };
  return nlohmann::ordered_json::array({grid(place.longitude_deg), grid(place.latitude_deg)});
}

// longitude,latitude as KML writes a place.
std::string lon_lat(const ground::LevelPlane& plane, Vec2 at) {
  const ground::GeoPlace place = plane.to_earth(at);
  return fixed_text(place.longitude_deg, 8) + "," + fixed_text(place.latitude_deg, 8);
}

}  // namespace

Result<std::string> gpx_of(const job::Site& site, const std::vector<Stake>& stakes, const std::string& name) {
  const auto plane = plane_of(site);
  if (!plane) return tl::unexpected(plane.error());
  std::string gpx =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx version=\"1.1\" creator=\"Railwright\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n<metadata><name>";
  gpx += xml_escaped(name) + "</name></metadata>\n";
  for (const Stake& stake : stakes) {
    gpx += "<wpt " + lat_lon(*plane, stake.at) + "><ele>" + fixed_text(stake.height, 3) + "</ele><name>" + xml_escaped(stake.name);
    gpx += "</name><type>" + xml_escaped(stake.kind) + "</type></wpt>\n";
  }
  for (const LegEnds& ends : leg_ends(site)) {
    gpx += "<rte><name>" + xml_escaped(ends.leg->id) + "</name><rtept " + lat_lon(*plane, ends.from) + "><name>" + xml_escaped(ends.leg->from);
    gpx += "</name></rtept><rtept " + lat_lon(*plane, ends.to) + "><name>" + xml_escaped(ends.leg->to) + "</name></rtept></rte>\n";
  }
  return gpx + "</gpx>\n";
}

Result<std::string> geojson_of(const job::Site& site, const std::vector<Stake>& stakes) {
  using Json = nlohmann::ordered_json;
  const auto plane = plane_of(site);
  if (!plane) return tl::unexpected(plane.error());
  Json features = Json::array();
  const auto add = [&](const char* type, Json coordinates, Json properties) {
    features.push_back({{"type", "Feature"}, {"properties", std::move(properties)}, {"geometry", {{"type", type}, {"coordinates", std::move(coordinates)}}}});
  };
  for (const Stake& stake : stakes) {
    Json at = position(*plane, stake.at);
    at.push_back(std::round(stake.height * 1000) / 1000);
    add("Point", std::move(at), {{"name", stake.name}, {"kind", stake.kind}});
  }
  for (const LegEnds& ends : leg_ends(site)) {
    add("LineString", Json::array({position(*plane, ends.from), position(*plane, ends.to)}), {{"name", ends.leg->id}, {"fence", ends.leg->fence}});
  }
  const Json collection{{"type", "FeatureCollection"}, {"features", std::move(features)}};
  return collection.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<std::string> kml_of(const job::Site& site, const std::vector<Stake>& stakes, const std::string& name) {
  const auto plane = plane_of(site);
  if (!plane) return tl::unexpected(plane.error());
  std::string kml = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document><name>";
  kml += xml_escaped(name) + "</name>\n";
  for (const Stake& stake : stakes) {
    kml += "<Placemark><name>" + xml_escaped(stake.name) + "</name><description>" + xml_escaped(stake.kind);
    kml += "</description><Point><coordinates>" + lon_lat(*plane, stake.at) + "," + fixed_text(stake.height, 3) + "</coordinates></Point></Placemark>\n";
  }
  for (const LegEnds& ends : leg_ends(site)) {
    kml += "<Placemark><name>" + xml_escaped(ends.leg->id) + "</name><LineString><tessellate>1</tessellate><coordinates>";
    kml += lon_lat(*plane, ends.from) + " " + lon_lat(*plane, ends.to) + "</coordinates></LineString></Placemark>\n";
  }
  return kml + "</Document>\n</kml>\n";
}

}  // namespace railwright::formats
