// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "engine/ground/profile.h"
#include "tests/formats/samples.h"

// Files that others made, fetched by tools/fetch_real_data.sh into build/real (sources and licences stand there).
namespace railwright::formats {
namespace {

std::string real(const std::string& name) {
  const std::string bytes = file_bytes(std::string(RAILWRIGHT_SOURCE_DIR) + "/build/real/" + name);
  EXPECT_FALSE(bytes.empty()) << name << " is missing: run tools/fetch_real_data.sh";
  return bytes;
}

TEST(RealData, RecordedTracksBecomeStraightLegs) {
  const struct {
    const char* name;
    std::size_t fewest, most;
    double least_km, most_km;
  } tracks[] = {{"track.gpx", 5, 400, 2, 6.5}, {"ride.gpx", 5, 600, 1, 60}, {"run.gpx", 5, 1000, 1, 40}};
  for (const auto& track : tracks) {
    const auto walk = read_walk(real(track.name));
    ASSERT_TRUE(walk) << track.name << walk.error().code;
    EXPECT_EQ(walk->kind, WalkKind::gpx);
    EXPECT_TRUE(told(walk->findings, "walk.track") || walk->site.points.size() > 100) << track.name;
    EXPECT_GE(walk->site.points.size(), track.fewest) << track.name;
    EXPECT_LE(walk->site.points.size(), track.most) << track.name;
    double length = 0;
    for (std::size_t leg = 0; leg < walk->site.legs.size(); ++leg) length += leg_length(walk->site, leg);
    EXPECT_GT(length, track.least_km * 1000) << track.name;
    EXPECT_LT(length, track.most_km * 1000) << track.name;
    const auto started = start_job({}, shipped(), &*walk);
    ASSERT_TRUE(started);
    for (const Finding& f : job::validate(started->job, shipped())) EXPECT_NE(f.severity, Severity::stop) << f.code << f.where;
  }
}

// Small lines in the samples span hundreds of kilometres: they must be refused for that, everything else for holding no line.
TEST(RealData, GeoJsonSamplesAreReadOrRefusedForTheRightReason) {
  for (const char* name :
       {"geometry-linestring", "geometry-linestring-xyz", "geometry-multilinestring", "geometry-multilinestring-xyz", "geometry-polygon",
        "geometry-polygon-xyz", "geometry-multipolygon", "geometry-multipolygon-xyz", "geometry-geometrycollection", "geometry-geometrycollection-xyz",
        "geometry-multipoint", "geometry-multipoint-xyz", "geometry-point", "geometry-point-xyz", "feature-one", "featurecollection-one"}) {
    const auto walk = read_walk(real(std::string("geojson/") + name + ".geojson"));
    if (walk) continue;
    EXPECT_TRUE(walk.error().code == "walk.too_wide" || walk.error().code == "walk.no_line" || walk.error().code == "geodesy.latitude")
        << name << " " << walk.error().code;
  }
}

TEST(RealData, VolcanoGridIsReadWhole) {
  const auto grid = read_grid(real("volcano.asc"));
  ASSERT_TRUE(grid) << grid.error().code;
  EXPECT_EQ(grid->columns, 87);
  EXPECT_EQ(grid->rows, 61);
  // R documentation of `volcano`: 87 by 61, heights from 94 to 195 m.
  EXPECT_EQ(*std::min_element(grid->heights_m.begin(), grid->heights_m.end()), 94);
  EXPECT_EQ(*std::max_element(grid->heights_m.begin(), grid->heights_m.end()), 195);
  EXPECT_EQ(grid->heights_m[60u * 87u], 103);  // first height of the file: the north-west corner
}

TEST(RealData, FenceOverTheVolcanoHasItsGround) {
  const auto walk = read_walk(file_bytes(std::string(RAILWRIGHT_SOURCE_DIR) + "/tests/real/volcano-walk.csv"));
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  const auto grid = read_grid(real("volcano.asc"));
  ASSERT_TRUE(grid);
  const auto started = start_job({}, shipped(), &*walk, &*grid);
  ASSERT_TRUE(started) << started.error().code;
  const job::Site& site = started->job.site;
  EXPECT_EQ(site.gates.size(), 2u);
  double length = 0;
  for (std::size_t leg = 0; leg < site.legs.size(); ++leg) length += leg_length(site, leg);
  EXPECT_GT(length, 600 * 0.3048);
  Findings findings;
  const auto profiles = ground::profiles(site, findings);
  for (const ground::Profile& profile : profiles) {
    EXPECT_EQ(profile.source, ground::Source::grid);
    EXPECT_GE(profile.points.front().height, 94);
    EXPECT_LE(profile.points.front().height, 195);
  }
  EXPECT_FALSE(told(findings, "ground.outside_grid"));
}

}  // namespace
}  // namespace railwright::formats
