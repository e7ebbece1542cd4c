// SPDX-License-Identifier: MIT
#include "engine/grade/heights.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/grade/chains.h"
#include "tests/grade/line_fixture.h"

namespace railwright::grade {
namespace {

using namespace testing_line;
using job::RailLine;

Length sixteenths(std::int64_t n) { return Length::sixty_fourths(4 * n); }

// Three rails at 60 in are 20 in apart, tops at 60, 40 and 20 in (common practice, no source); centres half of 2-3/8 in lower:
// 58-13/16, 38-13/16 and 18-13/16 in.
TEST(CentreHeights, ThreeRailsAtSixtyInchesAreTwentyApart) {
  const auto centres = centre_heights(three_rails().choices.fences[0], kPipe);
  ASSERT_EQ(centres.size(), 3u);
  EXPECT_EQ(centres[0], sixteenths(58 * 16 + 13));
  EXPECT_EQ(centres[1], sixteenths(38 * 16 + 13));
  EXPECT_EQ(centres[2], sixteenths(18 * 16 + 13));
}

TEST(CentreHeights, GivenCentresStand) {
  job::Fence fence = three_rails().choices.fences[0];
  fence.rail_centres = {Length::inches(50), Length::inches(20)};
  EXPECT_EQ(centre_heights(fence, kPipe), fence.rail_centres);
}

// 45 in, three quarters of 60, lies 6-3/16 in from the nearest of three rails and stands; with four rails (43-13/16 in) it would touch the second rail,
// so it goes to the middle between the first (58-13/16) and the second: 51-5/16 in.
TEST(BraceHeight, KeepsClearOfTheRails) {
  job::Fence fence = three_rails().choices.fences[0];
  EXPECT_EQ(brace_height(fence, kPipe), Length::inches(45));
  fence.rails = 4;
  EXPECT_EQ(brace_height(fence, kPipe), sixteenths(51 * 16 + 5));
}

// Five wires of a wire fence at 50 in with the lowest at 10 in stand 10 in apart; without a gap five spaces share the height.
TEST(WireHeights, AreEven) {
  job::Fence fence;
  fence.kind = job::FenceKind::wire;
  fence.rails = 0;
  fence.height = Length::inches(50);
  fence.infill.wires = 5;
  const std::vector<Length> even{Length::inches(50), Length::inches(40), Length::inches(30), Length::inches(20), Length::inches(10)};
  EXPECT_EQ(wire_heights(fence, {}), even);
  fence.infill.ground_gap = Length::inches(10);
  EXPECT_EQ(wire_heights(fence, {}), even);
}

TEST(Follow, SameHeightAboveTheGroundAtEveryPost) {
  const auto layout = line({0, 0.3, 0.1, -0.4, 0});
  Findings findings;
  const Heights heights = rail_heights(three_rails(), rows(), layout, {}, findings);
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    EXPECT_EQ(heights.bays[b].rails[0].from - Length::from_metres(layout.posts[b].ground), sixteenths(58 * 16 + 13));
    EXPECT_EQ(heights.bays[b].rails[2].to - Length::from_metres(layout.posts[b + 1].ground), sixteenths(18 * 16 + 13));
  }
}

// The bottom opening on level ground is 17-5/8 in, the animal's limit 24 in: ground may fall 6-3/8 in (0.1619 m) under one level. Falling 0.05 m a bay for
// nine bays: three bays a level, two steps of 0.15 m; the lowest height that clears is that of the highest post of each level.
TEST(Level, StepsOnlyWhereItMust) {
  std::vector<double> ground;
  for (int i = 0; i <= 9; ++i) ground.push_back(1 - 0.05 * i);
  Findings findings;
  const Heights heights = rail_heights(three_rails(RailLine::level), rows(), line(ground), {}, findings);
  for (int b = 0; b < 9; ++b) {
    EXPECT_EQ(heights.bays[b].rails[0].from, heights.bays[b].rails[0].to);
    EXPECT_EQ(heights.bays[b].rails[0].from, Length::from_metres(1 - 0.15 * (b / 3)) + sixteenths(58 * 16 + 13)) << b;
  }
  EXPECT_TRUE(told(findings, "grade.step", "a3"));
  EXPECT_EQ(count_of(findings, "grade.dip"), 0);
  for (const Clearance& c : heights.clearances) EXPECT_EQ(c.verdict, Verdict::clear);
}

TEST(Level, AHumpInsideABayLiftsTheRail) {
  Findings findings;
  const Heights heights = rail_heights(three_rails(RailLine::level), rows(), line({0, 0, 0}, Length::feet(8), {{1.2, 0.1}}), {}, findings);
  EXPECT_EQ(heights.bays[0].rails[0].from, Length::mm(100) + sixteenths(58 * 16 + 13));
  EXPECT_EQ(heights.bays[1].rails[0].from, heights.bays[0].rails[0].from);
}

// Posts an inch up and down about one grade: following breaks at each, smooth does not.
TEST(Smooth, OneLineWithinTheTolerance) {
  std::vector<double> ground;
  for (int i = 0; i <= 12; ++i) ground.push_back(0.1 * i + (i % 2 ? 0.025 : -0.025));
  Findings findings;
  const auto layout = line(ground);
  const Heights heights = rail_heights(three_rails(RailLine::smooth), rows(), layout, {}, findings);
  for (std::size_t b = 1; b < heights.bays.size(); ++b) {
    const Length rise = heights.bays[b].rails[0].to - heights.bays[b].rails[0].from;
    const Length before = heights.bays[b - 1].rails[0].to - heights.bays[b - 1].rails[0].from;
    EXPECT_LE(abs(rise - before), Length::from_nm(2));
    EXPECT_EQ(heights.bays[b].rails[0].from - heights.bays[b].rails[1].from, Length::inches(20));
  }
  EXPECT_EQ(count_of(findings, "grade.no_line"), 0);
}

// Where two legs of one fence meet at a corner and nothing else does, the rails meet.
TEST(Smooth, RailsMeetAtACorner) {
  auto layout = line({0, 0.2, 0.25, 0.3});
  layout.legs.push_back({{0, 0}, {0, 10}, Length::feet(8), {0, 1}});
  layout.posts[3].on.push_back({1, {}});
  setout::Post post = layout.posts[2];
  post.name = "b1";
  post.ground = 0.5;
  layout.posts.push_back(post);
  setout::Bay bay = layout.bays[0];
  bay.name = "b.1";
  bay.leg = 1;
  bay.from = 3;
  bay.to = 4;
  layout.bays.push_back(bay);
  job::Job two = three_rails(RailLine::smooth);
  two.site.legs.push_back(two.site.legs[0]);
  EXPECT_EQ(chains_of(layout).size(), 1u);
  Findings findings;
  const Heights heights = rail_heights(two, rows(), layout, {}, findings);
  EXPECT_EQ(heights.bays[2].rails[0].to, heights.bays[3].rails[0].from);
}

// A tee: the branch starts at the height that the main line has there.
TEST(Smooth, ABranchStartsAtTheMainLine) {
  auto layout = line({0, 0.05, 0.02, 0.07});
  layout.legs.push_back({{0, 0}, {0, 10}, Length::feet(8), {0, 1}});
  layout.posts[2].on.push_back({1, {}});
  layout.posts.push_back(layout.posts[0]);
  setout::Bay bay = layout.bays[0];
  bay.leg = 1;
  bay.from = 2;
  bay.to = 4;
  layout.bays.insert(layout.bays.begin(), bay);  // the branch first: it must still wait for the main line
  EXPECT_EQ(chains_of(layout).size(), 2u);
  Findings findings;
  const Heights heights = rail_heights(three_rails(RailLine::smooth), rows(), layout, {}, findings);
  EXPECT_EQ(heights.bays[0].rails[0].from, heights.bays[2].rails[0].to);
}

TEST(Smooth, AGateEndsALine) {
  auto layout = line({0, 0.2, 0.25, 0.3});
  layout.bays[1].kind = setout::BayKind::gate;
  Findings findings;
  const Heights heights = rail_heights(three_rails(RailLine::smooth), rows(), layout, {}, findings);
  EXPECT_TRUE(heights.bays[1].rails.empty());
  EXPECT_EQ(chains_of(layout).size(), 2u);
}

// A hump of 0.3 m in the middle of an 8 ft bay: the opening under 17-5/8 in (447.675 mm) falls to 147.675 mm, 55.525 mm less than 8 in (203.2 mm).
// Cut, by hand: the ground stands above the allowed line over a triangle of that height whose half base is 1.2192 m * 55.525 / 300 = 0.22565 m:
// 0.055525 * 0.22565 = 0.012529 m2, over a strip of 2 ft (0.6096 m) 0.007638 m3. With a post on the hump both halves run straight: nothing is left.
TEST(Clearances, AHumpIsFoundBetweenThePosts) {
  const auto layout = line({0, 0, 0}, Length::feet(8), {{1.2192, 0.3}});
  Findings findings;
  const Heights heights = rail_heights(three_rails(), rows(), layout, {}, findings);
  ASSERT_TRUE(told(findings, "grade.hump", "a.1"));
  EXPECT_FALSE(told(findings, "grade.hump", "a.2"));
  for (const Finding& finding : findings) {
    if (finding.code != "grade.hump") continue;
    EXPECT_EQ(std::get<LengthValue>(finding.values[2].second).nm, 55'525'000);
    EXPECT_DOUBLE_EQ(std::get<VolumeValue>(finding.values[3].second).cubic_metres, 0.0076);
    EXPECT_EQ(std::get<std::string>(finding.values[4].second), "a");
    EXPECT_EQ(std::get<LengthValue>(finding.values[5].second).nm, 0);
    EXPECT_EQ(finding.severity, Severity::warning);
  }
  const Clearance& bottom = heights.clearances[2];
  EXPECT_EQ(bottom.below_rail, 3);
  EXPECT_EQ(bottom.verdict, Verdict::fails);
  EXPECT_EQ(bottom.at, Length::from_metres(1.2192));
}

TEST(Clearances, GroundInThePipeStopsTheWork) {
  Findings findings;
  rail_heights(three_rails(), rows(), line({0, 0}, Length::feet(8), {{1.2, 0.6}}), {}, findings);
  for (const Finding& finding : findings) {
    if (finding.code == "grade.hump") {
      EXPECT_EQ(finding.severity, Severity::stop);
    }
  }
  EXPECT_EQ(count_of(findings, "grade.hump"), 1);
}

TEST(Clearances, ADipOpensAGap) {
  Findings findings;
  rail_heights(three_rails(), rows(), line({0, 0}, Length::feet(8), {{1.2192, -0.3}}), {}, findings);
  ASSERT_TRUE(told(findings, "grade.dip", "a.1"));
}

// Ground known to 12 in where 3 in are needed: unknown, never clear and never a hump.
TEST(Clearances, CoarseGroundGivesNoVerdict) {
  auto layout = line({0, 0}, Length::feet(8), {{1.2192, 0.3}});
  for (const bool none : {false, true}) {
    layout.profiles[0].accuracy = none ? 0 : 0.3048;
    layout.profiles[0].source = none ? ground::Source::none : ground::Source::grid;
    Findings findings;
    const Heights heights = rail_heights(three_rails(), rows(), layout, {}, findings);
    EXPECT_EQ(heights.clearances[2].verdict, Verdict::unknown);
    EXPECT_EQ(count_of(findings, "grade.hump"), 0);
    EXPECT_EQ(count_of(findings, "grade.unknown_ground"), 1);
  }
}

// 20 in less a pipe of 2-3/8 in is 17-5/8 in.
TEST(Clearances, OpeningsBetweenRails) {
  job::Catalogue changed = rows();
  Findings findings;
  Heights heights = rail_heights(three_rails(), changed, line({0, 0.1}), {}, findings);
  EXPECT_EQ(heights.clearances[0].least, sixteenths(17 * 16 + 10));
  EXPECT_EQ(heights.clearances[0].verdict, Verdict::clear);
  changed.animals[0].trap_from = Length::inches(12);
  changed.animals[0].trap_to = Length::inches(18);
  heights = rail_heights(three_rails(), changed, line({0, 0.1}), {}, findings);
  EXPECT_EQ(heights.clearances[0].verdict, Verdict::fails);
  // Alike under both rails: told once.
  ASSERT_EQ(count_of(findings, "grade.opening_traps"), 1);
  EXPECT_EQ(std::get<std::string>(findings.back().values[0].second), "1, 2");
  changed.animals[0].largest_opening = Length::inches(17);
  rail_heights(three_rails(), changed, line({0, 0.1}), {}, findings);
  EXPECT_EQ(count_of(findings, "grade.opening_large"), 1);
}

// Mesh of 48 in hung 2 in above the ground reaches 50 in; under the top pipe (57-5/8 in) 7-5/8 in stay open, and 2 in under the mesh.
TEST(Clearances, MeshCoversWhatItCovers) {
  job::Job mesh = three_rails();
  job::Fence& fence = mesh.choices.fences[0];
  fence.kind = job::FenceKind::mesh;
  fence.rails = 1;
  fence.infill.height = Length::inches(48);
  fence.infill.ground_gap = Length::inches(2);
  job::Catalogue changed = rows();
  changed.animals[0].smallest_bottom_gap = {};
  changed.animals[0].largest_bottom_gap = Length::inches(4);
  Findings findings;
  const Heights heights = rail_heights(mesh, changed, line({0, 0}, Length::feet(8), {{1.2, -0.1}}), {}, findings);
  ASSERT_EQ(heights.clearances.size(), 2u);
  EXPECT_EQ(heights.clearances[0].largest, sixteenths(7 * 16 + 10));
  EXPECT_EQ(heights.clearances[1].below_rail, 2);
  EXPECT_EQ(heights.clearances[1].least, Length::inches(2));
  EXPECT_EQ(heights.clearances[1].largest, Length::inches(2) + Length::mm(100));
  EXPECT_TRUE(told(findings, "grade.dip_deep", "a.1"));  // no filler rail hangs under mesh
}

// Two bays of one run with a hump each: the worse one is told, with their number.
TEST(Findings, HumpsOfOneRunAreToldOnce) {
  Findings findings;
  rail_heights(three_rails(), rows(), line({0, 0, 0}, Length::feet(8), {{1.2, 0.3}, {3.6, 0.32}}), {}, findings);
  EXPECT_EQ(count_of(findings, "grade.hump"), 0);
  ASSERT_EQ(count_of(findings, "grade.humps"), 1);
  ASSERT_TRUE(told(findings, "grade.humps", "a.2"));
  for (const Finding& finding : findings) {
    if (finding.code == "grade.humps") {
      EXPECT_EQ(std::get<std::int64_t>(finding.values.back().second), 2);
    }
  }
}

TEST(Findings, TooLowAndTooSteep) {
  job::Job low = three_rails();
  low.choices.fences[0].height = Length::inches(48);
  Findings findings;
  rail_heights(low, rows(), line({0, 0}), {}, findings);
  EXPECT_TRUE(told(findings, "grade.too_low", "fence"));
  findings.clear();
  rail_heights(three_rails(), rows(), line({0, 0.2, 1.8}), {}, findings);
  EXPECT_TRUE(told(findings, "grade.tilt", "a.2"));
  EXPECT_EQ(count_of(findings, "grade.tilt"), 1);
}

TEST(Braces, ABraceBayHasOneMoreRail) {
  auto layout = line({0, 0.1, 0});
  layout.bays[0].kind = setout::BayKind::brace;
  Findings findings;
  const Heights heights = rail_heights(three_rails(), rows(), layout, {}, findings);
  EXPECT_TRUE(heights.bays[0].has_brace_rail);
  EXPECT_EQ(heights.bays[0].brace.from, Length::inches(45));
  EXPECT_EQ(heights.bays[0].brace.to, Length::inches(45) + Length::mm(100));
  EXPECT_FALSE(heights.bays[1].has_brace_rail);
}

TEST(BadInput, NothingAtAll) {
  Findings findings;
  EXPECT_TRUE(rail_heights(job::Job(), job::Catalogue(), setout::Layout(), {}, findings).bays.empty());
  auto cliff = line({0, 900, 0});
  for (const RailLine mode : {RailLine::follow, RailLine::level, RailLine::smooth})
    EXPECT_EQ(rail_heights(three_rails(mode), rows(), cliff, {}, findings).bays.size(), 2u);
  cliff.bays[0].pitch = cliff.bays[0].gap = Length();
  for (const RailLine mode : {RailLine::follow, RailLine::level, RailLine::smooth})
    EXPECT_EQ(rail_heights(three_rails(mode), job::Catalogue(), cliff, {}, findings).bays.size(), 2u);
}

}  // namespace
}  // namespace railwright::grade
