// SPDX-License-Identifier: MIT
#include "engine/ground/traverse.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "engine/ground/bearing.h"
#include "engine/ground/trig.h"
#include "engine/measure/quantity.h"

namespace railwright::ground {
namespace {

using measure::Vec2;

Course course(const char* bearing, double distance) {
  const auto azimuth = parse_azimuth(bearing);
  EXPECT_TRUE(azimuth) << bearing;
  return {azimuth.value_or(0), distance, {}, {}};
}

double second(double degrees, double minutes, double seconds) { return degrees + minutes / 60 + seconds / 3600; }

// J. Mahun, Open Access Surveying, Traverse Computations, chapter E (latitudes, departures, closure) and chapter I (adjusted and inversed).
const std::vector<Course> kMahun{course("S 68°05'35\" W", 472.68), course("N 19°46'00\" W", 216.13), course("N 45°55'20\" E", 276.52),
                                 course("S 54°59'15\" E", 382.24)};

TEST(Traverse, MahunChapterE) {
  const Closure c = closure(kMahun);
  EXPECT_NEAR(c.latitude, 0.083, 0.0005);
  EXPECT_NEAR(c.departure, 0.075, 0.001);  // printed from rounded departures; 0.0744 unrounded
  EXPECT_NEAR(c.perimeter, 1347.57, 1e-9);
  EXPECT_NEAR(c.linear, 0.1112, 0.0001);
  EXPECT_NEAR(c.ratio, 12116, 10);

  const auto walk = traverse(kMahun, {Vec2{2000, 500}, Vec2{2000, 500}, Adjustment::none, {}, 50});
  ASSERT_TRUE(walk);
  const double latitudes[] = {-176.357, 203.395, 192.357, -219.312}, departures[] = {-438.548, -73.093, 198.651, 313.065};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(walk->courses[i].latitude, latitudes[i], 0.00055);
    EXPECT_NEAR(walk->courses[i].departure, departures[i], 0.00055);
  }
  EXPECT_NEAR(walk->points.back().y, 500.083, 0.0005);
  EXPECT_NEAR(walk->points.back().x, 2000.075, 0.001);
}

TEST(Traverse, MahunChapterIAdjustedByTheCompassRule) {
  const auto walk = traverse(kMahun, {Vec2{2000, 500}, Vec2{2000, 500}, Adjustment::compass, {}, 50});
  ASSERT_TRUE(walk);
  const double latitudes[] = {-176.386, 203.382, 192.340, -219.336}, departures[] = {-438.574, -73.105, 198.635, 313.044};
  // CD is printed 276.479 with two digits swapped: 276.497 belongs to its own latitude and departure.
  const double distances[] = {472.715, 216.122, 276.497, 382.237};
  const double azimuths[] = {180 + second(68, 5, 27.4), 360 - second(19, 46, 14.9), second(45, 55, 20.7), 180 - second(54, 58, 58.0)};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(walk->courses[i].latitude, latitudes[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].departure, departures[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].distance, distances[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].azimuth_deg, azimuths[i], 0.6 / 3600);
  }
  EXPECT_EQ(walk->points.back(), (Vec2{2000, 500}));
  EXPECT_GT(std::abs(walk->courses[2].distance - 276.479), 0.015);  // the misprint is not reproduced
  EXPECT_NEAR(area({walk->points.begin(), walk->points.end() - 1}), 102935.7, 0.5);
}

// J. Mahun, Open Access Surveying, self-study Traverse Adjustment, problem 2.
TEST(Traverse, MahunSelfStudyProblemTwo) {
  const std::vector<Course> courses{course("226°54'23\"", 639.15), course("0°00'00\"", 523.69), course("235°02'29\"", 409.54), course("79°35'02\"", 815.93)};
  const auto walk = traverse(courses, {Vec2{}, Vec2{}, Adjustment::compass, {}, 50});
  ASSERT_TRUE(walk);
  EXPECT_NEAR(walk->closure.perimeter, 2388.31, 1e-9);
  EXPECT_NEAR(walk->closure.latitude, -0.115, 0.001);
  EXPECT_NEAR(walk->closure.departure, 0.107, 0.001);
  EXPECT_NEAR(walk->closure.linear, 0.157, 0.001);
  EXPECT_NEAR(walk->closure.ratio, 15200, 75);
  const double latitudes[] = {-436.631, 523.715, -234.640, 147.556}, departures[] = {-466.761, -0.023, -335.663, 802.447};
  const double distances[] = {639.150, 523.715, 409.544, 815.901};
  const double azimuths[] = {second(226, 54, 36.6), second(359, 59, 50.8), second(235, 2, 42.5), second(79, 34, 50.5)};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(walk->courses[i].latitude, latitudes[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].departure, departures[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].distance, distances[i], 0.0011);
    EXPECT_NEAR(walk->courses[i].azimuth_deg, azimuths[i], 0.6 / 3600);
  }
}

// Six-course traverse with areas by double meridian distance (worked problem, document 279716815 on Scribd).
TEST(Traverse, PoorlyClosingTraverseWithDoubleMeridianDistances) {
  const std::vector<Course> courses{course("N5°30'E", 495.85),   course("N46°02'E", 850.62),  course("S67°38'E", 855.45),
                                    course("S12°25'E", 1020.87), course("S83°44'W", 1117.26), course("N55°09'W", 660.08)};
  const auto walk = traverse(courses, {Vec2{}, Vec2{}, Adjustment::compass, {}, 50});
  ASSERT_TRUE(walk);
  EXPECT_NEAR(walk->closure.latitude, 16.8171, 0.0005);
  EXPECT_NEAR(walk->closure.departure, 18.0737, 0.0005);
  EXPECT_NEAR(walk->closure.linear, 24.6876, 0.0005);
  EXPECT_NEAR(walk->closure.ratio, 202.5, 0.1);
  const double latitudes[] = {491.8995, 587.6733, -328.4036, -1000.4252, -125.7134, 374.9694};
  const double departures[] = {45.7328, 609.1538, 788.0003, 215.8168, -1114.6225, -544.0812};
  const double meridians[] = {45.7328, 700.6194, 2097.7734, 3101.5905, 2202.7848, 544.0812};
  const double areas[] = {22495.937, 411735.296, -688916.432, -3102909.139, -276919.553, 204013.791};
  const auto rows = double_meridian_distances(walk->courses);
  double twice = 0;
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_NEAR(walk->courses[i].latitude, latitudes[i], 0.0002);
    EXPECT_NEAR(walk->courses[i].departure, departures[i], 0.0002);
    EXPECT_NEAR(rows[i].distance, meridians[i], 0.0004);
    EXPECT_NEAR(rows[i].double_area, areas[i], 0.4);
    twice += rows[i].double_area;
  }
  EXPECT_NEAR(twice, -3430500.10, 1);
  EXPECT_NEAR(area(walk->points), 1715250.05, 0.5);
  // Closing 1/200 is refused where 1/300 is asked for.
  const auto strict = traverse(courses, {Vec2{}, Vec2{}, Adjustment::compass, {}, 300});
  ASSERT_FALSE(strict);
  EXPECT_EQ(strict.error().code, "traverse.does_not_close");
}

// Small metric traverse (worked problem, document 493615208 on Scribd). Its sum of latitudes is printed 0.285; the parts it is made
// of were rounded first, and unrounded they make 0.2836, so the printed figure must not reproduce.
TEST(Traverse, SmallMetricTraverse) {
  const std::vector<Course> courses{course("N76°E", 80.40), course("S36°E", 46.30), course("S61°W", 72.80), course("N38°W", 68.00)};
  const auto walk = traverse(courses, {Vec2{}, Vec2{}, Adjustment::compass, {}, 50});
  ASSERT_TRUE(walk);
  EXPECT_NEAR(walk->closure.latitude, 0.2836, 0.00005);
  EXPECT_GT(std::abs(walk->closure.latitude - 0.285), 0.001);
  EXPECT_NEAR(walk->closure.departure, -0.311, 0.002);
  EXPECT_NEAR(walk->closure.linear, 0.4210, 0.0015);
  EXPECT_NEAR(walk->closure.ratio, 635, 2);
  const double latitudes[] = {19.3653, -37.5063, -35.3716, 53.5126};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(walk->courses[i].latitude, latitudes[i], 0.002);
  EXPECT_NEAR(area(walk->points), 4169.14, 0.2);
}

// Four-sided lot by double meridian distances (MSTE review set 32): 12 466.17 from rounded parts; the coordinates make 12 465.9.
TEST(Traverse, ReviewSetLotArea) {
  const std::vector<Course> courses{course("N30°E", 120.2), course("N78°E", 90.2), course("S32°E", 88.4), course("S76.215°W", 200.96)};
  const auto walk = traverse(courses, {Vec2{}, Vec2{}, Adjustment::none, {}, 50});
  ASSERT_TRUE(walk);
  EXPECT_NEAR(area(walk->points), 12466.17, 0.5);
}

// Statement of closure: 0.0784 and 0.0815 in a perimeter of 3739 make 0.1131, 1 in 33 000 (Land Surveyors United, procedure for the linear
// error of closure).
TEST(Traverse, StatementOfClosure) {
  const Closure c = closure({{0, 926.1908, {}, {}}, {180, 926.1124, {}, {}}, {90, 1271.5510, {}, {}}, {270, 1271.6325, {}, {}}});
  EXPECT_NEAR(c.linear, 0.1131, 0.00005);
  EXPECT_NEAR(3739 / c.linear, 33000, 100);
}

// A homework sheet prints +40.86 for the departure of a course with azimuth 196°59': that azimuth points south-west, so it is -40.86.
TEST(Traverse, SouthWestAzimuthHasANegativeDeparture) {
  const auto azimuth = parse_azimuth("196°59'");
  ASSERT_TRUE(azimuth);
  EXPECT_LT(sine_cosine(*azimuth).sine, 0);
  EXPECT_LT(sine_cosine(*azimuth).cosine, 0);
}

// Property of the header: errors equal along and across and growing with the root of the length give the compass rule.
TEST(Traverse, LeastSquaresBecomesTheCompassRule) {
  // For one course length the across error is azimuth x distance; equal courses make the two rules comparable exactly.
  std::vector<Course> equal = kMahun;
  for (Course& c : equal) c.distance = 300;
  TraverseOptions options{Vec2{}, Vec2{}, Adjustment::compass, {}, 1};
  const auto a = traverse(equal, options);
  options.adjustment = Adjustment::least_squares;
  options.error = {0.05, 0, 0.05 / 300 * 180 / measure::kPi};
  const auto b = traverse(equal, options);
  ASSERT_TRUE(a && b);
  for (std::size_t i = 0; i < equal.size(); ++i) {
    EXPECT_NEAR(a->courses[i].latitude, b->courses[i].latitude, 1e-9);
    EXPECT_NEAR(a->courses[i].departure, b->courses[i].departure, 1e-9);
  }
}

// The least-squares corrections have the least weighted sum of squares of all that close the walk: random closing changes never lower it.
TEST(Traverse, LeastSquaresIsLeast) {
  TraverseOptions options{Vec2{}, Vec2{}, Adjustment::least_squares, {0.02, 50, 0.01}, 50};
  const auto best = traverse(kMahun, options);
  options.adjustment = Adjustment::none;
  const auto raw = traverse(kMahun, options);
  ASSERT_TRUE(best && raw);
  const auto cost = [&](const std::vector<Vec2>& steps) {
    double sum = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const Vec2 observed{raw->courses[i].departure, raw->courses[i].latitude};
      const Vec2 v = steps[i] - observed, u = measure::direction(observed);
      const double along = dot(v, u) / (0.02 + 50e-6 * kMahun[i].distance);
      const double across = cross(u, v) / (0.01 * measure::kPi / 180 * kMahun[i].distance);
      sum += along * along + across * across;
    }
    return sum;
  };
  std::vector<Vec2> steps;
  Vec2 total;
  for (const AdjustedCourse& c : best->courses) steps.push_back({c.departure, c.latitude}), total = total + steps.back();
  EXPECT_NEAR(measure::norm(total), 0, 1e-9);
  const double least = cost(steps);
  std::mt19937 random(11);
  const auto number = [&] { return (static_cast<double>(random() % 2001) - 1000) * 1e-5; };
  for (int i = 0; i < 500; ++i) {
    std::vector<Vec2> other = steps;
    const Vec2 d{number(), number()};
    other[i % 4] = other[i % 4] + d;
    other[(i + 1 + i / 4 % 3) % 4] = other[(i + 1 + i / 4 % 3) % 4] - d;
    EXPECT_GE(cost(other), least - 1e-9);
  }
}

TEST(Traverse, BlundersAreNamed) {
  std::vector<Course> courses = kMahun;
  courses[2].distance += 100;  // a tape length dropped
  const auto walk = traverse(courses, {Vec2{}, Vec2{}, Adjustment::compass, {}, 50});
  ASSERT_FALSE(walk);
  EXPECT_EQ(walk.error().code, "traverse.does_not_close");
  EXPECT_EQ(walk.error().place, "3");
  EXPECT_EQ(traverse({}, {}).error().code, "traverse.empty");
  EXPECT_EQ(traverse({{0, 0, {}, {}}}, {}).error().code, "traverse.distance");
  EXPECT_EQ(traverse({{0, std::numeric_limits<double>::quiet_NaN(), {}, {}}}, {}).error().code, "traverse.distance");
  EXPECT_EQ(traverse({{std::numeric_limits<double>::infinity(), 1, {}, {}}}, {}).error().code, "traverse.azimuth");
}

TEST(Traverse, DeflectionsTurnFromTheLineWalked) { EXPECT_EQ(azimuths_from_deflections(350, {90, -45, -90}), (std::vector<double>{350, 80, 35, 305})); }

TEST(Bearing, ReadsWhatSurveyorsWrite) {
  const struct {
    const char* text;
    double azimuth;
  } rows[] = {{"N45E", 45},
              {"S 30 15 W", 210.25},
              {"n 0d30m0s e", 0.5},
              {"N 12-30-00 W", 347.5},
              {"due south", 180},
              {"West", 270},
              {"226°54'36\"", second(226, 54, 36)},
              {"359.5", 359.5},
              {"360", 0},
              {"S 90° E", 90},
              {"South 45 deg East", 135},
              {"N 68\xE2\x80\xB2 E", 68}};
  for (const auto& row : rows) {
    const auto azimuth = parse_azimuth(row.text);
    ASSERT_TRUE(azimuth) << row.text;
    EXPECT_NEAR(*azimuth, row.azimuth, 1e-9) << row.text;
  }
  EXPECT_NEAR(parse_deflection("R 45°30'").value_or(0), 45.5, 1e-12);
  EXPECT_NEAR(parse_deflection("12.25 L").value_or(0), -12.25, 1e-12);
  EXPECT_NEAR(parse_deflection("-90").value_or(0), -90, 1e-12);
}

TEST(Bearing, RefusesWhatIsNone) {
  EXPECT_EQ(parse_azimuth("").error().code, "bearing.empty");
  EXPECT_EQ(parse_azimuth("hello").error().code, "bearing.not_a_bearing");
  EXPECT_EQ(parse_azimuth("N 91 E").error().code, "bearing.out_of_range");
  EXPECT_EQ(parse_azimuth("N 45 75 E").error().code, "bearing.out_of_range");
  EXPECT_EQ(parse_azimuth("361").error().code, "bearing.out_of_range");
  EXPECT_EQ(parse_azimuth("E 45 N").error().code, "bearing.not_a_bearing");
  EXPECT_EQ(parse_deflection("N 4 E").error().code, "bearing.not_a_bearing");
  EXPECT_EQ(parse_deflection("R 181").error().code, "bearing.out_of_range");
}

}  // namespace
}  // namespace railwright::ground
