// SPDX-License-Identifier: MIT
#include "engine/plan/plan.h"

#include <algorithm>
#include <utility>

#include "engine/ground/profile.h"
#include "engine/plan/enclosure.h"
#include "engine/plan/fingerprint.h"
#include "engine/takeoff/position_range.h"

namespace railwright {
namespace {

// Search steps of one cut proof unless the job says otherwise: about a second on one core.
constexpr std::int64_t kDefaultWork = 2000;

void cut_pipes(const job::Job& job, Effort effort, std::vector<takeoff::PipeCuts>& cuts, const OnProgress& on_progress) {
  cutting::Options options;
  options.effort = effort == Effort::full ? cutting::Effort::full : cutting::Effort::quick;
  options.work_limit = job.choices.cutting.work_limit > 0 ? job.choices.cutting.work_limit : kDefaultWork;
  for (takeoff::PipeCuts& pipe : cuts) {
    if (on_progress) {
      options.on_progress = [&](const cutting::Progress& now) {
        if (now.found) on_progress({Progress::Stage::cutting, pipe.pipe, now.cost, now.bound, now.work, options.work_limit});
        return true;
      };
    }
    pipe.plan = cutting::solve(pipe.instance, options);
  }
}

spacing::OnProgress spacing_progress(const OnProgress& on_progress) {
  if (!on_progress) return {};
  return [on_progress](const spacing::Progress& now) {
    if (now.known) on_progress({Progress::Stage::spacing, {}, now.cost, now.bound, now.work, now.limit});
    return true;
  };
}

// A fence whose limit on different pitches no choice keeps.
void name_looks(const job::Job& job, const spacing::Choice& choice, Findings& findings) {
  for (const spacing::Looks& looks : choice.looks) {
    if (looks.shown <= looks.limit) continue;
    const std::string& fence = job.choices.fences[static_cast<std::size_t>(looks.fence)].id;
    findings.push_back({"spacing.looks", Severity::warning, fence, {{"limit", std::int64_t{looks.limit}}, {"shown", std::int64_t{looks.shown}}}});
  }
}

// What stands before the posts do.
struct Beginning {
  job::Catalogue catalogue;
  setout::Limits limits;
  std::vector<ground::Profile> profiles;
};
Beginning begin(const job::Job& job, const job::Catalogue& shipped, Findings& findings) {
  Beginning begun;
  begun.catalogue = job::overlay(shipped, job.choices.overrides);
  begun.limits = {pitch_caps(job, begun.catalogue), {}};
  begun.profiles = ground::profiles(job.site, findings, job.choices.clearance_accuracy);
  return begun;
}

spacing::Options options_of(const job::Job& job, Effort effort) { return effort == Effort::full ? spacing::full_options(job) : spacing::quick_options(); }

}  // namespace

bool stops_work(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.severity == Severity::stop; });
}

std::unique_ptr<spacing::Chooser> spacing_chooser(const job::Job& job, const job::Catalogue& shipped, Effort effort) {
  if (!spacing::wanted(job)) return nullptr;
  Findings reported_by_the_plan;
  Beginning begun = begin(job, shipped, reported_by_the_plan);
  return std::make_unique<spacing::Chooser>(job, std::move(begun.catalogue), std::move(begun.limits), std::move(begun.profiles), options_of(job, effort));
}

Plan make_plan(const job::Job& job, const job::Catalogue& shipped, Effort effort, const spacing::Choice* choice, const OnProgress& on_progress) {
  Plan plan;
  auto [catalogue, limits, profiles] = begin(job, shipped, plan.findings);
  plan.catalogue = std::move(catalogue);
  if (spacing::wanted(job)) {
    plan.spacing = choice != nullptr ? *choice : spacing::choose(job, plan.catalogue, limits, profiles, options_of(job, effort), spacing_progress(on_progress));
    limits.forced_bays = plan.spacing->bays;
    name_looks(job, *plan.spacing, plan.findings);
  }
  plan.layout = setout::set_out(job, plan.catalogue, limits, std::move(profiles), plan.findings);
  if (job.site.gates.empty() && encloses(plan.layout)) plan.findings.push_back({"plan.no_gate", Severity::note, "site", {}});
  plan.stakes = stakeout::stake_out(job.site, plan.layout);
  plan.heights = grade::rail_heights(job, plan.catalogue, plan.layout, {}, plan.findings);
  plan.asbuilt = asbuilt::take_in_gaps(job, plan.layout, plan.heights, plan.findings);
  plan.assembly = fittings::assemble(job, plan.catalogue, plan.layout, plan.heights, plan.asbuilt.readings, plan.findings);
  std::vector<takeoff::PostSize> posts = takeoff::size_posts(job, plan.catalogue, plan.layout, plan.heights, plan.assembly, plan.findings);
  if (effort == Effort::sketch) {
    plan.takeoff.posts = std::move(posts);
    return plan;
  }
  plan.cuts = takeoff::gather_pieces(job, plan.catalogue, plan.layout, plan.assembly, posts, plan.findings);
  cut_pipes(job, effort, plan.cuts, on_progress);
  plan.takeoff = takeoff::take_off({job, plan.catalogue, plan.layout, plan.heights, plan.assembly, plan.cuts}, std::move(posts), plan.findings);
  plan.takeoff.range = takeoff::position_range({job, plan.catalogue, plan.layout, plan.heights, plan.assembly, plan.cuts}, plan.takeoff, limits.pitch_cap);
  plan.checks = checks(job, plan.catalogue, plan.layout, plan.heights, plan.takeoff.posts, plan.findings);
  plan.fingerprint = fingerprint(plan);
  return plan;
}

}  // namespace railwright
