// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "tests/takeoff/world.h"

// Four bays of 8 ft, three rails, end posts of 2-7/8 in, line posts of 2-3/8 in, all worked by hand:
//
//  bay   posts          gap = 96 - half of both posts             rail = gap - 3   rails
//  a.1   2-7/8, 2-3/8   96 - 1.4375 - 1.1875 = 93.375             90.375           3
//  a.2   2-3/8, 2-3/8   96 - 2.375 = 93.625                       90.625           3
//  a.3   as a.2                                                   90.625           3
//  a.4   as a.1                                                   90.375           3
//
//  post        embedment          above ground                             trim   length
//  line (3)    24 + 1.5 = 25.5    54 - 1.1875 + 0.75 + 1 = 54.5625         1      81.0625
//  end (2)     25.5 + 6 = 31.5    54.5625                                  1      87.0625
//
//  sticks of 21 ft = 252 in, kerf 1/8 in, nothing cropped:
//  2-3/8: two rails 181.25 + 1/8 leave 70.5, too short for a post; three posts 243.1875 + 2/8 fit one stick: 12/2 + 1 = 7
//  2-7/8: two posts 174.125 + 1/8: 1
//
//  parts: 3 end parts on each of 2 end posts = 6, 3 through parts on each of 3 line posts = 9; bolts 6 x 2 + 9 x 3 = 39
//
//  holes: line 9.5 in, 25.5 deep: pi/4 (9.5^2 - 2.375^2) 25.5 = 1694.5 in3 = 0.98063 ft3; end 11.5 in, 31.5 deep: pi/4 (11.5^2 - 2.875^2) 31.5
//  = 3067.4 in3 = 1.77510 ft3. Sum 3 x 0.98063 + 2 x 1.77510 = 6.4921 ft3 = 10.82 bags of 0.60 ft3.
namespace railwright::takeoff {
namespace {

struct Bill : testing::Test {
  World world{4};
  Takeoff takeoff;
  void SetUp() override {
    world.offer("rail stick", "2-3/8", Length::feet(21), Money::cents(7680));
    world.offer("post stick", "2-7/8", Length::feet(21), Money::cents(12000));
    world.cut();
    takeoff = world.take();
  }
};

TEST_F(Bill, PostsByHand) {
  for (const int k : {0, 1, 2, 3, 4}) {
    const bool end = k == 0 || k == 4;
    const PostSize& post = takeoff.posts[static_cast<std::size_t>(k)];
    EXPECT_EQ(post.embedment, in(end ? 31.5 : 25.5));
    EXPECT_EQ(post.above_ground, in(54.5625));
    EXPECT_EQ(post.length, in(end ? 87.0625 : 81.0625));
    EXPECT_EQ(post.hole_diameter, in(end ? 11.5 : 9.5));
    EXPECT_EQ(post.hole_depth, post.embedment);
    EXPECT_NEAR(measure::in_cubic_feet(measure::Volume::si(post.concrete_m3)), end ? 1.77510 : 0.98063, 5e-5);
  }
}

TEST_F(Bill, SticksByHand) {
  ASSERT_EQ(world.cuts.size(), 2u);
  EXPECT_EQ(world.cuts[0].pipe, "2-3/8");
  EXPECT_EQ(world.cuts[0].plan.sticks_used, 7);
  EXPECT_TRUE(world.cuts[0].plan.proved);
  EXPECT_EQ(world.cuts[1].plan.sticks_used, 1);
  EXPECT_EQ(world.cuts[0].pieces.size(), 15u);
  const OrderLine* rails = line_of(takeoff, "rail stick");
  ASSERT_NE(rails, nullptr);
  EXPECT_EQ(rails->needed, 7);
  // One in a hundred sticks is bad: P(any of 7) = 1 - 0.99^7 = 0.0679 > 0.025, so one is added; P(2 or more of 8) = 0.0027.
  EXPECT_EQ(rails->spare, 1);
  EXPECT_NEAR(rails->running_short, 0.0027, 0.0001);
  EXPECT_EQ(rails->amount, Money::cents(8 * 7680));
  EXPECT_NEAR(rails->mass_kg, 8 * 21 * 0.3048 * 5.44, 1e-9);
  EXPECT_EQ(rails->why, "sticks");
}

TEST_F(Bill, PartsBoltsAndConcreteByHand) {
  EXPECT_EQ(line_of(takeoff, "end")->needed, 6);
  EXPECT_EQ(line_of(takeoff, "through")->needed, 9);
  EXPECT_EQ(line_of(takeoff, "through")->amount, Money::cents(800) * static_cast<std::int64_t>(line_of(takeoff, "through")->order));
  EXPECT_EQ(line_of(takeoff, "bolt")->needed, 39);
  EXPECT_EQ(line_of(takeoff, "nut")->needed, 39);
  const OrderLine* bags = line_of(takeoff, "80 lb bag");
  EXPECT_NEAR(bags->needed, 10.82, 0.005);
  // 6.4921 x 1.05 + 1.645 x 0.1 sqrt(3 x 0.98063^2 + 2 x 1.77510^2) = 6.8167 + 0.4986 = 7.3153 ft3 = 12.19 bags: 13.
  EXPECT_NEAR(bags->needed + bags->spare, 12.19, 0.005);
  EXPECT_EQ(bags->order, 13);
  EXPECT_EQ(bags->amount, Money::cents(13 * 550));
}

TEST_F(Bill, EveryLineIsEnoughAndAddsUp) {
  Money sum;
  for (const OrderLine& line : takeoff.orders) {
    EXPECT_GE(line.order + 1e-9, line.needed + line.spare) << line.item;
    EXPECT_NEAR(line.order / line.pack, std::round(line.order / line.pack), 1e-9) << line.item;
    EXPECT_LE(line.running_short, world.job.choices.allowances.running_short) << line.item;
    sum += line.amount;
  }
  EXPECT_EQ(takeoff.price.materials, sum);
  EXPECT_EQ(takeoff.price.overhead, Money(sum.times(0.10)).round_to_cents());
  EXPECT_EQ(takeoff.price.total, takeoff.price.materials + takeoff.price.overhead);
  EXPECT_EQ(takeoff.price.per_foot, takeoff.price.total.times(1.0 / 32).round_to_cents());
}

// No mesh, no wire: nothing of either is bought. Caps are wanted and nobody sells them.
TEST_F(Bill, NothingThatTheFenceHasNot) {
  for (const OrderLine& line : takeoff.orders) EXPECT_TRUE(line.group != "infill" && line.group != "wire" && line.group != "gates");
  EXPECT_TRUE(world.found("takeoff.no_supply", "cap"));
  EXPECT_FALSE(line_of(takeoff, "cap")->priced);
}

TEST(Rails, ADrivenPostNeedsNoConcrete) {
  World world(4);
  world.job.choices.fences[0].setting = job::Setting::driven;
  for (const PostSize& post : world.sizes()) {
    EXPECT_EQ(post.concrete_m3, 0);
    EXPECT_EQ(post.hole_diameter, Length());
  }
}

TEST(Rails, FrostDeepensTheHoleNotThePost) {
  World world(4);
  world.job.choices.fences[0].frost_depth = in(42);
  const auto sizes = world.sizes();
  EXPECT_EQ(sizes[1].hole_depth, in(42));
  EXPECT_EQ(sizes[1].embedment, in(25.5));
  // pi/4 (9.5^2 x 42 - 2.375^2 x 25.5) = 2864.1 in3
  EXPECT_NEAR(sizes[1].concrete_m3 / std::pow(0.0254, 3), 2864.1, 0.1);
}

// Work done is not bought again: bay a.1 bolted, post a0 and a1 set, one rail of a.2 already cut.
TEST(Rails, WhatIsDoneIsLeftOut) {
  World world(4);
  world.job.field.done = {"a.1", "a0", "a1"};
  world.job.field.cut = {{"a.2/1", in(90.625)}};
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::cents(7680));
  world.offer("post stick", "2-7/8", Length::feet(21), Money::cents(12000));
  world.cut();
  // 12 rails less 3 of a.1 less 1 cut; 3 line posts less a1; of the end posts a4 alone.
  EXPECT_EQ(world.cuts[0].pieces.size(), 8u + 2u);
  EXPECT_EQ(world.cuts[1].pieces.size(), 1u);
  const Takeoff takeoff = world.take();
  EXPECT_EQ(line_of(takeoff, "end")->needed, 3);      // a0's serve a bolted bay
  EXPECT_EQ(line_of(takeoff, "through")->needed, 9);  // a1's still wait for a.2
  EXPECT_EQ(takeoff.posts[0].concrete_m3, 0);
}

TEST(Pieces, GroupsOffersAndHeldSticks) {
  World world(4);
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::whole(84));
  world.job.choices.allowances.stick_tolerance = in(1);
  world.job.choices.allowances.squaring = in(0.25);
  world.job.field.sticks = {{"used joint", "2-3/8", Length::feet(30), 2, in(4)}};
  world.cuts = gather_pieces(world.job, world.catalogue, world.layout, world.assembly, world.sizes(), world.findings);
  const PipeCuts& pipe = world.cuts[0];
  ASSERT_EQ(pipe.stocks.size(), 2u);
  EXPECT_EQ(pipe.instance.stocks()[0].length, in(251));
  EXPECT_EQ(pipe.stocks[0].nominal, Length::feet(21));
  // The held joint loses 4 in at each end: 3.75 before the tape is laid, 0.25 by the job's rule.
  EXPECT_EQ(pipe.stocks[1].kind, StockKind::held);
  EXPECT_EQ(pipe.stocks[1].cut_first, in(3.75));
  EXPECT_EQ(pipe.instance.stocks()[1].length, in(352.5));
  EXPECT_EQ(pipe.instance.stocks()[1].count, 2);
  // Worth half the price by length: 84 x 0.5 x 352.5 / 252.
  EXPECT_EQ(pipe.instance.stocks()[1].price, Money::whole(84).times(0.5 * 352.5 / 252));
  EXPECT_EQ(pipe.instance.rules().crop_start, in(0.25));
  EXPECT_EQ(pipe.instance.pieces()[0].label, "a.1/1");
  EXPECT_EQ(pipe.instance.pieces()[0].group, pipe.instance.pieces()[2].group);
  EXPECT_NE(pipe.instance.pieces()[0].group, pipe.instance.pieces()[3].group);
  // Nobody offers 2-7/8: 21 ft is taken, and said.
  EXPECT_TRUE(world.found("takeoff.no_offer", "2-7/8"));
  EXPECT_EQ(world.cuts[1].stocks[0].kind, StockKind::assumed);
  EXPECT_FALSE(world.cuts[1].stocks[0].priced);
}

TEST(Pieces, APieceLongerThanEveryStickIsNamed) {
  World world(2, Length::feet(24));
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::whole(84));
  world.cut();
  EXPECT_TRUE(world.found("takeoff.piece_too_long", "a.1/1"));
  EXPECT_EQ(world.cuts[0].pieces.size(), 1u);  // the one line post
}

TEST(Pieces, SticksThatDoNotSuffice) {
  World world(4);
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::whole(84));
  world.job.choices.offers[0].count = 2;
  world.cut();
  const Takeoff takeoff = world.take();
  EXPECT_TRUE(world.found("takeoff.sticks_do_not_suffice", "2-3/8"));
  EXPECT_EQ(line_of(takeoff, "rail stick"), nullptr);
}

TEST(Pieces, DropsGoBackOnTheRack) {
  World world(4);
  world.offer("rail stick", "2-3/8", Length::feet(21), Money::whole(84));
  world.offer("post stick", "2-7/8", Length::feet(21), Money::whole(126));
  world.cut();
  const auto drops = returned_drops(world.cuts);
  // Of six sticks with two rails (252 - 2 rails - 2/8) at least 70.5 in remain: over 4 ft, kept; the two end posts leave 252 - 174.125 - 0.25 = 77.625.
  std::int64_t count = 0;
  for (const ReturnedDrop& drop : drops) count += drop.count;
  EXPECT_EQ(count, 7);
  EXPECT_EQ(drops.back().pipe, "2-7/8");
  EXPECT_EQ(drops.back().length, in(77.625));
  EXPECT_NEAR(drops.back().worth.value(), 126 * 0.5 * 77.625 / 252, 0.0001);  // rounded down
}

// Scatter: the tighter the sticks are filled, the more are ordered.
TEST(Pieces, ScatterAsksForSpares) {
  const auto spare = [](double pitch_inches) {
    World world(60, in(pitch_inches));
    world.job.choices.allowances.scatter = in(0.5);
    world.offer("rail stick", "2-3/8", Length::feet(21), Money::whole(84));
    world.offer("post stick", "2-7/8", Length::feet(21), Money::whole(126));
    world.cut();
    const Takeoff takeoff = world.take();
    const OrderLine* line = line_of(takeoff, "rail stick");
    EXPECT_LE(line->running_short, 0.05);
    return line->spare / line->needed;
  };
  // 7 ft 5-1/4 in fills a stick with three rails to the last eighth; 7 ft leaves most of a foot.
  EXPECT_GT(spare(89.25), spare(84) + 0.05);
}

}  // namespace
}  // namespace railwright::takeoff
