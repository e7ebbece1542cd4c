// SPDX-License-Identifier: MIT
#include <benchmark/benchmark.h>

#include "data/shipped.h"
#include "engine/plan/plan.h"
#include "tests/plan/generated_jobs.h"

namespace {

// A page replans after each edit, so this is what a person waits for.
void plan_drawn_job(benchmark::State& state) {
  const railwright::job::Catalogue shipped = railwright::data::shipped();
  const railwright::job::Job job = railwright::testing::draw_job(static_cast<unsigned>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(railwright::make_plan(job, shipped));
}
BENCHMARK(plan_drawn_job)->DenseRange(1, 5)->Unit(benchmark::kMillisecond);

void print_plan_json(benchmark::State& state) {
  const railwright::job::Catalogue shipped = railwright::data::shipped();
  const railwright::job::Job job = railwright::testing::draw_job(1);
  const auto plan = railwright::make_plan(job, shipped);
  for (auto _ : state) benchmark::DoNotOptimize(railwright::plan_json(job, plan));
}
BENCHMARK(print_plan_json)->Unit(benchmark::kMillisecond);

}  // namespace
