// SPDX-License-Identifier: MIT
#include "engine/takeoff/hours.h"

#include <cmath>

namespace railwright::takeoff {

namespace {

using Counts = std::map<std::string, double>;  // by unit

struct Work {
  Counts posts, driven, holes, rails, cuts, fittings, mesh, panels, wires, braces, gates, fence;
};

void count_posts(const Orders& orders, Work& work) {
  for (std::size_t k = 0; k < orders.posts.size(); ++k) {
    const setout::Post& post = orders.in.layout.posts[k];
    if (!orders.remaining.post(static_cast<int>(k)) || !orders.has_fence(post.fence)) continue;
    const bool driven = orders.fence(post.fence).setting == job::Setting::driven;
    work.posts["post"] += 1;
    work.fence["post"] += 1;
    Counts& own = driven ? work.driven : work.holes;
    own["post"] += 1;
    own["hole"] += 1;
  }
}

void count_rails(const Orders& orders, Work& work) {
  for (const fittings::Rail& rail : orders.in.assembly.rails) {
    if (orders.remaining.bay(rail.bay)) work.rails["rail"] += 1;
  }
  for (const fittings::Use& use : orders.in.assembly.uses) {
    if (orders.remaining.use(use)) work.fittings["fitting"] += 1;
  }
  for (const PipeCuts& pipe : orders.in.cuts) {
    for (const cutting::Stick& stick : pipe.plan.sticks) {
      work.cuts["cut"] += static_cast<double>(stick.count) * static_cast<double>(stick.pieces.size());
    }
  }
}

Counts* counts_of_kind(Work& work, job::FenceKind kind) {
  switch (kind) {
    case job::FenceKind::mesh:
      return &work.mesh;
    case job::FenceKind::panels:
      return &work.panels;
    case job::FenceKind::strained:
    case job::FenceKind::wire:
      return &work.wires;
    case job::FenceKind::rails:
      break;
  }
  return nullptr;
}

void count_bays(const Orders& orders, Work& work) {
  for (const Stretch& stretch : orders.stretches) {
    const double feet = stretch.slope_m / measure::kMetrePerFoot;
    Counts* infill = counts_of_kind(work, orders.fence(stretch.fence).kind);
    for (Counts* counts : {infill, &work.fence}) {
      if (counts == nullptr) continue;
      (*counts)["ft"] += feet;
      (*counts)["bay"] += stretch.bays;
    }
    if (orders.fence(stretch.fence).rails > 0) work.rails["bay"] += stretch.bays;
  }
  const auto& bays = orders.in.layout.bays;
  for (std::size_t k = 0; k < bays.size() && k < orders.in.heights.bays.size(); ++k) {
    const bool brace = orders.in.heights.bays[k].has_brace_rail && orders.remaining.bay(static_cast<int>(k));
    if (brace) work.braces["assembly"] += 1;
  }
  for (const job::Gate& gate : orders.in.job.site.gates) {
    if (orders.remaining.gate(gate.id)) work.gates["gate"] += 1;
  }
}

// What an operation counts and the units in which its row may be given.
struct Operation {
  const char* name;
  Counts Work::*counts;
  const char* units[3];
};
constexpr Operation kOperations[] = {
    {"stake", &Work::posts, {"post", "", ""}},      {"dig", &Work::holes, {"hole", "post", ""}},    {"drive", &Work::driven, {"hole", "post", ""}},
    {"set", &Work::posts, {"post", "", ""}},        {"trim", &Work::posts, {"post", "", ""}},       {"measure", &Work::rails, {"rail", "bay", ""}},
    {"cut", &Work::cuts, {"cut", "", ""}},          {"band", &Work::fittings, {"fitting", "", ""}}, {"rail", &Work::rails, {"rail", "bay", ""}},
    {"mesh", &Work::mesh, {"ft", "bay", ""}},       {"panel", &Work::panels, {"ft", "bay", ""}},    {"wire", &Work::wires, {"ft", "bay", ""}},
    {"brace", &Work::braces, {"assembly", "", ""}}, {"gate", &Work::gates, {"gate", "", ""}},       {"clean-up", &Work::fence, {"ft", "bay", "post"}}};

const Operation* operation_of(const job::HourRow& row) {
  for (const Operation& operation : kOperations) {
    if (row.operation != operation.name) continue;
    for (const char* unit : operation.units) {
      if (*unit != '\0' && row.unit == unit) return &operation;
    }
  }
  return nullptr;
}

void add_line(Takeoff& takeoff, const std::string& operation, double count, double minutes) {
  if (!(count > 0) || !(minutes > 0)) return;
  takeoff.hours.push_back({operation, count, minutes, count * minutes / 60});
  takeoff.person_hours += takeoff.hours.back().hours;
}

// Days of the whole crew: the work over what a day leaves after set-up and travel; those are paid for each day begun.
void add_days(const Orders& orders, Takeoff& takeoff) {
  const job::Crew& crew = orders.in.job.choices.crew;
  const double lost = crew.setup_minutes_per_day + crew.travel_minutes_per_day;
  const double useful = crew.people * (crew.hours_per_day - lost / 60);
  if (!(takeoff.person_hours > 0)) return;
  if (!(useful > 0)) {
    orders.findings.push_back({"takeoff.no_working_hours", Severity::warning, "/choices/crew", {}});
    return;
  }
  takeoff.days = takeoff.person_hours / useful;
  const double begun = std::ceil(takeoff.days - 1e-9) * crew.people;
  add_line(takeoff, "set-up", begun, crew.setup_minutes_per_day);
  add_line(takeoff, "travel", begun, crew.travel_minutes_per_day);
}

}  // namespace

void count_hours(const Orders& orders, Takeoff& takeoff) {
  Work work;
  count_posts(orders, work);
  count_rails(orders, work);
  count_bays(orders, work);
  for (const job::HourRow& row : orders.in.catalogue.hours) {
    const Operation* operation = operation_of(row);
    if (operation == nullptr) {
      orders.findings.push_back({"takeoff.hour_unit", Severity::warning, row.operation, {{"unit", row.unit}}});
      continue;
    }
    const Counts& counts = work.*(operation->counts);
    const auto found = counts.find(row.unit);
    if (found != counts.end()) add_line(takeoff, row.operation, found->second, row.minutes);
  }
  add_days(orders, takeoff);
}

}  // namespace railwright::takeoff
