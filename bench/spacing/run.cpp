// SPDX-License-Identifier: MIT
// Chooses the bay counts of invented jobs of 5 to 60 runs and prints one CSV line a job:
//   runs,cap_in,sticks,ground,plain,eight_foot,cost,bound,saving_pct,gap_pct,at_zero,at_double,ms
// then the median and the worst gap, saving and time. spacing_bench [SEEDS]: jobs of each kind (1 unless given).
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "data/shipped.h"
#include "engine/ground/profile.h"
#include "engine/plan/checks.h"
#include "engine/spacing/spacing.h"
#include "tests/spacing/spacing_jobs.h"

namespace {

using railwright::testing::SpacingCase;
using Clock = std::chrono::steady_clock;

struct Row { double saving = 0, gap = 0, ms = 0; };

Row measure_case(const SpacingCase& c, const railwright::job::Catalogue& shipped) {
  const railwright::job::Job job = railwright::testing::spacing_job(c);
  railwright::Findings findings;
  const auto profiles = railwright::ground::profiles(job.site, findings);
  const railwright::setout::Limits limits{railwright::pitch_caps(job, shipped), {}};
  const auto start = Clock::now();
  const railwright::spacing::Choice choice = railwright::spacing::choose(job, shipped, limits, profiles);
  Row row;
  row.ms = std::chrono::duration<double, std::milli>(Clock::now() - start).count();
  row.saving = 100 * (1 - choice.cost.value() / choice.plain.value());
  row.gap = 100 * (1 - choice.bound.value() / choice.cost.value());
  std::printf("%d,%d,%zu,%s,%.2f,%.2f,%.2f,%.2f,%.3f,%.3f,%.2f,%.2f,%.0f\n", c.runs, c.cap_inches, c.sticks.size(), c.rolling ? "rolling" : "flat",
              choice.plain.value(), choice.eight_foot.value(), choice.cost.value(), choice.bound.value(), row.saving, row.gap,
              choice.at_zero.value(), choice.at_double.value(), row.ms);
  std::fflush(stdout);
  return row;
}

void print_spread(const char* name, std::vector<double> values) {
  std::sort(values.begin(), values.end());
  std::printf("%s: median %.3f, least %.3f, most %.3f\n", name, values[values.size() / 2], values.front(), values.back());
}

}  // namespace

int main(int argc, char** argv) {
  const int seeds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 1;
  const railwright::job::Catalogue shipped = railwright::data::shipped();
  std::puts("runs,cap_in,sticks,ground,plain,eight_foot,cost,bound,saving_pct,gap_pct,at_zero,at_double,ms");
  std::vector<double> savings, gaps, times;
  for (const int runs : {5, 10, 20, 40, 60}) {
    for (const int cap : {96, 102, 108, 120}) {
      for (const auto& sticks : {std::vector<int>{21}, std::vector<int>{21, 24, 32}}) {
        for (const bool rolling : {false, true}) {
          for (int seed = 1; seed <= seeds; ++seed) {
            SpacingCase c;
            c.runs = runs;
            c.cap_inches = cap;
            c.sticks = sticks;
            c.rolling = rolling;
            c.seed = static_cast<std::uint64_t>(seed);
            const Row row = measure_case(c, shipped);
            savings.push_back(row.saving);
            gaps.push_back(row.gap);
            times.push_back(row.ms);
          }
        }
      }
    }
  }
  print_spread("saving %", savings);
  print_spread("gap %", gaps);
  print_spread("time ms", times);
  return 0;
}
