// SPDX-License-Identifier: MIT
#include <algorithm>

#include "tests/cutting/support.h"

// The numbered properties of cutting.h.
namespace railwright::cutting::testing {
namespace {

struct Problem {
  std::vector<Stock> stocks;
  std::vector<Piece> pieces;
  Rules rules;
};

Problem random_problem(Random& random) {
  Problem problem;
  problem.rules = kerf(random.between(0, 3));
  for (std::int64_t k = random.between(1, 3); k > 0; --k) {
    const std::int64_t length = random.between(200, 400);
    problem.stocks.push_back(stock(length, length * 10 + random.between(-100, 100)));
  }
  for (std::int64_t p = random.between(2, 8); p > 0; --p) problem.pieces.push_back(piece(random.between(30, 190), random.between(1, 12)));
  return problem;
}

TEST(Properties, WaitingPiecesComeLast) {  // (7)
  Random random(7);
  for (int i = 0; i < 40; ++i) {
    Problem problem = random_problem(random);
    for (Piece& one : problem.pieces) one.waits = random.between(0, 1) == 1;
    const Plan plan = solve_checked(problem.stocks, problem.pieces, problem.rules);
    for (const Stick& stick : plan.sticks) {
      const auto waits = [&](int index) { return problem.pieces[static_cast<std::size_t>(index)].waits; };
      EXPECT_TRUE(std::is_partitioned(stick.pieces.begin(), stick.pieces.end(), [&](int index) { return !waits(index); }));
    }
  }
}

TEST(Properties, OrderOfTheInputChangesNothingProved) {  // (5)
  Random random(11);
  for (int i = 0; i < 60; ++i) {
    Problem problem = random_problem(random);
    const Plan first = solve_checked(problem.stocks, problem.pieces, problem.rules);
    std::reverse(problem.pieces.begin(), problem.pieces.end());
    std::reverse(problem.stocks.begin(), problem.stocks.end());
    const Plan second = solve_checked(problem.stocks, problem.pieces, problem.rules);
    ASSERT_TRUE(first.proved && second.proved) << i;
    EXPECT_EQ(first.cost, second.cost) << i;
  }
}

TEST(Properties, ScaleChangesNothing) {  // (6)
  Random random(12);
  for (int i = 0; i < 40; ++i) {
    Problem problem = random_problem(random);
    const Plan first = solve_checked(problem.stocks, problem.pieces, problem.rules);
    for (Stock& s : problem.stocks) s.length = s.length * 1587500;
    for (Piece& p : problem.pieces) p.length = p.length * 1587500;
    problem.rules.kerf = problem.rules.kerf * 1587500;
    const Plan second = solve_checked(problem.stocks, problem.pieces, problem.rules);
    EXPECT_EQ(first.cost, second.cost);
    EXPECT_EQ(first.bound, second.bound);
    EXPECT_EQ(first.setups, second.setups);
  }
}

TEST(Properties, SameInputSamePlan) {  // (4)
  Random random(13);
  const Problem problem = random_problem(random);
  const Plan first = solve_checked(problem.stocks, problem.pieces, problem.rules);
  const Plan second = solve_checked(problem.stocks, problem.pieces, problem.rules);
  ASSERT_EQ(first.sticks.size(), second.sticks.size());
  for (std::size_t s = 0; s < first.sticks.size(); ++s) EXPECT_EQ(first.sticks[s].pieces, second.sticks[s].pieces);
  EXPECT_EQ(first.work, second.work);
}

// Sticks cut at random into pieces without waste: that many sticks are enough, and no fewer can be.
TEST(Properties, KnownPerfectCuts) {
  Random random(14);
  for (int i = 0; i < 30; ++i) {
    const std::int64_t sticks = random.between(3, 25);
    std::vector<Piece> pieces;
    for (std::int64_t s = 0; s < sticks; ++s) {
      std::int64_t left = 1000 + 4;  // one kerf more than the stick
      for (std::int64_t parts = random.between(2, 5); parts > 1; --parts) {
        const std::int64_t length = random.between(60, left / parts + 40);
        pieces.push_back(piece(length));
        left -= length + 4;
      }
      pieces.push_back(piece(left - 4));
    }
    const Plan plan = solve_checked({stock(1000, 1)}, pieces, kerf(4));
    EXPECT_TRUE(plan.proved) << i;
    EXPECT_EQ(plan.sticks_used, sticks) << i;
  }
}

TEST(Properties, WorkLimitGivesAPlanAndABound) {
  Random random(15);
  std::vector<Piece> pieces;
  for (int p = 0; p < 300; ++p) pieces.push_back(piece(random.between(900, 2500)));
  for (const std::int64_t limit : {1, 20, 400}) {
    Options options;
    options.work_limit = limit;
    const Plan plan = solve_checked({stock(4032, 384), stock(4608, 439)}, pieces, kerf(2), options);
    EXPECT_TRUE(plan.found);
    EXPECT_LE(plan.cost.units() - plan.bound.units(), plan.cost.units() / 8);
  }
}

TEST(Properties, CancelGivesTheBestSoFar) {
  Random random(16);
  std::vector<Piece> pieces;
  for (int p = 0; p < 300; ++p) pieces.push_back(piece(random.between(900, 2500)));
  Options options;
  int calls = 0;
  options.on_progress = [&](const Progress& progress) {
    EXPECT_LE(progress.bound, progress.cost);
    return ++calls < 3;
  };
  const Plan plan = solve_checked({stock(4032, 384), stock(4608, 439)}, pieces, kerf(2), options);
  EXPECT_EQ(plan.status, Status::cancelled);
  EXPECT_TRUE(plan.found);
  EXPECT_EQ(calls, 3);
}

// Exact pricing without the dynamic program: lengths on a grid of single nanometres.
TEST(Properties, FineGridIsSolvedBySearch) {
  Random random(17);
  std::vector<Piece> pieces;
  for (int p = 0; p < 14; ++p) pieces.push_back(piece(random.between(1'500'000'001, 2'900'000'001), random.between(1, 4)));
  const Plan plan = solve_checked({stock(6'400'800'000, 38400)}, pieces, kerf(3'175'000));
  EXPECT_TRUE(plan.found);
  EXPECT_LE(plan.cost.units() - plan.bound.units(), 38400);
}

TEST(Properties, PiecesOfAGroupStayClose) {
  std::vector<Piece> pieces;
  for (int bay = 0; bay < 40; ++bay)
    for (int rail = 0; rail < 3; ++rail) {
      pieces.push_back(piece(80));
      pieces.back().group = (bay * 7) % 40;  // given out of order
    }
  const Plan plan = solve_checked({stock(240, 1)}, pieces);
  EXPECT_EQ(plan.sticks_used, 40);
  for (const Stick& stick : plan.sticks)
    for (const int p : stick.pieces) EXPECT_EQ(pieces[p].group, pieces[stick.pieces.front()].group);
}

}  // namespace
}  // namespace railwright::cutting::testing
