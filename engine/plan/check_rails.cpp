// SPDX-License-Identifier: MIT
#include "engine/plan/check_parts.h"
#include "engine/strength/rail.h"

namespace railwright {

namespace {

// The longest fence bay: for one rail and one load it is the worst.
const setout::Bay* longest_bay(const setout::Layout& layout, int fence) {
  const setout::Bay* longest = nullptr;
  for (const setout::Bay& bay : layout.bays) {
    if (bay.fence != fence || bay.kind == setout::BayKind::gate) continue;
    if (longest == nullptr || bay.pitch > longest->pitch) longest = &bay;
  }
  return longest;
}

}  // namespace

void check_rails(CheckBench& bench, int index) {
  const job::Fence& fence = bench.job.choices.fences[static_cast<std::size_t>(index)];
  if (fence.kind == job::FenceKind::wire || fence.rails <= 0) return;
  const auto pipe = checked_pipe(bench.catalogue, fence.rail_pipe);
  const job::Animal* animal = bench.catalogue.animal(fence.animal);
  const setout::Bay* bay = longest_bay(bench.layout, index);
  if (!pipe || animal == nullptr || bay == nullptr) return;
  const strength::RailLoad load{animal->push, measure::LineLoad::si(pipe->kilograms_per_metre * measure::kStandardGravity)};
  const strength::RailAnswer answer = strength::rail_under_load(pipe->section, load, bay->pitch);
  const Values inputs = {{"push", ForceValue{animal->push.si()}}, {"pitch", value_of(bay->pitch)}, {"pipe", fence.rail_pipe}};
  bench.add({"rail_bending", bay->name, answer.moment.si(), pipe->allowable.si(), 0, "N m", "P L/4 + w L^2/8 <= Fy Z/1.67",
             "AISC 360 F8, AISC Manual Table 3-23", false, inputs});
  if (bench.rules.sag_ratio > 0) {
    bench.add({"rail_sag", bay->name, answer.sag_m * 1000, bay->pitch.metres() * 1000 / bench.rules.sag_ratio, 0, "mm",
               "P L^3/(48 E I) + 5 w L^4/(384 E I) <= L/n", "AISC Manual Table 3-23; limit: common practice, no source", false, inputs});
  }
}

}  // namespace railwright
