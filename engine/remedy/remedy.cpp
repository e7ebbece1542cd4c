// SPDX-License-Identifier: MIT
#include "engine/remedy/remedy.h"

#include <algorithm>

#include "engine/remedy/candidates.h"

namespace railwright::remedy {
namespace {

constexpr std::size_t kMostTried = 6;

bool has(const Findings& findings, const Finding& wanted) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == wanted.code && f.where == wanted.where; });
}
std::int64_t stops(const Findings& findings) {
  return std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::stop; });
}

}  // namespace

std::vector<Remedy> remedies(const job::Job& job, const job::Catalogue& shipped, const Plan& plan, const Finding& finding) {
  std::vector<Remedy> offered;
  std::vector<Candidate> tried = candidates(job, plan, finding);
  if (tried.size() > kMostTried) tried.resize(kMostTried);
  const std::int64_t before = stops(plan.findings);
  for (Candidate& candidate : tried) {
    const Plan changed = make_plan(candidate.job, shipped, Effort::quick);
    if (has(changed.findings, finding) || stops(changed.findings) > before) continue;
    const auto more = static_cast<std::int64_t>(changed.layout.posts.size()) - static_cast<std::int64_t>(plan.layout.posts.size());
    const auto price = measure::Money::from_units(changed.takeoff.price.total.units() - plan.takeoff.price.total.units());
    offered.push_back({std::move(candidate.code), std::move(candidate.values), std::move(candidate.job), price, more});
  }
  std::stable_sort(offered.begin(), offered.end(), [](const Remedy& a, const Remedy& b) { return a.price < b.price; });
  return offered;
}

}  // namespace railwright::remedy
