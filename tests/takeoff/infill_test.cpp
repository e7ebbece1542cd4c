// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "tests/takeoff/world.h"

// Mesh, panels, wire and gates on level ground, worked by hand: 25 bays of 8 ft = 200 ft, one stretch.
namespace railwright::takeoff {
namespace {

job::Fence fence_of(job::FenceKind kind, const std::string& supply) {
  job::Fence fence = rail_fence();
  fence.kind = kind;
  fence.rails = 1;
  fence.infill.supply = supply;
  fence.infill.height = in(48);
  return fence;
}

void add_supply(World& world, const std::string& id, const std::string& kind, Length width, Length length) {
  job::Supply supply;
  supply.id = id;
  supply.kind = kind;
  supply.width = width;
  supply.length = length;
  world.catalogue.supplies.push_back(supply);
}

Takeoff bill(World& world) {
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::cents(7680));
  world.offer("post stick", "2-7/8", Length::feet(21), Money::cents(12000));
  world.cut();
  return world.take();
}

// 200 ft and 6 in round each end post = 201 ft. Rolls of 100 ft: the first ends at 100, the second reaches 199 (1 ft lapped), the third 298: 203 ft are used
// with two laps. Mean 203 x 1.01 = 205.03, deviation 2.03: 208.37 ft suffice at 5 %: 3 rolls.
// Ties: 48 in on posts every 14 in: 4 spaces, 5 ties; on 24 line posts of 2-3/8 in 120, on 2 end posts of 2-7/8 in 10. On the rail 200 ft / 18 in =
// 133.3: 134, so 254 of 2-3/8 in.
TEST(Infill, MeshByHand) {
  World world(25, Length::feet(8), fence_of(job::FenceKind::mesh, "mesh 100"));
  add_supply(world, "mesh 100", "mesh", in(48), Length::feet(100));
  add_supply(world, "clip 2-3/8", "clip", in(2.375), {});
  add_supply(world, "clip 2-7/8", "clip", in(2.875), {});
  const Takeoff takeoff = bill(world);
  const OrderLine* mesh = line_of(takeoff, "mesh 100");
  ASSERT_NE(mesh, nullptr);
  EXPECT_NEAR(mesh->needed, 2.03, 1e-9);
  EXPECT_NEAR(mesh->needed + mesh->spare, 3, 1e-9);
  EXPECT_EQ(mesh->order, 3);
  EXPECT_EQ(mesh->unit, "roll");
  EXPECT_LT(mesh->running_short, 1e-6);
  EXPECT_EQ(line_of(takeoff, "clip 2-3/8")->needed, 254);
  EXPECT_EQ(line_of(takeoff, "clip 2-7/8")->needed, 10);
}

// 200 ft of 16 ft panels: 12.5, so 13. At 20 ft: 10.
TEST(Infill, PanelsByHand) {
  for (const auto& [feet, panels] : {std::pair<int, int>{16, 13}, {20, 10}}) {
    World world(25, Length::feet(8), fence_of(job::FenceKind::panels, "panel"));
    add_supply(world, "panel", "panel", in(50), Length::feet(feet));
    EXPECT_EQ(line_of(bill(world), "panel")->needed, panels);
  }
}

// Four wires of 200 + 2 x 3 = 206 ft are 824 ft. Rolls of 500: 206, 206 leave 88; the third wire takes them and 120 of the next with 2 ft lapped (380 left), the fourth 206: 2 rolls, one
// lap, 826 ft used. Four strainers; clips on 24 inner posts: 96.
TEST(Infill, WiresByHand) {
  job::Fence fence = fence_of(job::FenceKind::strained, "wire 500");
  fence.infill.wires = 4;
  World world(25, Length::feet(8), fence);
  add_supply(world, "wire 500", "wire", {}, Length::feet(500));
  add_supply(world, "strainer", "strainer", {}, {});
  add_supply(world, "clip", "clip", in(2.375), {});
  const Takeoff takeoff = bill(world);
  EXPECT_NEAR(line_of(takeoff, "wire 500")->needed, 826.0 / 500, 1e-9);
  EXPECT_EQ(line_of(takeoff, "wire 500")->order, 2);
  EXPECT_EQ(line_of(takeoff, "strainer")->needed, 4);
  EXPECT_EQ(line_of(takeoff, "clip")->needed, 96);
}

// A brace bay at each end, 8 ft long, its rail 36 in up: a loop is 2 sqrt(96^2 + 36^2) + 48 in = 253.06 in = 21.088 ft; two of them 42.18 ft.
TEST(Infill, BraceWireByHand) {
  World world(25, Length::feet(8), fence_of(job::FenceKind::mesh, "mesh 100"));
  add_supply(world, "mesh 100", "mesh", in(48), Length::feet(100));
  for (const std::size_t bay : {0u, 24u}) {
    world.layout.bays[bay].kind = setout::BayKind::brace;
    world.heights.bays[bay].has_brace_rail = true;
    world.heights.bays[bay].brace = {in(36), in(36)};
  }
  const Takeoff takeoff = bill(world);
  const OrderLine* wire = line_of(takeoff, "brace-wire");  // no supply: by the foot
  ASSERT_NE(wire, nullptr);
  EXPECT_NEAR(wire->needed, 42.18, 0.005);
  EXPECT_EQ(wire->unit, "ft");
  EXPECT_FALSE(wire->priced);
}

// A gate splits the stretch: bay 13 is an opening; 12 bays on each side are 2 x 96 ft.
TEST(Infill, AGateSplitsTheStretch) {
  World world(25, Length::feet(8), fence_of(job::FenceKind::mesh, "mesh 100"));
  world.layout.bays[12].kind = setout::BayKind::gate;
  job::Gate gate;
  gate.id = "g1";
  gate.leaf = Length::feet(7);
  gate.hinge = job::LeafEnd::both;
  world.job.site.gates = {gate};
  add_supply(world, "mesh 100", "mesh", in(48), Length::feet(100));
  const Remaining remaining(world.job, world.layout);
  const auto found = stretches(world.layout, remaining);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_NEAR(found[0].slope_m / measure::kMetrePerFoot, 96, 1e-9);
  EXPECT_EQ(found[1].first_bay, 13);
  const Takeoff takeoff = bill(world);
  EXPECT_EQ(line_of(takeoff, "gate-leaf")->order, 2);
  EXPECT_EQ(line_of(takeoff, "hinge-set")->order, 2);
  EXPECT_EQ(line_of(takeoff, "latch")->order, 1);
  // 97 ft a side: the second side's roll is a new one, the rest of 3 ft is thrown away.
  EXPECT_EQ(line_of(takeoff, "mesh 100")->order, 2);
}

// 5 posts at 3 min, 12 rails at 2, 15 bands at 1, 17 cuts at 3 = 15 + 24 + 15 + 51 = 105 min. A crew of two with 45 min lost a day has 2 x 7.25 = 14.5 h:
// 0.1207 days; one day begun costs 2 x 45 min more: 195 min = 3.25 h at 20.00 = 65.00.
TEST(Hours, ByHand) {
  World world(4);
  world.catalogue.hours = {{"stake", "post", 3, ""}, {"rail", "rail", 2, ""}, {"band", "fitting", 1, ""},
                           {"cut", "cut", 3, ""},    {"mesh", "ft", 9, ""},   {"sing", "song", 1, ""}};
  world.job.choices.crew.hourly = Money::whole(20);
  const Takeoff takeoff = bill(world);
  EXPECT_NEAR(takeoff.person_hours, 3.25, 1e-9);
  EXPECT_NEAR(takeoff.days, 1.75 / 14.5, 1e-9);
  EXPECT_EQ(takeoff.price.labour, Money::whole(65));
  ASSERT_EQ(takeoff.hours.size(), 5u);  // no mesh here
  EXPECT_EQ(takeoff.hours[3].count, 17);
  EXPECT_TRUE(world.found("takeoff.hour_unit", "sing"));
}

TEST(Hours, ADayWithoutWorkingHours) {
  World world(4);
  world.catalogue.hours = {{"stake", "post", 3, ""}};
  world.job.choices.crew.travel_minutes_per_day = 480;
  const Takeoff takeoff = bill(world);
  EXPECT_EQ(takeoff.days, 0);
  EXPECT_TRUE(world.found("takeoff.no_working_hours"));
}

// A stick of 21 ft at 0.21 a pound: 21 x 3.656 lb = 76.77 lb, 16.12. A price by the ton of 2 000 lb at 420.00 says the same.
TEST(PriceBook, ByWeightAndLength) {
  job::Catalogue c;
  Need need;
  need.item = "pipe";
  need.unit = "stick";
  need.needed = 1;
  need.each_length = Length::feet(21);
  need.each_kg = measure::pounds(21 * 3.656).si();
  Findings findings;
  c.prices = {{"pipe", "lb", Money::cents(21), 1, "", ""}};
  EXPECT_EQ(order_line(c, need, findings).amount, Money::cents(1612));
  c.prices[0].unit = "ton";
  c.prices[0].price = Money::whole(420);
  EXPECT_EQ(order_line(c, need, findings).amount, Money::cents(1612));
  c.prices[0].unit = "m";
  c.prices[0].price = Money::whole(10);
  EXPECT_EQ(order_line(c, need, findings).amount, Money::cents(6401));  // 6.4008 m
  EXPECT_TRUE(findings.empty());
  need.each_length = Length();
  EXPECT_FALSE(order_line(c, need, findings).priced);
  EXPECT_EQ(findings[0].code, "takeoff.price_unit");
}

// 61 bolts and 2 spares in boxes of 25: 75.
TEST(PriceBook, WholePacks) {
  job::Catalogue c;
  c.prices = {{"bolt", "each", Money::cents(45), 25, "", ""}};
  Need need;
  need.item = "bolt";
  need.unit = "each";
  need.needed = 61;
  need.spare = 2;
  Findings findings;
  const OrderLine line = order_line(c, need, findings);
  EXPECT_EQ(line.order, 75);
  EXPECT_EQ(line.amount, Money::cents(75 * 45));
  need.spare = 14;
  EXPECT_EQ(order_line(c, need, findings).order, 75);
  need.spare = 15;
  EXPECT_EQ(order_line(c, need, findings).order, 100);
}

}  // namespace
}  // namespace railwright::takeoff
