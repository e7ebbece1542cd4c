// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/setout/planned.h"

namespace railwright::setout {
namespace {

using drawn::site;
using drawn::straight;

// A gate of 12 ft hung at its first post and swung left (north, on a leg that runs east), with 2 and 3 in of clearances.
job::Gate gate(const char* id, const char* leg, Length station) {
  return {id, leg, station, Length::feet(12), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, "", Length()};
}

job::Job gated() {
  job::Job job = straight(Length::feet(80));
  job.site.gates = {gate("G", "L", Length::feet(40))};
  return job;
}

TEST(Leaves, StandAtTheirHingesAndSweepTheirSide) {
  job::Job job = gated();
  const auto leaves = [&] {
    const auto p = plan(job);
    for (const Bay& bay : p.layout.bays) {
      if (bay.kind == BayKind::gate) return std::make_pair(leaves_of(p.layout, job.site.gates[0], bay), p.layout);
    }
    return std::make_pair(std::vector<Leaf>{}, p.layout);
  };
  auto [one, layout] = leaves();
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(layout.posts[one[0].hinge].name, "Gh");
  EXPECT_DOUBLE_EQ(one[0].closed.x, 12 * 0.3048);
  EXPECT_DOUBLE_EQ(one[0].open.y, 12 * 0.3048);
  job.site.gates[0].hinge = job::LeafEnd::both;
  job.site.gates[0].leaf = Length::feet(6);
  job.site.gates[0].swing = job::Side::right;
  auto [two, other] = leaves();
  ASSERT_EQ(two.size(), 2U);
  EXPECT_EQ(other.posts[two[1].hinge].name, "Gh2");
  EXPECT_DOUBLE_EQ(two[1].closed.x, -6 * 0.3048);
  EXPECT_DOUBLE_EQ(two[1].open.y, -6 * 0.3048);
}

// Spots on a plane that rises to the north at 1 in 20: a leaf of 12 ft rises 7.2 in; the plane falls on the other side.
void slope_north(job::Job& job, double grade) {
  for (int e = 20; e <= 60; e += 2) {
    for (int n = -20; n <= 20; n += 2) {
      job.site.ground.spots.push_back({Length::feet(e), Length::feet(n), Length::from_metres(n * 0.3048 * grade)});
    }
  }
}

TEST(GateGround, ALeafThatClearsTheSlopeIsLeftAlone) {
  job::Job job = gated();
  slope_north(job, 0.05);
  EXPECT_TRUE(plan(job).findings.empty());  // no clearance given: not checked, as before
  job.site.gates[0].ground_clearance = Length::inches(8);
  EXPECT_TRUE(plan(job).findings.empty());
}

TEST(GateGround, RisingGroundIsNamedWithTheSideThatClears) {
  job::Job job = gated();
  slope_north(job, 0.05);
  job.site.gates[0].ground_clearance = Length::inches(4);
  const auto p = plan(job);
  const Finding* f = finding(p.findings, "setout.gate_ground_turn");
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(length_in(*f, "rise").inches_value(), 7.2, 0.5);  // by inverse distance between spots 2 ft apart
  EXPECT_EQ(length_in(*f, "over"), length_in(*f, "rise") - Length::inches(4));
  job.site.gates[0].swing = job::Side::right;
  EXPECT_TRUE(plan(job).findings.empty());  // falling ground
}

TEST(GateGround, ATroughRisesOnBothSides) {
  job::Job job = gated();
  for (int e = 20; e <= 60; e += 2) {
    for (int n = -20; n <= 20; n += 2) job.site.ground.spots.push_back({Length::feet(e), Length::feet(n), Length::inches(std::abs(n))});
  }
  job.site.gates[0].ground_clearance = Length::inches(4);
  const Planned p = plan(job);
  ASSERT_NE(finding(p.findings, "setout.gate_ground"), nullptr);
  EXPECT_NEAR(length_in(*finding(p.findings, "setout.gate_ground"), "rise").inches_value(), 12, 1);
}

TEST(GateGround, UnknownGroundIsSaid) {
  job::Job job = gated();
  job.site.gates[0].ground_clearance = Length::inches(4);
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_ground_unknown"), 1);
  job.site.ground.grid = job::GroundGrid{30, 30, Length::feet(-50), Length::feet(-50), Length::feet(5), std::vector<float>(900, 2.5f)};
  EXPECT_TRUE(plan(job).findings.empty());
}

// Two gates that open towards each other: hinges 30 ft apart, leaves of 12 ft: clear; 20 ft apart they meet.
TEST(GateSwings, LeavesOfNeighboursStrikeEachOther) {
  job::Job job = site("A.......B\n\n\n.........\nC.......D\n", {"AB", "CD"}, Length::feet(10), Length::feet(5));
  job.site.gates = {gate("G", "AB", Length::feet(40)), gate("H", "CD", Length::feet(40))};
  job.site.gates[0].swing = job::Side::right;  // both into the 20 ft lane between
  auto p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.gate_swings"), 1);
  EXPECT_EQ(finding(p.findings, "setout.gate_swings")->where, "G");
  job.site.gates[1].station = Length::feet(60);  // hung at the far post, side by side: 12 and 12 ft out of 20 still meet only where their discs do
  job.site.gates[1].hinge = job::LeafEnd::to;
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swings"), 0);
  job.site.gates[1] = gate("H", "CD", Length::feet(40));
  job.site.gates[1].swing = job::Side::right;  // away
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swings"), 0);
}

// Two gates hung on one post stand open side by side, back to back: that is how it is done.
TEST(GateSwings, TwoGatesOnOnePostDoNotStrike) {
  job::Job job = straight(Length::feet(80));
  job.site.gates = {gate("G", "L", Length::feet(30)), gate("H", "L", Length::feet(30) + Length::from_inches(151.375))};
  job.site.gates[0].hinge = job::LeafEnd::to;
  const auto p = plan(job);
  EXPECT_EQ(count_of(p.findings, "setout.gate_swings"), 0);
  EXPECT_EQ(count_of(p.findings, "setout.gates_overlap"), 0);
}

TEST(GateSwings, RocksCountWithTheirClosingEdge) {
  job::Job job = gated();
  job::Zone rock;
  rock.id = "boulder";
  rock.kind = job::ZoneKind::rock;
  rock.area = true;
  // A rock north of the gate whose closing edge alone comes within the leaf's reach.
  rock.shape = {
      {Length::feet(30), Length::feet(8)}, {Length::feet(20), Length::feet(60)}, {Length::feet(60), Length::feet(60)}, {Length::feet(50), Length::feet(8)}};
  job.site.zones = {rock};
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swing_zone"), 1);
  for (auto& corner : job.site.zones[0].shape) corner.second = corner.second + Length::feet(10);
  EXPECT_EQ(count_of(plan(job).findings, "setout.gate_swing_zone"), 0);
}

// A gate on a water line: the finding says how far the whole gate must move. Posts 151.375 in apart about 40 ft, holes of 9.5 in, tolerance 18 in: a post keeps 22.75 in off the line.
TEST(GateZones, AGateOnANoDigZoneSaysHowFarToMove) {
  job::Job job = gated();
  job::Zone water;
  water.id = "W";
  water.kind = job::ZoneKind::water;
  water.tolerance = Length::inches(18);
  const Length hinge = Length::feet(40) - Length::from_inches(75.6875);
  water.shape = {{hinge + Length::inches(10), Length::feet(-20)}, {hinge + Length::inches(10), Length::feet(20)}};
  job.site.zones = {water};
  auto p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.no_dig_gate"), 1);
  EXPECT_EQ(count_of(p.findings, "setout.no_dig_fixed"), 0);
  const Finding& f = *finding(p.findings, "setout.no_dig_gate");
  EXPECT_NEAR(length_in(f, "back").inches_value(), 12.75, 0.05);
  EXPECT_NEAR(length_in(f, "ahead").inches_value(), 32.75, 0.05);
  // Moved as told, it is clear.
  job.site.gates[0].station -= length_in(f, "back");
  EXPECT_EQ(count_of(plan(job).findings, "setout.no_dig_gate"), 0);
  // A second line where the latch post would go makes the move longer.
  job.site.gates[0].station = Length::feet(40);
  job.site.zones.push_back(water);
  job.site.zones[1].id = "gas";
  const Length latch = Length::feet(40) + Length::from_inches(75.6875) - Length::inches(30);
  job.site.zones[1].shape = {{latch, Length::feet(-20)}, {latch, Length::feet(20)}};
  p = plan(job);
  ASSERT_EQ(count_of(p.findings, "setout.no_dig_gate"), 1);
  EXPECT_NEAR(length_in(*finding(p.findings, "setout.no_dig_gate"), "back").inches_value(), 52.75, 0.05);  // the latch post to the near edge of the second
}

// Crossing lines are one place without holes, and the finding names them both.
TEST(Zones, OverlappingZonesAreNamedTogether) {
  job::Job job = straight(Length::feet(80));
  for (const char* id : {"gas", "water"}) {
    job::Zone zone;
    zone.id = id;
    zone.tolerance = Length::feet(3);
    const bool first = job.site.zones.empty();  // at 45 degrees, crossing 2 ft south of the leg
    zone.shape = {{Length::feet(first ? 26 : 38), Length::feet(4)}, {Length::feet(first ? 40 : 24), Length::feet(-10)}};
    job.site.zones.push_back(zone);
  }
  const auto p = plan(job);
  const Finding* f = finding(p.findings, "setout.no_dig");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(std::get<std::string>(f->values[0].second), "gas, water");
  for (const Post& q : p.layout.posts) EXPECT_FALSE(q.at.x > 29.6 * 0.3048 && q.at.x < 35.4 * 0.3048) << q.name;
}

// A zone from 2 in to 7 ft 9 in beyond the first post: no post fits before it, and a bay across it is 8 ft 1.75 in or so. The post need only come nearer.
TEST(Zones, AFixedPostThatOnlyHasToComeNearerIsNamed) {
  job::Job job = straight(Length::feet(80));
  job::Zone wet;
  wet.id = "wet";
  wet.area = true;
  wet.shape = {{Length::inches(12), Length::feet(-5)},
               {Length::from_inches(92.75), Length::feet(-5)},
               {Length::from_inches(92.75), Length::feet(5)},
               {Length::inches(12), Length::feet(5)}};
  job.site.zones = {wet};
  auto p = plan(job);
  const Finding* f = finding(p.findings, "setout.no_dig_first");
  ASSERT_NE(f, nullptr);
  // 92.75 + 4.75 = 97.5 in from the first post; the cap is 96.
  EXPECT_NEAR(length_in(*f, "by").inches_value(), 1.5, 0.05);
  job.site.points[0].east = length_in(*f, "by");
  EXPECT_EQ(finding(plan(job).findings, "setout.no_dig_first"), nullptr);
  EXPECT_EQ(finding(plan(job).findings, "setout.no_dig"), nullptr);
  // Seen from the other end it is the last post.
  job.site.points[0].east = Length();
  std::swap(job.site.legs[0].from, job.site.legs[0].to);
  EXPECT_NE(finding(plan(job).findings, "setout.no_dig_last"), nullptr);
}

TEST(Zones, AnOutlineThatCrossesItselfIsNamed) {
  job::Job job = straight(Length::feet(80));
  job::Zone bow;
  bow.id = "bow";
  bow.area = true;
  bow.shape = {
      {Length::feet(10), Length::feet(20)}, {Length::feet(20), Length::feet(30)}, {Length::feet(20), Length::feet(20)}, {Length::feet(10), Length::feet(30)}};
  job.site.zones = {bow};
  EXPECT_EQ(count_of(plan(job).findings, "setout.zone_crosses_itself"), 1);
  job.site.zones[0].shape = {
      {Length::feet(10), Length::feet(20)}, {Length::feet(20), Length::feet(20)}, {Length::feet(20), Length::feet(30)}, {Length::feet(10), Length::feet(30)}};
  EXPECT_EQ(count_of(plan(job).findings, "setout.zone_crosses_itself"), 0);
}

}  // namespace
}  // namespace railwright::setout
