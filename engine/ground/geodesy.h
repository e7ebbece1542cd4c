// SPDX-License-Identifier: MIT
#pragma once

#include "engine/job/job.h"
#include "engine/measure/geometry.h"
#include "engine/measure/quantity.h"
#include "engine/measure/result.h"

// Places on the earth (WGS 84) and on the job's level plane. The formulas are GeographicLib's (C. Karney, Algorithms for geodesics, Journal
// of Geodesy 87, 2013, doi 10.1007/s00190-012-0578-z; Transverse Mercator with an accuracy of a few nanometers, Journal of Geodesy 85, 2011).
// Angles are degrees, north and east positive; heights are above the ellipsoid; lengths are metres.
//
// Errors of every function here: `geodesy.latitude` (beyond 90 degrees), `geodesy.longitude` (beyond 540), `geodesy.not_finite`;
// value `text`: the figure.
namespace railwright::ground {

struct GeoPlace {
  double latitude_deg = 0, longitude_deg = 0, height_m = 0;
};

Result<GeoPlace> checked(GeoPlace place);

// True topocentric coordinates: east and north along the tangent plane at the origin, up along its normal. A far place sinks below that plane
// (8 cm at 1 km), so this is for sight lines, not for fence. EPSG method 9837 (IOGP Guidance Note 373-7-2).
struct Topocentric {
  double east = 0, north = 0, up = 0;
};
Result<Topocentric> topocentric(const job::Origin& origin, const GeoPlace& place);
Result<GeoPlace> from_topocentric(const job::Origin& origin, const Topocentric& place);

// The job's plane: azimuthal equidistant about the origin on the ellipsoid, scaled up to the origin's height, so that a distance on it is what a
// level tape reads there. Heights are kept apart. Properties:
//  (1) distance and bearing from the origin are exact on the ellipsoid; between two places within r of it the scale errs by at most r2 / (6 R2):
//      4e-7 at 10 km, 4 mm in 10 km;
//  (2) the height scale uses the mean radius sqrt(M N) at the origin: within 1e-6 below 1800 m;
//  (3) forward and backward agree within 0.1 mm.
class LevelPlane {
 public:
  static Result<LevelPlane> about(const job::Origin& origin);
  Result<measure::Vec2> to_plane(double latitude_deg, double longitude_deg) const;
  // Height of the result: the origin's.
  GeoPlace to_earth(measure::Vec2 place) const;
  const job::Origin& origin() const { return origin_; }

 private:
  explicit LevelPlane(const job::Origin& origin);
  job::Origin origin_;
  double scale_ = 1;  // length at the origin's height / length on the ellipsoid
};

// Shortest line on the ellipsoid and its azimuths, clockwise from north, at both ends in the direction of travel.
struct Geodesic {
  double length = 0, azimuth_deg = 0, end_azimuth_deg = 0;
};
Result<Geodesic> geodesic(const GeoPlace& from, const GeoPlace& to);

// Universal Transverse Mercator. A grid length is not a ground length: 20 m in 55 km between Flinders Peak and Buninyong.
struct Utm {
  int zone = 0;
  bool north = true;
  double easting = 0, northing = 0;
  double convergence_deg = 0;  // grid north as seen from true north, clockwise
  double scale = 1;
};
// `zone` 0: the standard zone of the place. Error `geodesy.utm`: the zone does not reach there, or the place is in the polar caps.
Result<Utm> utm(const GeoPlace& place, int zone = 0);
Result<GeoPlace> from_utm(const Utm& grid);

}  // namespace railwright::ground
