// SPDX-License-Identifier: MIT
#include "formats/stakes.h"

#include <gtest/gtest.h>

#include <sstream>

#include "tests/formats/samples.h"

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
  for (const auto& text : {gpx_of(walk->site, stakes, "Invented & <lane>"), geojson_of(walk->site, stakes)}) {
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

}  // namespace
}  // namespace railwright::formats
