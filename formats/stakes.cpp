// SPDX-License-Identifier: MIT
#include "formats/stakes.h"

#include <cmath>
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>

#include "engine/ground/geodesy.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Vec2;

// A number with fixed decimals, by whole numbers: no locale, the same in every build.
std::string fixed(double value, int decimals) {
  double scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const double scaled = std::round(std::abs(value) * scale);
  auto whole = static_cast<std::int64_t>(scaled < 9e18 ? scaled : 9e18);
  std::string digits = std::to_string(whole);
  while (digits.size() <= static_cast<std::size_t>(decimals)) digits.insert(digits.begin(), '0');
  digits.insert(digits.end() - decimals, '.');
  return value < 0 && whole != 0 ? "-" + digits : digits;
}

std::string xml_escaped(const std::string& text) {
  std::string out;
  for (const char c : one_line(text)) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else if (c == '"') out += "&quot;";
    else out += c;
  }
  return out;
}

struct Ends { Vec2 from, to; const job::Leg* leg = nullptr; };

std::vector<Ends> ends_of(const job::Site& site) {
  std::map<std::string, Vec2> places;
  for (const job::Point& point : site.points) places.emplace(point.id, measure::in_metres(point.east, point.north));
  std::vector<Ends> all;
  for (const job::Leg& leg : site.legs) {
    const auto from = places.find(leg.from), to = places.find(leg.to);
    if (from != places.end() && to != places.end()) all.push_back({from->second, to->second, &leg});
  }
  return all;
}

Result<ground::LevelPlane> plane_of(const job::Site& site) {
  if (!site.origin) return fail("export.no_origin");
  return ground::LevelPlane::about(*site.origin);
}

std::string lat_lon(const ground::LevelPlane& plane, Vec2 at) {
  const ground::GeoPlace place = plane.to_earth(at);
  return "lat=\"" + fixed(place.latitude_deg, 8) + "\" lon=\"" + fixed(place.longitude_deg, 8) + "\"";
}

nlohmann::ordered_json position(const ground::LevelPlane& plane, Vec2 at) {
  const ground::GeoPlace place = plane.to_earth(at);
  const auto grid = [](double degrees) { return std::round(degrees * 1e8) / 1e8; };
  return nlohmann::ordered_json::array({grid(place.longitude_deg), grid(place.latitude_deg)});
}

void put(std::string& dxf, int code, const std::string& value) {
  dxf += std::to_string(code);
  dxf += '\n';
  dxf += value;
  dxf += '\n';
}

void put_place(std::string& dxf, int code, Vec2 at, double height) {
  put(dxf, code, fixed(at.x, 4));
  put(dxf, code + 10, fixed(at.y, 4));
  put(dxf, code + 20, fixed(height, 4));
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
    gpx += "<wpt " + lat_lon(*plane, stake.at) + "><ele>" + fixed(stake.height, 3) + "</ele><name>" + xml_escaped(stake.name);
    gpx += "</name><type>" + xml_escaped(stake.kind) + "</type></wpt>\n";
  }
  for (const Ends& ends : ends_of(site)) {
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
    features.push_back({{"type", "Feature"},
                        {"properties", std::move(properties)},
                        {"geometry", {{"type", type}, {"coordinates", std::move(coordinates)}}}});
  };
  for (const Stake& stake : stakes) {
    Json at = position(*plane, stake.at);
    at.push_back(std::round(stake.height * 1000) / 1000);
    add("Point", std::move(at), {{"name", stake.name}, {"kind", stake.kind}});
  }
  for (const Ends& ends : ends_of(site)) {
    add("LineString", Json::array({position(*plane, ends.from), position(*plane, ends.to)}),
        {{"name", ends.leg->id}, {"fence", ends.leg->fence}});
  }
  const Json collection{{"type", "FeatureCollection"}, {"features", std::move(features)}};
  return collection.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string dxf_of(const job::Site& site, const std::vector<Stake>& stakes) {
  std::string dxf;
  put(dxf, 0, "SECTION");
  put(dxf, 2, "ENTITIES");
  for (const Ends& ends : ends_of(site)) {
    put(dxf, 0, "LINE");
    put(dxf, 8, "LEGS");
    put_place(dxf, 10, ends.from, 0);
    put_place(dxf, 11, ends.to, 0);
  }
  for (const Stake& stake : stakes) {
    put(dxf, 0, "POINT");
    put(dxf, 8, "POSTS");
    put_place(dxf, 10, stake.at, stake.height);
    put(dxf, 0, "TEXT");
    put(dxf, 8, "NAMES");
    put_place(dxf, 10, stake.at, stake.height);
    put(dxf, 40, "0.3000");
    put(dxf, 1, one_line(stake.name));
  }
  put(dxf, 0, "ENDSEC");
  put(dxf, 0, "EOF");
  return dxf;
}

}  // namespace railwright::formats
