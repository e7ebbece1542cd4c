// SPDX-License-Identifier: MIT
#include "engine/spacing/spacing.h"

#include <gtest/gtest.h>

#include "data/shipped.h"
#include "engine/ground/profile.h"
#include "engine/spacing/pipe_cost.h"
#include "engine/spacing/table.h"
#include "engine/takeoff/takeoff.h"
#include "tests/spacing/spacing_jobs.h"

namespace railwright::spacing {
namespace {

using testing::SpacingCase;

// A job with all that `choose` and `tabulate` want.
struct Bench {
  job::Job job;
  job::Catalogue catalogue = data::shipped();
  setout::Limits limits;
  std::vector<ground::Profile> profiles;

  explicit Bench(job::Job given) : job(std::move(given)) {
    Findings unused;
    profiles = ground::profiles(job.site, unused);
    for (const job::Fence& fence : job.choices.fences) limits.pitch_cap.push_back(fence.spacing.cap);
  }
  Site site() const { return {job, catalogue, limits, profiles}; }
  Choice choose() const { return spacing::choose(job, catalogue, limits, profiles); }
};

// The cheapest choice of all, by cutting every one of them.
Priced exhaustive(const Table& table, Length scatter) {
  PipeCost pricer(table, scatter, 400, Grain::exact);
  std::vector<std::size_t> at(table.runs.size(), 0);
  Priced best{Money::whole(1'000'000'000), Money::whole(1'000'000'000), false};
  while (true) {
    std::vector<const Share*> shares{&table.shared};
    for (std::size_t r = 0; r < at.size(); ++r) shares.push_back(&table.runs[r][at[r]]);
    const Priced priced = pricer.of(shares);
    best.cost = std::min(best.cost, priced.cost);
    best.bound = std::min(best.bound, priced.bound);
    std::size_t r = 0;
    while (r < at.size() && ++at[r] == table.runs[r].size()) at[r++] = 0;
    if (r == at.size()) return best;
  }
}

TEST(Spacing, EqualsExhaustiveSearchOnSmallJobs) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    SpacingCase c;
    c.runs = 2 + static_cast<int>(seed % 2);
    c.cap_inches = seed % 3 == 0 ? 102 : 96;
    c.longest_feet = 60;
    c.rolling = seed % 4 == 0;
    c.seed = seed;
    if (seed % 5 == 0) c.sticks = {21, 24};
    const Bench bench(testing::spacing_job(c));
    const Priced best = exhaustive(tabulate(bench.site()), bench.job.choices.allowances.scatter);
    const Choice choice = bench.choose();
    EXPECT_LE(choice.bound, best.cost) << seed;
    EXPECT_EQ(choice.cost, best.cost) << seed;
  }
}

TEST(Spacing, IsNeverDearerThanThePlainRulesNorUnderItsBound) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    SpacingCase c;
    c.runs = 4 + static_cast<int>(seed);
    c.cap_inches = seed % 2 == 0 ? 108 : 96;
    c.longest_feet = 120;
    c.rolling = seed % 3 == 0;
    c.seed = seed;
    job::Job job = testing::spacing_job(c);
    job.choices.fences[0].line = static_cast<job::RailLine>(seed % 3);
    const Choice choice = Bench(job).choose();
    EXPECT_LE(choice.cost, choice.plain);
    EXPECT_LE(choice.cost, choice.eight_foot);
    EXPECT_LE(choice.bound, choice.cost);
    EXPECT_GT(choice.bound.value(), 0.97 * choice.cost.value());
    EXPECT_EQ(choice.bays.size(), static_cast<std::size_t>(c.runs));
  }
}

// The bound is below every choice, not only below the one that was found.
TEST(Spacing, NoChoiceDrawnAtRandomIsUnderTheBound) {
  SpacingCase c;
  c.runs = 12;
  c.longest_feet = 150;
  c.sticks = {21, 24, 32};
  const Bench bench(testing::spacing_job(c));
  const Choice choice = bench.choose();
  Table table = tabulate(bench.site());
  PipeCost pricer(table, bench.job.choices.allowances.scatter, 60, Grain::exact);
  testing::Draw draw(5);
  for (int i = 0; i < 60; ++i) {
    std::vector<const Share*> shares{&table.shared};
    for (const auto& run : table.runs) shares.push_back(&run[static_cast<std::size_t>(draw.from_to(0, std::min(3, static_cast<int>(run.size()) - 1)))]);
    EXPECT_GE(pricer.of(shares).cost, choice.bound);
  }
}

// One run of equal posts, no loss at the sticks' ends: at an 8 ft pitch two rails of 90-5/8 in come from a stick of 21 ft, at 7 ft 5-1/4 in three of
// 83-7/8 in (251-5/8 of 252 in). Arithmetic by hand; take-off and clear gap as in docs/setout.md.
TEST(Spacing, TakesThreeRailsOfAStickInsteadOfTwo) {
  const auto quarter = Length::sixty_fourths(16);
  const Length pitch = Length::feet(7) + Length::inches(5) + quarter;
  SpacingCase c;
  c.runs = 1;
  job::Job job = testing::spacing_job(c);
  job.site.points[1].east = pitch * 28;
  job.choices.fences[0].strong_pipe = job.choices.fences[0].gate_pipe = "2-3/8 sch40";
  job.choices.fences[0].setting = job::Setting::driven;
  job.choices.allowances.squaring = job.choices.allowances.scatter = Length();
  const Bench bench(job);
  const Choice choice = bench.choose();
  EXPECT_EQ(choice.bays, std::vector<int>{28});
  EXPECT_LT(choice.cost, choice.plain);
  Findings unused;
  setout::Limits limits = bench.limits;
  const setout::Layout plain = setout::set_out(job, bench.catalogue, limits, bench.profiles, unused);
  EXPECT_EQ(plain.runs[0].bay_count, 27);   // 208 ft 3 in at 8 ft or less
  limits.forced_bays = choice.bays;
  const setout::Layout best = setout::set_out(job, bench.catalogue, limits, bench.profiles, unused);
  EXPECT_EQ(best.bays[5].gap, pitch - (Length::inches(2) + Length::sixty_fourths(24)));
}

// Full sticks do not survive posts that stray: the same run with scatter costs more, and the figures say so.
TEST(Spacing, CostGrowsWithTheScatter) {
  SpacingCase c;
  c.runs = 6;
  const Choice choice = Bench(testing::spacing_job(c)).choose();
  EXPECT_LE(choice.at_zero, choice.cost);
  EXPECT_GE(choice.at_double, choice.cost);
}

TEST(Spacing, ChoosesTheSameEveryTime) {
  SpacingCase c;
  c.runs = 8;
  const Bench bench(testing::spacing_job(c));
  const Choice a = bench.choose(), b = bench.choose();
  EXPECT_EQ(a.bays, b.bays);
  EXPECT_EQ(a.bound, b.bound);
}

TEST(Spacing, KeepsRunsWhoseStakesAreIssued) {
  SpacingCase c;
  c.runs = 4;
  Bench bench(testing::spacing_job(c));
  Findings findings;
  const setout::Layout layout = setout::set_out(bench.job, bench.catalogue, bench.limits, bench.profiles, findings);
  bench.job.issued.posts = layout.new_posts;
  bench.job.issued.bays = layout.new_bays;
  const Choice choice = bench.choose();
  EXPECT_EQ(choice.free_runs, 0);
  for (std::size_t r = 0; r < layout.runs.size(); ++r) EXPECT_EQ(choice.bays[r], layout.runs[r].bay_count);
}

TEST(Spacing, LeavesOtherModesAlone) {
  SpacingCase c;
  job::Job job = testing::spacing_job(c);
  EXPECT_TRUE(wanted(job));
  job.choices.fences[0].spacing.mode = job::SpacingMode::equal;
  EXPECT_FALSE(wanted(job));
  EXPECT_EQ(Bench(job).choose().free_runs, 0);
}

TEST(Spacing, ManagesWithoutRunsOrSticks) {
  job::Job empty;
  const Choice nothing = Bench(empty).choose();
  EXPECT_EQ(nothing.cost, Money());
  EXPECT_TRUE(nothing.bays.empty());
  SpacingCase c;
  job::Job few = testing::spacing_job(c);
  for (job::StockOffer& offer : few.choices.offers) offer.count = 3;
  const Choice choice = Bench(few).choose();
  EXPECT_EQ(choice.bays.size(), 5u);
  EXPECT_LE(choice.bound, choice.cost);
}

// The tariff counts what the buying list and the hours count: the difference between two layouts is the same, but for packs, spares and days begun.
TEST(Spacing, CountsWhatTheTakeoffCounts) {
  SpacingCase c;
  c.runs = 3;
  job::Job job = testing::spacing_job(c);
  job.choices.crew.setup_minutes_per_day = 0;
  const Bench bench(job);
  Table table = tabulate(bench.site());
  std::vector<int> bays[2];
  for (const auto& run : table.runs) {
    bays[0].push_back(run[0].bays);
    bays[1].push_back(run[2].bays);
  }
  double own[2] = {0, 0}, listed[2] = {0, 0};
  for (int i = 0; i < 2; ++i) {
    for (const Share& share : account_of(bench.site(), bays[i], table)) own[i] += share.fixed.value();
    setout::Limits limits = bench.limits;
    limits.forced_bays = bays[i];
    Findings f;
    const auto layout = setout::set_out(job, bench.catalogue, limits, bench.profiles, f);
    const auto heights = grade::rail_heights(job, bench.catalogue, layout, {}, f);
    const auto assembly = fittings::assemble(job, bench.catalogue, layout, heights, {}, f);
    auto posts = takeoff::size_posts(job, bench.catalogue, layout, heights, assembly, f);
    auto cuts = takeoff::gather_pieces(job, bench.catalogue, layout, assembly, posts, f);
    for (auto& pipe : cuts) pipe.plan = cutting::solve(pipe.instance, {cutting::Effort::quick, 100, {}});
    const auto list = takeoff::take_off({job, bench.catalogue, layout, heights, assembly, cuts}, posts, f);
    for (const auto& line : list.orders) {
      if (line.group != "pipe") listed[i] += line.price.value() * line.needed;
    }
    listed[i] += list.person_hours * job.choices.crew.hourly.value();
  }
  EXPECT_NEAR(own[1] - own[0], listed[1] - listed[0], 0.001 * (listed[1] - listed[0]));
}

}  // namespace
}  // namespace railwright::spacing
