// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/ground/profile.h"
#include "engine/job/job.h"
#include "engine/measure/money.h"
#include "engine/setout/layout.h"

// Spacing that suits the stick: how many bays each run gets, chosen together with the cutting patterns.
//
// What is counted. Materials and labour that the spacing changes, and all pipe: posts and rails from their sticks less the worth of kept drops (as `cutting`
// counts), fittings, bolts, caps, ties, concrete, and hours at the crew's rate with its share of set-up. Left out: what no spacing changes (mesh by the foot,
// gates), packs, spares, overhead, tax and profit. Rails that are cut to a measured gap are counted longer by the setting scatter (one sigma): spacing that
// fills the stick to the last kerf is worth nothing once posts stray. Rails cut first to a stop, and rails already measured, are not.
//
// What is chosen from. In runs of a fence whose mode is `best`: the fewest equal bays under the cap up to twice as many, at most 24 more. A count
// with a fault that the fewest does not have (zone, tilt, short rail, long piece) is not chosen. Runs with issued line posts keep their count.
namespace railwright::spacing {

using measure::Length;
using measure::Money;

struct Choice {
  Money cost, plain, bound;       // chosen; fewest bays in every run; no choice costs less
  Money eight_foot;               // fewest bays under an 8 ft cap (or the cap where smaller)
  Money at_zero, at_double;       // the chosen bays at no scatter and at twice the scatter
  std::vector<int> bays;          // one count per run, in the order of Layout::runs: for Limits::forced_bays
  bool proved = false;            // bound == cost
  int free_runs = 0;              // runs with more than one count to choose from
};

struct Options {
  std::int64_t work_limit = 1000; // search steps in the units of cutting::Plan::work
};

// True when a fence that a leg uses asks for `best`.
bool wanted(const job::Job& job);

// Properties: (1) bound <= cost <= plain, and cost <= eight_foot; (2) where rails follow the ground no choice costs less than `bound`, whatever the rounding; level and
// smooth lines reach over several runs: there the bound takes rails as if level and shared posts as the cheapest seen; (3) same job, same choice, everywhere.
// `limits.forced_bays` is ignored. Never fails: faults are named by the plan that is made from the choice.
Choice choose(const job::Job& job, const job::Catalogue& catalogue, const setout::Limits& limits,
              const std::vector<ground::Profile>& profiles, const Options& options = {});

}  // namespace railwright::spacing
