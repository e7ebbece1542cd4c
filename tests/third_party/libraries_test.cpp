// SPDX-License-Identifier: MIT
// The libraries we build ourselves answer rightly, and with the same bits, in both builds.
#include <gtest/gtest.h>

#include <GeographicLib/Geodesic.hpp>
#include <cerrno>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <pugixml.hpp>
#include <string>

namespace {

std::uint64_t bits(double value) {
  std::uint64_t out = 0;
  std::memcpy(&out, &value, sizeof out);
  return out;
}

// GeographicLib's documentation of `Geodesic`: JFK to LHR on WGS84 is 5551.759 km along the geodesic.
TEST(Geographic, GeodesicFromDocumentation) {
  double distance = 0;
  GeographicLib::Geodesic::WGS84().Inverse(40.6, -73.8, 51.6, -0.5, distance);
  EXPECT_NEAR(distance / 1000, 5551.759, 0.0005);
}

TEST(Pugixml, ReadsAttributesAndRefusesBrokenText) {
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string("<gpx><trkpt lat='51.5' lon='-0.25'/></gpx>"));
  EXPECT_EQ(document.child("gpx").child("trkpt").attribute("lon").as_double(), -0.25);
  EXPECT_FALSE(document.load_string("<gpx><trkpt></gpx>"));
}

// Values whose nearest double is given by its bits; IEEE 754-2019 section 5.12 demands correct rounding.
TEST(Strtod, RoundsCorrectlyAndStopsWhereTheNumberEnds) {
  EXPECT_EQ(bits(std::strtod("0.1", nullptr)), 0x3fb999999999999aULL);
  EXPECT_EQ(bits(std::strtod("9007199254740993", nullptr)), bits(9007199254740992.0));
  EXPECT_EQ(bits(std::strtod("1e23", nullptr)), bits(1e23));
  const std::string text = "  +12.5e-1mm";
  char* end = nullptr;
  EXPECT_EQ(std::strtod(text.c_str(), &end), 1.25);
  EXPECT_STREQ(end, "mm");
}

TEST(Strtod, KeepsTheOddFormsOfTheLibrary) {
  EXPECT_EQ(std::strtod("0x10", nullptr), 16.0);
  EXPECT_TRUE(std::isinf(std::strtod("inf", nullptr)));
  EXPECT_TRUE(std::isnan(std::strtod("nan", nullptr)));
  EXPECT_TRUE(std::signbit(std::strtod("-0", nullptr)));
  errno = 0;
  EXPECT_TRUE(std::isinf(std::strtod("1e400", nullptr)));
  EXPECT_EQ(errno, ERANGE);
  const std::string word = "none";
  char* end = nullptr;
  EXPECT_EQ(std::strtod(word.c_str(), &end), 0.0);
  EXPECT_EQ(end, word.c_str());
}

}  // namespace
