// SPDX-License-Identifier: MIT
#include "tests/cutting/brute_force.h"

// Every small case is also solved by trying everything.
namespace railwright::cutting::testing {
namespace {

void compare(const Shape& shape, std::uint64_t seed, int cases) {
  Random random(seed);
  int proved = 0;
  int solved = 0;
  for (int i = 0; i < cases; ++i) {
    const auto instance = random_case(random, shape);
    if (!instance) {
      EXPECT_EQ(instance.error().code, "cutting.piece_too_long");
      continue;
    }
    SCOPED_TRACE("case " + std::to_string(i));
    const std::int64_t truth = BruteForce(*instance).cost();
    Options options;
    options.work_limit = 300;
    const Plan plan = solve_checked(*instance, options);
    ++solved;
    proved += plan.proved;
    EXPECT_EQ(plan.found, truth < kNever);
    EXPECT_LE(plan.bound.units(), truth);
    if (plan.found) {
      EXPECT_EQ(plan.cost.units(), truth);
    }
    if (plan.status == Status::infeasible) {
      EXPECT_EQ(truth, kNever);
    }
  }
  EXPECT_EQ(proved, solved);
  EXPECT_GT(solved, cases / 3);
}

TEST(BruteForce, SticksWithoutCount) { compare({false, false, 30}, 1, 800); }
TEST(BruteForce, CountedSticks) { compare({true, false, 30}, 2, 1200); }
TEST(BruteForce, ValuedDrops) { compare({false, true, 30}, 3, 600); }
TEST(BruteForce, CountedSticksAndValuedDrops) { compare({true, true, 40}, 4, 1000); }

}  // namespace
}  // namespace railwright::cutting::testing
