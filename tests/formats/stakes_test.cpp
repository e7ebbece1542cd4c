// SPDX-License-Identifier: MIT
#include "formats/stakes.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <sstream>

#include "engine/ground/geodesy.h"
#include "engine/ground/profile.h"
#include "tests/formats/samples.h"
#include "tests/setout/site_drawing.h"

namespace railwright::formats {
namespace {

using measure::Vec2;

const std::vector<Stake> kStakes{{"A", "corner", {0, 0}, 210}, {"AB1 <&>", "line", {-0.00004, 2.4384}, 210.25}};

// What is written reads back: points within the millimetre that the degrees carry.
TEST(Stakes, GpxAndGeoJsonReadBack) {
  const auto walk = read_walk(kGeoJson);
  ASSERT_TRUE(walk);
  std::vector<Stake> stakes;
  for (const job::Point& p : walk->site.points) stakes.push_back({p.id, "corner", measure::in_metres(p.east, p.north), 0});
  for (const auto& text : {gpx_of(walk->site, stakes, "Invented & <lane>"), geojson_of(walk->site, stakes), kml_of(walk->site, stakes, "Invented & <lane>")}) {
    ASSERT_TRUE(text);
    const auto again = read_walk(*text);
    ASSERT_TRUE(again) << again.error().code << again.error().place << *text;
    ASSERT_EQ(again->site.legs.size(), walk->site.legs.size());
    for (std::size_t leg = 0; leg < walk->site.legs.size(); ++leg) {
      EXPECT_NEAR(leg_length(again->site, leg), leg_length(walk->site, leg), 0.003);
    }
  }
}

TEST(Stakes, WithoutAnOriginThereAreNoDegrees) {
  EXPECT_EQ(gpx_of({}, kStakes, "x").error().code, "export.no_origin");
  EXPECT_EQ(geojson_of({}, kStakes).error().code, "export.no_origin");
  EXPECT_EQ(kml_of({}, kStakes, "x").error().code, "export.no_origin");
}

// DXF: pairs of a group code and a value, one entity for each leg and two for each post.
TEST(Stakes, DxfIsPairsOfCodeAndValue) {
  const auto walk = read_walk(kPlaces);
  ASSERT_TRUE(walk);
  std::istringstream lines(dxf_of(walk->site, kStakes));
  std::string code, value;
  int line = 0, point = 0, text = 0;
  bool ended = false;
  while (std::getline(lines, code) && std::getline(lines, value)) {
    EXPECT_EQ(code.find_first_not_of("0123456789"), std::string::npos);
    if (code != "0") continue;
    line += value == "LINE", point += value == "POINT", text += value == "TEXT";
    ended = value == "EOF";
  }
  EXPECT_EQ(line, 3);
  EXPECT_EQ(point, 2);
  EXPECT_EQ(text, 2);
  EXPECT_TRUE(ended);
  EXPECT_NE(dxf_of(walk->site, kStakes).find("\n0.0000\n20\n2.4384\n"), std::string::npos);  // no minus before a zero
}

// An L of two legs on sloping ground, laid out and staked.
struct Staked {
  job::Job job;
  setout::Layout layout;
  stakeout::StakeOut stakes;
};

Staked staked(bool on_the_earth) {
  Staked s;
  s.job = setout::drawn::site("A----B\n\n\n     C", {"AB", "BC"}, measure::Length::feet(10), measure::Length::feet(10));
  s.job.name = "Invented <yard> & lane";
  s.job.site.points[0].height = measure::Length::feet(700);
  s.job.site.points[1].height = measure::Length::feet(705);
  if (on_the_earth) s.job.site.origin = job::Origin{35.25, -98.5, 200};
  Findings findings;
  s.layout = setout::set_out(s.job, setout::drawn::catalogue(), {{measure::Length::feet(8)}, {}}, ground::profiles(s.job.site, findings), findings);
  s.stakes = stakeout::stake_out(s.job.site, s.layout);
  return s;
}

TEST(StakeFile, FormatFollowsTheNamesEnding) {
  EXPECT_EQ(stake_format("yard.GPX"), StakeFormat::gpx);
  EXPECT_EQ(stake_format("a.b/yard.geojson"), StakeFormat::geojson);
  EXPECT_EQ(stake_format("yard.json"), StakeFormat::geojson);
  EXPECT_EQ(stake_format("yard.kml"), StakeFormat::kml);
  EXPECT_EQ(stake_format("yard.dxf"), StakeFormat::dxf);
  EXPECT_EQ(stake_format("yard.csv"), StakeFormat::csv);
  EXPECT_FALSE(stake_format("yard.shp"));
  EXPECT_FALSE(stake_format("gpx"));
}

// GPX read by an XML reader of others: one waypoint for each post, at the place where the geodesic from the origin says it stands.
TEST(StakeFile, GpxHoldsEveryPost) {
  const Staked s = staked(true);
  const auto text = stake_file(StakeFormat::gpx, s.job, s.layout, s.stakes);
  ASSERT_TRUE(text);
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(text->c_str()));
  const pugi::xml_node gpx = document.child("gpx");
  EXPECT_STREQ(gpx.attribute("version").value(), "1.1");
  EXPECT_STREQ(gpx.child("metadata").child_value("name"), s.job.name.c_str());
  std::size_t i = 0;
  for (const pugi::xml_node wpt : gpx.children("wpt")) {
    ASSERT_LT(i, s.layout.posts.size());
    const setout::Post& post = s.layout.posts[i++];
    EXPECT_EQ(wpt.child_value("name"), post.name);
    EXPECT_NEAR(wpt.child("ele").text().as_double(), post.ground, 0.0006);
    const auto line = ground::geodesic({35.25, -98.5, 0}, {wpt.attribute("lat").as_double(), wpt.attribute("lon").as_double(), 0});
    ASSERT_TRUE(line);
    // The plane stands 200 m above the ellipsoid: lengths on it are longer by 200 / 6.37e6.
    EXPECT_NEAR(line->length * (1 + 200 / 6.37e6), measure::norm(post.at), 0.002);
  }
  EXPECT_EQ(i, s.layout.posts.size());
}

TEST(StakeFile, KmlAndGeoJsonHoldEveryPost) {
  const Staked s = staked(true);
  const auto kml = stake_file(StakeFormat::kml, s.job, s.layout, s.stakes), geojson = stake_file(StakeFormat::geojson, s.job, s.layout, s.stakes);
  ASSERT_TRUE(kml && geojson);
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(kml->c_str()));
  std::vector<std::string> names;
  for (const pugi::xml_node mark : document.child("kml").child("Document").children("Placemark")) {
    if (mark.child("Point")) names.push_back(mark.child_value("name"));
  }
  std::vector<std::string> wanted, read;
  for (const setout::Post& post : s.layout.posts) wanted.push_back(post.name);
  EXPECT_EQ(names, wanted);
  const auto collection = nlohmann::json::parse(*geojson);
  EXPECT_EQ(collection["type"], "FeatureCollection");
  for (const auto& feature : collection["features"]) {
    if (feature["geometry"]["type"] != "Point") continue;
    const std::size_t i = read.size();
    EXPECT_EQ(feature["geometry"]["coordinates"][0].get<double>(), s.stakes.places[i].longitude_deg);
    EXPECT_EQ(feature["geometry"]["coordinates"][1].get<double>(), s.stakes.places[i].latitude_deg);
    read.push_back(feature["properties"]["name"]);
  }
  EXPECT_EQ(read, wanted);
}

// Every post of the table comes back where it was, through our own reader of survey points.
TEST(StakeFile, CsvReadsBackAsSurveyPoints) {
  for (const bool on_the_earth : {false, true}) {
    const Staked s = staked(on_the_earth);
    const auto csv = stake_file(StakeFormat::csv, s.job, s.layout, s.stakes);
    ASSERT_TRUE(csv);
    EXPECT_EQ(csv->find("latitude_deg") != std::string::npos, on_the_earth);
    const auto walk = read_walk(*csv);
    ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
    ASSERT_EQ(walk->site.points.size(), s.layout.posts.size());
    for (std::size_t i = 0; i < s.layout.posts.size(); ++i) {
      EXPECT_EQ(walk->site.points[i].id, s.layout.posts[i].name);
      EXPECT_NEAR(walk->site.points[i].east.metres(), s.layout.posts[i].at.x, 2e-5);
      EXPECT_NEAR(walk->site.points[i].north.metres(), s.layout.posts[i].at.y, 2e-5);
      EXPECT_NEAR(walk->site.points[i].height->metres(), s.layout.posts[i].ground, 2e-5);
    }
  }
}

TEST(StakeFile, DegreesNeedAPlaceOnTheEarth) {
  const Staked s = staked(false);
  for (const StakeFormat format : {StakeFormat::gpx, StakeFormat::geojson, StakeFormat::kml}) {
    EXPECT_EQ(stake_file(format, s.job, s.layout, s.stakes).error().code, "export.no_origin");
  }
  EXPECT_TRUE(stake_file(StakeFormat::dxf, s.job, s.layout, s.stakes));
}

}  // namespace
}  // namespace railwright::formats
