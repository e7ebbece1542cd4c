// SPDX-License-Identifier: MIT
#include "engine/grade/smooth_line.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "tests/grade/every_start.h"

namespace railwright::grade {
namespace {

using testing_line::EveryStart;
using testing_line::window_of;

// A small generator whose numbers are the same on every machine.
struct Dice {
  std::uint64_t state;
  std::uint32_t next() {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::uint32_t>(state >> 33);
  }
  double between(double low, double high) { return low + (high - low) * (next() % 100001) / 100000.0; }
  int below(int n) { return static_cast<int>(next() % static_cast<std::uint32_t>(n)); }
};

// One linear condition c0 * z0 + c1 * z1 <= b on the heights of a line's two ends.
struct Half {
  double c0, c1, b;
};

// Largest and smallest z1 over all lines whose ends keep every condition: every crossing of two conditions is tried. Slow and plain.
Interval ends_by_crossings(const std::vector<Half>& halves) {
  Interval reach{1e300, -1e300};
  for (std::size_t i = 0; i < halves.size(); ++i) {
    for (std::size_t j = i + 1; j < halves.size(); ++j) {
      const double det = halves[i].c0 * halves[j].c1 - halves[j].c0 * halves[i].c1;
      if (std::abs(det) < 1e-12) continue;
      const double z0 = (halves[i].b * halves[j].c1 - halves[j].b * halves[i].c1) / det;
      const double z1 = (halves[i].c0 * halves[j].b - halves[j].c0 * halves[i].b) / det;
      const bool kept = std::all_of(halves.begin(), halves.end(), [&](const Half& h) { return h.c0 * z0 + h.c1 * z1 <= h.b + 1e-9; });
      if (!kept) continue;
      reach.low = std::min(reach.low, z1);
      reach.high = std::max(reach.high, z1);
    }
  }
  return reach;
}

Interval straight(const std::vector<Gate>& gates, int from, int to, Interval start, double tolerance) {
  std::vector<Half> halves{{1, 0, start.high}, {-1, 0, -start.low}};
  for (int g = from + 1; g <= to; ++g) {
    const double t = (gates[g].x - gates[from].x) / (gates[to].x - gates[from].x);
    const Interval window = window_of(gates[g], tolerance);
    halves.push_back({1 - t, t, window.high});
    halves.push_back({t - 1, -t, -window.low});
    const double rise = gates[g].cap * (gates[to].x - gates[from].x);
    halves.push_back({-1, 1, rise});
    halves.push_back({1, -1, rise});
  }
  return ends_by_crossings(halves);
}

// True when some line breaks at most at these gates and keeps everything.
bool possible(const std::vector<Gate>& gates, const std::vector<int>& corners, double tolerance) {
  Interval reach = window_of(gates[0], tolerance);
  for (std::size_t c = 1; c < corners.size() && !reach.empty(); ++c) reach = straight(gates, corners[c - 1], corners[c], reach, tolerance);
  return !reach.empty();
}

struct Best {
  int links = 0;
  double deviation = 0;
};

// Every choice of break posts; for the fewest, the least tolerance by halving.
Best exhaustive(const std::vector<Gate>& gates, double tolerance) {
  std::vector<int> inner;
  for (std::size_t g = 1; g + 1 < gates.size(); ++g)
    if (gates[g].post) inner.push_back(static_cast<int>(g));
  Best best;
  for (int count = 0; count <= static_cast<int>(inner.size()); ++count) {
    double least = 1e300;
    for (unsigned set = 0; set < (1u << inner.size()); ++set) {
      if (__builtin_popcount(set) != count) continue;
      std::vector<int> corners{0};
      for (std::size_t i = 0; i < inner.size(); ++i)
        if (set >> i & 1u) corners.push_back(inner[i]);
      corners.push_back(static_cast<int>(gates.size()) - 1);
      if (!possible(gates, corners, tolerance)) continue;
      double low = 0, high = tolerance;
      for (int n = 0; n < 16; ++n) {
        const double middle = (low + high) / 2;
        (possible(gates, corners, middle) ? high : low) = middle;
      }
      least = std::min(least, high);
    }
    if (least < 1e299) {
      best.links = count + 1;
      best.deviation = least;
      return best;
    }
  }
  return best;
}

std::vector<Gate> random_gates(Dice& dice, int bays, bool inside) {
  std::vector<Gate> gates;
  double ground = 0, x = 0;
  const double cap = dice.below(3) == 0 ? dice.between(0.05, 0.2) : 0.6;
  for (int i = 0; i <= bays; ++i) {
    if (i > 0 && inside && dice.below(2)) {
      Gate place;
      place.x = x - 1.2;
      const double middle = gates.back().wish + dice.between(-0.06, 0.06);
      place.window = {middle - dice.between(0.005, 0.08), middle + dice.between(0.005, 0.08)};
      place.cap = cap;
      gates.push_back(place);
    }
    Gate post;
    post.x = x;
    post.post = true;
    post.wish = ground;
    post.window = {ground - dice.between(0.02, 0.08), ground + dice.between(0.02, 0.08)};
    post.cap = cap;
    gates.push_back(post);
    x += dice.between(2.0, 2.6);
    ground += dice.between(-0.09, 0.09);
  }
  return gates;
}

void expect_kept(const std::vector<Gate>& gates, const SmoothLine& line, double tolerance) {
  std::size_t post = 0;
  std::vector<double> x, z;
  for (const Gate& gate : gates)
    if (gate.post) {
      x.push_back(gate.x);
      z.push_back(line.heights[post++]);
    }
  std::size_t bay = 0;
  for (const Gate& gate : gates) {
    while (bay + 2 < x.size() && gate.x > x[bay + 1]) ++bay;
    const double t = (gate.x - x[bay]) / (x[bay + 1] - x[bay]);
    const double height = z[bay] + (z[bay + 1] - z[bay]) * t;
    const Interval window = window_of(gate, tolerance);
    EXPECT_GE(height, window.low - 2e-8);
    EXPECT_LE(height, window.high + 2e-8);
    EXPECT_LE(std::abs(z[bay + 1] - z[bay]) / (x[bay + 1] - x[bay]), gate.cap + 2e-8);
  }
}

int bends(const std::vector<Gate>& gates, const SmoothLine& line) {
  std::vector<double> x;
  for (const Gate& gate : gates)
    if (gate.post) x.push_back(gate.x);
  int count = 0;
  for (std::size_t i = 1; i + 1 < x.size(); ++i) {
    const double before = (line.heights[i] - line.heights[i - 1]) / (x[i] - x[i - 1]);
    const double after = (line.heights[i + 1] - line.heights[i]) / (x[i + 1] - x[i]);
    if (std::abs(before - after) > 1e-7) ++count;
  }
  return count;
}

// Properties 1, 2 and 3 against every choice of break posts.
TEST(SmoothLine, EqualsExhaustiveSearchOnSmallJobs) {
  Dice dice{20260101};
  int solved = 0, more_than_two = 0;
  for (int n = 0; n < 2000; ++n) {
    const auto gates = random_gates(dice, 2 + dice.below(n % 20 == 0 ? 6 : 4), n % 2 == 1);
    const double tolerance = 0.05;
    const Best best = exhaustive(gates, tolerance);
    const SmoothLine line = smooth_line(gates, tolerance, 1e-5);
    if (best.links == 0) {
      EXPECT_FALSE(line.released.empty()) << n;
      continue;
    }
    ++solved;
    more_than_two += best.links > 2;
    ASSERT_TRUE(line.released.empty()) << n;
    EXPECT_EQ(line.links, best.links) << n;
    EXPECT_LE(bends(gates, line), best.links - 1) << n;
    EXPECT_NEAR(line.deviation, best.deviation, 2e-5) << n;
    expect_kept(gates, line, tolerance);
  }
  EXPECT_GT(solved, 1200);
  EXPECT_GT(more_than_two, 80);
}

// Property 4.
TEST(SmoothLine, TheMirroredJobNeedsAsManyPieces) {
  Dice dice{77};
  for (int n = 0; n < 200; ++n) {
    auto gates = random_gates(dice, 30, n % 2 == 1);
    for (Gate& gate : gates) gate.cap = 0.6;
    const SmoothLine line = smooth_line(gates, 0.05, 1e-4);
    std::vector<Gate> mirrored(gates.rbegin(), gates.rend());
    for (Gate& gate : mirrored) gate.x = -gate.x;
    const SmoothLine back = smooth_line(mirrored, 0.05, 1e-4);
    if (!line.released.empty()) continue;
    EXPECT_EQ(line.links, back.links) << n;
    EXPECT_NEAR(line.deviation, back.deviation, 2e-4) << n;
    expect_kept(gates, line, 0.05);
  }
}

// By hand: ground that rises 1 in 10 for ten bays of 2 m, then is level for ten. With no tolerance to speak of the line breaks once, at post 10.
TEST(SmoothLine, OneKinkIsOneBreak) {
  std::vector<Gate> gates;
  for (int i = 0; i <= 20; ++i) {
    Gate post;
    post.x = 2.0 * i;
    post.post = true;
    post.wish = 0.2 * std::min(i, 10);
    post.window = {post.wish - 1, post.wish + 1};
    gates.push_back(post);
  }
  const SmoothLine line = smooth_line(gates, 0.001, 1e-6);
  EXPECT_EQ(line.links, 2);
  ASSERT_EQ(line.breaks.size(), 1u);
  EXPECT_EQ(line.breaks[0], 10);
  EXPECT_NEAR(line.deviation, 0, 2e-6);
  for (Gate& gate : gates) gate.wish = 0.05 * gate.x;
  EXPECT_EQ(smooth_line(gates, 0.001, 1e-6).links, 1);
}

TEST(SmoothLine, ReleasesTheBayThatNoLinePasses) {
  std::vector<Gate> gates(4);
  for (int i = 0; i < 4; ++i) {
    gates[i].x = i < 3 ? 2.0 * i : 3.0;
    gates[i].post = i < 3;
    gates[i].window = {-1, 1};
  }
  std::swap(gates[2], gates[3]);  // a boulder at 3 m, in the second bay
  gates[2].window = {0.5, 9};
  const SmoothLine line = smooth_line(gates, 0.05, 1e-4);
  EXPECT_EQ(line.released, std::vector<int>{1});
  EXPECT_TRUE(line.too_steep.empty());
  EXPECT_EQ(line.links, 1);
  gates[3].wish = 9;
  gates[3].window = {8, 10};
  for (Gate& gate : gates) gate.cap = 0.5;
  const SmoothLine cliff = smooth_line(gates, 0.05, 1e-4);
  EXPECT_EQ(cliff.too_steep, std::vector<int>{1});
}

// Level ground whose heights stray a little from post to post: pieces of hundreds of posts.
std::vector<Gate> even_ground(Dice& dice, int bays, double stray, bool inside) {
  std::vector<Gate> gates;
  double ground = 0;
  for (int i = 0; i <= bays; ++i) {
    if (i > 0 && inside && dice.below(4) == 0) {
      Gate place;
      place.x = 2.4 * i - 1.2;
      place.window = {ground - dice.between(0.02, 0.08), ground + dice.between(0.02, 0.08)};
      gates.push_back(place);
    }
    Gate post;
    post.x = 2.4 * i;
    post.post = true;
    ground += dice.between(-stray, stray);
    post.wish = ground;
    post.window = {ground - 0.2, ground + 0.2};
    gates.push_back(post);
  }
  return gates;
}

// Property 2 where pieces are long, so that most starts are left out.
TEST(SmoothLine, LeavesOutNoStartThatMatters) {
  Dice dice{11};
  int longest = 0, most = 0;
  for (int n = 0; n < 60; ++n) {
    auto gates = even_ground(dice, 60 + dice.below(240), n % 7 == 6 ? 0.06 : dice.between(0.002, 0.03), n % 2 == 1);
    double cap = 1;
    for (std::size_t g = gates.size(); n % 5 == 4 && g-- > 0;) {  // one for each bay
      if (gates[g].post) cap = dice.between(0.012, 0.05);
      gates[g].cap = cap;
    }
    const double tolerance = 0.0508;
    const SmoothLine line = smooth_line(gates, tolerance, 0.0004);
    if (!line.released.empty()) continue;
    EXPECT_EQ(line.links, EveryStart(gates, tolerance).fewest()) << n;
    EXPECT_TRUE(line.fewest_known) << n;
    expect_kept(gates, line, tolerance);
    longest = std::max(longest, static_cast<int>(gates.size()) / line.links);
    most = std::max(most, line.links);
  }
  EXPECT_GT(longest, 100);
  EXPECT_GT(most, 15);
}

// Ten thousand posts of the kind that takes most work: the fewest pieces are known.
TEST(SmoothLine, KnowsTheFewestOnEvenGround) {
  for (const double stray : {0.002, 0.005, 0.01}) {
    Dice dice{5};
    const auto gates = even_ground(dice, 10000, stray, false);
    const SmoothLine line = smooth_line(gates, 0.0508, 0.0004);
    EXPECT_TRUE(line.fewest_known) << stray;
    expect_kept(gates, line, 0.0508);
  }
}

// Where less work is allowed than all starts need, few starts of a piece are followed, the line says so, and it still keeps everything.
TEST(SmoothLine, SaysWhenItHurried) {
  Dice dice{5};
  auto gates = even_ground(dice, 6000, 0.005, false);
  const SmoothLine line = smooth_line(gates, 0.0508, 0.0004, 20'000);
  EXPECT_FALSE(line.fewest_known);
  EXPECT_GE(line.links, smooth_line(gates, 0.0508, 0.0004).links);
  EXPECT_LT(line.links, 20);
  EXPECT_EQ(line.breaks.size() + 1, static_cast<std::size_t>(line.links));
  expect_kept(gates, line, 0.0508);
  gates.resize(300);
  EXPECT_TRUE(smooth_line(gates, 0.0508, 0.0004, 20'000).fewest_known);
}

// How long it takes is measured in bench/.
TEST(SmoothLine, TenThousandPosts) {
  for (const double roughness : {0.0, 0.01, 0.03, 0.1}) {
    Dice dice{5};
    std::vector<Gate> gates;
    double ground = 0, grade = 0;
    for (int i = 0; i <= 10000; ++i) {
      if (i > 0) {
        Gate place;
        place.x = 2.4 * i - 1.2;
        place.window = {ground - 0.2, ground + 0.2};
        gates.push_back(place);
      }
      Gate post;
      post.x = 2.4 * i;
      post.post = true;
      post.wish = ground;
      post.window = {ground - 0.2, ground + 0.2};
      gates.push_back(post);
      grade = std::max(-0.15, std::min(0.15, grade + dice.between(-0.01, 0.01)));
      ground += 2.4 * grade * 0.2 + dice.between(-roughness, roughness);
    }
    const SmoothLine line = smooth_line(gates, 0.0508, 0.0004);
    RecordProperty("links_" + std::to_string(roughness), line.links);
    ASSERT_EQ(line.heights.size(), 10001u);
    EXPECT_TRUE(line.released.empty());
    EXPECT_EQ(line.breaks.size() + 1, static_cast<std::size_t>(line.links));
    EXPECT_LE(line.deviation, 0.0508 + 1e-9);
    for (std::size_t i = 0, post = 0; i < gates.size(); ++i) {
      if (!gates[i].post) continue;
      EXPECT_LE(std::abs(line.heights[post] - gates[i].wish), line.deviation + 1e-9) << "post " << post;
      ++post;
    }
  }
}

}  // namespace
}  // namespace railwright::grade
