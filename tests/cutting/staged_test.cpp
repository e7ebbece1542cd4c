// SPDX-License-Identifier: MIT
#include "engine/cutting/staged.h"

#include "engine/cutting/checker.h"
#include "engine/cutting/greedy.h"
#include "engine/cutting/layout.h"
#include "tests/cutting/brute_force.h"

// The table of all plans, beside trying everything.
namespace railwright::cutting::testing {
namespace {

// Whatever the prices and the plan begun with, the least cost is found and known to be the least.
void try_staged(const Shape& shape, std::uint64_t seed, int cases) {
  Random random(seed);
  int improved = 0, proved = 0;
  for (int i = 0; i < cases; ++i) {
    const auto instance = random_case(random, shape);
    if (!instance) continue;
    SCOPED_TRACE("case " + std::to_string(i));
    const Model model(*instance);
    const Task task = whole_task(model);
    const OnProgress nothing;
    Budget budget(2000, nothing);
    Incumbent incumbent;
    incumbent.best = greedy(model, task);
    if (!incumbent.best.found) continue;
    const std::int64_t before = incumbent.best.cost;
    Master root(model, task);
    root.solve({}, budget);
    std::vector<double> prices = root.last_prices();
    if (random.between(0, 1) == 1)
      for (double& price : prices) price *= static_cast<double>(random.between(60, 140)) / 100;
    Staged staged(model, task, prices, budget, incumbent);
    if (!staged.small()) continue;
    ASSERT_TRUE(staged.run());
    EXPECT_EQ(incumbent.best.cost, BruteForce(*instance).cost());
    ++proved;
    improved += incumbent.best.cost < before;
    Plan plan = lay_out(model, incumbent.best);
    plan.bound = plan.cost;
    for (const std::string& fault : check_plan(*instance, plan)) ADD_FAILURE() << fault;
  }
  EXPECT_GT(proved, cases / 3);
  EXPECT_GT(improved, cases / 100);
}

TEST(Staged, FindsTheLeastCost) { try_staged({false, false, 30}, 21, 600); }
TEST(Staged, FindsTheLeastCostOfCountedSticks) { try_staged({true, false, 30}, 22, 900); }

// A table that cannot be held, and work that ends on the way, prove nothing and spoil nothing.
TEST(Staged, GivesUpWhereTheTableIsLargeOrTheWorkEnds) {
  Random random(23);
  std::vector<Stock> stocks;
  for (int k = 0; k < 20; ++k) {
    const std::int64_t length = random.between(5400, 6100);
    stocks.push_back(stock(length, length * 5, 3));
  }
  const auto job = [&](int lengths) {
    std::vector<Piece> pieces;
    for (int p = 0; p < lengths; ++p) pieces.push_back(piece(random.between(700, 1900), 40));
    return *Instance::build(stocks, pieces, Rules{});
  };
  for (const auto& [lengths, small] : {std::pair{3, true}, std::pair{8, false}}) {
    const Instance instance = job(lengths);
    const Model model(instance);
    const Task task = whole_task(model);
    const OnProgress nothing;
    Budget budget(1, nothing);
    Incumbent incumbent;
    incumbent.best = greedy(model, task);
    const std::int64_t before = incumbent.cutoff();
    Staged staged(model, task, std::vector<double>(model.sorts.size(), 1.0), budget, incumbent);
    EXPECT_EQ(staged.small(), small);
    EXPECT_FALSE(staged.run());
    EXPECT_LE(incumbent.cutoff(), before);
  }
}

}  // namespace
}  // namespace railwright::cutting::testing
