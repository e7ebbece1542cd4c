// SPDX-License-Identifier: MIT
// The choice of bay counts beside the plain rule, its bound and the cheapest of all choices, on invented jobs.
//   spacing_bench [SEEDS]         jobs of 5 to 60 runs, SEEDS of each kind (1 unless given), one CSV line each:
//     runs,cap_in,sticks,ground,line,plain,eight_foot,cost,bound,saving_pct,gap_pct,at_zero,at_double,ms   then the spread of saving, gap and time
//   spacing_bench --small N       N small jobs: search and bound beside the cheapest of all choices
//   spacing_bench --looks         the same with a limit on different pitches
//   spacing_bench --orientation   savings of one leg of fence by stick and cap
// Times are of the processor, so that a busy machine tells the same.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string>
#include <vector>

#include "data/shipped.h"
#include "engine/ground/profile.h"
#include "engine/plan/checks.h"
#include "engine/spacing/spacing.h"
#include "engine/spacing/table.h"
#include "tests/spacing/exhaustive.h"
#include "tests/spacing/small_jobs.h"

namespace {

using railwright::job::Job;
using railwright::measure::Money;
using railwright::spacing::Choice;
using railwright::testing::SpacingCase;

struct Row {
  double saving = 0, gap = 0, ms = 0;
};

class Bench {
 public:
  Choice choose(const Job& job, const railwright::spacing::Options& options = {}) const {
    return railwright::spacing::choose(job, shipped_, limits(job), profiles(job), options);
  }
  railwright::testing::Exhaustive::Answer try_all(const Job& job, int most_more) const {
    const auto limits = this->limits(job);
    const auto profiles = this->profiles(job);
    const Money concrete = railwright::spacing::tabulate({job, shipped_, limits, profiles}, 0).concrete_per_m3;
    return railwright::testing::Exhaustive(job, shipped_, limits, profiles, most_more).search(concrete);
  }

 private:
  railwright::setout::Limits limits(const Job& job) const { return {railwright::pitch_caps(job, shipped_), {}}; }
  std::vector<railwright::ground::Profile> profiles(const Job& job) const {
    railwright::Findings findings;
    return railwright::ground::profiles(job.site, findings);
  }
  railwright::job::Catalogue shipped_ = railwright::data::shipped();
};

double percent_below(Money a, Money b) { return 100 * (1 - a.value() / b.value()); }

Row measure_case(const Bench& bench, const SpacingCase& c, railwright::job::RailLine line) {
  static constexpr const char* kLines[] = {"follow", "level", "smooth"};
  Job job = railwright::testing::spacing_job(c);
  job.choices.fences[0].line = line;
  const std::clock_t start = std::clock();
  const Choice choice = bench.choose(job);
  Row row;
  row.ms = 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  row.saving = percent_below(choice.cost, choice.plain);
  row.gap = percent_below(choice.bound, choice.cost);
  std::printf("%d,%d,%zu,%s,%s,%.2f,%.2f,%.2f,%.2f,%.3f,%.3f,%.2f,%.2f,%.0f\n", c.runs, c.cap_inches, c.sticks.size(), c.rolling ? "rolling" : "flat",
              kLines[static_cast<int>(line)], choice.plain.value(), choice.eight_foot.value(), choice.cost.value(), choice.bound.value(), row.saving, row.gap,
              choice.at_zero.value_or(Money()).value(), choice.at_double.value_or(Money()).value(), row.ms);
  std::fflush(stdout);
  return row;
}

void print_spread(const char* name, std::vector<double> values) {
  if (values.empty()) return;
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) { return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))]; };
  std::printf("%s: median %.3f, nine in ten %.3f, least %.3f, most %.3f\n", name, at(0.5), at(0.9), values.front(), values.back());
}

int run_large(int seeds) {
  using railwright::job::RailLine;
  const Bench bench;
  std::puts("runs,cap_in,sticks,ground,line,plain,eight_foot,cost,bound,saving_pct,gap_pct,at_zero,at_double,ms");
  std::vector<double> savings, gaps, times;
  for (const int runs : {5, 10, 20, 40, 60}) {
    for (const int cap : {96, 102, 108, 120}) {
      for (const auto& sticks : {std::vector<int>{21}, std::vector<int>{21, 24, 32}}) {
        for (int kind = 0; kind < 4 * seeds; ++kind) {
          SpacingCase c;
          c.runs = runs;
          c.cap_inches = cap;
          c.sticks = sticks;
          c.rolling = kind % 4 > 0;
          c.seed = static_cast<std::uint64_t>(1 + kind / 4);
          const RailLine line = kind % 4 == 2 ? RailLine::level : kind % 4 == 3 ? RailLine::smooth : RailLine::follow;
          const Row row = measure_case(bench, c, line);
          savings.push_back(row.saving);
          gaps.push_back(row.gap);
          times.push_back(row.ms);
        }
      }
    }
  }
  print_spread("saving %", savings);
  print_spread("gap %", gaps);
  print_spread("time ms", times);
  return 0;
}

int run_small(int count) {
  const Bench bench;
  int compared = 0, over = 0, same = 0;
  std::vector<double> above, below;
  for (int seed = 1; seed <= count; ++seed) {
    const Job job = railwright::testing::small_spacing_job(static_cast<std::uint64_t>(seed));
    const auto all = bench.try_all(job, 2);
    if (all.gave_up || !all.best) continue;
    const Choice choice = bench.choose(job, {400, 2});
    ++compared;
    same += choice.cost == *all.best ? 1 : 0;
    above.push_back(-percent_below(choice.cost, *all.best));
    below.push_back(percent_below(choice.bound, *all.best));
    if (choice.bound <= *all.best) continue;
    ++over;
    std::printf("seed %d: the bound %.4f is above the cheapest, %.4f\n", seed, choice.bound.value(), all.best->value());
  }
  std::printf("%d of %d small jobs compared; the search found the cheapest in %d; the bound was above the cheapest in %d\n", compared, count, same, over);
  print_spread("search above the cheapest %", above);
  print_spread("bound below the cheapest %", below);
  return over == 0 ? 0 : 1;
}

int run_looks() {
  const Bench bench;
  std::puts("runs,cap_in,looks,shown,cost,bound,without_limit,gap_pct,ms");
  for (const int looks : {1, 2, 3}) {
    std::vector<double> gaps, times;
    for (const int runs : {5, 20, 60}) {
      for (const int cap : {96, 108}) {
        SpacingCase c;
        c.runs = runs;
        c.cap_inches = cap;
        Job job = railwright::testing::spacing_job(c);
        job.choices.fences[0].spacing.looks = looks;
        const std::clock_t start = std::clock();
        const Choice choice = bench.choose(job);
        times.push_back(1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
        gaps.push_back(percent_below(choice.bound, choice.cost));
        std::printf("%d,%d,%d,%d,%.2f,%.2f,%.2f,%.3f,%.0f\n", runs, cap, looks, choice.looks.front().shown, choice.cost.value(), choice.bound.value(),
                    choice.without_limit.value_or(choice.cost).value(), gaps.back(), times.back());
        std::fflush(stdout);
      }
    }
    print_spread("gap %", gaps);
    print_spread("time ms", times);
  }
  return 0;
}

// Savings by cap on jobs of 20 runs of up to 300 ft with four rails, flat, no allowances: what the stick alone gives.
int run_orientation() {
  const Bench bench;
  std::puts("sticks_ft,cap_in,least_saving_pct,median_saving_pct,most_saving_pct");
  for (const auto& sticks : {std::vector<int>{21}, std::vector<int>{21, 24, 32}}) {
    for (const int cap : {96, 102, 108, 114, 120}) {
      std::vector<double> savings;
      for (int seed = 1; seed <= 5; ++seed) {
        SpacingCase c;
        c.runs = 20;
        c.cap_inches = cap;
        c.sticks = sticks;
        c.seed = static_cast<std::uint64_t>(seed);
        Job job = railwright::testing::spacing_job(c);
        job.choices.allowances.scatter = job.choices.allowances.squaring = {};
        job.choices.cutting.drop_value = 0;
        const Choice choice = bench.choose(job);
        savings.push_back(percent_below(choice.cost, choice.plain));
      }
      std::sort(savings.begin(), savings.end());
      std::printf("%s,%d,%.2f,%.2f,%.2f\n", sticks.size() == 1 ? "21" : "21+24+32", cap, savings.front(), savings[2], savings.back());
      std::fflush(stdout);
    }
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string what = argc > 1 ? argv[1] : "1";
  if (what == "--small") return run_small(argc > 2 ? std::atoi(argv[2]) : 1000);
  if (what == "--looks") return run_looks();
  if (what == "--orientation") return run_orientation();
  return run_large(std::max(1, std::atoi(what.c_str())));
}
