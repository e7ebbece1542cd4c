// SPDX-License-Identifier: MIT
#include "engine/measure/arc.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/measure/quantity.h"

namespace railwright::measure {
namespace {

TEST(Arc, AnglesAgreeWithTheCLibrary) {
  for (int i = -720; i <= 720; ++i) {
    const double a = i * kPi / 180 + 0.001;
    const Vec2 v = turned({1, 0}, a);
    EXPECT_NEAR(v.x, std::cos(a), 1e-15);
    EXPECT_NEAR(v.y, std::sin(a), 1e-15);
    EXPECT_NEAR(bearing({3 * std::cos(a), 3 * std::sin(a)}), std::atan2(std::sin(a), std::cos(a)), 1e-15);
  }
  for (int i = -100; i <= 100; ++i) EXPECT_NEAR(arcsine(i / 100.0), std::asin(i / 100.0), 1e-15);
  EXPECT_EQ(bearing({0, 0}), 0);
}

TEST(Arc, AWalkKeepsItsStations) {
  for (const double turn : {1.0, -1.0}) {
    for (const bool more : {false, true}) {
      const Arc arc = arc_between({2, 3}, {12, 5}, 7, turn, more);
      EXPECT_NEAR(distance(arc.at(0), {2, 3}), 0, 1e-12);
      EXPECT_NEAR(distance(arc.at(arc.length()), {12, 5}), 0, 1e-12);
      EXPECT_EQ(arc.delta > kPi, more);
      const double step = 1e-6;
      for (double s = 0.01; s < arc.length(); s += 0.7) {
        EXPECT_NEAR(arc.station_of(arc.at(s)), s, 1e-12);
        EXPECT_NEAR(distance((1 / step) * (arc.at(s + step) - arc.at(s)), arc.along(s)), 0, 1e-6);
        EXPECT_NEAR(arc.right_of_line(arc.at(s) + 0.25 * right_of(arc.along(s))), 0.25, 1e-12);
      }
      EXPECT_LT(arc.station_of(arc.at(-0.5)), 0);
      EXPECT_GT(arc.station_of(arc.at(arc.length() + 0.5)), arc.length());
    }
  }
}

TEST(Arc, ChordAndArcAreInverse) {
  const Arc circle = circle_from({0, 10}, {0, 0}, -1);
  EXPECT_NEAR(circle.chord_of(circle.length() / 6), 10, 1e-13);  // the hexagon's side is its radius
  EXPECT_NEAR(circle.chord_of(circle.length() / 4), 10 * std::sqrt(2.0), 1e-13);
  for (double chord = 0.1; chord < 20; chord += 0.7) EXPECT_NEAR(circle.chord_of(circle.arc_of(chord)), chord, 1e-13);
  EXPECT_NEAR(circle.arc_of(25), kPi * 10, 1e-12);           // no chord is longer than the diameter
  EXPECT_NEAR(circle.at(circle.length() / 4).x, 10, 1e-12);  // to the right: clockwise from north, so east
}

}  // namespace
}  // namespace railwright::measure
