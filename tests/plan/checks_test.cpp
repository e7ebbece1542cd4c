// SPDX-License-Identifier: MIT
#include "engine/plan/checks.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/strength/embedment.h"
#include "engine/strength/wire.h"
#include "tests/takeoff/world.h"

namespace railwright {
namespace {

using measure::Length;
using takeoff::in;
using takeoff::World;

World with_ground(int bays, Length pitch, job::Fence fence = takeoff::rail_fence()) {
  fence.animal = "donkey";
  fence.soil = "clay";
  World world(bays, pitch, std::move(fence));
  job::Animal donkey;
  donkey.id = "donkey";
  donkey.push = measure::pounds_force(200);
  world.catalogue.animals = {donkey};
  // IBC Table 1806.2, class 5: 100 psf per foot.
  world.catalogue.soils = {{"clay", 100 * strength::kPascalPerMetreOfPsfPerFoot, 71820, true, "IBC Table 1806.2"}};
  return world;
}

std::vector<Check> run(World& world, const CheckRules& rules = {}) {
  return checks(world.job, world.catalogue, world.layout, world.heights, world.sizes(), world.findings, rules);
}

const Check* find(const std::vector<Check>& all, const std::string& code, const std::string& where = {}) {
  for (const Check& check : all) {
    if (check.code == code && (where.empty() || check.where == where)) return &check;
  }
  return nullptr;
}

double kip_inches(double newton_metres) { return newton_metres / (measure::pounds_force(1000).si() * 0.0254); }

// Design wall 0.93 x 0.154 = 0.14322 in: Z = (2.375^3 - 2.08856^3)/6 = 0.71430 in3; yield 241 MPa = 34.954 ksi; Mn/1.67 = 14.951 kip in.
// 200 lb at the middle of 8 ft: 200 x 96 / 4 = 4.8 kip in; the weight 5.44 kg/m = 3.656 lb/ft: 3.656/12 x 96^2 / 8 = 0.351. Together 5.151, ratio 0.3445.
TEST(Checks, RailByHand) {
  World world = with_ground(4, Length::feet(8));
  const auto all = run(world);
  const Check* rail = find(all, "rail_bending", "a.1");
  ASSERT_NE(rail, nullptr);
  EXPECT_NEAR(kip_inches(rail->capacity), 14.951, 0.005);
  EXPECT_NEAR(kip_inches(rail->demand), 5.151, 0.005);
  EXPECT_NEAR(rail->ratio, 0.3445, 0.0005);
  EXPECT_TRUE(rail->ok);
  // I = pi/64 (2.375^4 - 2.08856^4) = 0.6277 in4: 200 x 96^3 / (48 x 29e6 x 0.6277) + 5 x 0.30467 x 96^4 / (384 x 29e6 x 0.6277) = 0.2025 + 0.0185 = 0.2210 in = 5.61 mm; limit 96/60 = 1.6 in.
  const Check* sag = find(all, "rail_sag");
  EXPECT_NEAR(sag->demand, 5.61, 0.02);
  EXPECT_NEAR(sag->capacity, 40.64, 0.01);
}

// The worst bay is named once, not every bay.
TEST(Checks, OneCheckForTheWorstBay) {
  World world = with_ground(6, Length::feet(8));
  world.layout.bays[3].pitch = Length::feet(9);
  const auto all = run(world);
  EXPECT_EQ(find(all, "rail_bending")->where, "a.4");
  EXPECT_EQ(std::count_if(all.begin(), all.end(), [](const Check& c) { return c.code == "rail_bending"; }), 1);
}

// 200 lb at 53.5625 in on a 9.5 in hole, 25.5 in deep, clay doubled to 200 psf/ft: the depth by the formula is more than there is, and the finding says so.
TEST(Checks, EmbedmentAgainstTheFormula) {
  World world = with_ground(4, Length::feet(8));
  const auto all = run(world);
  const Check* depth = find(all, "post_embedment", "a1");
  ASSERT_NE(depth, nullptr);
  const auto needed = strength::nonconstrained({measure::pounds_force(200), in(53.5625), in(9.5)}, 200 * strength::kPascalPerMetreOfPsfPerFoot);
  EXPECT_NEAR(depth->demand, needed.depth_m, 1e-9);
  EXPECT_NEAR(depth->capacity, in(25.5).metres(), 1e-12);
  EXPECT_FALSE(depth->ok);
  EXPECT_TRUE(world.found("checks.post_embedment", "a1"));
  world.job.choices.fences[0].embedment = Length::feet(5);
  world.findings.clear();
  const auto deeper = run(world);
  EXPECT_TRUE(find(deeper, "post_embedment", "a1")->ok);
  EXPECT_FALSE(world.found("checks.post_embedment", "a1"));
}

TEST(Checks, WithoutSoilTheDepthIsNotChecked) {
  World world = with_ground(4, Length::feet(8));
  world.catalogue.soils.clear();
  EXPECT_EQ(find(run(world), "post_embedment"), nullptr);
  EXPECT_TRUE(world.found("checks.no_soil", "paddock"));
}

// Wind: Kz 0.849 (15 ft, exposure C), q = 0.00256 x 0.849 x 0.85 x 105^2 = 20.37 psf; three rails of 2.375 in over 54 in: e = 0.1319, Cf 1.3. q G Cf e = 2.970 psf, over 16 e = 2.11.
// Times 0.6 on 4.5 x 8 ft: 64.2 lb at 2.25 ft: 1.732 kip in.
TEST(Checks, WindByHand) {
  World world = with_ground(4, Length::feet(8));
  const auto all = run(world);
  EXPECT_NEAR(kip_inches(find(all, "post_wind")->demand), 1.732, 0.005);
}

// Five wires of 0.099 in at 250 lb, 100 F colder: 250 + 145.1 = 395.1 lb each, 1975.6 in all at half of 48 in; brace rail at 36 in, 8 ft long:
// C = 1975.6 x 24/36 = 1317.1 lb, T = C sqrt(96^2 + 36^2)/96 = 1406.6, V = C x 36/96 = 493.9 lb.
TEST(Checks, BraceByHand) {
  job::Fence fence = takeoff::rail_fence();
  fence.kind = job::FenceKind::strained;
  fence.rails = 1;
  fence.infill.supply = "wire";
  fence.infill.wires = 5;
  fence.infill.height = in(48);
  World world = with_ground(6, Length::feet(8), fence);
  job::Supply wire;
  wire.id = "wire";
  wire.kind = "wire";
  wire.diameter_mm = 2.5146;
  wire.strength_n = measure::pounds_force(1540).si();
  job::Supply brace = wire;
  brace.id = "brace wire";
  brace.kind = "brace-wire";
  world.catalogue.supplies = {wire, brace};
  world.layout.bays[0].kind = setout::BayKind::brace;
  world.layout.posts[1].kind = setout::PostKind::brace;
  world.heights.bays[0].has_brace_rail = true;
  world.heights.bays[0].brace = {in(36), in(36)};
  const auto all = run(world);
  const auto lb = [](double n) { return n / measure::pounds_force(1).si(); };
  EXPECT_NEAR(lb(find(all, "wire_cold")->demand), 395.1, 0.1);
  EXPECT_NEAR(lb(find(all, "brace_compression", "a.1")->demand), 1317.1, 0.5);
  EXPECT_NEAR(lb(find(all, "brace_wire")->demand), 1406.6, 0.5);
  const Check* uplift = find(all, "end_post_uplift", "a0");
  ASSERT_NE(uplift, nullptr);
  EXPECT_NEAR(lb(uplift->demand), 493.9, 0.3);
  // a0: hole 11.5 in, 31.5 in deep: 1.7751 ft3 at 150 lb = 266.3 lb, and 90 kgf = 198.4 lb.
  EXPECT_NEAR(lb(uplift->capacity), 464.7, 0.2);
  EXPECT_FALSE(uplift->ok);
  EXPECT_TRUE(world.found("checks.no_brace_bearing", "paddock"));
  // The other end has no brace.
  EXPECT_NE(find(all, "end_post_bending", "a6"), nullptr);
  EXPECT_EQ(find(all, "end_post_bending", "a0"), nullptr);
  // Driven, the end post holds 900 kgf.
  world.job.choices.fences[0].setting = job::Setting::driven;
  const auto driven = run(world);
  EXPECT_TRUE(find(driven, "end_post_uplift", "a0")->ok);
}

// A 12 ft leaf of 120 lb, 4 in off the post: 120 x 76 in = 9.12 kip in. MIL-HDBK-1013/10 asks for 4 in; 2-7/8 is too thin.
TEST(Checks, GateByHand) {
  World world = with_ground(4, Length::feet(8));
  job::Gate gate;
  gate.id = "g1";
  gate.leaf = Length::feet(12);
  gate.hinge_clearance = in(4);
  gate.leaf_mass_kg = measure::pounds(120).si();
  world.job.site.gates = {gate};
  world.layout.posts[0].gate = "g1";
  const auto all = run(world);
  EXPECT_NEAR(kip_inches(find(all, "gate_post_bending", "g1")->demand), 9.12, 0.005);
  EXPECT_FALSE(find(all, "gate_post_size", "g1")->ok);
  EXPECT_NE(find(all, "gate_post_embedment", "g1"), nullptr);
  world.job.site.gates[0].leaf_mass_kg = 0;
  EXPECT_EQ(find(run(world), "gate_post_bending"), nullptr);
  EXPECT_TRUE(world.found("checks.no_leaf_mass", "g1"));
}

// The cap is the smaller of the user's and the rail's; at the cap the rail still carries, and a stronger push brings it in.
TEST(Checks, PitchCapsObeyTheRail) {
  World world = with_ground(4, Length::feet(8));
  EXPECT_EQ(pitch_caps(world.job, world.catalogue)[0], Length::feet(8));
  world.job.choices.fences[0].spacing.cap = Length::feet(40);
  const Length carried = pitch_caps(world.job, world.catalogue)[0];
  EXPECT_LT(carried, Length::feet(40));
  world.layout.bays[1].pitch = carried;
  EXPECT_TRUE(find(run(world), "rail_bending", "a.2")->ok);
  EXPECT_TRUE(find(run(world), "rail_sag", "a.2")->ok);
  world.layout.bays[1].pitch = carried + Length::mm(2);
  const auto over = run(world);
  EXPECT_FALSE(find(over, "rail_bending")->ok && find(over, "rail_sag")->ok);
  world.catalogue.animals[0].push = measure::pounds_force(2000);
  EXPECT_LT(pitch_caps(world.job, world.catalogue)[0], carried);
  world.catalogue.animals[0].push = measure::pounds_force(1e6);
  EXPECT_EQ(pitch_caps(world.job, world.catalogue)[0], Length::feet(2));
  world.job.choices.fences[0].kind = job::FenceKind::wire;
  EXPECT_EQ(pitch_caps(world.job, world.catalogue)[0], Length::feet(40));
}

}  // namespace
}  // namespace railwright
