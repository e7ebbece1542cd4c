// SPDX-License-Identifier: MIT
#include "engine/plan/plan.h"

#include <algorithm>

#include "engine/ground/profile.h"
#include "engine/plan/fingerprint.h"

namespace railwright {
namespace {

// Search steps of one cut proof unless the job says otherwise: about a second on one core.
constexpr std::int64_t kDefaultWork = 2000;

void cut_pipes(const job::Job& job, Effort effort, std::vector<takeoff::PipeCuts>& cuts) {
  cutting::Options options;
  options.effort = effort == Effort::full ? cutting::Effort::full : cutting::Effort::quick;
  options.work_limit = job.choices.cutting.work_limit > 0 ? job.choices.cutting.work_limit : kDefaultWork;
  for (takeoff::PipeCuts& pipe : cuts) pipe.plan = cutting::solve(pipe.instance, options);
}

}  // namespace

bool stops_work(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::stop; });
}

Plan make_plan(const job::Job& job, const job::Catalogue& shipped, Effort effort) {
  Plan plan;
  plan.catalogue = job::overlay(shipped, job.choices.overrides);
  setout::Limits limits{pitch_caps(job, plan.catalogue), {}};
  std::vector<ground::Profile> profiles = ground::profiles(job.site, plan.findings, job.choices.clearance_accuracy);
  if (spacing::wanted(job)) {
    plan.spacing = spacing::choose(job, plan.catalogue, limits, profiles);
    limits.forced_bays = plan.spacing->bays;
  }
  plan.layout = setout::set_out(job, plan.catalogue, limits, std::move(profiles), plan.findings);
  plan.stakes = stakeout::stake_out(job.site, plan.layout);
  plan.heights = grade::rail_heights(job, plan.catalogue, plan.layout, {}, plan.findings);
  plan.asbuilt = asbuilt::take_in_gaps(job, plan.layout, plan.heights, plan.findings);
  plan.assembly = fittings::assemble(job, plan.catalogue, plan.layout, plan.heights, plan.asbuilt.readings, plan.findings);
  std::vector<takeoff::PostSize> posts =
      takeoff::size_posts(job, plan.catalogue, plan.layout, plan.heights, plan.assembly, plan.findings);
  plan.cuts = takeoff::gather_pieces(job, plan.catalogue, plan.layout, plan.assembly, posts, plan.findings);
  cut_pipes(job, effort, plan.cuts);
  plan.takeoff = takeoff::take_off({job, plan.catalogue, plan.layout, plan.heights, plan.assembly, plan.cuts}, std::move(posts),
                                   plan.findings);
  plan.checks = checks(job, plan.catalogue, plan.layout, plan.heights, plan.takeoff.posts, plan.findings);
  plan.fingerprint = fingerprint(plan);
  return plan;
}

}  // namespace railwright
