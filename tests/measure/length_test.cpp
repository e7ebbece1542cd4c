// SPDX-License-Identifier: MIT
#include "engine/measure/length.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>

#include "engine/measure/geometry.h"
#include "engine/measure/quantity.h"

namespace railwright::measure {
namespace {

Length read(std::string_view text, BareNumber bare = BareNumber::refuse) {
  const auto length = parse_length(text, bare);
  EXPECT_TRUE(length.has_value()) << text;
  return length.value_or(Length::from_nm(-1));
}

std::string refusal(std::string_view text, BareNumber bare = BareNumber::refuse) {
  const auto length = parse_length(text, bare);
  return length ? format_length(*length) : length.error().code;
}

// Source: NIST SP 811:2008, appendix B.8, exact factors.
TEST(Length, ExactFactorsOfNistSp811) {
  EXPECT_EQ(read("1 in").nm(), 25'400'000);
  EXPECT_EQ(read("1 ft").nm(), 304'800'000);
  EXPECT_EQ(read("1 yd").nm(), 914'400'000);
  EXPECT_EQ(read("1 mi").nm(), 1'609'344'000'000);
  EXPECT_EQ(read("1/64 in").nm(), 396'875);
  EXPECT_DOUBLE_EQ(pounds(1).si(), 0.45359237);
  EXPECT_NEAR(pounds_force(1).si(), 4.448222, 5e-7);  // lbf, as printed to seven figures
  EXPECT_NEAR(psi(1).si(), 6894.757, 5e-4);           // lbf/in2
  EXPECT_NEAR(psf(1).si(), 47.88026, 5e-6);           // lbf/ft2
  EXPECT_NEAR(cubic_feet(1).si(), 0.02831685, 5e-9);  // ft3
}

TEST(Length, ReadsWhatPeopleWrite) {
  const Length seven_five = Length::inches(89) + Length::sixty_fourths(16);
  for (const char* text :
       {"7 ft 5 1/4 in", "7' 5-1/4\"", "7'5-1/4\"", "7ft5.25in", "89.25 in", "89 1/4 in", "89-1/4\"", "7 FT. 5 1/4 IN.", "7\u20325\u00bc\u2033", "7' - 5 1/4\"",
        "7 feet 5 1/4 inches", "7' 5 1/4", "  7 ft\t5 2/8 in ", "+7'5.25''", "2266.95 mm", "2.26695 m", "226.695 cm", "2 m 266.95 mm", "7 ft 5 1\u20444 in"}) {
    EXPECT_EQ(read(text), seven_five) << text;
  }
  EXPECT_EQ(read("89 1/4", BareNumber::inches), seven_five);
  EXPECT_EQ(read("2266.95", BareNumber::millimetres), seven_five);
  EXPECT_EQ(read("2.26695", BareNumber::metres), seven_five);
  EXPECT_EQ(read("7.4375", BareNumber::feet), seven_five);
  EXPECT_EQ(read("1,320 ft"), Length::feet(1320));
  EXPECT_EQ(read("\u221227\u00bd in"), -Length::sixty_fourths(55 * 32));
  EXPECT_EQ(read(".5 in"), Length::sixty_fourths(32));
  EXPECT_EQ(read("1\u20444 in"), Length::sixty_fourths(16));
  EXPECT_EQ(read("0 mm"), Length());
}

TEST(Length, AmbiguousOrBrokenTextIsRefused) {
  for (const char* text :
       {"seven",  "7 5 1/4 in", "7 in 5 ft", "7 ft 5 ft", "7 1/2 ft 3 in", "1/0 in",      "5 1/ in",  "7 ft.5 in", "1e3 m", "NaN",     "inf in",
        "2,27 m", "12,34 in",   "--3 in",    "7 ft x",    "1/2/3 in",      "\xff\xfe in", "1.2.3 in", "- in",      "in",    "7 m 5 q", "5 1/99999999 in"}) {
    EXPECT_EQ(refusal(text), "length.not_a_length") << text;
  }
  EXPECT_EQ(refusal(""), "length.empty");
  EXPECT_EQ(refusal(" \t"), "length.empty");
  EXPECT_EQ(refusal("89 1/4"), "length.no_unit");
  EXPECT_EQ(refusal("2 m 5"), "length.no_unit");
  EXPECT_EQ(refusal(std::string(1'000'000, '1')), "length.not_a_length");
}

TEST(Length, RangeEndsAtAMillionKilometres) {
  EXPECT_EQ(read("1000000 km").nm(), 1'000'000'000'000'000'000);
  for (const char* text : {"1000001 km", "999999999999999999 mi", "99999999999999999999999999 mm", "1000000000000000001 nm", "621372 mi",
                           "9223372036854775807 ft", "9999999999999999999 in"}) {
    EXPECT_EQ(refusal(text), "length.out_of_range") << text;
  }
  EXPECT_EQ(parse_length("12 parsec").error().values.front().first, "text");
}

TEST(Length, RoundsToTheNearestNanometreHalvesAwayFromZero) {
  EXPECT_EQ(read("1/128 in").nm(), 198'438);  // 198 437.5
  EXPECT_EQ(read("-1/128 in").nm(), -198'438);
  EXPECT_EQ(read("1/3 in").nm(), 8'466'667);
  EXPECT_EQ(read("0.0000004 mm").nm(), 0);
  EXPECT_EQ(Length::from_metres(2.27).nm(), 2'270'000'000);
  EXPECT_EQ(Length::from_inches(-89.25), -(Length::inches(89) + Length::sixty_fourths(16)));
}

TEST(Length, FromDoubleSaturates) {
  const double inf = std::numeric_limits<double>::infinity();
  for (const double x : {inf, 1e308, 4.7e9, std::numeric_limits<double>::quiet_NaN()}) {
    EXPECT_EQ(Length::from_metres(x).nm(), Length::kLargestNm) << x;
  }
  EXPECT_EQ(Length::from_metres(-inf).nm(), -Length::kLargestNm);
}

TEST(Length, RoundsToAStepInTheNamedDirection) {
  const Length sixteenth = Length::sixty_fourths(4);
  std::mt19937_64 random(20250101);
  for (int i = 0; i < 20'000; ++i) {
    const auto nm = static_cast<std::int64_t>(random() % 2'000'000'000'000) - 1'000'000'000'000;
    const Length x = Length::from_nm(nm);
    const Length down = x.round_down_to(sixteenth), up = x.round_up_to(sixteenth);
    EXPECT_LE(down, x);
    EXPECT_LT(x, down + sixteenth);
    EXPECT_GE(up, x);
    EXPECT_LT(up - sixteenth, x);
    EXPECT_EQ(down.nm() % sixteenth.nm(), 0);
    EXPECT_LE(2 * abs(x.round_to(sixteenth) - x).nm(), sixteenth.nm());
  }
  EXPECT_EQ(Length::sixty_fourths(-2).round_to(sixteenth), Length());  // halves up
  EXPECT_EQ(Length::sixty_fourths(2).round_to(sixteenth), Length::sixty_fourths(4));
}

TEST(Length, ShownOnTheTape) {
  const Length x = Length::inches(89) + Length::sixty_fourths(16);
  EXPECT_EQ(format_length(x), "7 ft 5 1/4 in");
  EXPECT_EQ(format_length(-x), "-7 ft 5 1/4 in");
  EXPECT_EQ(format_length(Length::feet(8)), "8 ft 0 in");
  EXPECT_EQ(format_length(Length::sixty_fourths(24)), "3/8 in");
  EXPECT_EQ(format_length(Length()), "0 in");
  EXPECT_EQ(format_length(Length::feet(1) - Length::from_nm(1)), "1 ft 0 in");
  EXPECT_EQ(format_length(-Length::from_nm(1)), "0 in");
  LengthFormat f;
  f.primes = true;
  EXPECT_EQ(format_length(x, f), "7' 5-1/4\"");
  EXPECT_EQ(format_length(Length::feet(8), f), "8' 0\"");
  EXPECT_EQ(format_length(Length::feet(7) + Length::sixty_fourths(56), f), "7' 0-7/8\"");  // not 7' 7/8", misread as 7-7/8
  EXPECT_EQ(format_length(Length::sixty_fourths(56), f), "7/8\"");
  f = {};
  f.style = LengthStyle::inches;
  EXPECT_EQ(format_length(x, f), "89 1/4 in");
  f.with_unit = false;
  EXPECT_EQ(format_length(x, f), "89 1/4");
  f = {};
  f.style = LengthStyle::millimetres;
  EXPECT_EQ(format_length(x, f), "2267 mm");
  f.style = LengthStyle::metres;
  EXPECT_EQ(format_length(x, f), "2.267 m");
  f.decimals = 0;
  EXPECT_EQ(format_length(x, f), "2 m");
}

// The diagonal of a 60 ft x 100 ft rectangle is sqrt(13 600) = 116.619 ft: 116 ft 7 7/16 in on the tape, and not 116 ft 6 in, which comes of
// reading tenths of feet as inches. Source: arithmetic from the exact foot.
TEST(Length, DecimalFeetAgainstFeetAndInches) {
  EXPECT_EQ(format_length(read("116.619 ft")), "116 ft 7 7/16 in");
  EXPECT_EQ(exact_text(read("116.619 ft")), "116.619 ft");
  EXPECT_EQ(read("116.619 ft").nm(), 35'545'471'200);
  const Length diagonal = level_distance(Length(), Length(), Length::feet(60), Length::feet(100));
  EXPECT_EQ(format_length(diagonal), "116 ft 7 7/16 in");
}

TEST(Length, ExactTextIsShort) {
  EXPECT_EQ(exact_text(Length::inches(89) + Length::sixty_fourths(16)), "89 1/4 in");
  EXPECT_EQ(exact_text(Length::feet(600)), "600 ft");
  EXPECT_EQ(exact_text(Length::mm(100)), "100 mm");
  EXPECT_EQ(exact_text(Length::mm(2270)), "2.27 m");
  EXPECT_EQ(exact_text(Length::from_nm(1)), "0.000001 mm");
  EXPECT_EQ(exact_text(Length()), "0 in");
  EXPECT_EQ(exact_text(-Length::sixty_fourths(1)), "-1/64 in");
}

TEST(Length, ExactTextReadsBackToTheSameNanometre) {
  std::mt19937_64 random(7);
  for (int i = 0; i < 50'000; ++i) {
    const int bits = static_cast<int>(random() % 59) + 1;
    auto nm = static_cast<std::int64_t>(random() & ((std::uint64_t{1} << bits) - 1));
    if (i % 3 == 0) nm -= nm % 396'875;
    if (i % 7 == 0) nm -= nm % 304'800;
    const Length x = Length::from_nm(i % 2 == 0 ? nm : -nm);
    ASSERT_EQ(read(exact_text(x)), x) << exact_text(x);
  }
}

TEST(Length, ShownTextReadsBackWithinHalfAStep) {
  std::mt19937_64 random(8);
  for (int i = 0; i < 20'000; ++i) {
    const auto nm = static_cast<std::int64_t>(random() % 4'000'000'000'000) - 2'000'000'000'000;
    LengthFormat f;
    f.style = static_cast<LengthStyle>(i % 4);
    f.fraction = 1 << (random() % 7);
    f.decimals = static_cast<int>(random() % 10);
    f.primes = i % 8 < 4;
    std::int64_t step = 25'400'000 / f.fraction;
    if (f.style == LengthStyle::millimetres) step = 1'000'000;
    if (f.style == LengthStyle::metres) {
      step = 1'000'000'000;
      for (int d = 0; d < f.decimals; ++d) step /= 10;
    }
    const Length x = Length::from_nm(nm);
    ASSERT_LE(2 * abs(read(format_length(x, f)) - x).nm(), step) << format_length(x, f);
  }
}

TEST(Length, RandomBytesNeverCrashTheReader) {
  std::mt19937_64 random(9);
  const std::string_view alphabet = "0123456789/.-'\" ftinm,+\xc2\xbd";
  for (int i = 0; i < 50'000; ++i) {
    std::string text;
    for (std::uint64_t n = random() % 14; n > 0; --n) text += alphabet[random() % alphabet.size()];
    const auto length = parse_length(text, BareNumber::inches);
    const std::string code = length ? "length." : length.error().code;
    ASSERT_EQ(code.rfind("length.", 0), 0u) << text;
  }
}

TEST(Geometry, VectorsOnTheLevelPlane) {
  const Vec2 a{3, 4};
  EXPECT_EQ(norm(a), 5);
  EXPECT_GT(cross(a, left_of(a)), 0);
  EXPECT_LT(cross(a, right_of(a)), 0);
  EXPECT_EQ(dot(a, left_of(a)), 0);
  EXPECT_TRUE(direction(Vec2{}) == Vec2{});
  EXPECT_NEAR(norm(direction(a)), 1, 1e-15);
  EXPECT_EQ(level_distance(Length(), Length(), Length::feet(3), Length::feet(4)), Length::feet(5));
  EXPECT_EQ(on_grid(1.0000000004), 1.0);
}

}  // namespace
}  // namespace railwright::measure
