// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "engine/grade/earth.h"
#include "tests/grade/line_fixture.h"

namespace railwright::grade {
namespace {

using namespace testing_line;
using job::MendWay;
using job::RailLine;

job::Job mended(MendWay way, Length station = Length::feet(4), RailLine line = RailLine::follow) {
  job::Job drawn = three_rails(line);
  drawn.choices.mends = {{"a", station, way}};
  return drawn;
}

// "Fundamentals of Transportation/Earthwork", Wikibooks, solved problem: fill areas of 60 and 50 fifty apart, 50 and 25 twenty-five apart, 25 and 5
// twenty-five apart; with 25 from the pyramid at the end the whole fill is 4087.5.
TEST(Earth, AverageEndAreasOfAPublishedProblem) {
  const double fill = average_end_area(60, 50, 50) + average_end_area(50, 25, 25) + average_end_area(25, 5, 25);
  EXPECT_DOUBLE_EQ(fill + 5.0 * 15 / 3, 4087.5);
}

// By hand: excess -1, 1, 1, -3 at 0, 2, 3, 5 m: beyond the limit from 1 m to 3.5 m; areas 1/2 + 1 + 1/4 m2, half a metre wide.
TEST(Earth, CountsFromWhereTheLimitIsCrossed) {
  const Earth earth = earth_beyond({{0, -1}, {2, 1}, {3, 1}, {5, -3}}, 0.5);
  EXPECT_DOUBLE_EQ(earth.from, 1);
  EXPECT_DOUBLE_EQ(earth.to, 3.5);
  EXPECT_DOUBLE_EQ(earth.deepest, 1);
  EXPECT_DOUBLE_EQ(earth.volume_m3, 0.875);
  EXPECT_EQ(earth_beyond({{0, -1}, {2, -0.5}}, 1).volume_m3, 0);
}

// The hump of Clearances.AHumpIsFoundBetweenThePosts: 0.007638 m3 over half of 8 ft less 0.22565 m.
TEST(Mends, CutTakesTheHumpAway) {
  const auto layout = line({0, 0, 0}, Length::feet(8), {{1.2192, 0.3}});
  Findings findings;
  const Heights heights = rail_heights(mended(MendWay::cut), rows(), layout, {}, findings);
  EXPECT_EQ(count_of(findings, "grade.hump"), 0);
  EXPECT_EQ(count_of(findings, "grade.mend_idle"), 0);
  ASSERT_EQ(heights.earthwork.size(), 1u);
  const EarthWork& work = heights.earthwork[0];
  EXPECT_EQ(work.bay, 0);
  EXPECT_EQ(work.way, MendWay::cut);
  EXPECT_NEAR(work.volume_m3, 0.007638, 2e-6);
  EXPECT_NEAR(work.from.metres(), 1.2192 - 0.22565, 1e-5);
  EXPECT_NEAR(work.to.metres(), 1.2192 + 0.22565, 1e-5);
  EXPECT_EQ(work.deepest, Length::from_metres(0.055525));
  EXPECT_EQ(heights.clearances[2].verdict, Verdict::clear);
  EXPECT_EQ(heights.clearances[2].least, Length::inches(8));
}

// A wider strip takes more earth in proportion.
TEST(Mends, EarthGoesByTheAllowedWidth) {
  const auto layout = line({0, 0}, Length::feet(8), {{1.2192, -0.3}});
  job::Job job = mended(MendWay::fill);
  Findings findings;
  const double two_feet = rail_heights(job, rows(), layout, {}, findings).earthwork.at(0).volume_m3;
  job.choices.allowances.earth_width = Length::feet(3);
  EXPECT_NEAR(rail_heights(job, rows(), layout, {}, findings).earthwork.at(0).volume_m3, two_feet * 1.5, 1e-12);
  EXPECT_EQ(count_of(findings, "grade.dip") + count_of(findings, "grade.dip_deep"), 0);
}

// A dip of 0.3 m opens 447.675 + 300 = 747.675 mm; the limit is 609.6 mm, so a filler hangs 138.075 mm down, rounded up to a sixteenth of an inch:
// 5.4360 in -> 5 7/16 in. At the posts 447.675 - 138.1125 = 309.6 mm stay, more than 8 in.
TEST(Mends, AFillerRailHangsAsLittleDownAsItMust) {
  const auto layout = line({0, 0, 0}, Length::feet(8), {{1.2192, -0.3}});
  Findings before;
  rail_heights(three_rails(), rows(), layout, {}, before);
  ASSERT_TRUE(told(before, "grade.dip", "a.1"));
  for (const Finding& finding : before) {
    if (finding.code != "grade.dip") continue;
    EXPECT_EQ(finding.values.back().first, "filler_below");
    EXPECT_EQ(std::get<LengthValue>(finding.values.back().second).nm, Length::sixty_fourths(5 * 64 + 28).nm());
  }
  Findings findings;
  const Heights heights = rail_heights(mended(MendWay::filler), rows(), layout, {}, findings);
  ASSERT_EQ(heights.bays[0].rails.size(), 4u);
  EXPECT_EQ(heights.bays[1].rails.size(), 3u);
  EXPECT_EQ(heights.bays[0].rails[2].from - heights.bays[0].rails[3].from, Length::sixty_fourths(5 * 64 + 28));
  EXPECT_EQ(count_of(findings, "grade.dip"), 0);
  EXPECT_EQ(count_of(findings, "grade.hump"), 0);
  EXPECT_EQ(count_of(findings, "grade.mend_idle"), 0);
}

// A dip of 0.6 m would need the filler 17.2 in down: under 8 in would be left at the posts.
TEST(Mends, NoFillerWhereItWouldStandTooLow) {
  const auto layout = line({0, 0}, Length::feet(8), {{1.2192, -0.6}});
  Findings findings;
  const Heights heights = rail_heights(mended(MendWay::filler), rows(), layout, {}, findings);
  EXPECT_EQ(heights.bays[0].rails.size(), 3u);
  EXPECT_TRUE(told(findings, "grade.dip_deep", "a.1"));
  EXPECT_TRUE(told(findings, "grade.mend_idle", "a.1"));
}

// Ground at the four quarters 0, 0.3, 0.3, 0: with a post on the first quarter the second half still falls from 0.3 to 0 over three quarters, and
// stands 0.1 m above that line at the middle: opening 447.675 - 100 mm there, well over 8 in, so nothing is left. At 0.8 m high it is not.
TEST(Remedies, APostHelpsAsFarAsItHelps) {
  job::Job job = three_rails();
  const Section own = section_of(job.choices.fences[0], rows());
  const Length under = own.bottom_opening();
  const std::vector<GroundPoint> low{{0, 0}, {0.6, 0.3}, {1.2, 0.3}, {2.4, 0}};
  EXPECT_EQ(left_with_post(own, low, {under, under}, 0.6, true), Length());
  const std::vector<GroundPoint> high{{0, 0}, {0.6, 0.9}, {1.2, 0.9}, {2.4, 0}};
  // From 0.9 + under at 0.6 m down to under at 2.4 m: a third lower at 1.2 m, 0.6 + under; opening under - 0.3 = 147.675 mm, 55.525 short of 8 in.
  EXPECT_NEAR(left_with_post(own, high, {under, under}, 0.6, true).metres(), 0.055525, 1e-9);
}

// A boulder of 0.5 m in the second bay stops the smooth line; once it is to be cut, the line runs straight over it.
TEST(Mends, ASmoothLinePassesWhatIsCut) {
  const auto layout = line({0, 0, 0, 0}, Length::feet(8), {{3.6576, 0.5}});
  Findings before;
  rail_heights(three_rails(RailLine::smooth), rows(), layout, {}, before);
  ASSERT_TRUE(told(before, "grade.no_line", "a.2"));
  Findings findings;
  const Heights heights = rail_heights(mended(MendWay::cut, Length::feet(12), RailLine::smooth), rows(), layout, {}, findings);
  EXPECT_EQ(count_of(findings, "grade.no_line"), 0);
  EXPECT_EQ(heights.earthwork.size(), 1u);
  for (const BayHeights& bay : heights.bays) EXPECT_EQ(bay.rails[0].from, bay.rails[0].to);
}

// A hump inside a bay lifts the whole level (Level.AHumpInsideABayLiftsTheRail), unless it is cut.
TEST(Mends, ALevelStandsOnThePostsWhereTheHumpIsCut) {
  const auto layout = line({0, 0, 0}, Length::feet(8), {{1.2, 0.3}});
  Findings findings;
  const Heights lifted = rail_heights(three_rails(RailLine::level), rows(), layout, {}, findings);
  const Heights cut = rail_heights(mended(MendWay::cut, Length::feet(4), RailLine::level), rows(), layout, {}, findings);
  EXPECT_EQ(lifted.bays[0].rails[0].from - cut.bays[0].rails[0].from, Length::mm(300));
  EXPECT_EQ(cut.earthwork.size(), 1u);
}

TEST(Mends, SaysWhereNothingIsToMend) {
  job::Job job = mended(MendWay::cut);
  job.choices.mends.push_back({"a", Length::feet(900), MendWay::fill});
  job.choices.mends.push_back({"nowhere", Length::feet(1), MendWay::fill});
  Findings findings;
  rail_heights(job, rows(), line({0, 0}), {}, findings);
  EXPECT_TRUE(told(findings, "grade.mend_idle", "a.1"));
  EXPECT_TRUE(told(findings, "grade.mend_nowhere", "a"));
  EXPECT_TRUE(told(findings, "grade.mend_nowhere", "nowhere"));
}

}  // namespace
}  // namespace railwright::grade
