// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/job.h"
#include "engine/measure/geometry.h"
#include "engine/measure/result.h"

// Where the posts stand, for instruments and drawing programs of others.
namespace railwright::formats {

struct Stake {
  std::string name, kind;         // "AB3", "line"
  measure::Vec2 at;               // on the job's plane, metres
  double height = 0;
};

// GPX 1.1: a waypoint for each post and a route along each leg. GeoJSON (RFC 7946): a Point and a LineString for each. Degrees to 1e-8 (a millimetre), heights
// to a millimetre. Error `export.no_origin`: the job has no geodetic place.
Result<std::string> gpx_of(const job::Site& site, const std::vector<Stake>& stakes, const std::string& name);
Result<std::string> geojson_of(const job::Site& site, const std::vector<Stake>& stakes);

// DXF of AutoCAD release 12 (ASCII): LINEs on layer LEGS, POINTs on layer POSTS, TEXT on layer NAMES; metres on the job's plane.
std::string dxf_of(const job::Site& site, const std::vector<Stake>& stakes);

}  // namespace railwright::formats
