// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/asbuilt/gaps.h"
#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/job/read.h"
#include "engine/plan/checks.h"
#include "engine/setout/layout.h"
#include "engine/spacing/spacing.h"
#include "engine/stakeout/stakes.h"
#include "engine/takeoff/pipe_cuts.h"
#include "engine/takeoff/takeoff.h"

namespace railwright {

// sketch: posts, rails and post sizes alone, for the drawing that follows the hand; nothing is cut, counted or checked.
// quick: a good cut plan with a valid bound. full: the cut proof within the job's work limit.
enum class Effort { sketch, quick, full };

// How far long work has come: the best answer so far and what no answer can beat.
struct Progress {
  enum class Stage { spacing, cutting };
  Stage stage = Stage::cutting;
  std::string pipe;  // cutting: whose sticks
  measure::Money cost, bound;
  std::int64_t work = 0, limit = 0;  // search steps spent, and where the search ends
};
using OnProgress = std::function<void(const Progress&)>;

// All that follows from a job. Indices refer to `layout`. Nothing here is saved but `layout.new_posts` and `layout.new_bays`, which the face
// adds to the job's `issued` once something has been printed.
struct Plan {
  setout::Layout layout;
  stakeout::StakeOut stakes;
  grade::Heights heights;
  fittings::Assembly assembly;
  asbuilt::AsBuilt asbuilt;
  std::vector<takeoff::PipeCuts> cuts;  // one per pipe that is cut, in order of pipe id
  takeoff::Takeoff takeoff;
  std::vector<Check> checks;
  std::optional<spacing::Choice> spacing;  // where a fence asks for the best spacing
  Findings findings;
  job::Catalogue catalogue;  // shipped rows with the job's laid over
  std::string fingerprint;   // 12 hexadecimal digits of what is planned: two papers can be told apart
};

// The search for the best spacing of a job, to be stepped by a face that shows the best so far; its `choice` goes into `make_plan`. None: no fence asks for it.
std::unique_ptr<spacing::Chooser> spacing_chooser(const job::Job& job, const job::Catalogue& shipped, Effort effort = Effort::full);

// The one way from a sound job to a plan: limits -> spacing -> setout -> grade -> fittings -> post sizes -> cuts -> quantities -> checks.
// Same job, same plan, on every machine and in the browser. Never fails: what cannot be done is a finding of severity stop.
// `spacing`: a choice made for this very job, which is then not searched for again.
// `on_progress` is called now and then during the searches.
Plan make_plan(const job::Job& job, const job::Catalogue& shipped, Effort effort = Effort::full, const spacing::Choice* spacing = nullptr,
               const OnProgress& on_progress = {});

// True when a finding stops the work (exit code 1).
bool stops_work(const Findings& findings);

// The plan as JSON (schema/plan.schema.json, version 1): lengths in millimetres exact to the nanometre, money as decimal strings,
// findings without text (faces add it).
std::string plan_json(const job::Job& job, const Plan& plan);

}  // namespace railwright
