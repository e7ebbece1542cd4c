// SPDX-License-Identifier: MIT
#include "engine/ground/track.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

namespace railwright::ground {
namespace {

using measure::Vec2;

// A walk at one fix a second with errors that drift slowly, as a phone's do. Sums of uniform numbers stand in for a normal.
class Walk {
 public:
  explicit Walk(unsigned seed, double sigma) : random_(seed), sigma_(sigma) {}
  void along(const std::vector<Vec2>& corners, double pace = 1.3) {
    for (std::size_t i = 1; i < corners.size(); ++i) {
      const int steps = std::max(1, static_cast<int>(measure::distance(corners[i - 1], corners[i]) / pace));
      for (int k = 0; k < steps; ++k) {
        put(corners[i - 1] + (corners[i] - corners[i - 1]) * (static_cast<double>(k) / steps));
      }
    }
    put(corners.back());
  }
  void stand(Vec2 place, int seconds) {
    for (int i = 0; i < seconds; ++i) put(place);
  }
  void put(Vec2 place) {
    // A first-order drift with a memory of about ten fixes.
    drift_ = drift_ * 0.9 + Vec2{normal(), normal()} * (sigma_ * std::sqrt(1 - 0.81));
    fixes.push_back({place + drift_, {}});
  }
  std::vector<Fix> fixes;

 private:
  double normal() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += static_cast<double>(random_() % 100000) / 100000;
    return sum;
  }
  std::mt19937 random_;
  double sigma_;
  Vec2 drift_;
};

const std::vector<Vec2> kPaddock{{0, 0}, {120, 10}, {150, 90}, {40, 140}, {-20, 70}};

double nearest(const std::vector<TrackCorner>& corners, Vec2 place) {
  double least = 1e9;
  for (const TrackCorner& corner : corners) least = std::min(least, measure::distance(corner.place, place));
  return least;
}

TEST(Track, OpenWalkFindsItsCorners) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    Walk walk(seed, 1.0);
    walk.along(kPaddock);
    const auto line = straighten(walk.fixes);
    ASSERT_TRUE(line);
    EXPECT_FALSE(line->closed);
    ASSERT_EQ(line->corners.size(), kPaddock.size()) << seed;
    for (std::size_t i = 0; i < kPaddock.size(); ++i) {
      EXPECT_LT(measure::distance(line->corners[i].place, kPaddock[i]), 4.0) << seed << " " << i;
      EXPECT_GT(line->corners[i].error, 0.05);
      EXPECT_LT(line->corners[i].error, 5);
    }
  }
}

// The stated error must mean something: over many walks the true miss is about what is stated, within a factor.
TEST(Track, StatedErrorIsTheErrorMade) {
  double made = 0, stated = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    Walk walk(seed, 1.0);
    walk.along(kPaddock);
    const auto line = straighten(walk.fixes);
    ASSERT_TRUE(line);
    if (line->corners.size() != kPaddock.size()) continue;
    for (std::size_t i = 1; i + 1 < kPaddock.size(); ++i) {
      const double miss = measure::distance(line->corners[i].place, kPaddock[i]);
      made += miss * miss;
      stated += line->corners[i].error * line->corners[i].error;
    }
  }
  EXPECT_GT(stated, made / 4);
  EXPECT_LT(stated, made * 4);
}

TEST(Track, LoopBegunInTheMiddleOfASideHasNoCornerThere) {
  std::vector<Vec2> loop{(kPaddock[0] + kPaddock[1]) * 0.5};
  for (std::size_t i = 1; i <= kPaddock.size(); ++i) loop.push_back(kPaddock[i % kPaddock.size()]);
  loop.push_back(loop.front());
  Walk walk(3, 0.8);
  walk.along(loop);
  const auto line = straighten(walk.fixes);
  ASSERT_TRUE(line);
  EXPECT_TRUE(line->closed);
  ASSERT_EQ(line->corners.size(), kPaddock.size());
  for (const Vec2 corner : kPaddock) EXPECT_LT(nearest(line->corners, corner), 4);
}

TEST(Track, SpikesAndStopsLeaveNoTrace) {
  Walk walk(5, 0.8);
  walk.along({kPaddock[0], kPaddock[1]});
  walk.stand(kPaddock[1], 120);
  walk.along({kPaddock[1], kPaddock[2]});
  walk.fixes[40].place = walk.fixes[40].place + Vec2{0, 80};
  walk.fixes[60].place = walk.fixes[60].place + Vec2{-300, 40};
  walk.fixes[61].place = walk.fixes[61].place + Vec2{-280, 45};
  walk.fixes.insert(walk.fixes.begin() + 20, {Vec2{std::numeric_limits<double>::quiet_NaN(), 0}, {}});
  const auto line = straighten(walk.fixes);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->spikes, 4u);
  EXPECT_GE(line->stops, 1u);
  ASSERT_EQ(line->corners.size(), 3u);
  EXPECT_LT(measure::distance(line->corners[1].place, kPaddock[1]), 3);
}

// A walker who stands at a corner wanders by metres; no leg of its own may come of it.
TEST(Track, AHaltAtACornerMakesNoLeg) {
  int right = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    Walk walk(seed, 1.2);
    walk.along({kPaddock[0], kPaddock[1], kPaddock[2]});
    walk.stand(kPaddock[2], 45);
    walk.along({kPaddock[2], kPaddock[3], kPaddock[4]});
    const auto line = straighten(walk.fixes);
    ASSERT_TRUE(line);
    right += line->corners.size() == kPaddock.size();
    EXPECT_LT(nearest(line->corners, kPaddock[2]), 6) << seed;
  }
  EXPECT_GE(right, 17);
}

TEST(Track, NoiselessWalkComesBackExactly) {
  Walk walk(1, 0);
  walk.along(kPaddock);
  const auto line = straighten(walk.fixes);
  ASSERT_TRUE(line);
  ASSERT_EQ(line->corners.size(), kPaddock.size());
  for (std::size_t i = 1; i + 1 < kPaddock.size(); ++i) EXPECT_LT(measure::distance(line->corners[i].place, kPaddock[i]), 0.05);
  EXPECT_LT(line->noise, 0.05);
}

TEST(Track, TracksOfNothingAreRefused) {
  EXPECT_EQ(straighten({}).error().code, "track.too_few_points");
  EXPECT_EQ(straighten({{Vec2{1, 1}, {}}}).error().code, "track.too_few_points");
  EXPECT_EQ(straighten({{Vec2{1, 1}, {}}, {Vec2{1.2, 1}, {}}}).error().code, "track.too_short");
  EXPECT_EQ(straighten({{Vec2{1, 1}, {}}, {Vec2{1e308, 1}, {}}}).error().code, "track.too_few_points");
}

// A spiral is the worst case of the corner search; it stays bounded.
TEST(Track, SpiralStaysBounded) {
  std::vector<Fix> fixes;
  double x = 1, y = 0;
  for (int i = 0; i < 60000; ++i) {
    const double r = 50 + i * 0.02;
    fixes.push_back({Vec2{x * r, y * r}, {}});
    const double c = 0.9987502604, s = 0.0499791693;  // about 1/20 radian a step
    const double nx = x * c - y * s;
    y = x * s + y * c;
    x = nx;
  }
  const auto line = straighten(fixes);
  ASSERT_TRUE(line);
  EXPECT_LE(line->path.size(), 20000u);
}

}  // namespace
}  // namespace railwright::ground
