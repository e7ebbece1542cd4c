// SPDX-License-Identifier: MIT
#include "engine/spacing/table.h"

#include <algorithm>
#include <utility>

#include "engine/spacing/account.h"

namespace railwright::spacing {
namespace {

constexpr Length kEightFeet = Length::feet(8);

// Line posts already issued between the ends of a run.
int issued_inside(const job::Job& job, const setout::Run& run) {
  int count = 0;
  for (const job::IssuedPost& post : job.issued.posts) {
    const bool here = !post.retired && post.leg == job.site.legs[static_cast<std::size_t>(run.leg)].id;
    if (here && post.station > run.start && post.station < run.end) ++count;
  }
  return count;
}

bool bay_issued(const job::Job& job, const setout::Layout& layout, const setout::Run& run) {
  const std::string& name = layout.bays[static_cast<std::size_t>(run.first_bay)].name;
  return std::any_of(job.issued.bays.begin(), job.issued.bays.end(), [&](const job::IssuedBay& bay) { return !bay.retired && bay.name == name; });
}

Range range_of(const job::Job& job, const setout::Layout& layout, const setout::Run& run, int most_more) {
  const job::Fence& fence = job.choices.fences[static_cast<std::size_t>(run.fence)];
  const setout::Bay& bay = layout.bays[static_cast<std::size_t>(run.first_bay)];
  const bool panels = fence.spacing.panel.nm() > 0 || fence.kind == job::FenceKind::panels;
  const int fewest = run.bay_count;
  if (fence.spacing.mode != job::SpacingMode::best || panels || bay.kind == setout::BayKind::brace) return {fewest, fewest};
  if (const int issued = issued_inside(job, run); issued > 0) return {issued + 1, issued + 1};
  if (fewest == 1 && bay_issued(job, layout, run)) return {1, 1};
  return {fewest, std::min(2 * fewest, fewest + most_more)};
}

std::vector<int> at_rank(const std::vector<Range>& ranges, int rank) {
  std::vector<int> bays;
  for (const Range& range : ranges) bays.push_back(std::min(range.least + rank, range.most));
  return bays;
}

void take_column(std::vector<Share> shares, Table& table) {
  for (std::size_t r = 0; r < table.runs.size(); ++r) {
    std::vector<Share>& known = table.runs[r];
    const bool sound = shares[r].faults <= known.front().faults && shares[r].bays > known.back().bays;
    if (sound) known.push_back(std::move(shares[r]));
  }
}

void find_eight_foot(const Site& site, Table& table) {
  setout::Limits limits = site.limits;
  limits.forced_bays.clear();
  for (Length& cap : limits.pitch_cap) cap = measure::min(cap, kEightFeet);
  Findings unused;
  const setout::Layout layout = setout::set_out(site.job, site.catalogue, limits, site.profiles, unused);
  for (std::size_t r = 0; r < table.runs.size() && r < layout.runs.size(); ++r) {
    int at = 0;
    while (at + 1 < static_cast<int>(table.runs[r].size()) && table.runs[r][static_cast<std::size_t>(at)].bays < layout.runs[r].bay_count) ++at;
    table.eight_foot.push_back(at);
  }
  table.eight_foot.resize(table.runs.size());
}

}  // namespace

Tabulator::Tabulator(const Site& site, int most_more) : site_(site), most_more_(most_more) {}

// The first column: the plain rule, but that runs whose stakes are issued keep them.
void Tabulator::begin() {
  setout::Limits limits = site_.limits;
  limits.forced_bays.clear();
  const setout::Layout by_rule = try_out(site_, limits).layout;
  for (const setout::Run& run : by_rule.runs) {
    ranges_.push_back(range_of(site_.job, by_rule, run, most_more_));
    ranks_ = std::max(ranks_, ranges_.back().most - ranges_.back().least);
    table_.fence.push_back(run.fence);
  }
  limits.forced_bays = at_rank(ranges_, 0);
  const Trial plain = try_out(site_, limits);
  table_.concrete_per_m3 = concrete_price(site_, plain);
  std::vector<Share> shares = shares_of(site_, plain, table_);
  table_.shared = std::move(shares.back());
  shares.pop_back();
  for (Share& share : shares) table_.runs.push_back({std::move(share)});
}

bool Tabulator::step() {
  if (rank_ > ranks_) return false;
  if (++rank_ == 0) {
    begin();
  } else if (rank_ <= ranks_) {
    setout::Limits limits = site_.limits;
    limits.forced_bays = at_rank(ranges_, rank_);
    take_column(shares_of(site_, try_out(site_, limits), table_), table_);
  } else {
    find_eight_foot(site_, table_);
  }
  return true;
}

Table tabulate(const Site& site, int most_more) {
  Tabulator tabulator(site, most_more);
  while (tabulator.step()) {
  }
  return tabulator.take();
}

}  // namespace railwright::spacing
