// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "formats/walk.h"

// What GPX, GeoJSON and KML have in common: lines and marks in latitude and longitude.
namespace railwright::formats {

struct GeoVertex {
  double latitude_deg = 0, longitude_deg = 0;
  std::optional<double> height_m;
  std::string name, note;
};

struct GeoLine {
  std::vector<GeoVertex> vertices;
  std::string fence;
  bool closed = false;  // a polygon or ring
  bool track = false;   // recorded while walking, not drawn
};

struct GeoMark {
  GeoVertex vertex;
  std::optional<measure::Length> gate;
};

struct GeoWalk {
  std::vector<GeoLine> lines;
  std::vector<GeoMark> marks;
  std::string name;
  bool recorded = false;  // by a positioning device: all places carry its error
};

// Checks the coordinates, lays them on the level plane about the first place, straightens dense tracks and builds the site. Marks alone make a line in their
// order. Findings: `walk.track` (corners, noise, error, spikes, stops), `walk.approximate`.
Result<void> lay_out_geo(const GeoWalk& geo, WalkedSite& walked);

Result<GeoWalk> read_gpx(const std::string& text);
Result<GeoWalk> read_kml(const std::string& text);
Result<GeoWalk> read_geojson(const std::string& text);

}  // namespace railwright::formats
