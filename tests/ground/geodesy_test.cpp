// SPDX-License-Identifier: MIT
#include "engine/ground/geodesy.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/ground/trig.h"

namespace railwright::ground {
namespace {

double dms(double degrees, double minutes, double seconds) {
  const double size = std::abs(degrees) + minutes / 60 + seconds / 3600;
  return degrees < 0 ? -size : size;
}

const GeoPlace kFlindersPeak{dms(-37, 57, 3.72030), dms(144, 25, 29.52440), 0};
const GeoPlace kBuninyong{dms(-37, 39, 10.15610), dms(143, 55, 35.38390), 0};

// The first rows of the geodesic test set in C. Karney's GeographicLib Python package (test_geodesic.py).
TEST(Geodesy, InverseOfKarneysTestSet) {
  const struct {
    double lat1, lon1, azi1, lat2, lon2, azi2, length;
  } rows[] = {{35.60777, -139.44815, 111.098748429560326, -11.17491, -69.95921, 129.289270889708762, 8935244.5604818305},
              {55.52454, 106.05087, 22.020059880982801, 77.03196, 197.18234, 109.112041110671519, 4105086.1713924406},
              {-19.79938, -174.47484, 71.167275780171533, -11.99349, -154.35109, 65.589099775199228, 2319004.8601169389}};
  for (const auto& row : rows) {
    const auto line = geodesic({row.lat1, row.lon1, 0}, {row.lat2, row.lon2, 0});
    ASSERT_TRUE(line);
    EXPECT_NEAR(line->length, row.length, 1e-8);
    EXPECT_NEAR(line->azimuth_deg, row.azi1, 1e-12);
    EXPECT_NEAR(line->end_azimuth_deg, row.azi2, 1e-12);
  }
}

// A case of the same test set at the scale of a fence: 0.264 m.
TEST(Geodesy, InverseOverAFencePostsDistance) {
  const auto line = geodesic({37.757540000000006, -122.47018, 0}, {37.75754, -122.470177, 0});
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->length, 0.264, 0.0005);
  EXPECT_NEAR(line->azimuth_deg, 89.99999923, 1e-7);
}

// Geocentric Datum of Australia Technical Manual (ICSM), worked line Flinders Peak - Buninyong.
TEST(Geodesy, FlindersPeakToBuninyong) {
  const auto line = geodesic(kFlindersPeak, kBuninyong);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->length, 54972.271, 0.0005);
  EXPECT_NEAR(turn_deg(line->azimuth_deg), dms(306, 52, 5.37), 0.005 / 3600);
  EXPECT_NEAR(turn_deg(line->end_azimuth_deg + 180), dms(127, 10, 25.07), 0.005 / 3600);
}

// The same manual's grid coordinates, convergence and point scale (MGA94).
TEST(Geodesy, UtmOfFlindersPeakAndBuninyong) {
  const auto peak = utm(kFlindersPeak);
  ASSERT_TRUE(peak);
  EXPECT_EQ(peak->zone, 55);
  EXPECT_FALSE(peak->north);
  EXPECT_NEAR(peak->easting, 273741.297, 0.0006);
  EXPECT_NEAR(peak->northing, 5796489.777, 0.0006);
  EXPECT_NEAR(std::abs(peak->convergence_deg), dms(1, 35, 3.65), 0.005 / 3600);
  EXPECT_NEAR(peak->scale, 1.00023056, 5e-9);
  const auto town = utm(kBuninyong);
  ASSERT_TRUE(town);
  EXPECT_EQ(town->zone, 54);
  EXPECT_NEAR(town->easting, 758173.797, 0.0006);
  EXPECT_NEAR(town->northing, 5828674.340, 0.0006);
  const auto back = from_utm(*town);
  ASSERT_TRUE(back);
  EXPECT_NEAR(back->latitude_deg, kBuninyong.latitude_deg, 1e-12);
  EXPECT_NEAR(back->longitude_deg, kBuninyong.longitude_deg, 1e-12);
}

// A fence measured on the grid would be 20 m wrong in 55 km: the plane must not be the grid.
TEST(Geodesy, GridLengthIsNotGroundLength) {
  const auto a = utm(kFlindersPeak, 55), b = utm(kBuninyong, 55);
  ASSERT_TRUE(a && b);
  const double grid = std::hypot(a->easting - b->easting, a->northing - b->northing);
  EXPECT_NEAR(grid, 54992.279, 0.001);
  const auto plane = LevelPlane::about({kFlindersPeak.latitude_deg, kFlindersPeak.longitude_deg, 0});
  ASSERT_TRUE(plane);
  const auto town = plane->to_plane(kBuninyong.latitude_deg, kBuninyong.longitude_deg);
  ASSERT_TRUE(town);
  EXPECT_NEAR(measure::norm(*town), 54972.271, 0.0005);
}

// IOGP Guidance Note 373-7-2, worked example of EPSG methods 9836 and 9837.
TEST(Geodesy, TopocentricExampleOfIogp) {
  const job::Origin origin{55, 5, 200};
  const GeoPlace place{dms(53, 48, 33.820), dms(2, 7, 46.380), 73};
  const auto local = topocentric(origin, place);
  ASSERT_TRUE(local);
  EXPECT_NEAR(local->east, -189013.869, 0.01);  // the printed place is rounded to 0.001 seconds: 3 cm north, 2 cm east
  EXPECT_NEAR(local->north, -128642.040, 0.02);
  EXPECT_NEAR(local->up, -4220.171, 0.01);
  const auto back = from_topocentric(origin, *local);
  ASSERT_TRUE(back);
  EXPECT_NEAR(back->latitude_deg, place.latitude_deg, 1e-11);
  EXPECT_NEAR(back->height_m, 73, 1e-6);
}

TEST(Geodesy, LevelPlaneReadsWhatALevelTapeReads) {
  // At 1500 m a tape between two places reads longer than the ellipsoid by h/R = 1500 / 6.37e6.
  const auto high = LevelPlane::about({35, -105, 1500});
  const auto low = LevelPlane::about({35, -105, 0});
  ASSERT_TRUE(high && low);
  const auto a = high->to_plane(35.001, -105.002), b = low->to_plane(35.001, -105.002);
  ASSERT_TRUE(a && b);
  EXPECT_NEAR(measure::norm(*a) / measure::norm(*b), 1 + 1500 / 6.3635e6, 1e-6);
  // Property 3, and the topocentric east and north agree at this size.
  const GeoPlace back = high->to_earth(*a);
  EXPECT_NEAR(back.latitude_deg, 35.001, 1e-10);
  EXPECT_NEAR(back.longitude_deg, -105.002, 1e-10);
  const auto local = topocentric(high->origin(), {35.001, -105.002, 1500});
  ASSERT_TRUE(local);
  EXPECT_NEAR(local->east, a->x, 2e-4);
  EXPECT_NEAR(local->north, a->y, 2e-4);
}

// Property 1: a leg between two places 10 km off the origin.
TEST(Geodesy, LevelPlaneKeepsDistancesAwayFromItsOrigin) {
  const auto plane = LevelPlane::about({45, 7, 0});
  ASSERT_TRUE(plane);
  const auto a = plane->to_plane(45.09, 7), b = plane->to_plane(45.09, 7.01);
  const auto line = geodesic({45.09, 7, 0}, {45.09, 7.01, 0});
  ASSERT_TRUE(a && b && line);
  EXPECT_NEAR(measure::distance(*a, *b) / line->length, 1, 5e-7);
}

TEST(Geodesy, PlacesThatCannotBeAreRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(geodesic({91, 0, 0}, {0, 0, 0}).error().code, "geodesy.latitude");
  EXPECT_EQ(geodesic({0, 0, 0}, {0, 1000, 0}).error().code, "geodesy.longitude");
  EXPECT_EQ(utm({nan, 0, 0}).error().code, "geodesy.not_finite");
  EXPECT_EQ(LevelPlane::about({-120, 45, 0}).error().code, "geodesy.latitude");
  EXPECT_EQ(utm({0, 0, 0}, 50).error().code, "geodesy.utm");
  Utm grid;
  grid.zone = 99;
  EXPECT_EQ(from_utm(grid).error().code, "geodesy.utm");
}

TEST(Trig, AgreesWithTheLibraryAndIsExactAtRightAngles) {
  for (int i = -7300; i <= 7300; ++i) {
    const double degrees = i * 0.1 + 0.0123;
    const auto both = sine_cosine(degrees);
    const double radians = std::fmod(degrees, 360.0) * (measure::kPi / 180);
    EXPECT_NEAR(both.sine, std::sin(radians), 1.5e-15);
    EXPECT_NEAR(both.cosine, std::cos(radians), 1.5e-15);
  }
  EXPECT_EQ(sine_cosine(180).sine, 0.0);
  EXPECT_EQ(sine_cosine(270).sine, -1.0);
  EXPECT_EQ(sine_cosine(-90).cosine, 0.0);
  EXPECT_EQ(azimuth_deg(-1, 0), 270);
  EXPECT_EQ(turn_deg(-1e-20), 0);
  EXPECT_EQ(half_turn_deg(190), -170);
}

}  // namespace
}  // namespace railwright::ground
