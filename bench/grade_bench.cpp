// SPDX-License-Identifier: MIT
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdint>

#include "engine/fittings/assembly.h"
#include "engine/grade/smooth_line.h"
#include "tests/grade/every_start.h"
#include "tests/grade/line_fixture.h"

// Rail heights and parts of long lines. The smooth line of 10,000 posts is meant to take under 50 ms on any ground; parts of 2,000 rails about 2 ms. Level
// ground that strays by millimetres is the worst case: pieces of hundreds or thousands of posts.
namespace railwright {
namespace {

struct Dice {
  std::uint64_t state = 5;
  double between(double low, double high) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + (high - low) * static_cast<double>((state >> 33) % 100001) / 100000.0;
  }
};

// Rolling ground whose grade wanders (or level ground), with each post off the one before by up to `roughness` millimetres more or less.
std::vector<double> rolling(int bays, double roughness_mm, double wander = 0.01) {
  Dice dice;
  std::vector<double> ground{0};
  double grade = 0;
  for (int i = 0; i < bays; ++i) {
    grade = std::max(-0.15, std::min(0.15, grade + dice.between(-wander, wander)));
    ground.push_back(ground.back() + 2.4 * 0.2 * grade + dice.between(-roughness_mm, roughness_mm) / 1000);
  }
  return ground;
}

std::vector<grade::Gate> gates_of(const benchmark::State& state) {
  const auto ground = rolling(static_cast<int>(state.range(0)), static_cast<double>(state.range(1)), state.range(2) ? 0.01 : 0);
  std::vector<grade::Gate> gates(ground.size());
  for (std::size_t i = 0; i < gates.size(); ++i) {
    gates[i].x = 2.4 * static_cast<double>(i);
    gates[i].post = true;
    gates[i].wish = ground[i];
    gates[i].window = {ground[i] - 0.2, ground[i] + 0.2};
  }
  return gates;
}

void smooth_line_of_posts(benchmark::State& state) {
  const auto gates = gates_of(state);
  for (auto _ : state) benchmark::DoNotOptimize(grade::smooth_line(gates, 0.0508, 0.0254 / 64).links);
}
BENCHMARK(smooth_line_of_posts)
    ->ArgNames({"posts", "roughness_mm", "rolling"})
    ->Args({1000, 10, 1})
    ->ArgsProduct({{10000}, {0, 1, 2, 5, 10, 30, 100}, {1, 0}})
    ->Unit(benchmark::kMillisecond);

// The same line's fewest pieces with every start of every piece followed, as a plain search would: what leaving starts out saves.
void every_start_of_posts(benchmark::State& state) {
  const auto gates = gates_of(state);
  for (auto _ : state) benchmark::DoNotOptimize(testing_line::EveryStart(gates, 0.0508).fewest());
}
BENCHMARK(every_start_of_posts)
    ->ArgNames({"posts", "roughness_mm", "rolling"})
    ->ArgsProduct({{10000}, {5, 10, 30}, {1, 0}})
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond);

void heights_and_parts(benchmark::State& state) {
  const job::Job job = testing_line::three_rails(static_cast<job::RailLine>(state.range(1)));
  const job::Catalogue rows = testing_line::rows();
  const setout::Layout layout = testing_line::line(rolling(static_cast<int>(state.range(0)), 10));
  for (auto _ : state) {
    Findings findings;
    const grade::Heights heights = grade::rail_heights(job, rows, layout, {}, findings);
    benchmark::DoNotOptimize(fittings::assemble(job, rows, layout, heights, {}, findings).rails.size());
  }
}
BENCHMARK(heights_and_parts)->ArgsProduct({{667, 33350}, {0, 1, 2}})->Unit(benchmark::kMillisecond);

void parts_alone(benchmark::State& state) {
  const job::Job job = testing_line::three_rails();
  const job::Catalogue rows = testing_line::rows();
  const setout::Layout layout = testing_line::line(rolling(667, 10));
  Findings findings;
  const grade::Heights heights = grade::rail_heights(job, rows, layout, {}, findings);
  for (auto _ : state) benchmark::DoNotOptimize(fittings::assemble(job, rows, layout, heights, {}, findings).rails.size());
}
BENCHMARK(parts_alone)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace railwright
