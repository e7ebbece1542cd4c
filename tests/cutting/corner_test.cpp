// SPDX-License-Identifier: MIT
#include "engine/cutting/corner.h"

#include <set>

#include "engine/cutting/greedy.h"
#include "engine/cutting/layout.h"
#include "engine/cutting/meet.h"
#include "engine/cutting/remainders.h"
#include "tests/cutting/brute_force.h"

// The group of remainders, and what it says of plans.
namespace railwright::cutting::testing {
namespace {

using Vector = Remainders::Vector;

TEST(Remainders, CountsTheClassesModuloALattice) {
  Remainders group(2);
  ASSERT_TRUE(group.add({4, 0}));
  ASSERT_TRUE(group.add({2, 6}));
  ASSERT_TRUE(group.close(100));
  EXPECT_EQ(group.order(), 24);
  EXPECT_EQ(group.element({6, 6}), 0);
  EXPECT_NE(group.element({2, 0}), 0);
  EXPECT_EQ(group.element({2, 0}), group.element({0, -6}));
}

TEST(Remainders, RefusesInfiniteAndLargeGroups) {
  Remainders flat(2);
  ASSERT_TRUE(flat.add({1, 1}));
  EXPECT_FALSE(flat.close(1000));
  Remainders large(2);
  ASSERT_TRUE(large.add({1000, 0}));
  ASSERT_TRUE(large.add({0, 1000}));
  EXPECT_FALSE(large.close(999'999));
  EXPECT_TRUE(large.close(1'000'000));
}

// Against counting: as many classes as the group has elements, sums and differences as of the vectors.
TEST(Remainders, IsAHomomorphism) {
  Random random(7);
  int closed = 0;
  for (int i = 0; i < 200; ++i) {
    Remainders group(3);
    std::vector<Vector> lattice;
    for (int g = 0; g < 4; ++g) {
      lattice.push_back({random.between(-4, 4), random.between(-4, 4), random.between(-4, 4)});
      ASSERT_TRUE(group.add(lattice.back()));
    }
    if (!group.close(2000)) continue;
    ++closed;
    std::set<std::int64_t> seen;
    for (std::int64_t x = 0; x < group.order() && x < 130; ++x)
      for (std::int64_t y = 0; y < 12; ++y)
        for (std::int64_t z = 0; z < 12; ++z) seen.insert(group.element({x, y, z}));
    if (group.order() < 12) {
      EXPECT_EQ(static_cast<std::int64_t>(seen.size()), group.order());
    }
    for (const Vector& generator : lattice) EXPECT_EQ(group.element(generator), 0);
    const Vector a = {random.between(-50, 50), random.between(-50, 50), random.between(-50, 50)};
    const Vector b = {random.between(-50, 50), random.between(-50, 50), random.between(-50, 50)};
    EXPECT_EQ(group.element({a[0] + b[0], a[1] + b[1], a[2] + b[2]}), group.sum(group.element(a), group.element(b)));
    EXPECT_EQ(group.element({a[0] - b[0], a[1] - b[1], a[2] - b[2]}), group.difference(group.element(a), group.element(b)));
  }
  EXPECT_GT(closed, 100);
}

// The bound holds at any prices, and paths and meetings yield nothing but plans.
void try_corner(const Shape& shape, std::uint64_t seed, int cases) {
  Random random(seed);
  int known = 0;
  int sharp = 0;
  for (int i = 0; i < cases; ++i) {
    const auto instance = random_case(random, shape);
    if (!instance) continue;
    SCOPED_TRACE("case " + std::to_string(i));
    const std::int64_t truth = BruteForce(*instance).cost();
    const Model model(*instance);
    const Task task = whole_task(model);
    const OnProgress nothing;
    Budget budget(2000, nothing);
    Incumbent incumbent;
    incumbent.best = greedy(model, task);
    if (!incumbent.best.found) continue;
    Master root(model, task);
    root.solve({}, budget);
    std::vector<double> prices = root.last_prices();
    if (random.between(0, 1) == 1)
      for (double& price : prices) price *= static_cast<double>(random.between(80, 120)) / 100;
    Corner corner(model, task, prices, budget, incumbent);
    EXPECT_LE(corner.bound(), truth);
    corner.try_paths(50);
    EXPECT_LE(corner.bound(), truth);
    if (corner.known()) Meet(model, task, root, corner, budget, incumbent).run(corner.bound(), 2);
    known += corner.known();
    sharp += incumbent.best.cost == truth;
    EXPECT_GE(incumbent.best.cost, truth);
    for (const std::string& fault : check_plan(*instance, [&] {
           Plan plan = lay_out(model, incumbent.best);
           plan.bound = plan.cost;
           return plan;
         }()))
      ADD_FAILURE() << fault;
  }
  EXPECT_GT(known, cases / 5);
  EXPECT_GT(sharp, cases / 5);
}

TEST(Corner, BoundsPlansFromBelow) { try_corner({false, false, 30}, 11, 400); }
TEST(Corner, BoundsPlansOfCountedSticks) { try_corner({true, false, 30}, 12, 600); }

// Thirty kinds of used joint, eight lengths.
Instance used_joints() {
  Random random(5);
  std::vector<Stock> stocks;
  for (int k = 0; k < 30; ++k) {
    const std::int64_t length = random.between(5400, 6100);
    stocks.push_back(stock(length, length / 2 * 10, 2));
  }
  std::vector<Piece> pieces;
  for (int p = 0; p < 8; ++p) pieces.push_back(piece(random.between(400, 1900), random.between(10, 20)));
  return *Instance::build(stocks, pieces, Rules{});
}

// More work never makes plan or bound worse, and wherever it ends there is a whole plan.
TEST(Meet, StopsWhereverTheWorkEnds) {
  const Instance instance = used_joints();
  Plan before, first;
  for (const std::int64_t work : {0, 5, 20, 50, 80, 110, 150, 250, 500}) {
    Options options;
    options.work_limit = work;
    const Plan plan = solve_checked(instance, options);
    ASSERT_TRUE(plan.found);
    if (before.found) {
      EXPECT_LE(plan.cost, before.cost);
      EXPECT_GE(plan.bound, before.bound);
    }
    before = plan;
    if (work == 0) first = plan;
  }
  EXPECT_LT(before.cost, first.cost);
}

}  // namespace
}  // namespace railwright::cutting::testing
