// SPDX-License-Identifier: MIT
#include "engine/spacing/spacing.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "data/shipped.h"
#include "engine/ground/profile.h"
#include "engine/spacing/account.h"
#include "engine/spacing/pipe_cost.h"
#include "engine/takeoff/takeoff.h"
#include "tests/spacing/exhaustive.h"
#include "tests/spacing/small_jobs.h"

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

// What the vector costs and what is left out of `choose`: the concrete's price, which every vector shares.
testing::Exhaustive::Answer exhaustive(const Bench& bench, int most_more) {
  const Money concrete = tabulate(bench.site(), 0).concrete_per_m3;
  return testing::Exhaustive(bench.job, bench.catalogue, bench.limits, bench.profiles, most_more, 300).search(concrete);
}

// Every line mode, rolling ground, several pipes, counted and held sticks, gates, zones, set posts: the bound is below the cheapest sound vector of all, and on jobs
// this small the search finds it. spacing_bench runs thousands of them.
TEST(Spacing, EqualsExhaustiveSearchOnSmallJobs) {
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Bench bench(testing::small_spacing_job(seed));
    const auto answer = exhaustive(bench, 2);
    if (answer.gave_up || !answer.best) continue;
    ++compared;
    const Choice choice = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, {400, 2});
    EXPECT_LE(choice.bound, *answer.best) << seed;
    EXPECT_GE(choice.cost, *answer.best) << seed;
    EXPECT_LE(choice.cost.value(), 1.003 * answer.best->value()) << seed;
  }
  EXPECT_GT(compared, 15);
}

// Gates, no-dig zones, braces, set posts, panel divisions and other modes beside it.
job::Job mixed_job(std::uint64_t seed) {
  SpacingCase c;
  c.runs = 4 + static_cast<int>(seed % 4);
  c.cap_inches = seed % 2 == 0 ? 108 : 96;
  c.longest_feet = 90;
  c.rolling = seed % 3 != 0;
  c.seed = seed;
  job::Job job = testing::spacing_job(c);
  job.choices.fences[0].line = static_cast<job::RailLine>(seed % 3);
  job::Fence other = job.choices.fences[0];
  other.id = "other";
  if (seed % 4 == 0) other.spacing.panel = Length::feet(16);
  if (seed % 4 == 1) other.spacing.mode = job::SpacingMode::equal;
  if (seed % 4 == 2) other.spacing.mode = job::SpacingMode::module;
  if (seed % 4 == 3) other.kind = job::FenceKind::strained, other.infill.supply = "wire", other.infill.wires = 4, other.rails = 1;
  job.choices.fences.push_back(other);
  job.site.legs[1].fence = "other";
  job::Gate gate;
  gate.id = "G1";
  gate.leg = "L0-";
  gate.station = Length::feet(11);
  gate.leaf = Length::feet(5);
  gate.hinge_clearance = gate.latch_clearance = Length::inches(3);
  job.site.gates.push_back(gate);
  const Length at = job.site.points[2].east, north = job.site.points[2].north - Length::feet(14);
  job::Zone zone;
  zone.id = "Z1";
  zone.kind = job::ZoneKind::gas;
  zone.shape = {{at - Length::feet(9), north}, {at + Length::feet(9), north}};
  zone.tolerance = Length::inches(18);
  job.site.zones.push_back(zone);
  job.field.posts.push_back({"S1", "L2-", Length::feet(9), {}, {}});
  return job;
}

TEST(Spacing, IsNeverDearerThanThePlainRulesNorUnderItsBound) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Bench bench(mixed_job(seed));
    const Choice choice = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, {200, 8});
    EXPECT_LE(choice.cost, choice.plain) << seed;
    EXPECT_LE(choice.bound, choice.cost) << seed;
    EXPECT_GT(choice.bound.value(), 0.9 * choice.cost.value()) << seed;
    Findings plain, best;
    setout::Limits limits = bench.limits;
    setout::set_out(bench.job, bench.catalogue, limits, bench.profiles, plain);
    limits.forced_bays = choice.bays;
    const setout::Layout layout = setout::set_out(bench.job, bench.catalogue, limits, bench.profiles, best);
    EXPECT_EQ(choice.bays.size(), layout.runs.size()) << seed;
    const auto stops = [](const Findings& findings) {
      return std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::stop; });
    };
    EXPECT_LE(stops(best), stops(plain)) << seed;
    for (std::size_t r = 0; r < layout.runs.size(); ++r) EXPECT_EQ(layout.runs[r].bay_count, choice.bays[r]) << seed;
  }
}

TEST(Spacing, IsNeverDearerThanBaysOfEightFeet) {
  for (const int cap : {96, 114}) {
    SpacingCase c;
    c.cap_inches = cap;
    c.longest_feet = 120;
    const Choice choice = Bench(testing::spacing_job(c)).choose();
    EXPECT_LE(choice.cost, choice.eight_foot);
    EXPECT_LE(choice.cost, choice.plain);
  }
}

// Whether stepped to the end or asked in between, the answer is the same, and the best so far only gets better.
TEST(Spacing, CanBeSteppedAndStopped) {
  SpacingCase c;
  c.runs = 6;
  c.longest_feet = 120;
  const Bench bench(testing::spacing_job(c));
  Chooser chooser(bench.job, bench.catalogue, bench.limits, bench.profiles, {120, 8});
  Progress last;
  int steps = 0;
  while (chooser.step()) {
    const Progress now = chooser.progress();
    if (last.known) {
      EXPECT_LE(now.cost, last.cost);
      EXPECT_GE(now.bound, last.bound);
    }
    if (++steps == 20) {
      const Choice early = chooser.choice();
      EXPECT_FALSE(early.finished);
      EXPECT_LE(early.cost, early.plain);
      EXPECT_LE(early.bound, early.cost);
    }
    last = now;
  }
  EXPECT_GT(steps, 20);
  EXPECT_TRUE(chooser.progress().done);
  const Choice stepped = chooser.choice(), whole = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, {120, 8});
  EXPECT_TRUE(whole.finished);
  EXPECT_EQ(stepped.bays, whole.bays);
  EXPECT_EQ(stepped.bound, whole.bound);
  int calls = 0;
  const Choice stopped = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, {120, 8}, [&](const Progress&) { return ++calls < 15; });
  EXPECT_EQ(calls, 15);
  EXPECT_FALSE(stopped.finished);
}

// Pitches of the runs of a layout, as groups that lie within the tolerance: counted here from the least up.
int different_pitches(const Bench& bench, const std::vector<int>& bays, Length alike) {
  Findings unused;
  setout::Limits limits = bench.limits;
  limits.forced_bays = bays;
  std::vector<Length> gaps;
  const setout::Layout layout = setout::set_out(bench.job, bench.catalogue, limits, bench.profiles, unused);
  for (const setout::Bay& bay : layout.bays) {
    if (bay.kind == setout::BayKind::fence && layout.runs[static_cast<std::size_t>(bay.run)].bay_count > 1) gaps.push_back(bay.gap);
  }
  std::sort(gaps.begin(), gaps.end());
  int groups = 0;
  for (std::size_t i = 0; i < gaps.size(); ++groups) {
    const Length first = gaps[i];
    while (i < gaps.size() && gaps[i] - first <= alike) ++i;
  }
  return groups;
}

TEST(Spacing, KeepsALimitOnLooksAndSaysWhatItCosts) {
  SpacingCase c;
  c.longest_feet = 150;
  c.cap_inches = 102;
  for (const int looks : {1, 2, 3}) {
    job::Job job = testing::spacing_job(c);
    job.choices.fences[0].spacing.looks = looks;
    const Bench bench(job);
    const Choice choice = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, {150, 12});
    ASSERT_EQ(choice.looks.size(), 1u);
    EXPECT_LE(choice.looks[0].shown, looks);
    EXPECT_EQ(different_pitches(bench, choice.bays, job.choices.fences[0].spacing.alike), choice.looks[0].shown);
    EXPECT_LE(choice.bound, choice.cost);
    EXPECT_LE(choice.without_limit.value_or(Money()), choice.cost);
    EXPECT_TRUE(choice.without_limit || looks > 1);
  }
}

// The cheapest of all vectors that keep the limit, each tried: the bound is below it, and the search is near.
TEST(Spacing, BoundHoldsUnderALimitOnLooks) {
  SpacingCase c;
  c.runs = 3;
  c.longest_feet = 60;
  job::Job job = testing::spacing_job(c);
  job.choices.fences[0].spacing.looks = 1;
  job.choices.fences[0].spacing.alike = Length::inches(6);
  const Bench bench(job);
  const Options options{300, 4};
  const Table table = tabulate(bench.site(), options.most_more);
  PipeCost pricer(table, job.choices.allowances.scatter, 200, Grain::exact);
  std::optional<Money> best;
  std::vector<std::size_t> at(table.runs.size(), 0);
  for (std::size_t r = 0; r < at.size();) {
    std::vector<const Bill*> bills{&table.shared.seen};
    std::vector<int> bays;
    for (std::size_t i = 0; i < at.size(); ++i) bills.push_back(&table.runs[i][at[i]].seen), bays.push_back(table.runs[i][at[i]].bays);
    if (different_pitches(bench, bays, Length::inches(6)) <= 1) {
      const Money cost = pricer.of(bills).cost;
      if (!best || cost < *best) best = cost;
    }
    for (r = 0; r < at.size() && ++at[r] == table.runs[r].size(); ++r) at[r] = 0;
  }
  const Choice choice = spacing::choose(bench.job, bench.catalogue, bench.limits, bench.profiles, options);
  ASSERT_TRUE(best);
  EXPECT_LE(choice.looks[0].shown, 1);
  EXPECT_LE(choice.bound, *best);
  EXPECT_GE(choice.bound.value(), 0.98 * best->value());  // one window: what the searches of the sets prove counts
  EXPECT_LE(choice.cost.value(), 1.002 * best->value());
}

TEST(Spacing, SaysWhereALimitOnLooksCannotBeKept) {
  SpacingCase c;
  c.runs = 6;
  c.longest_feet = 40;
  job::Job job = testing::spacing_job(c);
  job.choices.fences[0].spacing.looks = 1;
  job.choices.fences[0].spacing.alike = Length();
  const Choice choice = spacing::choose(job, Bench(job).catalogue, Bench(job).limits, Bench(job).profiles, {60, 4});
  ASSERT_EQ(choice.looks.size(), 1u);
  EXPECT_GT(choice.looks[0].shown, 1);
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
    std::vector<const Bill*> bills{&table.shared.seen};
    for (const auto& run : table.runs) bills.push_back(&run[static_cast<std::size_t>(draw.from_to(0, std::min(3, static_cast<int>(run.size()) - 1)))].seen);
    EXPECT_GE(pricer.of(bills).cost, choice.bound);
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
  EXPECT_EQ(plain.runs[0].bay_count, 27);  // 208 ft 3 in at 8 ft or less
  limits.forced_bays = choice.bays;
  const setout::Layout best = setout::set_out(job, bench.catalogue, limits, bench.profiles, unused);
  EXPECT_EQ(best.bays[5].gap, pitch - (Length::inches(2) + Length::sixty_fourths(24)));
}

// The same run with the usual allowances: a stick of 21 ft gives 251-1/4 in at most (1/4 in off each end, kerfs apart), three rails of 83-7/8 in with two kerfs and half an
// inch of scatter each want 253-3/8 in. Three to a stick want rails of 83-1/8 in less the scatter at most: 28 bays fail, and are not chosen.
TEST(Spacing, DoesNotFillTheStickWherePostsStray) {
  const Length pitch = Length::feet(7) + Length::inches(5) + Length::sixty_fourths(16);
  SpacingCase c;
  c.runs = 1;
  job::Job job = testing::spacing_job(c);
  job.site.points[1].east = pitch * 28;
  job.choices.fences[0].strong_pipe = job.choices.fences[0].gate_pipe = "2-3/8 sch40";
  job.choices.fences[0].setting = job::Setting::driven;
  const Choice usual = Bench(job).choose();
  EXPECT_NE(usual.bays, std::vector<int>{28});
  ASSERT_TRUE(usual.at_zero && usual.at_double);
  EXPECT_LE(*usual.at_zero, usual.cost);
  EXPECT_GE(*usual.at_double, usual.cost);
  job.choices.allowances.scatter = job.choices.allowances.squaring = Length();
  const Choice tight = Bench(job).choose();
  EXPECT_EQ(tight.bays, std::vector<int>{28});
  // What looks cheapest without allowances is dearer with the usual ones than what is chosen with them.
  job.choices.allowances = {};
  const Bench strayed(job);
  Table table = tabulate(strayed.site());
  PipeCost pricer(table, job.choices.allowances.scatter, 200, Grain::exact);
  std::vector<const Bill*> bills;
  const std::vector<Share> shares = account_of(strayed.site(), tight.bays, table);
  for (const Share& share : shares) bills.push_back(&share.seen);
  EXPECT_GT(pricer.of(bills).cost, usual.cost);
}

// Full sticks do not survive posts that stray: the same run with scatter costs more, and the figures say so.
TEST(Spacing, CostGrowsWithTheScatter) {
  SpacingCase c;
  c.runs = 6;
  const Choice choice = Bench(testing::spacing_job(c)).choose();
  ASSERT_TRUE(choice.at_zero && choice.at_double);
  EXPECT_LE(*choice.at_zero, choice.cost);
  EXPECT_GE(*choice.at_double, choice.cost);
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
    for (const Share& share : account_of(bench.site(), bays[i], table)) own[i] += share.seen.fixed.value();
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
