// SPDX-License-Identifier: MIT
#include "engine/plan/checks.h"

#include "engine/plan/check_parts.h"
#include "engine/strength/rail.h"
#include "engine/strength/wire.h"
#include "engine/takeoff/orders.h"

namespace railwright {

using measure::Force;
using measure::Length;

void CheckBench::add(Check check) {
  check.ratio = check.capacity > 0 ? check.demand / check.capacity : (check.demand > 0 ? 1e9 : 0);
  check.ok = check.ratio <= 1;
  if (!check.ok) {
    findings.push_back({"checks." + check.code,
                        Severity::warning,
                        check.where,
                        {{"demand", check.demand}, {"capacity", check.capacity}, {"ratio", check.ratio}, {"unit", check.unit}}});
  }
  done.push_back(std::move(check));
}

std::optional<CheckedPipe> checked_pipe(const job::Catalogue& catalogue, const std::string& id) {
  const job::Pipe* pipe = catalogue.pipe(id);
  if (pipe == nullptr || pipe->diameter.nm() <= 0 || pipe->wall.nm() <= 0 || !(pipe->yield_mpa > 0)) return std::nullopt;
  CheckedPipe checked;
  checked.section = strength::pipe_section(pipe->diameter, strength::design_wall(pipe->wall, pipe->design_wall_factor), strength::WallBasis::design);
  checked.yield = measure::Pressure::si(pipe->yield_mpa * 1e6);
  checked.allowable = strength::pipe_flexure(checked.section, checked.yield).allowable;
  checked.kilograms_per_metre = pipe->mass_kg_per_m;
  return checked;
}

double soil_of(const job::Catalogue& catalogue, const job::Fence& fence, bool isolated) {
  const job::Soil* soil = catalogue.soil(fence.soil);
  if (soil == nullptr) return 0;
  return soil->lateral_pa_per_m * (isolated && soil->isolated_pole_doubled ? 2 : 1);
}

Length bearing_width(const setout::Post& post, const takeoff::PostSize& size) { return measure::max(size.hole_diameter, post.diameter); }

double wire_diameter_mm(const job::Supply* supply) { return supply != nullptr && supply->diameter_mm > 0 ? supply->diameter_mm : 2.515; }

std::optional<WirePull> wire_pull(const job::Catalogue& catalogue, const job::Fence& fence, const CheckRules& rules) {
  if (fence.kind == job::FenceKind::rails || fence.kind == job::FenceKind::panels) return std::nullopt;
  const job::Supply* supply = catalogue.supply(fence.infill.supply);
  const job::Infill& infill = fence.infill;
  WirePull pull;
  const Length tall = infill.height.nm() > 0 ? infill.height : supply != nullptr && supply->width.nm() > 0 ? supply->width : fence.height;
  pull.height = infill.ground_gap + tall / 2;
  pull.strength_n = supply == nullptr ? 0 : supply->strength_n;
  const int wires = takeoff::wires_of(fence);
  if (wires == 0) {
    pull.all_cold = infill.tension.si() > 0 ? infill.tension + (rules.mesh_pull_cold - rules.mesh_pull) : rules.mesh_pull_cold;
    return pull;
  }
  const double diameter_mm = wire_diameter_mm(supply);
  const double area = strength::wire_area_m2(Length::from_metres(diameter_mm * 1e-3));
  pull.one = infill.tension.si() > 0 ? infill.tension : rules.wire_pull;
  pull.one_cold = pull.one + strength::temperature_pull(area, rules.cold_fall_k);
  pull.all_cold = pull.one_cold * static_cast<double>(wires);
  if (!infill.wire_heights.empty()) {
    Length sum;
    for (const Length height : infill.wire_heights) sum += height;
    pull.height = sum / static_cast<std::int64_t>(infill.wire_heights.size());
  }
  return pull;
}

std::vector<Check> checks(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights,
                          const std::vector<takeoff::PostSize>& posts, Findings& findings, const CheckRules& rules) {
  std::vector<Check> done;
  CheckBench bench{job, catalogue, layout, heights, posts, rules, findings, done};
  for (int fence = 0; fence < static_cast<int>(job.choices.fences.size()); ++fence) {
    check_rails(bench, fence);
    check_posts(bench, fence);
    check_wind(bench, fence);
    check_braces(bench, fence);
    check_unbraced_ends(bench, fence);
  }
  check_gates(bench);
  return done;
}

std::vector<Length> pitch_caps(const job::Job& job, const job::Catalogue& catalogue, const CheckRules& rules) {
  // A rail that carries less than this is the wrong rail: the check says so, and the layout stays readable.
  constexpr Length kLeast = Length::feet(2);
  std::vector<Length> caps;
  for (const job::Fence& fence : job.choices.fences) {
    Length cap = fence.spacing.cap;
    const auto pipe = checked_pipe(catalogue, fence.rail_pipe);
    const job::Animal* animal = catalogue.animal(fence.animal);
    if (fence.kind != job::FenceKind::wire && fence.rails > 0 && pipe && animal != nullptr) {
      const strength::RailLoad load{animal->push, measure::LineLoad::si(pipe->kilograms_per_metre * measure::kStandardGravity)};
      const Length carried = strength::max_pitch(pipe->section, pipe->yield, load, rules.sag_ratio);
      cap = measure::min(cap, measure::max(carried, kLeast));
    }
    caps.push_back(cap);
  }
  return caps;
}

}  // namespace railwright
