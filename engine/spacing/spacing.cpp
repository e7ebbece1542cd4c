// SPDX-License-Identifier: MIT
#include "engine/spacing/spacing.h"

#include <algorithm>

#include "engine/spacing/search.h"

namespace railwright::spacing {
namespace {

// Work of cutting the answers that are reported.
constexpr std::int64_t kWorkToReport = 200;

std::vector<const Share*> all(const std::vector<Share>& shares) {
  std::vector<const Share*> pointers;
  for (const Share& share : shares) pointers.push_back(&share);
  return pointers;
}

std::vector<int> bays_of(const Table& table, const std::vector<int>& choice) {
  std::vector<int> bays;
  for (std::size_t r = 0; r < choice.size(); ++r) bays.push_back(table.runs[r][static_cast<std::size_t>(choice[r])].bays);
  return bays;
}

}  // namespace

bool wanted(const job::Job& job) {
  return std::any_of(job.site.legs.begin(), job.site.legs.end(), [&](const job::Leg& leg) {
    return std::any_of(job.choices.fences.begin(), job.choices.fences.end(), [&](const job::Fence& fence) {
      return fence.id == leg.fence && fence.spacing.mode == job::SpacingMode::best;
    });
  });
}

Choice choose(const job::Job& job, const job::Catalogue& catalogue, const setout::Limits& limits,
              const std::vector<ground::Profile>& profiles, const Options& options) {
  const Site site{job, catalogue, limits, profiles};
  Table table = tabulate(site);
  const Length scatter = job.choices.allowances.scatter;
  Search search(table, scatter, options.work_limit);
  search.run();

  // What is reported is counted on true layouts: a line that reaches over several runs may differ from its columns in the table.
  Choice choice;
  const std::vector<int> plain(table.runs.size(), 0);
  const std::vector<std::vector<int>> rivals{search.best(), plain, table.eight_foot};
  std::vector<std::vector<Share>> accounts;
  for (const std::vector<int>& rival : rivals) accounts.push_back(account_of(site, bays_of(table, rival), table));
  const auto priced = [&](std::size_t k, Length allowance) { return PipeCost(table, allowance, kWorkToReport, Grain::exact).of(all(accounts[k])); };
  choice.plain = priced(1, scatter).cost;
  choice.eight_foot = priced(2, scatter).cost;
  std::size_t taken = 0;
  const Priced best = priced(0, scatter);
  choice.cost = best.cost;
  if (!best.found || choice.plain <= choice.cost) taken = 1;
  if (taken == 1) choice.cost = choice.plain;
  if (choice.eight_foot < choice.cost) {
    taken = 2;
    choice.cost = choice.eight_foot;
  }
  choice.bays = bays_of(table, rivals[taken]);
  choice.at_zero = priced(taken, Length()).cost;
  choice.at_double = priced(taken, 2 * scatter).cost;
  choice.bound = std::min(choice.cost, search.bound());
  choice.proved = choice.bound == choice.cost;
  for (const auto& run : table.runs) choice.free_runs += run.size() > 1 ? 1 : 0;
  return choice;
}

}  // namespace railwright::spacing
