// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/setout/planned.h"

namespace railwright::setout {
namespace {

using drawn::site;
using drawn::straight;

std::vector<std::string> names_of(const Layout& layout) {
  std::vector<std::string> names;
  for (const Post& p : layout.posts) names.push_back(p.name);
  return names;
}

// Header properties 1 to 3 and the shape of the layout, checked on any plan.
void expect_sound(const job::Job& job, const Planned& p) {
  std::set<std::string> names;
  for (const Post& q : p.layout.posts) {
    EXPECT_TRUE(names.insert(q.name).second) << q.name << " twice";
    EXPECT_FALSE(q.on.empty()) << q.name;
  }
  std::set<std::string> bays;
  for (const Bay& b : p.layout.bays) EXPECT_TRUE(bays.insert(b.name).second) << b.name << " twice";
  for (const Run& r : p.layout.runs) {
    Length sum;
    int at = r.from;
    for (int b = r.first_bay; b < r.first_bay + r.bay_count; ++b) {
      const Bay& bay = p.layout.bays[b];
      EXPECT_EQ(bay.from, at);
      EXPECT_EQ(bay.pitch, bay.end - bay.start);
      const Length half = p.layout.posts[bay.from].diameter / 2 + p.layout.posts[bay.to].diameter / 2;
      EXPECT_EQ(bay.gap, bay.pitch - half);
      EXPECT_LE(bay.pitch, job.choices.fences[bay.fence].spacing.cap) << bay.name;
      sum += bay.pitch;
      at = bay.to;
    }
    EXPECT_EQ(at, r.to);
    EXPECT_EQ(sum, r.end - r.start) << r.name;
  }
}

TEST(SetOut, StraightLine) {
  const auto p = plan(straight(Length::feet(80)));
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(names_of(p.layout), (std::vector<std::string>{"A", "L1", "L2", "L3", "L4", "L5", "L6", "L7", "L8", "L9", "B"}));
  EXPECT_EQ(p.layout.bays[3].name, "L.4");
  EXPECT_EQ(p.layout.runs[0].name, "A-B");
  EXPECT_EQ(p.layout.posts[0].kind, PostKind::end);
  EXPECT_EQ(p.layout.posts[1].kind, PostKind::line);
  EXPECT_DOUBLE_EQ(p.layout.posts[1].at.x, 8 * 0.3048);
  EXPECT_EQ(p.layout.new_posts.size(), 11U);
  EXPECT_EQ(p.layout.new_bays.size(), 10U);
}

TEST(SetOut, ClosedPaddockWithTeeAndDivider) {
  const job::Job job = site("A---E---B\n|   |   |\n|   |   |\nD---F---C\n", {"AB", "BC", "CD", "DA", "EF"}, Length::feet(10), Length::feet(20));
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(post(p.layout, "A")->kind, PostKind::corner);
  EXPECT_DOUBLE_EQ(post(p.layout, "A")->deflection_deg, 90);
  EXPECT_EQ(post(p.layout, "E")->kind, PostKind::tee);
  EXPECT_EQ(post(p.layout, "E")->on.size(), 2U);
  EXPECT_EQ(p.layout.runs.size(), 7U);  // AB and CD fall into two runs each
}

TEST(SetOut, CrossNeedsACommonPoint) {
  const char* drawing = "....N\n\nW...X...E\n\n....S\n";
  job::Job job = site(drawing, {"WE", "NS"}, Length::feet(10), Length::feet(20));
  auto p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.crossing"), 1);
  EXPECT_EQ(finding(p.findings, "setout.crossing")->severity, Severity::stop);
  EXPECT_EQ(length_in(*finding(p.findings, "setout.crossing"), "station"), Length::feet(40));
  EXPECT_EQ(p.layout.runs.size(), 2U);  // the rest is still planned
  // With legs that end at X, the post is a cross.
  job = site(drawing, {"WX", "XE", "NX", "XS"}, Length::feet(10), Length::feet(20));
  p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(post(p.layout, "X")->kind, PostKind::cross);
  // One leg that passes X and two that end there do the same.
  p = plan(site(drawing, {"WE", "NX", "XS"}, Length::feet(10), Length::feet(20)));
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(post(p.layout, "X")->kind, PostKind::cross);
  EXPECT_EQ(p.layout.runs.size(), 4U);
}

TEST(SetOut, PointNearALegIsMovedOntoIt) {
  job::Job job = site("A...T...B\n\n....C\n", {"AB", "TC"}, Length::feet(10), Length::feet(20));
  job.site.points[3].north += Length::mm(60);  // T: 60 mm off the line
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_EQ(post(p.layout, "T")->kind, PostKind::tee);
  EXPECT_NEAR(post(p.layout, "T")->at.y, post(p.layout, "A")->at.y, 1e-9);
  job.site.points[3].north += Length::mm(60);  // 120 mm: beyond the snap of 100 mm
  EXPECT_EQ(plan(job).layout.runs.size(), 2U);
}

TEST(SetOut, StraightOnUnderADegreeIsALinePost) {
  job::Job job = site("A...B...C\n", {"AB", "BC"}, Length::feet(10), Length::feet(10));
  job.site.points[1].north += Length::inches(3);  // 2 x 0.358 degrees at 40 ft
  auto p = plan(job);
  EXPECT_EQ(post(p.layout, "B")->kind, PostKind::fixed);
  job.site.points[1].north += Length::inches(3);  // 1.43 degrees
  p = plan(job);
  EXPECT_EQ(post(p.layout, "B")->kind, PostKind::corner);
  EXPECT_DOUBLE_EQ(post(p.layout, "B")->deflection_deg, 1.43);  // 2 atan(6 / 480)
}

TEST(SetOut, SharpCornerIsNamed) {
  const auto p = plan(site("A.........B\n.........C\n", {"AB", "AC"}, Length::feet(10), Length::feet(10)));
  EXPECT_EQ(count_of(p.findings, "setout.sharp_corner"), 1);
}

// Hand calculation: leaf 12 ft + 2 in + 3 in = 149 in; two 2-7/8 in posts stand 151.875 in apart, middle at 40 ft.
TEST(SetOut, GateOpeningLiesBetweenFaces) {
  job::Job job = straight(Length::feet(80));
  job.choices.fences[0].gate_pipe = "2-7/8";
  job.site.gates.push_back({"G", "L", Length::feet(40), Length::feet(12), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""});
  const auto p = plan(job);
  expect_sound(job, p);
  const Post* hinge = post(p.layout, "Gh");
  const Post* latch = post(p.layout, "Gl");
  ASSERT_TRUE(hinge != nullptr && latch != nullptr);
  EXPECT_EQ(hinge->kind, PostKind::gate);
  EXPECT_EQ(hinge->on[0].station, Length::feet(40) - Length::from_inches(75.9375));
  EXPECT_EQ(latch->on[0].station, Length::feet(40) + Length::from_inches(75.9375));
  const auto bay = std::find_if(p.layout.bays.begin(), p.layout.bays.end(), [](const Bay& b) { return b.kind == BayKind::gate; });
  ASSERT_NE(bay, p.layout.bays.end());
  EXPECT_EQ(bay->gap, Length::inches(149));
  EXPECT_EQ(bay->run, -1);
  EXPECT_EQ(p.layout.runs.size(), 2U);
  // Two leaves: 2 x (6 ft + 2 in) + 3 in.
  job.site.gates[0].hinge = job::LeafEnd::both;
  job.site.gates[0].leaf = Length::feet(6);
  const auto two = plan(job);
  EXPECT_NE(post(two.layout, "Gh2"), nullptr);
  EXPECT_EQ(post(two.layout, "Gh2")->on[0].station - post(two.layout, "Gh1")->on[0].station, Length::inches(151) + Length::from_inches(2.875));
}

TEST(SetOut, GateFaults) {
  job::Job job = straight(Length::feet(20));
  const job::Gate gate{"G", "L", Length::feet(10), Length::feet(24), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""};
  job.site.gates = {gate};
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_too_wide"), 1);
  job.site.gates[0].leaf = Length::feet(12);
  job.site.gates[0].station = Length::feet(5);
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_on_corner"), 1);
  job.site.gates[0].station = Length::feet(25);
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_outside"), 1);
  job = straight(Length::feet(60));
  job.site.gates = {gate, gate};
  job.site.gates[0].leaf = job.site.gates[1].leaf = Length::feet(12);
  job.site.gates[0].station = Length::feet(20);
  job.site.gates[1].station = Length::feet(30);
  job.site.gates[1].id = "H";
  auto p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.gates_overlap"), 1);
  // Posts at 20 ft +- (74.5 + 1.1875) in: the second begins at 360 - 75.6875 = 284.3125, the first ends at 315.6875.
  // The second post's face must clear the first's: 315.6875 + 2.375 - 284.3125 = 33.75 in.
  EXPECT_EQ(length_in(*finding(p.findings, "setout.gates_overlap"), "by"), Length::from_inches(33.75));
  // Moved so that both would stand on one post, they share it.
  job.site.gates[1].station = Length::feet(20) + Length::from_inches(151.375);
  p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(post(p.layout, "Hh"), nullptr);
  EXPECT_EQ(count_of(p.findings, "setout.gate_opening"), 0);
}

TEST(SetOut, GateHangsOnTheCornerPost) {
  job::Job job = site("A.....B\n\n\nC\n", {"AB", "AC"}, Length::feet(10), Length::feet(10));
  // Opening 120 + 5 in, so the hinge post's middle would be at 65 - 62.5 - 1.1875 = 1.3125 in.
  job.site.gates.push_back({"G", "AB", Length::inches(65), Length::feet(10), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""});
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  EXPECT_EQ(post(p.layout, "A")->gate, "G");
  EXPECT_EQ(post(p.layout, "A")->kind, PostKind::corner);
  EXPECT_EQ(post(p.layout, "Gl")->on[0].station, Length::inches(125) + Length::sixty_fourths(152));
}

TEST(SetOut, GateSwingStrikesAnotherLeg) {
  // The gate swings south (right of AB) into leg CD, 6 ft away.
  job::Job job = site("A.......B\nC.......D\n", {"AB", "CD"}, Length::feet(10), Length::feet(6));
  job.site.gates.push_back({"G", "AB", Length::feet(40), Length::feet(12), job::LeafEnd::from, job::Side::right, Length::inches(2), Length::inches(3), 0, ""});
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swing"), 1);
  job.site.gates[0].swing = job::Side::left;
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swing"), 0);
  job.site.gates[0].swing = job::Side::right;
  job.site.gates[0].leaf = Length::inches(71);
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swing"), 0);
}

TEST(SetOut, FixedStationsDivideTheLeg) {
  job::Job job = straight(Length::feet(80));
  job.site.legs[0].fixed = {Length::feet(30), Length::feet(90)};
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_EQ(count_of(p.findings, "setout.fixed_outside"), 1);
  ASSERT_EQ(p.layout.runs.size(), 2U);
  EXPECT_EQ(p.layout.runs[0].end, Length::feet(30));
  EXPECT_EQ(p.layout.posts[p.layout.runs[0].to].kind, PostKind::fixed);
  EXPECT_EQ(p.layout.posts[p.layout.runs[0].to].name, "L4");  // 30 ft: four bays of 7.5 ft
}

// A water line crosses at 24 ft, tolerance 18 in each side; 9.5 in holes (4 x 2-3/8, ASTM F567-07 section 5) keep 18 + 4.75 in off.
TEST(SetOut, HolesKeepOutOfABuriedLine) {
  job::Job job = straight(Length::feet(80));
  job::Zone zone;
  zone.id = "water";
  zone.kind = job::ZoneKind::water;
  zone.shape = {{Length::feet(24), Length::feet(-50)}, {Length::feet(24), Length::feet(50)}};
  zone.tolerance = Length::inches(18);
  job.site.zones.push_back(zone);
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_TRUE(p.findings.empty());
  for (const Post& q : p.layout.posts) {
    EXPECT_GT(std::fabs(q.at.x - 24 * 0.3048), 22.75 * 0.0254) << q.name;
  }
  // A wet spot 20 ft long cannot be spanned at 8 ft: the finding says which pitch would.
  job.site.zones[0].area = true;
  job.site.zones[0].tolerance = Length();
  job.site.zones[0].shape = {
      {Length::feet(20), Length::feet(-5)}, {Length::feet(40), Length::feet(-5)}, {Length::feet(40), Length::feet(5)}, {Length::feet(20), Length::feet(5)}};
  const auto wet = plan(job);
  ASSERT_EQ(count_of(wet.findings, "setout.no_dig"), 1);
  EXPECT_EQ(finding(wet.findings, "setout.no_dig")->where, "A-B");
  // 240 + 2 x 4.75 in, rounded outward to whole millimetres at both ends: 6337.3 mm becomes 6338 or 6339.
  const Length pitch = length_in(*finding(wet.findings, "setout.no_dig"), "pitch");
  EXPECT_GT(pitch, Length::from_inches(249.5));
  EXPECT_LT(pitch, Length::from_inches(249.5) + Length::mm(2));
  for (const Post& q : wet.layout.posts) EXPECT_FALSE(q.at.x > 20 * 0.3048 && q.at.x < 40 * 0.3048);
}

// A zone may be a stretch of a leg: no hole from 1 ft before its first station to 1 ft behind its second, each wider by the hole's radius (4-3/4 in).
TEST(SetOut, HolesKeepOutOfAStretchOfALeg) {
  job::Job job = straight(Length::feet(80));
  job::Zone zone;
  zone.id = "culvert";
  zone.leg = job.site.legs[0].id;
  zone.from = Length::feet(23);
  zone.to = Length::feet(25);
  zone.tolerance = Length::feet(1);
  job.site.zones.push_back(zone);
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_TRUE(p.findings.empty());
  for (const Post& q : p.layout.posts) EXPECT_GT(std::fabs(q.at.x - 24 * 0.3048), (24 + 4.75) * 0.0254) << q.name;
  ASSERT_EQ(p.layout.zones.size(), 1u);
  EXPECT_EQ(p.layout.zones[0].shape.size(), 2u);
  EXPECT_TRUE(job.site.zones[0].shape.empty());  // the job keeps what was said
  // The same stretch drawn as a line gives the same posts.
  job::Job drawn = job;
  drawn.site.zones[0].leg.clear();
  drawn.site.zones[0].shape = {{Length::feet(23), Length()}, {Length::feet(25), Length()}};
  const auto q = plan(drawn);
  ASSERT_EQ(q.layout.posts.size(), p.layout.posts.size());
  for (std::size_t i = 0; i < q.layout.posts.size(); ++i) EXPECT_EQ(q.layout.posts[i].on[0].station, p.layout.posts[i].on[0].station);
  // Too long to be spanned: named with what would span it. 40 ft and twice 1 ft and 4-3/4 in.
  job.site.zones[0].to = Length::feet(63);
  const auto wide = plan(job);
  ASSERT_EQ(count_of(wide.findings, "setout.no_dig"), 1);
  EXPECT_NEAR(length_in(*finding(wide.findings, "setout.no_dig"), "pitch").metres(), (42 * 12 + 9.5) * 0.0254, 0.002);
  // Beyond the leg's end it binds nothing and is told.
  job.site.zones[0].from = Length::feet(90);
  job.site.zones[0].to = Length::feet(95);
  const auto beyond = plan(job);
  EXPECT_EQ(count_of(beyond.findings, "setout.zone_off_leg"), 1);
  EXPECT_EQ(beyond.layout.posts.size(), plan(straight(Length::feet(80))).layout.posts.size());
}

TEST(SetOut, FixedPostInAZoneSaysHowFarToMove) {
  job::Job job = straight(Length::feet(80));
  job.site.legs[0].fixed = {Length::feet(30)};
  job::Zone zone;
  zone.id = "gas";
  zone.shape = {{Length::feet(31), Length::feet(0)}};
  zone.tolerance = Length::inches(24);
  job.site.zones.push_back(zone);
  const auto p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.no_dig_fixed"), 1);
  const Finding& f = *finding(p.findings, "setout.no_dig_fixed");
  // Radius 24 + 4.75 in about 372 in: 343.25 to 400.75 in; from 360 in that is 16.75 back, 40.75 ahead (outward to a mm).
  EXPECT_NEAR(length_in(f, "back").inches_value(), 16.75, 0.05);
  EXPECT_NEAR(length_in(f, "ahead").inches_value(), 40.75, 0.05);
  EXPECT_EQ(f.where, "L4");
}

TEST(SetOut, DrivenPostsNeedLessRoom) {
  job::Job job = straight(Length::feet(16));
  job::Zone zone;
  zone.id = "pipe";
  zone.shape = {{Length::feet(8), Length::inches(10)}};
  zone.tolerance = Length::inches(6);
  job.site.zones.push_back(zone);
  EXPECT_EQ(plan(job).layout.bays.size(), 3U);  // 10 in < 6 + 4.75: the hole would touch
  job.choices.fences[0].setting = job::Setting::driven;
  EXPECT_EQ(plan(job).layout.bays.size(), 2U);  // 10 in > 6 + 1.1875
}

TEST(SetOut, SetPostsKeepNameAndPlace) {
  job::Job job = straight(Length::feet(80));
  const auto before = plan(job);
  job.issued.posts = before.layout.new_posts;
  job.issued.bays = before.layout.new_bays;
  job.field.posts.push_back({"L3", "L", Length::feet(24) + Length::inches(1), Length::from_inches(0.5), std::nullopt});
  const auto p = plan(job);
  const Post* set = post(p.layout, "L3");
  ASSERT_NE(set, nullptr);
  EXPECT_TRUE(set->set);
  EXPECT_EQ(set->on[0].station, Length::feet(24) + Length::inches(1));
  EXPECT_NEAR(set->at.y, -0.5 * 0.0254, 1e-12);  // to the right of a leg that runs east is south
  // Everything else keeps its stake and its name.
  EXPECT_EQ(names_of(p.layout), names_of(before.layout));
  for (const char* name : {"L1", "L2", "L4", "L9"}) EXPECT_EQ(post(p.layout, name)->on[0].station, post(before.layout, name)->on[0].station);
  for (std::size_t b = 0; b < p.layout.bays.size(); ++b) EXPECT_EQ(p.layout.bays[b].name, before.layout.bays[b].name);
  EXPECT_TRUE(p.layout.new_posts.empty());
  EXPECT_TRUE(p.layout.new_bays.empty());
  job.field.posts[0].offset = Length::inches(-4);
  EXPECT_EQ(count_of(plan(job).findings, "setout.set_post_off_line"), 1);
}

TEST(SetOut, IssuedNamesAreNeverGivenAgain) {
  job::Job job = straight(Length::feet(80));
  const auto before = plan(job);
  job.issued.posts = before.layout.new_posts;
  job.issued.bays = before.layout.new_bays;
  EXPECT_EQ(names_of(plan(job).layout), names_of(before.layout));
  // At 7 ft every stake but the ends is new: names go on from L9.
  job.choices.fences[0].spacing.cap = Length::feet(7);
  const auto after = plan(job);
  EXPECT_EQ(count_of(after.findings, "setout.issued_moved"), 1);
  EXPECT_EQ(after.layout.posts[1].name, "L10");
  EXPECT_EQ(after.layout.posts.back().name, "B");
  EXPECT_EQ(after.layout.bays[0].name, "L.11");
  // Back at 8 ft the old stakes and names are back; a retired name is not.
  job.choices.fences[0].spacing.cap = Length::feet(8);
  job.issued.posts[4].retired = true;
  const std::string retired = job.issued.posts[4].name;
  const auto back = plan(job);
  EXPECT_EQ(post(back.layout, retired), nullptr);
  EXPECT_NE(post(back.layout, "L10"), nullptr);
  EXPECT_EQ(post(back.layout, "L10")->on[0].station, before.layout.posts[4].on[0].station);
}

TEST(SetOut, NewNamesAvoidPointsOfTheSameName) {
  job::Job job = straight(Length::feet(80));
  job.site.points[1].id = "L2";
  job.site.legs[0].to = "L2";
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_EQ(p.layout.posts[2].name, "L3");
}

TEST(SetOut, SetPostAtACornerMovesTheCorner) {
  job::Job job = site("A.......B\n.\n.\n.\n........C\n", {"AB", "BC"}, Length::feet(10), Length::feet(20));
  job.field.posts.push_back({"B", "AB", Length::feet(80) + Length::inches(3), Length::inches(1), std::nullopt});
  const auto p = plan(job);
  const Post* corner = post(p.layout, "B");
  EXPECT_TRUE(corner->set);
  EXPECT_EQ(corner->kind, PostKind::corner);
  ASSERT_EQ(corner->on.size(), 2U);
  EXPECT_EQ(corner->on[0].station, Length::feet(80) + Length::inches(3));
  EXPECT_EQ(corner->on[1].station, Length::inches(1));  // one inch right of AB is one inch down BC
  EXPECT_EQ(p.layout.runs[1].start, Length::inches(1));
}

TEST(SetOut, ASetGatePostCarriesTheOpeningWithIt) {
  job::Job job = straight(Length::feet(80));
  job.site.gates.push_back({"G", "L", Length::feet(40), Length::feet(12), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""});
  const auto before = plan(job);
  job.field.posts.push_back({"Gh", "L", post(before.layout, "Gh")->on[0].station + Length::inches(2), Length(), std::nullopt});
  auto p = plan(job);
  EXPECT_EQ(post(p.layout, "Gl")->on[0].station - post(before.layout, "Gl")->on[0].station, Length::inches(2));
  EXPECT_EQ(count_of(p.findings, "setout.gate_opening"), 0);
  job.field.posts.push_back({"Gl", "L", post(before.layout, "Gl")->on[0].station, Length(), std::nullopt});
  p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.gate_opening"), 1);
  EXPECT_EQ(length_in(*finding(p.findings, "setout.gate_opening"), "opening"), Length::inches(147));
}

// A bay a little over the cap beside a set post is kept: 80 ft in ten bays, every post set 1/4 in off its stake.
TEST(SetOut, SetPostsDoNotBreedNewOnes) {
  job::Job job = straight(Length::feet(80));
  const auto before = plan(job);
  for (std::size_t i = 1; i + 1 < before.layout.posts.size(); ++i) {
    const Post& q = before.layout.posts[i];
    job.field.posts.push_back({q.name, "L", q.on[0].station + Length::from_inches(i % 2 == 0 ? 0.25 : -0.25), Length(), std::nullopt});
  }
  EXPECT_EQ(names_of(plan(job).layout), names_of(before.layout));
}

TEST(SetOut, BadLegsAreNamedAndTheRestPlanned) {
  job::Job job = site("A.....B\n\n......C\n", {"AB", "BC"}, Length::feet(10), Length::feet(20));
  job.site.legs.push_back(job.site.legs[0]);
  job.site.legs.back().id = "again";
  job.site.legs.push_back(job.site.legs[0]);
  job.site.legs.back().id = "nowhere";
  job.site.legs.back().to = "A";
  job.site.legs.push_back(job.site.legs[0]);
  job.site.legs.back().id = "dangling";
  job.site.legs.back().to = "Z";
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_EQ(count_of(p.findings, "setout.duplicate_leg"), 1);
  EXPECT_EQ(count_of(p.findings, "setout.zero_leg"), 1);
  EXPECT_EQ(count_of(p.findings, "setout.no_such_point"), 1);
  EXPECT_EQ(p.layout.legs.size(), 5U);
  EXPECT_EQ(p.layout.runs.size(), 2U);
  EXPECT_EQ(post(p.layout, "A")->kind, PostKind::end);
}

// A leg that runs over part of another: the common part is planned once.
TEST(SetOut, OverlappingLegs) {
  const job::Job job = site("A....B....C\n", {"AC", "AB"}, Length::feet(10), Length::feet(10));
  const auto p = plan(job);
  expect_sound(job, p);
  EXPECT_EQ(count_of(p.findings, "setout.duplicate_leg"), 1);
  EXPECT_EQ(p.layout.runs.size(), 2U);
}

TEST(SetOut, ForcedBaysAreHonouredUnderTheCap) {
  job::Job job = straight(Length::feet(80));
  job.choices.fences[0].spacing.mode = job::SpacingMode::best;
  Limits limits;
  limits.forced_bays = {12};
  EXPECT_EQ(plan(job, limits).layout.bays.size(), 12U);
  limits.forced_bays = {5};
  EXPECT_EQ(plan(job, limits).layout.bays.size(), 10U);
  limits.forced_bays.clear();
  limits.pitch_cap = {Length::feet(6)};
  EXPECT_EQ(plan(job, limits).layout.bays.size(), 14U);  // 80 / 6 = 13.3
}

TEST(SetOut, MillionKilometresDoNotOverflow) {
  const auto p = plan(straight(Length::from_metres(1e9)));
  EXPECT_EQ(count_of(p.findings, "setout.too_many_posts"), 1);
  EXPECT_EQ(p.layout.bays.size(), 1U);
}

// Properties under moving, turning by right angles and mirroring the site: same bays, to the nanometre.
TEST(SetOut, MovedTurnedAndMirroredSitesPlanAlike) {
  const char* drawing = "A.....B\n.\n..D...C\n.\n.E..F\n";
  const std::vector<std::string> legs{"AB", "BC", "CD", "DA", "DE", "EF"};
  const job::Job job = site(drawing, legs, Length::from_inches(123.4), Length::from_inches(97.3));
  const auto here = plan(job);
  for (int way = 0; way < 4; ++way) {
    job::Job other = job;
    for (job::Point& q : other.site.points) {
      const Length e = q.east, n = q.north;
      if (way == 0) q.east = e + Length::feet(1000), q.north = n - Length::feet(777);
      if (way == 1) q.east = -n, q.north = e;
      if (way == 2) q.east = -e;
      if (way == 3) q.east = -e, q.north = -n;
    }
    const auto there = plan(other);
    ASSERT_EQ(there.layout.bays.size(), here.layout.bays.size());
    EXPECT_EQ(names_of(there.layout), names_of(here.layout));
    for (std::size_t b = 0; b < here.layout.bays.size(); ++b) {
      EXPECT_LE(measure::abs(there.layout.bays[b].pitch - here.layout.bays[b].pitch).nm(), 1);
    }
  }
}

// A leg walked the other way has the same stakes.
TEST(SetOut, ReversedLegHasTheSameStakes) {
  job::Job job = straight(Length::inches(1001));
  const auto there = plan(job);
  std::swap(job.site.legs[0].from, job.site.legs[0].to);
  const auto back = plan(job);
  ASSERT_EQ(there.layout.posts.size(), back.layout.posts.size());
  for (std::size_t i = 0; i < there.layout.posts.size(); ++i) {
    EXPECT_NEAR(there.layout.posts[i].at.x, back.layout.posts[back.layout.posts.size() - 1 - i].at.x, 2e-9);
  }
}

}  // namespace
}  // namespace railwright::setout
