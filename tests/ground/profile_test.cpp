// SPDX-License-Identifier: MIT
#include "engine/ground/profile.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <string>

#include "engine/ground/grid.h"
#include "engine/ground/nearby.h"

namespace railwright::ground {
namespace {

using measure::Length;
using measure::Vec2;

Length metres(double m) { return Length::from_metres(m); }

job::Site line_site(double length) {
  job::Site site;
  site.points = {{"A", {}, {}, {}, {}}, {"B", metres(length), {}, {}, {}}};
  site.legs = {{"AB", "A", "B", "f", job::Side::left, {}}};
  return site;
}

job::GroundGrid tilted_grid(int columns, int rows, double cell) {
  job::GroundGrid grid;
  grid.columns = columns;
  grid.rows = rows;
  grid.cell = metres(cell);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      grid.heights_m.push_back(static_cast<float>(0.125 * column * cell + 0.25 * row * cell));
    }
  }
  return grid;
}

bool told(const Findings& findings, const std::string& code) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

void expect_well_formed(const Profile& profile, double length) {
  ASSERT_GE(profile.points.size(), 2u);
  EXPECT_EQ(profile.points.front().station, 0.0);
  EXPECT_NEAR(profile.points.back().station, length, 1e-9);
  for (std::size_t i = 1; i < profile.points.size(); ++i) {
    EXPECT_LT(profile.points[i - 1].station, profile.points[i].station);
  }
}

TEST(Profile, WithoutHeightsIsLevelAndSaysSo) {
  Findings findings;
  const auto all = profiles(line_site(100), findings);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].source, Source::none);
  EXPECT_EQ(all[0].height_at(50), 0);
  expect_well_formed(all[0], 100);
  EXPECT_TRUE(told(findings, "ground.none"));
}

TEST(Profile, LevelledHeightsWinAndAreStraightBetween) {
  job::Site site = line_site(100);
  site.ground.profile = {{"AB", metres(100), metres(4)}, {"AB", metres(0), metres(1)}, {"AB", metres(40), metres(3)}};
  site.ground.spots = {{metres(50), metres(1), metres(99)}};
  site.ground.grid = tilted_grid(20, 3, 10);
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_EQ(all[0].source, Source::levelled);
  EXPECT_DOUBLE_EQ(all[0].height_at(20), 2);
  EXPECT_DOUBLE_EQ(all[0].height_at(70), 3.5);
  EXPECT_DOUBLE_EQ(all[0].height_at(-5), 1);
  EXPECT_DOUBLE_EQ(all[0].height_at(500), 4);
  EXPECT_FALSE(told(findings, "ground.coarse"));
}

TEST(Profile, SpotOnTheLineIsMetExactly) {
  job::Site site = line_site(100);
  site.points[0].height = metres(0);
  site.points[1].height = metres(0);
  site.ground.spots = {{metres(50), metres(0), metres(5)}, {metres(400), metres(400), metres(70)}};
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_EQ(all[0].source, Source::spots);
  EXPECT_DOUBLE_EQ(all[0].height_at(50), 5);
  EXPECT_DOUBLE_EQ(all[0].height_at(0), 0);
}

// Two equal spots either side of a place weigh the same.
TEST(Profile, SpotsAreWeightedByInverseSquaredDistance) {
  job::Site site = line_site(100);
  site.points[0].height = metres(0);
  site.points[1].height = metres(0);
  site.ground.spots = {{metres(50), metres(10), metres(4)}, {metres(50), metres(-5), metres(1)}};
  Findings findings;
  const auto all = profiles(site, findings);
  // Weights 1/100 and 1/25: (4/100 + 1/25) / (1/100 + 1/25) = 0.08 / 0.05.
  EXPECT_NEAR(all[0].height_at(50), 1.6, 1e-12);
}

TEST(Profile, GridIsSampledWhereTheLegCrossesCellLines) {
  job::Site site = line_site(0);
  site.points[0].east = metres(5);
  site.points[0].north = metres(5);
  site.points[1].east = metres(35);
  site.points[1].north = metres(20);
  site.ground.grid = tilted_grid(6, 6, 10);
  Findings findings;
  const auto all = profiles(site, findings);
  const double length = std::sqrt(30.0 * 30 + 15 * 15);
  expect_well_formed(all[0], length);
  EXPECT_EQ(all[0].source, Source::grid);
  // The ends, east lines 10 (at north 7.5), 20, 30 and north line 10 (at east 15): north 20 is the end itself.
  EXPECT_EQ(all[0].points.size(), 6u);
  for (const double share : {0.0, 0.21, 0.5, 0.77, 1.0}) {
    const double expected = 0.125 * (5 + 30 * share) + 0.25 * (5 + 15 * share);
    EXPECT_NEAR(all[0].height_at(share * length), expected, 1e-6);
  }
  EXPECT_TRUE(told(findings, "ground.coarse"));  // a tenth of a 10 m cell
}

TEST(Profile, LeavingTheGridIsToldAndHeldLevel) {
  job::Site site = line_site(100);
  site.ground.grid = tilted_grid(6, 3, 10);  // covers east -5 .. 55
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_TRUE(told(findings, "ground.outside_grid"));
  EXPECT_NEAR(all[0].height_at(90), all[0].height_at(60), 1e-12);
  expect_well_formed(all[0], 100);
}

TEST(Profile, UnknownCellsAreLeftOut) {
  job::GroundGrid grid = tilted_grid(3, 3, 10);
  grid.heights_m[4] = std::numeric_limits<float>::quiet_NaN();
  EXPECT_FALSE(height_at(grid, {10, 10}));
  const auto beside = height_at(grid, {12, 10});
  ASSERT_TRUE(beside);
  EXPECT_NEAR(*beside, 0.125 * 20 + 0.25 * 10, 1e-6);
}

TEST(Profile, LegsMeetingAtAPointOrTeeShareItsHeight) {
  job::Site site = line_site(100);
  site.points.push_back({"C", metres(37), metres(0), {}, {}});
  site.points.push_back({"D", metres(41), metres(60), metres(9), {}});
  site.legs.push_back({"CD", "C", "D", "f", job::Side::left, {}});
  site.legs.push_back({"BD", "B", "D", "f", job::Side::left, {}});
  site.ground.grid = tilted_grid(12, 8, 10);
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_NEAR(all[0].height_at(37), all[1].height_at(0), 1e-12);
  EXPECT_NEAR(all[0].height_at(100), all[2].height_at(0), 1e-12);
  EXPECT_DOUBLE_EQ(all[1].points.back().height, 9);
  EXPECT_DOUBLE_EQ(all[2].points.back().height, 9);
}

TEST(Profile, TeeBetweenKnownEndsLiesOnTheStraightGround) {
  job::Site site = line_site(100);
  site.points[0].height = metres(0);
  site.points[1].height = metres(10);
  site.points.push_back({"C", metres(30), metres(0), {}, {}});
  site.points.push_back({"D", metres(30), metres(60), {}, {}});
  site.legs.push_back({"CD", "C", "D", "f", job::Side::left, {}});
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_NEAR(all[0].height_at(30), 3, 1e-12);
  EXPECT_NEAR(all[1].height_at(0), 3, 1e-12);
}

TEST(Profile, ContradictingLevelsAndCliffsAreTold) {
  job::Site site = line_site(100);
  site.points.push_back({"C", metres(100), metres(50), {}, {}});
  site.legs.push_back({"BC", "B", "C", "f", job::Side::left, {}});
  site.ground.profile = {{"AB", metres(0), metres(0)}, {"AB", metres(99.5), metres(0)}, {"AB", metres(100), metres(3)}, {"BC", metres(0), metres(2)}};
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_TRUE(told(findings, "ground.disagree"));
  EXPECT_TRUE(told(findings, "ground.cliff"));
  EXPECT_NEAR(all[1].height_at(0), all[0].height_at(100), 1e-12);
}

// Two heights at one station are the foot and the head of a step, not one reading twice.
TEST(Profile, AVerticalStepIsACliff) {
  job::Site site = line_site(100);
  site.ground.profile = {{"AB", metres(0), metres(0)}, {"AB", metres(40), metres(0)}, {"AB", metres(40), metres(2)}, {"AB", metres(100), metres(2)}};
  Findings findings;
  const auto all = profiles(site, findings);
  EXPECT_NEAR(all[0].height_at(39.9), 0, 1e-9);
  EXPECT_NEAR(all[0].height_at(40.1), 2, 1e-9);
  ASSERT_TRUE(told(findings, "ground.cliff"));
  for (const Finding& finding : findings) {
    if (finding.code != "ground.cliff") continue;
    EXPECT_EQ(finding.values[4].first, "before");
    EXPECT_NEAR(static_cast<double>(std::get<LengthValue>(finding.values[4].second).nm), 39.7e9, 1);
  }
  site.ground.profile[2].height = metres(0.02);  // one reading twice
  findings.clear();
  profiles(site, findings);
  EXPECT_FALSE(told(findings, "ground.cliff"));
}

TEST(Profile, TheNeededAccuracyIsTheJobs) {
  job::Site site = line_site(100);
  site.ground.profile = {{"AB", metres(0), metres(0)}, {"AB", metres(100), metres(1)}};
  site.ground.accuracy = Length::inches(2);
  Findings findings;
  profiles(site, findings);
  EXPECT_FALSE(told(findings, "ground.coarse"));
  profiles(site, findings, Length::inches(1));
  EXPECT_TRUE(told(findings, "ground.coarse"));
}

TEST(Profile, DanglingLegsAndZeroLengthsDoNotCrash) {
  job::Site site = line_site(0);
  site.legs.push_back({"XY", "X", "Y", "f", job::Side::left, {}});
  site.ground.grid = job::GroundGrid{};
  Findings findings;
  const auto all = profiles(site, findings);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].height_at(3), 0);
}

// A walk of many legs with a spot beside each: every leg asks for its neighbours, so what one question looks at must stay small.
TEST(Nearby, LooksAtFewOfManyPlaces) {
  const auto looked_a_leg = [](int legs) {
    std::vector<Vec2> places;
    for (int i = 0; i < legs; ++i) places.push_back({100.0 * i + 50, 20});
    const Nearby nearby(places);
    std::size_t looked = 0;
    for (int i = 0; i < legs; ++i) {
      const Vec2 from{100.0 * i, i % 2 * 30.0}, to{100.0 * (i + 1), (i + 1) % 2 * 30.0};
      EXPECT_EQ(nearby.nearest(from, 8, &looked).size(), 8u);
      EXPECT_EQ(nearby.along(from, to, 30, &looked).size(), 1u);
    }
    return static_cast<double>(looked) / legs;
  };
  // A balanced tree of 40 times as many places is about five levels deeper; looking at everything would cost 40 times as much.
  const double few = looked_a_leg(400);
  EXPECT_LT(few, 80);
  EXPECT_LT(looked_a_leg(16000), few + 20);
}

TEST(Nearby, AgreesWithLookingAtEverything) {
  std::mt19937 random(7);
  const auto number = [&] { return static_cast<double>(random() % 2000) / 10; };
  std::vector<Vec2> places;
  for (int i = 0; i < 500; ++i) places.push_back({number(), number()});
  const Nearby nearby(places);
  for (int i = 0; i < 200; ++i) {
    const Vec2 a{number(), number()}, b{number(), number()};
    std::vector<std::size_t> expected;
    for (std::size_t j = 0; j < places.size(); ++j) {
      const Vec2 foot = a + (b - a) * share_along(a, b, places[j]);
      if (dot(places[j] - foot, places[j] - foot) <= 25.0) expected.push_back(j);
    }
    EXPECT_EQ(nearby.along(a, b, 5), expected);
    std::vector<std::pair<double, std::size_t>> by_distance;
    for (std::size_t j = 0; j < places.size(); ++j) by_distance.emplace_back(dot(places[j] - a, places[j] - a), j);
    std::sort(by_distance.begin(), by_distance.end());
    const auto nearest = nearby.nearest(a, 8);
    ASSERT_EQ(nearest.size(), 8u);
    for (std::size_t k = 0; k < 8; ++k) EXPECT_EQ(nearest[k].index, by_distance[k].second);
  }
}

}  // namespace
}  // namespace railwright::ground
