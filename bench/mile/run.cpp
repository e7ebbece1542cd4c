// SPDX-License-Identifier: MIT
// Times the plan of 1 mile and of 50 miles of three-rail fence, without JSON and without the cut proof (Effort::quick). Prints one CSV line a length;
// the best run is the one that other work on the machine disturbed least, and gives the time per mile:
//   miles,bays,rails,median_ms,best_ms,best_ms_per_mile
// mile_bench [RUNS [short]]: short leaves the 50 miles out (for profiling).
// Built natively and for WebAssembly; bench/mile/compare.sh prints the ratios of one run.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "data/shipped.h"
#include "engine/job/read.h"
#include "engine/plan/plan.h"

namespace {

using railwright::measure::Length;

// A walk of legs of a tenth of a mile each, with a small turn at every point and levelled ground that rises and falls.
railwright::job::Job walk(int miles) {
  railwright::job::Job job;
  job.name = "bench";
  railwright::job::Fence fence;
  fence.id = "three rails";
  fence.height = Length::inches(60);
  fence.animal = "horse";
  fence.rail_pipe = fence.line_pipe = fence.strong_pipe = fence.gate_pipe = "2-3/8 sch40";
  fence.soil = "sand";
  job.choices.fences.push_back(fence);
  const int legs = miles * 10;
  double x = 0, y = 0;
  for (int i = 0; i <= legs; ++i) {
    railwright::job::Point point;
    point.id = "P" + std::to_string(i);
    point.east = Length::from_metres(x);
    point.north = Length::from_metres(y);
    job.site.points.push_back(point);
    x += 160.0;
    y += i % 2 == 0 ? 16.0 : -16.0;
  }
  for (int i = 0; i < legs; ++i) {
    railwright::job::Leg leg;
    leg.id = "L" + std::to_string(i);
    leg.from = "P" + std::to_string(i);
    leg.to = "P" + std::to_string(i + 1);
    leg.fence = fence.id;
    job.site.legs.push_back(leg);
    for (int k = 0; k <= 16; ++k) {
      job.site.ground.profile.push_back({leg.id, Length::mm(k * 10'000), Length::mm((k * 37 + i * 11) % 400)});
    }
  }
  for (const int feet : {21, 24, 32}) {
    job.choices.offers.push_back({"stick " + std::to_string(feet), "2-3/8 sch40", Length::feet(feet), railwright::measure::Money::cents(290 * feet + feet % 7),
                                  std::nullopt, "invented"});
  }
  return job;
}

double plan_ms(const railwright::job::Job& job, const railwright::job::Catalogue& shipped, railwright::Plan& plan) {
  const auto start = std::chrono::steady_clock::now();
  plan = railwright::make_plan(job, shipped, railwright::Effort::quick);
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

void time_miles(int miles, int runs, const railwright::job::Catalogue& shipped) {
  const railwright::job::Job job = walk(miles);
  railwright::Plan plan;
  // Warm-up: a browser's engine compiles WebAssembly twice, the second time while it already runs.
  for (int i = 0; i < 2 * runs; ++i) plan_ms(job, shipped, plan);
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) times.push_back(plan_ms(job, shipped, plan));
  std::sort(times.begin(), times.end());
  const double median = times[times.size() / 2];
  std::printf("%d,%zu,%zu,%.3f,%.3f,%.3f\n", miles, plan.layout.bays.size(), plan.assembly.rails.size(), median, times.front(), times.front() / miles);
}

}  // namespace

int main(int argc, char** argv) {
  const railwright::job::Catalogue shipped = railwright::data::shipped();
  std::printf("miles,bays,rails,median_ms,best_ms,best_ms_per_mile\n");
  time_miles(1, argc > 1 ? std::atoi(argv[1]) : 21, shipped);
  if (argc < 3) time_miles(50, 5, shipped);
  return 0;
}
