// SPDX-License-Identifier: MIT
#include "engine/fittings/assembly.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/fittings/bands.h"
#include "tests/grade/line_fixture.h"

namespace railwright::fittings {
namespace {

using namespace testing_line;

const Length kTakeOff = Length::sixty_fourths(96), kBolt = Length::sixty_fourths(48);

Assembly assembled(const job::Job& planned, const setout::Layout& layout, Findings& findings, const Readings& readings = {}) {
  const grade::Heights heights = grade::rail_heights(planned, rows(), layout, {}, findings);
  return assemble(planned, rows(), layout, heights, readings, findings);
}

// A rail with a fitting at both ends is cut 3 in shorter than the clear gap, whatever the pipe (common practice, no source).
TEST(RailLength, LevelIsTheGapLessThreeInches) {
  for (const std::int64_t gap : {5000, 5733, 9999})
    EXPECT_EQ(rail_length(Length::sixty_fourths(gap), {}, kTakeOff, kBolt, kTakeOff, kBolt), Length::sixty_fourths(gap) - Length::inches(3));
}

// By hand, whole numbers: bolts 1 in from the faces, take-off 2 in. G = 62 in: 60 between bolts level; rise 11 in: 61 along the slope
// (11-60-61 is a right triangle); rail 61 - 2 = 59 in. And 20-99-101: G = 101, rail 99.
TEST(RailLength, OnASlopeByRightTriangles) {
  const Length t = Length::inches(2), p = Length::inches(1);
  EXPECT_EQ(rail_length(Length::inches(62), Length::inches(11), t, p, t, p), Length::inches(59));
  EXPECT_EQ(rail_length(Length::inches(62), Length::inches(-11), t, p, t, p), Length::inches(59));
  EXPECT_EQ(rail_length(Length::inches(101), Length::inches(20), t, p, t, p), Length::inches(99));
  EXPECT_EQ(rail_length(Length::inches(62), Length::inches(11), t, p, Length::inches(1), p), Length::inches(60));
}

// A gap of 65 in taped along a slope that rises 16 in is 63 in level (16-63-65), as 61 and 11 give 60.
TEST(LevelGap, FromASlopeTape) {
  EXPECT_EQ(level_gap(Length::inches(65), Length::inches(16)), Length::inches(63));
  EXPECT_EQ(level_gap(Length::inches(61), Length::inches(-11)), Length::inches(60));
  EXPECT_EQ(level_gap(Length::inches(61), {}), Length::inches(61));
  EXPECT_EQ(level_gap(Length::inches(10), Length::inches(11)), Length());
}

TEST(Spread, PartsWhatPressesAndLeavesTheRest) {
  const Length in = Length::inches(1);
  EXPECT_EQ(spread({in * 10, in * 10}, {{}, in * 2}), (std::vector<Length>{in * 9, in * 11}));
  EXPECT_EQ(spread({in * 10, in * 10, in * 10}, {{}, in * 2, in * 2}), (std::vector<Length>{in * 8, in * 10, in * 12}));
  EXPECT_EQ(spread({in * 10, in * 30}, {{}, in * 2}), (std::vector<Length>{in * 10, in * 30}));
  EXPECT_EQ(spread({in * 10, in * 11, in * 30}, {{}, in * 2, in * 2}), (std::vector<Length>{Length::sixty_fourths(608), Length::sixty_fourths(736), in * 30}));
}

// Four bays of 8 ft, three rails: three end parts at either end, three through parts at each post between; 12 rails, each
// 96 - 2-3/8 - 3 = 90-5/8 in.
TEST(Assemble, AStraightLineByHand) {
  Findings findings;
  const Assembly assembly = assembled(three_rails(), line({0, 0, 0, 0, 0}), findings);
  ASSERT_EQ(assembly.uses.size(), 15u);
  ASSERT_EQ(assembly.rails.size(), 12u);
  for (const Use& use : assembly.uses) EXPECT_EQ(use.fitting, use.post == 0 || use.post == 4 ? 0 : 1);
  for (const Rail& rail : assembly.rails) {
    EXPECT_EQ(rail.length, Length::sixty_fourths(90 * 64 + 40));
    EXPECT_EQ(rail.cut, rail.length);
    EXPECT_EQ(rail.take_off, Length::inches(3));
  }
  EXPECT_EQ(assembly.rails[0].name, "a.1/1");
  EXPECT_EQ(assembly.rails[5].name, "a.2/3");
  EXPECT_TRUE(findings.empty());
}

// The order of bolting is from the bottom rail up; a mark is given from the ground and down from the top band.
TEST(Assemble, BandsStandBottomUp) {
  Findings findings;
  const Assembly assembly = assembled(three_rails(), line({0.5, 0.5}), findings);
  EXPECT_EQ(assembly.uses[0].serves[0].number, 3);
  EXPECT_EQ(assembly.uses[0].height, Length::sixty_fourths(18 * 64 + 52));
  EXPECT_EQ(assembly.uses[0].below_top, Length::inches(40));
  EXPECT_EQ(assembly.uses[2].below_top, Length());
  EXPECT_EQ(assembly.uses[2].stack, 0);
}

// The line runs east; the animals are on the left, north: bolts enter from there and nuts point south.
TEST(Assemble, FacingOfBoltAndNut) {
  Findings findings;
  job::Job facing = three_rails();
  Assembly assembly = assembled(facing, line({0, 0, 0}), findings);
  EXPECT_EQ(assembly.uses[0].bearing_deg, 90);
  EXPECT_EQ(assembly.uses[0].second_bearing_deg, -1);
  EXPECT_EQ(assembly.uses[0].nut_bearing_deg, 180);
  EXPECT_EQ(assembly.uses[8].bearing_deg, 270);  // the last post's rails come from the west
  facing.site.legs[0].animal_side = job::Side::right;
  assembly = assembled(facing, line({0, 0, 0}), findings);
  EXPECT_EQ(assembly.uses[0].nut_bearing_deg, 0);
}

setout::Layout bend(double x, double y) {
  auto layout = line({0, 0, 0});
  layout.legs.push_back({{0, 0}, {0, 0}, Length::feet(8), {x, y}});
  layout.posts.push_back(layout.posts[0]);
  setout::Bay bay = layout.bays[0];
  bay.name = "b.1";
  bay.leg = 1;
  bay.from = 2;
  bay.to = 3;
  layout.bays.push_back(bay);
  return layout;
}

// At a bend of 53 degrees (3-4-5) no part serves both rails: two end parts a band (2-1/2 in) apart, each rail moved by half of it.
TEST(Assemble, ABendTakesTwoEndPartsAStepApart) {
  Findings findings;
  job::Job two = three_rails();
  two.site.legs.push_back(two.site.legs[0]);
  const Assembly assembly = assembled(two, bend(0.6, 0.8), findings);
  std::vector<const Use*> at_bend;
  for (const Use& use : assembly.uses)
    if (use.post == 2) at_bend.push_back(&use);
  ASSERT_EQ(at_bend.size(), 6u);
  const Length mark = Length::sixty_fourths(18 * 64 + 52);
  EXPECT_EQ(at_bend[0]->height, mark - Length::sixty_fourths(80));
  EXPECT_EQ(at_bend[1]->height, mark + Length::sixty_fourths(80));
  EXPECT_EQ(at_bend[0]->stack, 1);
  EXPECT_EQ(at_bend[1]->stack, 2);
  EXPECT_EQ(at_bend[5]->below_top, Length());
  // The rail that goes to the bend now rises or falls 1-1/4 in over 92-1/8 in between bolts.
  const double between = 93.625 - 1.5;
  for (const Rail& rail : assembly.rails) {
    if (rail.bay == 0) continue;
    EXPECT_EQ(abs(rail.rise), Length::sixty_fourths(80)) << rail.name;
    EXPECT_NEAR(rail.length.inches_value(), std::sqrt(between * between + 1.25 * 1.25) - 1.5, 3e-5);
    EXPECT_LE(rail.cut, rail.length);
    EXPECT_LT(rail.length - rail.cut, Length::sixty_fourths(4));
  }
}

TEST(Assemble, ASquareCornerTakesCornerParts) {
  for (const double side : {1.0, -1.0}) {
    Findings findings;
    job::Job two = three_rails();
    two.site.legs.push_back(two.site.legs[0]);
    const Assembly assembly = assembled(two, bend(0, side), findings);
    int corners = 0;
    for (const Use& use : assembly.uses) {
      if (use.post != 2) continue;
      ++corners;
      EXPECT_EQ(use.fitting, 2);
      EXPECT_EQ(use.serves.size(), 2u);
      // West and north: 270 then 0; west and south: 180 then 270.
      EXPECT_EQ(use.bearing_deg, side > 0 ? 270 : 180);
      EXPECT_EQ(use.second_bearing_deg, side > 0 ? 0 : 270);
    }
    EXPECT_EQ(corners, 3);
  }
}

// Level rails that step at a post by 6 in are two levels there: two end parts, no through part.
TEST(Assemble, StepsAreLevelsOfTheirOwn) {
  auto layout = line({0, 0, 0});
  Findings findings;
  grade::Heights heights = grade::rail_heights(three_rails(), rows(), layout, {}, findings);
  for (grade::RailEnds& rail : heights.bays[1].rails) rail = {rail.from + Length::inches(6), rail.to + Length::inches(6)};
  const Assembly assembly = assemble(three_rails(), rows(), layout, heights, {}, findings);
  for (const Use& use : assembly.uses) EXPECT_EQ(use.fitting, 0);
  for (grade::RailEnds& rail : heights.bays[1].rails) rail = {rail.from - Length::sixty_fourths(370), rail.to};
  EXPECT_EQ(assemble(three_rails(), rows(), layout, heights, {}, findings).uses.size(), 9u);  // 14/64 in: one level again
}

// A step of 1 in cannot be had: bands of 2-1/2 in press each other 3/4 in further apart each way.
TEST(Assemble, LevelsThatPressArePutApart) {
  auto layout = line({0, 0, 0});
  Findings findings;
  grade::Heights heights = grade::rail_heights(three_rails(), rows(), layout, {}, findings);
  for (grade::RailEnds& rail : heights.bays[1].rails) rail = {rail.from + Length::inches(1), rail.to + Length::inches(1)};
  const Assembly assembly = assemble(three_rails(), rows(), layout, heights, {}, findings);
  EXPECT_EQ(assembly.rails[0].rise, -Length::sixty_fourths(48));
  EXPECT_EQ(assembly.rails[3].rise, -Length::sixty_fourths(48));
}

// Measured: 93-1/2 in level on the flat gives 90-1/2 in; the unmeasured keep the plan.
TEST(Assemble, MeasuredGapsReplacePlannedOnes) {
  Findings findings;
  Readings readings(2, std::vector<GapReading>(3));
  readings[0][1] = {true, Length::sixty_fourths(93 * 64 + 32), job::GapWay::level};
  const Assembly assembly = assembled(three_rails(), line({0, 0, 0}), findings, readings);
  EXPECT_EQ(assembly.rails[1].length, Length::sixty_fourths(90 * 64 + 32));
  EXPECT_TRUE(assembly.rails[1].measured);
  EXPECT_FALSE(assembly.rails[0].measured);
  EXPECT_EQ(assembly.rails[0].length, Length::sixty_fourths(90 * 64 + 40));
}

// The same rail whether its gap was taped level or along the slope.
TEST(Assemble, BothWaysOfTapingGiveOneRail) {
  Findings findings;
  const auto layout = line({0, 0.5});
  const double level = 2.4, slope = std::sqrt(2.4 * 2.4 + 0.5 * 0.5);
  Readings readings(1, std::vector<GapReading>(3));
  readings[0][0] = {true, Length::from_metres(level), job::GapWay::level};
  readings[0][1] = {true, Length::from_metres(slope), job::GapWay::slope};
  const Assembly assembly = assembled(three_rails(), layout, findings, readings);
  EXPECT_LE(abs(assembly.rails[0].length - assembly.rails[1].length), Length::from_nm(1000));
  EXPECT_EQ(assembly.rails[0].tilt_deg, std::round(std::atan(0.5 / (2.4 - 0.0381)) * 180 / 3.14159265358979323846 * 100) / 100);
}

TEST(Assemble, BraceRailsComeLastAndAreNamedB) {
  auto layout = line({0, 0, 0});
  layout.bays[0].kind = setout::BayKind::brace;
  Findings findings;
  const Assembly assembly = assembled(three_rails(), layout, findings);
  ASSERT_EQ(assembly.rails.size(), 7u);
  EXPECT_EQ(assembly.rails[3].name, "a.1/b");
  EXPECT_EQ(assembly.rails[3].number, 0);
  EXPECT_EQ(assembly.rails[3].length, assembly.rails[0].length);
}

TEST(Findings, NothingFitsIsToldOnce) {
  Findings findings;
  auto layout = line({0, 0, 0, 0});
  job::Catalogue changed = rows();
  for (job::Fitting& fitting : changed.fittings) fitting.post_diameter = Length::inches(4);
  const auto heights = grade::rail_heights(three_rails(), changed, layout, {}, findings);
  const Assembly assembly = assemble(three_rails(), changed, layout, heights, {}, findings);
  EXPECT_TRUE(assembly.uses.empty());
  EXPECT_EQ(assembly.rails.size(), 9u);
  EXPECT_EQ(count_of(findings, "fittings.none_fits"), 1);
}

TEST(Findings, TooSteepForAnyPart) {
  Findings findings;
  const Assembly assembly = assembled(three_rails(), line({0, 0, 1.9}), findings);
  EXPECT_TRUE(told(findings, "fittings.tilt", "a.2"));
  EXPECT_FALSE(assembly.uses.empty());
}

TEST(Findings, TooShortAndWronglyCut) {
  Findings findings;
  assembled(three_rails(), line({0, 0}, Length::inches(8)), findings);  // 8 - 2-3/8 - 3 = 2-5/8 in, 3 needed
  EXPECT_TRUE(told(findings, "fittings.rail_too_short", "a.1/1"));
  findings.clear();
  job::Job cut = three_rails();
  const Length right = Length::sixty_fourths(90 * 64 + 40);
  cut.field.cut = {{"a.1/1", right + Length::inches(1)}, {"a.1/2", right - Length::inches(4)}, {"a.1/3", right - Length::inches(1)}};
  assembled(cut, line({0, 0}), findings);
  EXPECT_TRUE(told(findings, "fittings.rail_too_long", "a.1/1"));
  EXPECT_TRUE(told(findings, "fittings.engagement", "a.1/2"));
  EXPECT_EQ(findings.size(), 2u);
}

TEST(BadInput, NothingAtAll) {
  Findings findings;
  EXPECT_TRUE(assemble(job::Job(), job::Catalogue(), setout::Layout(), grade::Heights(), {}, findings).rails.empty());
  const auto layout = line({0, 0});
  const auto heights = grade::rail_heights(three_rails(), job::Catalogue(), layout, {}, findings);
  EXPECT_EQ(assemble(three_rails(), job::Catalogue(), layout, heights, {}, findings).rails.size(), 3u);
}

}  // namespace
}  // namespace railwright::fittings
