// SPDX-License-Identifier: MIT
#include "engine/ground/geodesy.h"

#include <GeographicLib/Geocentric.hpp>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/LocalCartesian.hpp>
#include <GeographicLib/UTMUPS.hpp>
#include <cmath>
#include <exception>

#include "engine/ground/trig.h"

namespace railwright::ground {
namespace {

namespace geo = GeographicLib;

constexpr double kEquatorRadius = 6378137.0;  // WGS 84 (NIMA TR8350.2)
constexpr double kFlattening = 1 / 298.257223563;

GeoPlace place_of(const job::Origin& origin) { return {origin.latitude_deg, origin.longitude_deg, origin.height_m}; }

geo::LocalCartesian tangent_plane(const job::Origin& origin) { return {origin.latitude_deg, origin.longitude_deg, origin.height_m, geo::Geocentric::WGS84()}; }

// sqrt(M N) with M and N the radii of curvature along the meridian and across it.
double mean_radius(double latitude_deg) {
  const double e2 = kFlattening * (2 - kFlattening);
  const double sine = sine_cosine(latitude_deg).sine;
  return kEquatorRadius * std::sqrt(1 - e2) / (1 - e2 * sine * sine);
}

// GeographicLib throws on places outside a projection; no exception leaves this file.
template <class T, class F>
Result<T> guarded(F&& compute) {
  try {
    return compute();
  } catch (const std::exception&) {
    return fail("geodesy.utm");
  }
}

}  // namespace

Result<GeoPlace> checked(GeoPlace place) {
  if (!std::isfinite(place.latitude_deg) || !std::isfinite(place.longitude_deg) || !std::isfinite(place.height_m)) {
    return fail("geodesy.not_finite");
  }
  if (std::abs(place.latitude_deg) > 90) {
    return fail("geodesy.latitude", {}, {{"latitude", place.latitude_deg}, {"longitude", place.longitude_deg}});
  }
  if (std::abs(place.longitude_deg) > 540) return fail("geodesy.longitude", {}, {{"longitude", place.longitude_deg}});
  return place;
}

Result<Topocentric> topocentric(const job::Origin& origin, const GeoPlace& place) {
  for (const GeoPlace& p : {place_of(origin), place}) {
    if (const auto good = checked(p); !good) return tl::unexpected(good.error());
  }
  Topocentric t;
  tangent_plane(origin).Forward(place.latitude_deg, place.longitude_deg, place.height_m, t.east, t.north, t.up);
  return t;
}

Result<GeoPlace> from_topocentric(const job::Origin& origin, const Topocentric& t) {
  if (const auto good = checked(place_of(origin)); !good) return tl::unexpected(good.error());
  GeoPlace place;
  tangent_plane(origin).Reverse(t.east, t.north, t.up, place.latitude_deg, place.longitude_deg, place.height_m);
  return checked(place);
}

LevelPlane::LevelPlane(const job::Origin& origin) : origin_(origin), scale_(1 + origin.height_m / mean_radius(origin.latitude_deg)) {}

Result<LevelPlane> LevelPlane::about(const job::Origin& origin) {
  if (const auto good = checked(place_of(origin)); !good) return tl::unexpected(good.error());
  return LevelPlane(origin);
}

Result<measure::Vec2> LevelPlane::to_plane(double latitude_deg, double longitude_deg) const {
  if (const auto good = checked({latitude_deg, longitude_deg, 0}); !good) return tl::unexpected(good.error());
  double length = 0, azimuth = 0, end_azimuth = 0;
  geo::Geodesic::WGS84().Inverse(origin_.latitude_deg, origin_.longitude_deg, latitude_deg, longitude_deg, length, azimuth, end_azimuth);
  const SineCosine toward = sine_cosine(azimuth);
  return measure::Vec2{toward.sine, toward.cosine} * (length * scale_);
}

GeoPlace LevelPlane::to_earth(measure::Vec2 place) const {
  GeoPlace earth;
  earth.height_m = origin_.height_m;
  geo::Geodesic::WGS84().Direct(origin_.latitude_deg, origin_.longitude_deg, azimuth_deg(place.x, place.y), measure::norm(place) / scale_, earth.latitude_deg,
                                earth.longitude_deg);
  return earth;
}

Result<Geodesic> geodesic(const GeoPlace& from, const GeoPlace& to) {
  for (const GeoPlace& p : {from, to}) {
    if (const auto good = checked(p); !good) return tl::unexpected(good.error());
  }
  Geodesic line;
  geo::Geodesic::WGS84().Inverse(from.latitude_deg, from.longitude_deg, to.latitude_deg, to.longitude_deg, line.length, line.azimuth_deg, line.end_azimuth_deg);
  return line;
}

Result<Utm> utm(const GeoPlace& place, int zone) {
  if (const auto good = checked(place); !good) return tl::unexpected(good.error());
  return guarded<Utm>([&]() -> Result<Utm> {
    Utm grid;
    geo::UTMUPS::Forward(place.latitude_deg, place.longitude_deg, grid.zone, grid.north, grid.easting, grid.northing, grid.convergence_deg, grid.scale,
                         zone == 0 ? geo::UTMUPS::UTM : zone);
    if (grid.zone < 1 || grid.zone > 60) return fail("geodesy.utm");
    return grid;
  });
}

Result<GeoPlace> from_utm(const Utm& grid) {
  return guarded<GeoPlace>([&]() -> Result<GeoPlace> {
    GeoPlace place;
    geo::UTMUPS::Reverse(grid.zone, grid.north, grid.easting, grid.northing, place.latitude_deg, place.longitude_deg);
    return checked(place);
  });
}

}  // namespace railwright::ground
