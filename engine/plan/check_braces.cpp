// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/plan/check_parts.h"
#include "engine/strength/brace.h"
#include "engine/strength/concrete.h"
#include "engine/strength/embedment.h"

namespace railwright {

namespace {

using measure::Force;
using measure::Length;

// Two strands of brace wire, and a safety factor of two on every wire's breaking load (common practice, no source).
constexpr double kStrands = 2, kWireSafety = 2;

Force compression_capacity(const CheckBench& bench, const job::Fence& fence, Length pitch) {
  const auto pipe = checked_pipe(bench.catalogue, fence.rail_pipe);
  if (!pipe) return Force();
  Force capacity = strength::allowable_compression(pipe->section, pipe->yield, pitch);
  const Force sleeve = sleeve_push(bench.catalogue, pipe->section.diameter);
  if (sleeve.si() <= 0) {
    bench.findings.push_back({"checks.no_brace_bearing", Severity::note, fence.id, {}});
    return capacity;
  }
  return std::min(capacity, sleeve);
}

// The post that the wires pull on: of the two, the one that is no brace post.
int pulled_post(const CheckBench& bench, const setout::Bay& bay) { return bench.post(bay.from).kind == setout::PostKind::brace ? bay.to : bay.from; }

Force uplift_capacity(const CheckBench& bench, int post) {
  const takeoff::PostSize& size = bench.size(post);
  if (size.hole_diameter.nm() == 0) return strength::pull_out_resistance(strength::PostSetting::driven);
  const measure::Mass concrete =
      strength::concrete_mass(strength::concrete_round_post(size.hole_diameter, size.hole_depth, bench.post(post).diameter, size.embedment));
  return strength::pull_out_resistance(strength::PostSetting::dug_and_rammed) + measure::weight(concrete);
}

struct Case {
  const setout::Bay* bay = nullptr;
  strength::HBraceForces forces;
  Length rail_height;
  double ratio = -1;
};

void keep_worse(Case& worst, const Case& next, double ratio) {
  if (ratio <= worst.ratio) return;
  worst = next;
  worst.ratio = ratio;
}

// Brace bays of a fence with the forces in each.
std::vector<Case> brace_cases(const CheckBench& bench, int fence, const WirePull& pull) {
  std::vector<Case> cases;
  for (std::size_t k = 0; k < bench.layout.bays.size() && k < bench.heights.bays.size(); ++k) {
    const setout::Bay& bay = bench.layout.bays[k];
    const grade::BayHeights& heights = bench.heights.bays[k];
    if (bay.fence != fence || !heights.has_brace_rail) continue;
    const Length rail = heights.brace.from - Length::from_metres(bench.post(bay.from).ground);
    if (rail.nm() <= 0) continue;
    cases.push_back({&bay, strength::h_brace({pull.all_cold, pull.height, rail, bay.pitch}), rail, -1});
  }
  return cases;
}

Values inputs_of(const WirePull& pull, const Case& c) {
  return {{"pull", ForceValue{pull.all_cold.si()}},
          {"pull_height", value_of(pull.height)},
          {"rail_height", value_of(c.rail_height)},
          {"span", value_of(c.bay->pitch)}};
}

void add_brace_checks(CheckBench& bench, const job::Fence& fence, const WirePull& pull, const std::vector<Case>& cases) {
  Case compression, wire, uplift;
  for (const Case& c : cases) {
    const double length = c.bay->pitch.metres();
    keep_worse(compression, c, c.forces.compression.si() * length * length);  // buckling falls with the square of the length
    keep_worse(wire, c, c.forces.wire_tension.si());
    keep_worse(uplift, c, c.forces.uplift / uplift_capacity(bench, pulled_post(bench, *c.bay)));
  }
  bench.add({"brace_compression", compression.bay->name, compression.forces.compression.si(), compression_capacity(bench, fence, compression.bay->pitch).si(),
             0, "N", "C = F h/H <= Fcr A/1.67", "statics; AISC 360 E3 (from memory)", false, inputs_of(pull, compression)});
  const job::Supply* brace_wire = nullptr;
  for (const job::Supply& row : bench.catalogue.supplies) {
    if (brace_wire == nullptr && row.kind == "brace-wire" && row.strength_n > 0) brace_wire = &row;
  }
  if (brace_wire != nullptr) {
    bench.add({"brace_wire", wire.bay->name, wire.forces.wire_tension.si(), kStrands * brace_wire->strength_n / kWireSafety, 0, "N",
               "T = C sqrt(L^2 + H^2)/L <= 2 Tu/2", "statics; safety factor: common practice, no source", false, inputs_of(pull, wire)});
  } else {
    bench.note("checks.no_wire_strength", fence.id);
  }
  const int post = pulled_post(bench, *uplift.bay);
  bench.add({"end_post_uplift", bench.post(post).name, uplift.forces.uplift.si(), uplift_capacity(bench, post).si(), 0, "N",
             "V = F h/L <= 90 kgf + concrete, or 900 kgf driven", "statics; New Zealand pull-out tests in The Conservation Volunteers' handbook", false,
             inputs_of(pull, uplift)});
}

std::vector<char> posts_at_braces(const CheckBench& bench) {
  std::vector<char> braced(bench.layout.posts.size());
  for (std::size_t k = 0; k < bench.layout.bays.size() && k < bench.heights.bays.size(); ++k) {
    if (!bench.heights.bays[k].has_brace_rail) continue;
    braced[static_cast<std::size_t>(bench.layout.bays[k].from)] = 1;
    braced[static_cast<std::size_t>(bench.layout.bays[k].to)] = 1;
  }
  return braced;
}

bool takes_pull(const setout::Post& post) {
  return post.kind == setout::PostKind::end || post.kind == setout::PostKind::corner || post.kind == setout::PostKind::gate;
}

}  // namespace

Force sleeve_push(const job::Catalogue& catalogue, Length rail_diameter) {
  Force least;
  for (const job::Fitting& fitting : catalogue.fittings) {
    const bool fits = fitting.rail_diameter.nm() == 0 || fitting.rail_diameter == rail_diameter;
    if (!fits || fitting.axial_push.si() <= 0) continue;
    least = least.si() > 0 ? std::min(least, fitting.axial_push) : fitting.axial_push;
  }
  return least;
}

void check_braces(CheckBench& bench, int index) {
  const job::Fence& fence = bench.job.choices.fences[static_cast<std::size_t>(index)];
  const auto pull = wire_pull(bench.catalogue, fence, bench.rules);
  if (!pull) return;
  if (pull->one.si() > 0) {
    if (pull->strength_n > 0) {
      bench.add({"wire_cold",
                 fence.id,
                 pull->one_cold.si(),
                 pull->strength_n / kWireSafety,
                 0,
                 "N",
                 "T + E A alpha dT <= Tu/2",
                 "restrained wire; UF/IFAS CIR851 for the pull; safety factor: common practice, no source",
                 false,
                 {{"pull", ForceValue{pull->one.si()}}, {"strength", ForceValue{pull->strength_n}}}});
    } else {
      bench.note("checks.no_wire_strength", fence.id);
    }
  }
  const std::vector<Case> cases = brace_cases(bench, index, *pull);
  if (!cases.empty()) add_brace_checks(bench, fence, *pull, cases);
}

void check_unbraced_ends(CheckBench& bench, int index) {
  const job::Fence& fence = bench.job.choices.fences[static_cast<std::size_t>(index)];
  const auto pull = wire_pull(bench.catalogue, fence, bench.rules);
  if (!pull) return;
  const std::vector<char> braced = posts_at_braces(bench);
  int worst = -1;
  for (int k = 0; k < static_cast<int>(bench.posts.size()); ++k) {
    const setout::Post& post = bench.post(k);
    if (post.fence != index || post.set || !takes_pull(post) || braced[static_cast<std::size_t>(k)] != 0) continue;
    if (worst < 0 || bench.size(k).embedment < bench.size(worst).embedment) worst = k;
  }
  if (worst < 0) return;
  const setout::Post& post = bench.post(worst);
  const Values inputs = {{"pull", ForceValue{pull->all_cold.si()}}, {"height", value_of(pull->height)}};
  if (const auto pipe = checked_pipe(bench.catalogue, post.pipe)) {
    bench.add({"end_post_bending", post.name, pull->all_cold.si() * pull->height.metres(), pipe->allowable.si(), 0, "N m", "F h <= Fy Z/1.67", "AISC 360 F8",
               false, inputs});
  }
  const double soil = soil_of(bench.catalogue, fence, true);
  if (!(soil > 0)) return;
  const auto needed = strength::nonconstrained({pull->all_cold, pull->height, bearing_width(post, bench.size(worst))}, soil);
  bench.add({"end_post_embedment", post.name, needed.depth_m, bench.size(worst).embedment.metres(), 0, "m",
             "d = A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 P/(S1 b)", "IBC 1807.3.2.1, Table 1806.2", false, inputs});
}

}  // namespace railwright
