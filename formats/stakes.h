// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/job.h"
#include "engine/measure/geometry.h"
#include "engine/measure/result.h"
#include "engine/setout/layout.h"
#include "engine/stakeout/stakes.h"

// Where the posts stand, for instruments, phones and drawing programs of others.
namespace railwright::formats {

struct Stake {
  std::string name, kind;  // "AB3", "line"
  measure::Vec2 at;        // on the job's plane, metres
  double height = 0;
};

// Each post of the layout once, in its order.
std::vector<Stake> stakes_of(const setout::Layout& layout);

enum class StakeFormat { gpx, geojson, kml, dxf, csv };

// By the ending of a file's name, small or capital letters: gpx, geojson, json, kml, dxf, csv. No value for any other.
std::optional<StakeFormat> stake_format(std::string_view file_name);

// The whole stake-out as one file. Error `export.no_origin` of the formats in degrees: the job has no geodetic place.
Result<std::string> stake_file(StakeFormat format, const job::Job& job, const setout::Layout& layout, const stakeout::StakeOut& stakes);

// GPX 1.1: a waypoint for each post and a route along each leg. GeoJSON (RFC 7946) and KML 2.2 (OGC 07-147r2): a Point and a LineString for each. Degrees to
// 1e-8 (a millimetre), heights to a millimetre.
Result<std::string> gpx_of(const job::Site& site, const std::vector<Stake>& stakes, const std::string& name);
Result<std::string> geojson_of(const job::Site& site, const std::vector<Stake>& stakes);
Result<std::string> kml_of(const job::Site& site, const std::vector<Stake>& stakes, const std::string& name);

// DXF, release 12 (ASCII): LINEs on layer LEGS, POINTs on layer POSTS, TEXT on layer NAMES; metres on the job's plane.
std::string dxf_of(const job::Site& site, const std::vector<Stake>& stakes);

// A row for each post on each leg: name, kind, line (its leg), station, tape, string_to_centre, east, north, height in decimal feet or metres as the job
// shows lengths, the unit in the header; latitude_deg and longitude_deg where the job has a place on the earth. `read_walk` reads it as survey points.
std::string stakes_csv(const job::Job& job, const setout::Layout& layout, const stakeout::StakeOut& stakes);

}  // namespace railwright::formats
