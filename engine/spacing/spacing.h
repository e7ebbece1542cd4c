// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "engine/ground/profile.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/measure/money.h"
#include "engine/setout/layout.h"

// Spacing that suits the stick: how many bays each run gets, chosen together with the cutting patterns.
//
// What is counted. Materials and labour that the spacing changes, and all pipe: posts and rails from their sticks less the worth of kept drops (as `cutting`
// counts), fittings, bolts, caps, ties, concrete, and hours at the crew's rate with its share of set-up. Left out: what no spacing changes (mesh by the foot,
// gates), packs, spares, overhead, tax and profit. Allowances: rails that are cut to a measured gap are counted longer by the setting scatter (one sigma), every
// stick shorter by its tolerance and by the squaring of both ends: spacing that fills the stick to the last kerf is worth nothing once posts stray. Rails cut
// first to a stop, and rails already measured, do not stray.
//
// What is chosen from. In runs of a fence whose mode is `best`: the fewest equal bays under the cap up to twice as many, at most 24 more. A count
// with a fault that the fewest does not have (zone, tilt, short rail, long piece) when every free run has as many more is not offered. Runs with issued line
// posts keep their count.
namespace railwright::spacing {

using measure::Length;
using measure::Money;

// How many different pitches a fence shows, where it has a limit.
struct Looks {
  int fence = 0;
  int limit = 0;
  int shown = 0;  // above the limit only where no choice keeps it
};

struct Choice {
  Money cost, plain, bound;                 // chosen; fewest bays in every run; no choice costs less
  Money eight_foot;                         // fewest bays under an 8 ft cap (or the cap where smaller)
  std::optional<Money> at_zero, at_double;  // the chosen bays with no allowance and with twice each; none: the sticks do not give the pieces then
  std::vector<int> bays;                    // one count per run, in the order of Layout::runs: for Limits::forced_bays
  bool proved = false;                      // bound == cost
  bool finished = false;                    // false: taken before the search had come to its end
  std::optional<Money> without_limit;       // where a limit on looks binds: the best that was found without it
  std::vector<Looks> looks;
  int free_runs = 0;      // runs with more than one count to choose from
  std::int64_t work = 0;  // what the search spent, in the units of cutting::Plan::work
};

struct Options {
  std::int64_t work_limit = 1000;  // search steps in the units of cutting::Plan::work
  int most_more = 24;              // bays more than the fewest that a run may have
};
// quick: few counts and little search, for drawing while dragging. full: as `choose` has it, or with the job's own limit of work.
Options quick_options();
Options full_options(const job::Job& job);

// True when a fence that a leg uses asks for `best`.
bool wanted(const job::Job& job);

// The best so far. Costs are those of the layouts tried for the table: where a line reaches over several runs, `choice` may find them a little off.
struct Progress {
  bool known = false;  // figures are there: the table of counts is whole
  Money cost, bound;
  std::int64_t work = 0, limit = 0;
  bool done = false;
};

// The search, step by step: same job and options, same steps, everywhere; a step is one layout of the job, one round of the program or the cutting of one
// choice. `choice` may be asked for at any time and gives the best so far, by the properties below.
//   Chooser chooser(job, catalogue, limits, profiles, options);
//   while (chooser.step()) show(chooser.progress());      // stop when you like
//   const Choice best = chooser.choice();
// Properties: (1) bound <= cost, and without a limit on looks cost <= plain and cost <= eight_foot; (2) no vector of the counts offered that keeps the limit on looks
// and with which no run has more faults than by the plain rule costs less than `bound`, whatever the rounding, the rails' line (follow, level, smooth), the
// ground, and how many sticks there are; (3) same job, same choice, everywhere; (4) until a limit on looks is sought to be kept, `cost` never rises and `bound` never
// falls from step to step; (5) the limit is kept where any vector found keeps it; else as few looks are shown as were found to be possible.
// Never fails: faults are named by the plan that is made from the choice. `limits.forced_bays` is ignored.
class Chooser {
 public:
  // Keeps its own copies: the job may change or go while the search goes on.
  Chooser(job::Job job, job::Catalogue catalogue, setout::Limits limits, std::vector<ground::Profile> profiles, const Options& options = {});
  ~Chooser();
  bool step();
  Progress progress() const;
  Choice choice();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

// Called after each step; false ends the search.
using OnProgress = std::function<bool(const Progress&)>;

Choice choose(const job::Job& job, const job::Catalogue& catalogue, const setout::Limits& limits, const std::vector<ground::Profile>& profiles,
              const Options& options = {}, const OnProgress& on_progress = {});

}  // namespace railwright::spacing
