// SPDX-License-Identifier: MIT
#include "engine/remedy/remedy.h"

#include <algorithm>

#include "engine/remedy/candidates.h"

namespace railwright::remedy {
namespace {

constexpr std::size_t kMostTried = 6;

const std::int64_t* count_in(const Finding& finding) {
  for (const auto& [name, value] : finding.values)
    if (name == "count") return std::get_if<std::int64_t>(&value);
  return nullptr;
}

// One bay at fault and several of its run have the code of one and of many: `grade.hump`, `grade.humps`.
std::string family_of(const Finding& finding) {
  std::string code = finding.code;
  if (count_in(finding) && code.back() == 's') code.pop_back();
  return code;
}

// How many places are at fault as the finding says, all over the plan.
std::int64_t at_fault(const Findings& findings, const std::string& family) {
  std::int64_t places = 0;
  for (const Finding& finding : findings) {
    if (family_of(finding) != family) continue;
    const std::int64_t* count = count_in(finding);
    places += count ? *count : 1;
  }
  return places;
}

// A finding of a whole fence weighs more than one of a bay with the same code: when it is gone, some of its bays may still be told of.
bool of_whole_fence(const job::Job& job, const Finding& finding) {
  const auto& fences = job.choices.fences;
  return std::any_of(fences.begin(), fences.end(), [&](const job::Fence& fence) { return fence.id == finding.where; });
}

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
  if (tried.empty()) return offered;
  // Like is held beside like: the plan given may have been searched longer.
  const Plan as_it_is = make_plan(job, shipped, Effort::quick);
  const std::int64_t before = stops(as_it_is.findings);
  const std::string family = family_of(finding);
  const bool whole = of_whole_fence(job, finding);
  const std::int64_t faults = std::max(at_fault(as_it_is.findings, family), at_fault(plan.findings, family));
  for (Candidate& candidate : tried) {
    const Plan changed = make_plan(candidate.job, shipped, Effort::quick);
    // A fault that only moved to another bay, or got another bay's name, is not cured.
    const bool moved = !whole && at_fault(changed.findings, family) >= faults;
    if (has(changed.findings, finding) || moved || stops(changed.findings) > before) continue;
    const auto more = static_cast<std::int64_t>(changed.layout.posts.size()) - static_cast<std::int64_t>(as_it_is.layout.posts.size());
    const auto price = measure::Money::from_units(changed.takeoff.price.total.units() - as_it_is.takeoff.price.total.units());
    offered.push_back({std::move(candidate.code), std::move(candidate.values), std::move(candidate.job), price, more});
  }
  std::stable_sort(offered.begin(), offered.end(), [](const Remedy& a, const Remedy& b) { return a.price < b.price; });
  return offered;
}

}  // namespace railwright::remedy
