// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "tests/takeoff/world.h"

namespace railwright::takeoff {
namespace {

// One mile: 660 bays, 1 980 rails. Counts grow with the fence, and nothing else does: twice the bays need twice the parts but two end posts' worth.
TEST(Scale, AMileIsCountedRight) {
  const auto bill = [](int bays) {
    World world(bays);
    world.offer("rail stick", "2-3/8", Length::feet(21), Money::cents(7680));
    world.offer("post stick", "2-7/8", Length::feet(21), Money::cents(12000));
    world.cuts = gather_pieces(world.job, world.catalogue, world.layout, world.assembly, world.sizes(), world.findings);
    for (PipeCuts& pipe : world.cuts) pipe.plan = cutting::solve(pipe.instance, {cutting::Effort::quick, 50, {}});
    return world.take();
  };
  const Takeoff one = bill(330), two = bill(660);
  EXPECT_EQ(line_of(two, "through")->needed, 3 * 659);
  EXPECT_EQ(line_of(one, "through")->needed, 3 * 329);
  EXPECT_EQ(line_of(two, "end")->needed, 6);
  // 1 980 rails two a stick, 659 posts three a stick.
  EXPECT_EQ(line_of(two, "rail stick")->needed, 990 + 220);
}

}  // namespace
}  // namespace railwright::takeoff
