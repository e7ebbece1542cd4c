// SPDX-License-Identifier: MIT
#include <benchmark/benchmark.h>

#include "engine/measure/length.h"

namespace {

using railwright::measure::Length;

void parse_feet_inches(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(railwright::measure::parse_length("7 ft 5 1/4 in"));
}
BENCHMARK(parse_feet_inches);

void parse_metres(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(railwright::measure::parse_length("2.267 m"));
}
BENCHMARK(parse_metres);

void format_feet_inches(benchmark::State& state) {
  const Length length = Length::feet(7) + Length::sixty_fourths(5 * 64 + 16);
  for (auto _ : state) benchmark::DoNotOptimize(railwright::measure::format_length(length));
}
BENCHMARK(format_feet_inches);

}  // namespace
