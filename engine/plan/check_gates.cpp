// SPDX-License-Identifier: MIT
#include <set>
#include <tuple>

#include "engine/plan/check_parts.h"
#include "engine/strength/embedment.h"
#include "engine/strength/gate.h"

namespace railwright {

namespace {

using measure::Length;

// The post that carries the leaf; -1 when the layout has none.
int hinge_post(const setout::Layout& layout, const job::Gate& gate) {
  int any = -1;
  for (int k = 0; k < static_cast<int>(layout.posts.size()); ++k) {
    const setout::Post& post = layout.posts[static_cast<std::size_t>(k)];
    if (post.name == gate.id + "h") return k;
    if (any < 0 && post.gate == gate.id) any = k;
  }
  return any;
}

double leaf_kilograms(const job::Catalogue& catalogue, const job::Gate& gate) {
  if (gate.leaf_mass_kg > 0) return gate.leaf_mass_kg;
  if (const job::Supply* named = catalogue.supply(gate.supply)) return named->mass_kg;
  for (const job::Supply& row : catalogue.supplies) {
    if (row.kind == "gate-leaf" && row.width == gate.leaf) return row.mass_kg;
  }
  return 0;
}

void check_size(CheckBench& bench, const job::Gate& gate, const setout::Post& post) {
  const auto row = strength::gate_post_mil_hdbk(gate.leaf);
  const Length wanted = row ? row->post : Length::from_inches(8.625);
  bench.add({"gate_post_size",
             gate.id,
             wanted.metres() * 1000,
             post.diameter.metres() * 1000,
             0,
             "mm",
             "D >= D of the leaf's row",
             "MIL-HDBK-1013/10 Table 1",
             false,
             {{"leaf", value_of(gate.leaf)}, {"post", post.name}}});
}

void check_weight(CheckBench& bench, const job::Gate& gate, int k, double kilograms) {
  const setout::Post& post = bench.post(k);
  const measure::Moment moment = strength::leaf_moment(measure::Mass::si(kilograms), gate.leaf, gate.hinge_clearance);
  const Values inputs = {{"mass_kg", kilograms}, {"leaf", value_of(gate.leaf)}, {"post", post.name}};
  if (const auto pipe = checked_pipe(bench.catalogue, post.pipe)) {
    bench.add({"gate_post_bending", gate.id, moment.si(), pipe->allowable.si(), 0, "N m", "m g (c + B/2) <= Fy Z/1.67", "statics; AISC 360 F8", false, inputs});
  }
  const auto fence = static_cast<std::size_t>(post.fence);
  // Not doubled: half an inch of lean already spoils a latch (IBC 1806.3.4).
  const double soil = fence < bench.job.choices.fences.size() ? soil_of(bench.catalogue, bench.job.choices.fences[fence], false) : 0;
  if (!(soil > 0) || post.set) return;
  const takeoff::PostSize& size = bench.size(k);
  bench.add({"gate_post_embedment", gate.id, strength::depth_for_moment_m(moment, bearing_width(post, size), soil), size.embedment.metres(), 0, "m",
             "d^3 = 3 x 1.09 x 2.34 M/(s b)", "IBC 1807.3.2.1 for a moment alone (derived)", false, inputs});
}

}  // namespace

void check_gates(CheckBench& bench) {
  std::set<std::tuple<Length, double, std::string, Length>> seen;
  for (const job::Gate& gate : bench.job.site.gates) {
    const int k = hinge_post(bench.layout, gate);
    if (k < 0 || static_cast<std::size_t>(k) >= bench.posts.size()) continue;
    const double kilograms = leaf_kilograms(bench.catalogue, gate);
    if (!seen.insert({gate.leaf, kilograms, bench.post(k).pipe, bench.size(k).embedment}).second) continue;
    if (kilograms > 0) {
      check_weight(bench, gate, k, kilograms);
    } else {
      bench.note("checks.no_leaf_mass", gate.id);
    }
    check_size(bench, gate, bench.post(k));
  }
}

}  // namespace railwright
