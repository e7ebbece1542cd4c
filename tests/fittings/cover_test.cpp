// SPDX-License-Identifier: MIT
#include "engine/fittings/cover.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace railwright::fittings {
namespace {

struct Dice {
  std::uint64_t state;
  std::uint32_t next() {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::uint32_t>(state >> 33);
  }
  int below(int n) { return static_cast<int>(next() % static_cast<std::uint32_t>(n)); }
};

const Length kPost = Length::sixty_fourths(152), kLight = Length::sixty_fourths(120);  // 2-3/8 in, 1-7/8 in

job::Fitting part(job::FittingKind kind, double angle, double tolerance, std::int64_t cents) {
  job::Fitting fitting;
  fitting.kind = kind;
  fitting.port_angle_deg = angle;
  fitting.angle_tolerance_deg = tolerance;
  fitting.tilt_limit_deg = 30;
  fitting.take_off = Length::sixty_fourths(96);
  fitting.bolt_offset = Length::sixty_fourths(48);
  fitting.band_height = Length::sixty_fourths(160);
  fitting.sleeve_diameter = Length::sixty_fourths(176);
  fitting.price = Money::cents(cents);
  return fitting;
}

job::Catalogue three_parts() {
  job::Catalogue catalogue;
  catalogue.fittings = {part(job::FittingKind::end, 0, 0, 900), part(job::FittingKind::through, 180, 5, 1200), part(job::FittingKind::corner, 90, 5, 1300)};
  return catalogue;
}

Direction toward(double bearing_deg, double tilt_deg = 0, Length rail = kPost) {
  const double radians = bearing_deg * 3.14159265358979323846 / 180;
  return {{std::sin(radians), std::cos(radians)}, rail, tilt_deg};
}

// ---- brute force, written another way: every sequence of parts, every order, no pruning, no shared code but the step -------------------

struct Naive {
  const job::Catalogue& catalogue;
  const std::vector<Direction>& directions;
  bool possible = false;
  Money cost;
  Length stack;
  std::size_t parts = 0;
  std::vector<Part> chosen;

  void try_all(std::vector<bool> served) {
    if (std::all_of(served.begin(), served.end(), [](bool s) { return s; })) return weigh();
    for (std::size_t f = 0; f < catalogue.fittings.size(); ++f)
      for (std::size_t i = 0; i < served.size(); ++i)
        for (std::size_t j = 0; j < served.size(); ++j) {
          if (served[i] || served[j]) continue;
          if (!chosen.empty() && i < static_cast<std::size_t>(std::min(chosen.back().first, 99))) continue;  // sets, not sequences
          if (!serves(catalogue.fittings[f], i, j)) continue;
          auto next = served;
          next[i] = next[j] = true;
          chosen.push_back({static_cast<int>(f), static_cast<int>(i), i == j ? -1 : static_cast<int>(j)});
          try_all(next);
          chosen.pop_back();
        }
  }

  bool serves(const job::Fitting& fitting, std::size_t i, std::size_t j) const {
    if ((fitting.kind == job::FittingKind::end) != (i == j) || (i != j && j < i)) return false;
    for (const std::size_t d : {i, j}) {
      if (fitting.rail_diameter != Length() && fitting.rail_diameter != directions[d].rail_diameter) return false;
      if (directions[d].tilt_deg > fitting.tilt_limit_deg) return false;
    }
    if (fitting.post_diameter != Length() && fitting.post_diameter != kPost) return false;
    if (i == j) return true;
    const Vec2 a = directions[i].away, b = directions[j].away;
    const double angle = std::acos(std::max(-1.0, std::min(1.0, a.x * b.x + a.y * b.y))) * 180 / 3.14159265358979323846;
    return std::abs(angle - fitting.port_angle_deg) <= fitting.angle_tolerance_deg + 1e-4;
  }

  Ports ports(const Part& p) const {
    Ports out{&catalogue.fittings[p.fitting], {directions[p.first]}};
    if (p.second >= 0) out.directions.push_back(directions[p.second]);
    return out;
  }

  void weigh() {
    Money sum;
    for (const Part& p : chosen) sum += catalogue.fittings[p.fitting].price;
    if (possible && sum > cost) return;
    const std::size_t count = chosen.size();
    std::vector<std::vector<Length>> step(count, std::vector<Length>(count));
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t j = 0; j < count; ++j)
        if (i != j) step[i][j] = least_step(kPost, ports(chosen[i]), ports(chosen[j]));
    std::vector<int> index(count);
    std::iota(index.begin(), index.end(), 0);
    do {
      std::vector<Length> at(index.size());
      for (std::size_t i = 1; i < index.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) at[i] = max(at[i], at[j] + step[index[j]][index[i]]);
      const Length height = at.back();
      const bool better = !possible || sum < cost || (sum == cost && (height < stack || (height == stack && count < parts)));
      if (better) {
        possible = true;
        cost = sum;
        stack = height;
        parts = count;
      }
    } while (std::next_permutation(index.begin(), index.end()));
  }
};

job::Catalogue random_catalogue(Dice& dice) {
  job::Catalogue catalogue;
  const int rows = 2 + dice.below(5);
  for (int r = 0; r < rows; ++r) {
    const int kind = r == 0 ? 0 : 1 + dice.below(r == 1 ? 3 : 2);  // at most two kinds of end part
    job::Fitting fitting = kind % 3 == 0 ? part(job::FittingKind::end, 0, 0, 800 + 50 * dice.below(4))
                           : kind == 1   ? part(job::FittingKind::through, 180, dice.below(16), 1000 + 100 * dice.below(6))
                                         : part(job::FittingKind::corner, 90, dice.below(16), 1000 + 100 * dice.below(6));
    fitting.band_height = Length::sixty_fourths(128 + 16 * dice.below(4));
    if (dice.below(4) == 0) fitting.rail_diameter = dice.below(2) ? kPost : kLight;
    if (dice.below(4) == 0) fitting.tilt_limit_deg = 12;
    if (dice.below(6) == 0) fitting.post_diameter = dice.below(2) ? kPost : kLight;
    catalogue.fittings.push_back(fitting);
  }
  return catalogue;
}

std::vector<Direction> random_directions(Dice& dice) {
  const int count = 1 + dice.below(6);
  std::vector<Direction> directions;
  const double turn = dice.below(36000) / 100.0;
  for (int i = 0; i < count; ++i) {
    // Mostly near the four quarters, so that pairs occur; sometimes anywhere.
    const double bearing = dice.below(4) ? turn + 90 * dice.below(4) + dice.below(25) - 12 + 0.003 : dice.below(360) + 0.003;
    directions.push_back(toward(bearing, dice.below(3) ? 0 : dice.below(35), dice.below(5) ? kPost : kLight));
  }
  return directions;
}

// Property 1, on ten thousand random posts of one to six directions.
TEST(Cover, EqualsBruteForceOnTenThousandPosts) {
  Dice dice{4};
  int possible = 0, paired = 0;
  for (int n = 0; n < 10000; ++n) {
    const job::Catalogue catalogue = random_catalogue(dice);
    const std::vector<Direction> directions = random_directions(dice);
    const Cover cover = cheapest_cover(catalogue, kPost, directions);
    Naive naive{catalogue, directions, false, {}, {}, 0, {}};
    naive.try_all(std::vector<bool>(directions.size(), false));
    ASSERT_EQ(cover.possible, naive.possible) << n;
    if (!cover.possible) continue;
    ++possible;
    ASSERT_EQ(cover.cost, naive.cost) << n;
    ASSERT_EQ(cover.stack, naive.stack) << n;
    ASSERT_EQ(cover.parts.size(), naive.parts) << n;
    std::vector<int> served(directions.size(), 0);
    for (const Part& p : cover.parts) {
      ++served[p.first];
      if (p.second >= 0) {
        ++served[p.second];
        ++paired;
      }
    }
    for (const int times : served) EXPECT_EQ(times, 1) << n;
  }
  EXPECT_GT(possible, 5000);
  EXPECT_GT(paired, 3000);
}

TEST(Cover, AStraightPostTakesOneThroughPart) {
  const Cover cover = cheapest_cover(three_parts(), kPost, {toward(90), toward(270)});
  ASSERT_EQ(cover.parts.size(), 1u);
  EXPECT_EQ(cover.parts[0].fitting, 1);
  EXPECT_EQ(cover.stack, Length());
}

TEST(Cover, ASquareCornerTakesACornerPartWithItsPortsClockwise) {
  for (const bool swapped : {false, true}) {
    std::vector<Direction> directions{toward(0), toward(90)};
    if (swapped) std::swap(directions[0], directions[1]);
    const Cover cover = cheapest_cover(three_parts(), kPost, directions);
    ASSERT_EQ(cover.parts.size(), 1u);
    EXPECT_EQ(cover.parts[0].fitting, 2);
    EXPECT_EQ(cover.parts[0].first, swapped ? 1 : 0);  // north, then east
  }
}

// A bend neither straight nor square: two end parts a band apart. A tee: through and end. A cross: two through parts.
TEST(Cover, BendsTeesAndCrosses) {
  const job::Catalogue catalogue = three_parts();
  const Cover bend = cheapest_cover(catalogue, kPost, {toward(0), toward(130)});
  ASSERT_EQ(bend.parts.size(), 2u);
  EXPECT_EQ(bend.cost, Money::cents(1800));
  EXPECT_EQ(bend.stack, Length::sixty_fourths(160));
  EXPECT_EQ(cheapest_cover(catalogue, kPost, {toward(0), toward(180), toward(90)}).cost, Money::cents(2100));
  const Cover cross = cheapest_cover(catalogue, kPost, {toward(0), toward(90), toward(180), toward(270)});
  EXPECT_EQ(cross.cost, Money::cents(2400));
  EXPECT_EQ(cross.parts.size(), 2u);
}

// At the tolerance a part still fits; a hundredth of a degree more and it does not.
TEST(Cover, ToleranceIsHeldToAHundredthOfADegree) {
  const job::Catalogue catalogue = three_parts();
  EXPECT_EQ(cheapest_cover(catalogue, kPost, {toward(10), toward(185)}).parts.size(), 1u);
  EXPECT_EQ(cheapest_cover(catalogue, kPost, {toward(10), toward(184.98)}).parts.size(), 2u);
}

TEST(Cover, TiltAndDiametersForbid) {
  job::Catalogue catalogue = three_parts();
  EXPECT_FALSE(cheapest_cover(catalogue, kPost, {toward(0, 30.01)}).possible);
  EXPECT_TRUE(cheapest_cover(catalogue, kPost, {toward(0, 30)}).possible);
  for (job::Fitting& fitting : catalogue.fittings) fitting.rail_diameter = kLight;
  EXPECT_FALSE(cheapest_cover(catalogue, kPost, {toward(0)}).possible);
  EXPECT_TRUE(cheapest_cover(catalogue, kPost, {toward(0, 0, kLight)}).possible);
}

// Two level 2-3/8 in rails with a take-off of 1-1/2 in on a 2-3/8 in post: R = 2-11/16 in, r = 1-3/16 in; they touch up to
// 2 atan(1.1875 / 2.6875) = 47.68 degrees (computed by hand). Beyond, the band's height alone counts; at nothing, a whole pipe.
TEST(Step, RailsCollideUnderFortyEightDegrees) {
  job::Fitting thin = part(job::FittingKind::end, 0, 0, 900);
  thin.sleeve_diameter = Length();
  thin.band_height = Length::mm(1);
  const auto step = [&](double angle) { return least_step(kPost, {&thin, {toward(0)}}, {&thin, {toward(angle)}}); };
  EXPECT_EQ(step(47.7), Length::mm(1));
  EXPECT_GT(step(47.6), Length::mm(1));
  EXPECT_EQ(step(0), kPost);
  EXPECT_NEAR(step(30).inches_value(), 2 * std::sqrt(1.1875 * 1.1875 - std::pow(2.6875 * 0.2679491924, 2)), 1e-6);
  EXPECT_EQ(step(180), Length::mm(1));
}

// Property 2: a post turned on its axis takes the same parts.
TEST(Cover, TurningThePostChangesNothing) {
  const job::Catalogue catalogue = three_parts();
  for (int turn = 0; turn < 360; turn += 7) {
    const Cover cover = cheapest_cover(catalogue, kPost, {toward(3 + turn), toward(92 + turn), toward(184 + turn), toward(231 + turn)});
    EXPECT_EQ(cover.cost, Money::cents(3000)) << turn;
    EXPECT_EQ(cover.parts.size(), 3u) << turn;
  }
}

TEST(Cover, StackingMayBePriced) {
  job::Catalogue catalogue = three_parts();
  catalogue.fittings[1].price = Money::cents(1900);  // dearer than two end parts
  const std::vector<Direction> straight{toward(0), toward(180)};
  EXPECT_EQ(cheapest_cover(catalogue, kPost, straight).parts.size(), 2u);
  EXPECT_EQ(cheapest_cover(catalogue, kPost, straight, Money::cents(200)).parts.size(), 1u);
}

}  // namespace
}  // namespace railwright::fittings
