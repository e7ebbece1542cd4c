// SPDX-License-Identifier: MIT
#include "engine/takeoff/position_range.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/ground/profile.h"
#include "tests/setout/site_drawing.h"

namespace railwright::takeoff {
namespace {

namespace drawn = setout::drawn;

// A job laid out, with posts of 2 m, and what its points' error does.
struct Planned {
  job::Job job;
  job::Catalogue catalogue = drawn::catalogue();
  std::vector<Length> caps;
  setout::Layout layout;
  grade::Heights heights;
  fittings::Assembly assembly;
  std::vector<PipeCuts> cuts;
  Takeoff takeoff;

  explicit Planned(job::Job drawn) : job(std::move(drawn)) {
    Findings findings;
    for (const job::Fence& fence : job.choices.fences) caps.push_back(fence.spacing.cap);
    layout = setout::set_out(job, catalogue, {caps, {}}, ground::profiles(job.site, findings), findings);
    takeoff.posts.resize(layout.posts.size());
    for (PostSize& post : takeoff.posts) post.length = Length::mm(2000);
    for (std::size_t bay = 0; bay < layout.bays.size(); ++bay) {
      for (int number = 1; number <= 3; ++number) {
        fittings::Rail rail;
        rail.length = layout.bays[bay].pitch;
        assembly.rails.push_back(rail);
      }
    }
  }
  std::optional<PositionRange> range() const { return position_range({job, catalogue, layout, heights, assembly, cuts}, takeoff, caps); }
};

job::Job plain(job::Job job, Length accuracy) {
  job.choices.fences[0].braces.ends = job.choices.fences[0].braces.corners = false;
  job.site.position_accuracy = accuracy;
  return job;
}

job::Job nothing() {
  job::Job job;
  job.site.position_accuracy = Length::mm(500);
  return job;
}

// One leg between two points of error s: its length has the error s root 2, and 19 of 20 lie within 1.96 of that (propagation of variances, Ghilani and Wolf,
// Elementary Surveying, chapter on errors). The thousand fences know their 95 % point to about 4 %.
TEST(PositionRange, OneLegFollowsThePropagationOfVariances) {
  const Planned p(plain(drawn::straight(Length::feet(800)), Length::mm(500)));
  const auto range = p.range();
  ASSERT_TRUE(range);
  const double half = 1.96 * std::sqrt(2.0) * 0.5;
  EXPECT_NEAR(range->fence.metres(), half, 0.1 * half);
  EXPECT_EQ(range->accuracy, Length::mm(500));
  // Bays of 8 ft: 1.386 m is 0.57 of a bay, so one bay more or less; three rails each.
  EXPECT_EQ(range->bays, 1);
  EXPECT_EQ(range->posts, 1);
  EXPECT_EQ(range->rails, 3);
  // Pipe: three rails along the change, and a post of 2 m where a bay comes or goes.
  EXPECT_GT(range->pipe.metres(), 3 * half * 0.9);
  EXPECT_LT(range->pipe.metres(), 3 * half * 1.1 + 2.0);
}

// A square pen: at each corner the two unit vectors differ by root 2, so the length all round has the error s root 8.
TEST(PositionRange, ALoopFollowsThePropagationOfVariances) {
  job::Job job = plain(drawn::site("A--------B\n\n\n\n\n\n\n\n\nD        C", {"AB", "BC", "CD", "DA"}, Length::feet(40), Length::feet(40)), Length::mm(1000));
  const Length cap = Length::from_inches(4320 / 43.5);  // sides of 360 ft are 43 bays and a half: a bay comes as easily as it goes
  job.choices.fences[0].spacing.cap = cap;
  const Planned p(std::move(job));
  const auto range = p.range();
  ASSERT_TRUE(range);
  const double half = 1.96 * std::sqrt(8.0);
  EXPECT_NEAR(range->fence.metres(), half, 0.1 * half);
  EXPECT_NEAR(static_cast<double>(range->bays), half / cap.metres(), 1.01);
  EXPECT_EQ(range->rails, 3 * range->bays);
}

// Sides of exactly 45 bays of 8 ft: a hair more on any of them is a bay more, so twice as many are at stake.
TEST(PositionRange, FullBaysAreASharpEdge) {
  const Planned p(plain(drawn::site("A--------B\n\n\n\n\n\n\n\n\nD        C", {"AB", "BC", "CD", "DA"}, Length::feet(40), Length::feet(40)), Length::mm(10)));
  const auto range = p.range();
  ASSERT_TRUE(range);
  EXPECT_EQ(range->bays, 4);
  EXPECT_LT(range->fence.metres(), 0.07);
}

// A point in the middle of a straight line moves it hardly at all; the points' own accuracy goes before the site's.
TEST(PositionRange, AMiddlePointHardlyMatters) {
  job::Job job = plain(drawn::site("A----B----C", {"AB", "BC"}, Length::feet(100), Length::feet(10)), Length::mm(100));
  job.site.points[1].accuracy = Length::mm(3000);
  const Planned p(std::move(job));
  const auto range = p.range();
  ASSERT_TRUE(range);
  const double half = 1.96 * std::sqrt(2.0) * 0.1;
  EXPECT_LT(range->fence.metres(), half + 0.15);  // 3 m aside in 500 ft lengthens by 3 cm each side, squared
  EXPECT_GT(range->fence.metres(), 0.9 * half);
}

TEST(PositionRange, TapedAndSetPointsHaveNone) {
  EXPECT_FALSE(Planned(plain(drawn::straight(Length::feet(800)), {})).range());
  job::Job job = plain(drawn::straight(Length::feet(800)), Length::mm(500));
  for (job::Point& point : job.site.points) point.accuracy = Length();
  EXPECT_FALSE(Planned(job).range());
  job = plain(drawn::straight(Length::feet(800)), Length::mm(500));
  job.field.posts = {{"A", "L", {}, {}, {}}, {"B", "L", Length::feet(800), {}, {}}};
  EXPECT_FALSE(Planned(job).range());
  EXPECT_FALSE(Planned(nothing()).range());
}

// The price moves with pipe, length and bays; gates stay. Worked by hand for a change of pipe alone: nothing else has a price.
TEST(PositionRange, ThePriceFollowsThePipe) {
  Planned p(plain(drawn::straight(Length::feet(800)), Length::mm(500)));
  OrderLine pipe;
  pipe.group = "pipe";
  pipe.amount = Money::whole(3000);
  OrderLine gate;
  gate.group = "gates";
  gate.amount = Money::whole(1000);
  p.takeoff.orders = {pipe, gate};
  p.takeoff.price.materials = Money::whole(4000);
  p.takeoff.price.total = Money::whole(4400);
  const auto range = p.range();
  ASSERT_TRUE(range);
  double metres = 0;
  for (const PostSize& post : p.takeoff.posts) metres += post.length.metres();
  for (const fittings::Rail& rail : p.assembly.rails) metres += rail.length.metres();
  EXPECT_NEAR(range->price.value(), 3000 * range->pipe.metres() / metres * 1.1, 0.5);
}

}  // namespace
}  // namespace railwright::takeoff
