// SPDX-License-Identifier: MIT
#include <map>

#include "engine/cutting/gather.h"
#include "engine/cutting/greedy.h"
#include "engine/cutting/numbers.h"
#include "engine/cutting/tidy.h"
#include "tests/cutting/support.h"

// The parts of the search that change whole plans, each on its own.
namespace railwright::cutting::testing {
namespace {

struct Whole {
  std::map<int, std::int64_t> pieces, sticks;  // by sort, by type
  friend bool operator==(const Whole&, const Whole&) = default;
};

Whole whole(const std::vector<Use>& uses) {
  Whole sum;
  for (const Use& use : uses) {
    sum.sticks[use.pattern.type] += use.count;
    for (const Take& take : use.pattern.takes) sum.pieces[take.sort] += take.count * use.count;
  }
  return sum;
}

void expect_fits(const Model& model, const std::vector<Use>& uses) {
  for (const Use& use : uses) EXPECT_LE(model.used(use.pattern), model.types[use.pattern.type].capacity);
}

// Pieces of 300 to 1100 from 40 sticks of 4000, each cut up without waste.
std::vector<Piece> cut_up(Random& random) {
  std::vector<Piece> pieces;
  for (int stick = 0; stick < 40; ++stick) {
    std::int64_t left = 4000;
    while (left > 1400) {
      pieces.push_back(piece(random.between(300, 1100)));
      left -= pieces.back().length.nm();
    }
    pieces.push_back(piece(left / 2));
    pieces.push_back(piece(left - left / 2));
  }
  return pieces;
}

// Not one unit of length may be wasted on any of the 40 sticks: longest first does not get there, gathering does.
TEST(Gather, FindsPlansWithoutAnyWaste) {
  for (int i = 0; i < 5; ++i) {
    Random random(900 + i);
    const Instance instance = *Instance::build({stock(4000, 1)}, cut_up(random), Rules{});
    const Model model(instance);
    const Solution first = greedy(model, whole_task(model));
    ASSERT_GT(first.cost, 40);
    const OnProgress nothing;
    Budget budget(100'000, nothing);
    std::vector<Use> plan = first.uses;
    ASSERT_TRUE(Gather(model, budget, 1).run({40}, 200'000, plan)) << i;
    EXPECT_EQ(whole(plan).pieces, whole(first.uses).pieces);
    EXPECT_EQ(whole(plan).sticks.at(0), 40);
    expect_fits(model, plan);
  }
}

TEST(Gather, LeavesThePlanAloneWhereItFails) {
  Random random(1);
  const Instance instance = *Instance::build({stock(4000, 1)}, cut_up(random), Rules{});
  const Model model(instance);
  const OnProgress nothing;
  Budget budget(100'000, nothing);
  std::vector<Use> plan = greedy(model, whole_task(model)).uses;
  const Whole before = whole(plan);
  EXPECT_FALSE(Gather(model, budget, 1).run({39}, 2'000, plan));
  EXPECT_EQ(whole(plan), before);
}

// Tidying changes neither the pieces nor the sticks used nor the cost, and never makes more patterns.
TEST(Tidy, KeepsCostPiecesAndSticks) {
  std::size_t before = 0, after = 0;
  for (int i = 0; i < 200; ++i) {
    Random random(1700 + i);
    std::vector<Piece> pieces;
    for (int p = 0; p < 12; ++p) pieces.push_back(piece(random.between(20, 60), random.between(1, 9)));
    Rules rules = kerf(1);
    if (i % 2 == 1) {
      rules.keep_from = Length::from_nm(15);
      rules.drop_value = Money::from_units(1);
      rules.drop_value_per = Length::from_nm(1);
    }
    const Instance instance = *Instance::build({stock(100, 110), stock(150, 160)}, pieces, rules);
    const Model model(instance);
    const std::vector<Use> uses = merged(greedy(model, whole_task(model)).uses);
    std::vector<Use> tidied = uses;
    tidy(model, tidied, 1'000'000);
    EXPECT_EQ(whole(tidied), whole(uses));
    EXPECT_EQ(total_cost(model, tidied), total_cost(model, uses));
    EXPECT_LE(tidied.size(), uses.size());
    expect_fits(model, tidied);
    before += uses.size();
    after += tidied.size();
  }
  EXPECT_LT(after, before);
}

// 50 + 30 + 20 on two sticks, and the pieces of two more such sticks mixed up as 50 + 50 and 30 + 30 + 20 + 20: one exchange makes all four alike.
TEST(Tidy, UndoesAMixUp) {
  const Instance instance = *Instance::build({stock(100, 1)}, {piece(50, 4), piece(30, 4), piece(20, 4)}, Rules{});
  const Model model(instance);  // sorts 50, 30, 20
  std::vector<Use> uses = {{{0, {{0, 1}, {1, 1}, {2, 1}}}, 2}, {{0, {{0, 2}}}, 1}, {{0, {{1, 2}, {2, 2}}}, 1}};
  tidy(model, uses, 10'000);
  ASSERT_EQ(uses.size(), 1U);
  EXPECT_EQ(uses.front().count, 4);
}

// Sticks of 10 at 7 and of 13 at 9 for pieces of 10, 10 and 13: only one 13 and two 10 suffice, at 23, though the material is there from 22 on.
TEST(Numbers, CostsThatNoSticksAddUpToAreRuledOut) {
  const Instance instance = *Instance::build({stock(10, 7), stock(13, 9)}, {piece(10, 2), piece(13, 1)}, Rules{});
  const Model model(instance);
  const Task task = whole_task(model);
  const OnProgress nothing;
  Budget budget(1000, nothing);
  Incumbent incumbent;
  incumbent.best = greedy(model, task);
  ASSERT_EQ(incumbent.best.cost, 23);
  Numbers numbers(model, task, {7.0, 9.0}, budget, incumbent);  // sorts 13, 10 at too low and too high a price: a weak valuation must stay valid
  EXPECT_LE(numbers.raised(1), 23);
  Numbers right(model, task, {9.0, 7.0}, budget, incumbent);
  EXPECT_EQ(right.raised(20), 23);
}

}  // namespace
}  // namespace railwright::cutting::testing
