// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

#include "data/shipped.h"
#include "engine/job/read.h"
#include "engine/measure/geometry.h"
#include "formats/start_job.h"
#include "formats/walk.h"

// One small invented file of each format, and what tests of formats share.
namespace railwright::formats {

inline const std::string kRoute = R"(<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE gpx [<!ENTITY bomb "boom">]>
<x:gpx xmlns:x="http://www.topografix.com/GPX/1/1" version="1.1" creator="invented">
  <x:metadata><x:name>Invented paddock</x:name></x:metadata>
  <x:wpt lat="45.0005" lon="7.0003"><x:name>Gate 12 ft</x:name></x:wpt>
  <x:rte>
    <x:rtept lat="45.0000" lon="7.0000"><x:ele>210.5</x:ele><x:name>NW</x:name></x:rtept>
    <x:rtept lat="45.0010" lon="7.0006"><x:ele>211</x:ele></x:rtept>
    <x:rtept lat="45.0010" lon="7.0020"><x:name>Far end of the long lane</x:name></x:rtept>
  </x:rte>
</x:gpx>
)";

inline const std::string kGeoJson = R"({"type": "FeatureCollection", "name": "Invented lane", "features": [
  {"type": "Feature", "properties": {"name": "outside", "fence": "mesh"},
   "geometry": {"type": "Polygon", "coordinates": [[[7, 45], [7.002, 45], [7.002, 45.001], [7, 45.001], [7, 45]]]}},
  {"type": "Feature", "properties": {"fence": "lane"},
   "geometry": {"type": "LineString", "coordinates": [[7.001, 45.000001], [7.001, 45.0009]]}},
  {"type": "Feature", "properties": {"gate": "10 ft"}, "geometry": {"type": "Point", "coordinates": [7.0015, 45]}},
  {"type": "Feature", "properties": null, "geometry": null}]})";

inline const std::string kKml = R"(<?xml version="1.0"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Invented yard</name><Folder>
<Placemark><name>line</name><MultiGeometry><LineString><coordinates>
 7,45,0 7.001,45,0
 7.001,45.001,0 </coordinates></LineString></MultiGeometry></Placemark>
<Placemark><name>Gate 8 ft</name><Point><coordinates>7.0005,45,0</coordinates></Point></Placemark>
</Folder></Document></kml>)";

inline const std::string kPlaces = "point,east_ft,north_ft,height_ft,note\nA,0,0,100,\nB,\"200\",0,102,\n,100,0,,gate 12 ft\nC,200,150,104.5,\nA2,0,0,,\n";
inline const std::string kCourses = "bearing,slope_distance_ft,rise_ft,to\nN 90 E,200.00,0,B\nN 0 E,150.5,3,C\nS 90 W,200.1,-1,D\nS 0 E,150.2,-2,A\n";
inline const std::string kStations = "station (ft),offset (ft),rise (ft)\n0+00,0,0\n0+50,0,1.5\n1+25.5,0,-2\n";
inline const std::string kGrid = "ncols 3\nnrows 2\nxllcorner -5\nyllcorner -5\ncellsize 10\nNODATA_value -1\n1 2 3\n4 -1 6\n";

inline std::string file_bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline const job::Catalogue& shipped() {
  static const job::Catalogue catalogue = data::shipped();
  return catalogue;
}

inline bool told(const Findings& findings, const std::string& code) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

inline double leg_length(const job::Site& site, std::size_t leg) {
  const auto at = [&](const std::string& id) {
    for (const job::Point& p : site.points) {
      if (p.id == id) return measure::in_metres(p.east, p.north);
    }
    return measure::Vec2{1e9, 1e9};
  };
  return measure::distance(at(site.legs[leg].from), at(site.legs[leg].to));
}

}  // namespace railwright::formats
