// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "formats/level_notes.h"
#include "formats/survey_report.h"
#include "tests/formats/samples.h"

namespace railwright::formats {
namespace {

std::string example(const std::string& name) { return file_bytes(std::string(RAILWRIGHT_SOURCE_DIR) + "/examples/walks/" + name); }

// Each invented file of examples/walks starts a sound job; legs and gates as its README says.
TEST(Examples, EveryWalkStartsASoundJob) {
  const struct {
    const char* name;
    std::size_t points, legs, gates;
  } rows[] = {{"tape-legs.csv", 4, 4, 1}, {"traverse.csv", 5, 5, 0}, {"points.csv", 4, 4, 1}, {"stations.csv", 2, 1, 0},   {"degrees.csv", 4, 3, 0},
              {"waypoints.gpx", 3, 2, 1}, {"pens.geojson", 6, 5, 1}, {"creek.kml", 4, 3, 1},  {"phone-track.gpx", 5, 5, 1}};
  for (const auto& row : rows) {
    const auto walk = read_walk(example(row.name));
    ASSERT_TRUE(walk) << row.name << " " << walk.error().code << " " << walk.error().place;
    EXPECT_EQ(walk->site.points.size(), row.points) << row.name;
    EXPECT_EQ(walk->site.legs.size(), row.legs) << row.name;
    EXPECT_EQ(walk->site.gates.size(), row.gates) << row.name;
    const auto started = start_job({}, shipped(), &*walk);
    ASSERT_TRUE(started) << row.name;
    for (const Finding& fault : job::validate(started->job, shipped())) EXPECT_NE(fault.severity, Severity::stop) << row.name << " " << fault.code;
  }
}

// The walk behind the phone's track is known: its corners come back within three times the error stated for each.
TEST(Examples, ThePhoneTrackComesBackWithinItsStatedError) {
  const auto walk = read_walk(example("phone-track.gpx"));
  ASSERT_TRUE(walk);
  const measure::Vec2 truth[] = {{0, 0}, {122, 6}, {118, 84}, {40, 96}, {-6, 58}};
  ASSERT_EQ(walk->site.points.size(), 5u);
  // The origin is the first fix, itself some metres off: lengths of sides are compared, which do not know it.
  for (std::size_t i = 0; i < 5; ++i) {
    const job::Point &a = walk->site.points[i], &b = walk->site.points[(i + 1) % 5];
    ASSERT_TRUE(a.accuracy && b.accuracy);
    const double length = measure::distance(measure::in_metres(a.east, a.north), measure::in_metres(b.east, b.north));
    const double stated = std::sqrt(a.accuracy->metres() * a.accuracy->metres() + b.accuracy->metres() * b.accuracy->metres());
    EXPECT_NEAR(length, measure::distance(truth[i], truth[(i + 1) % 5]), 3 * stated + 0.3) << a.id;
    EXPECT_LT(a.accuracy->metres(), 4);
  }
}

// Taped with errors of hundredths of a foot, levelled from A and back to A: worked by hand, C stands at 108.89 ft before and 108.897 ft after the
// misclosure of -0.01 ft is spread (C is read from the second of three set-ups).
TEST(Examples, TraverseAndLevelsGoTogether) {
  auto walk = read_walk(example("traverse.csv"));
  const auto traverse = survey_report(example("traverse.csv")), levels = survey_report(example("levels.csv"));
  ASSERT_TRUE(walk && traverse && levels);
  EXPECT_TRUE(traverse->traverse->closed);
  EXPECT_GT(traverse->traverse->closure.ratio, 5000);
  EXPECT_TRUE(levels->levels->levels.closed);
  EXPECT_NEAR(levels->levels->levels.misclosure / 0.3048, -0.01, 1e-6);
  add_levels(*levels->levels, walk->site, walk->findings);
  EXPECT_NEAR(walk->site.points[2].height->feet_value(), 108.89 + 0.02 / 3, 0.001);
}

}  // namespace
}  // namespace railwright::formats
