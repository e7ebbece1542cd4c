// SPDX-License-Identifier: MIT
// Bays, the runs that they divide, and the cap on their pitch.
#include <cmath>

#include "engine/plan/check_parts.h"
#include "engine/strength/rail.h"
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

const setout::Run* run_of(const Plan& plan, const setout::Bay& bay) {
  const auto k = static_cast<std::size_t>(bay.run);
  return bay.run >= 0 && k < plan.layout.runs.size() ? &plan.layout.runs[k] : nullptr;
}

// Dividing a whole number of nanometres leaves each bay at most one of them off.
bool divides_evenly(const setout::Run& run, Length pitch) {
  const std::int64_t off = (run.end - run.start).nm() - pitch.nm() * run.bay_count;
  return run.bay_count > 0 && std::llabs(off) <= run.bay_count;
}

Answer pitch(const Asked& asked, const setout::Bay& bay) {
  const setout::Run* run = run_of(asked.plan, bay);
  if (run != nullptr && divides_evenly(*run, bay.pitch)) {
    return answer(asked, value_of(bay.pitch), "run / bays",
                  {figure("run/" + run->name + "/length", "run", run->end - run->start),
                   figure("run/" + run->name + "/bays", "bays", Value(std::int64_t{run->bay_count}))},
                  "geometry", {bay.name});
  }
  return answer(asked, value_of(bay.pitch), "station - station_before",
                {figure("post/" + asked.post(bay.to).name + "/station", "station", bay.end),
                 figure("post/" + asked.post(bay.from).name + "/station", "station_before", bay.start)},
                "geometry", {bay.name});
}

std::optional<Answer> bay(const Asked& asked) {
  const int index = bay_named(asked.plan, asked.thing);
  if (index < 0) return std::nullopt;
  const setout::Bay& found = asked.bay(index);
  if (asked.part == "pitch") return pitch(asked, found);
  if (asked.part != "gap") return std::nullopt;
  const setout::Post &from = asked.post(found.from), &to = asked.post(found.to);
  return answer(asked, value_of(found.gap), "pitch - diameter_from / 2 - diameter_to / 2",
                {figure("bay/" + found.name + "/pitch", "pitch", found.pitch), input("diameter_from", from.diameter), input("diameter_to", to.diameter)},
                "geometry", {found.name});
}

void list_bays(const job::Job&, const Plan& plan, const Listed& add) {
  for (const setout::Bay& found : plan.layout.bays) {
    add(found.name, "pitch");
    add(found.name, "gap");
  }
}

Length own_cap(const job::Fence& fence) { return fence.spacing.cap; }

Length cap_of(const Asked& asked, int fence) {
  const std::vector<Length> caps = pitch_caps(asked.job, asked.plan.catalogue);
  const auto k = static_cast<std::size_t>(fence);
  return fence >= 0 && k < caps.size() ? caps[k] : Length();
}

std::string chosen_by(const Asked& asked, const setout::Run& run) {
  const job::Fence* fence = asked.fence(run.fence);
  if (fence == nullptr) return "setout";
  switch (fence->spacing.mode) {
    case job::SpacingMode::best:
      return "spacing";
    case job::SpacingMode::equal:
      return "setout";
    default:
      return "pitch_asked";
  }
}

std::optional<Answer> run(const Asked& asked) {
  const int index = index_where(asked.plan.layout.runs, [&](const setout::Run& r) { return r.name == asked.thing; });
  if (index < 0) return std::nullopt;
  const setout::Run& found = asked.plan.layout.runs[static_cast<std::size_t>(index)];
  const Length long_ = found.end - found.start;
  if (asked.part == "length") {
    return answer(asked, value_of(long_), "station - station_before",
                  {figure("post/" + asked.post(found.to).name + "/station", "station", found.end),
                   figure("post/" + asked.post(found.from).name + "/station", "station_before", found.start)},
                  "geometry", {found.name});
  }
  if (asked.part != "bays") return std::nullopt;
  const job::Fence* fence = asked.fence(found.fence);
  const Length cap = cap_of(asked, found.fence);
  const Value bays = std::int64_t{found.bay_count};
  const bool fewest = cap.nm() > 0 && std::ceil(long_.metres() / cap.metres() - 1e-9) == found.bay_count;
  if (fence == nullptr || !fewest) return plainly(asked, input("counted", bays), chosen_by(asked, found), {found.name});
  return answer(asked, bays, "ceil(run / cap)", {figure("run/" + found.name + "/length", "run", long_), figure("fence/" + fence->id + "/cap", "cap", cap)},
                "fewest_bays", {found.name});
}

void list_runs(const job::Job&, const Plan& plan, const Listed& add) {
  for (const setout::Run& found : plan.layout.runs) {
    add(found.name, "length");
    add(found.name, "bays");
  }
}

// The smaller of what the fence asks for and what its rail carries.
std::optional<Answer> fence_cap(const Asked& asked) {
  const int index = index_where(asked.job.choices.fences, [&](const job::Fence& f) { return f.id == asked.thing; });
  if (index < 0 || asked.part != "cap") return std::nullopt;
  const job::Fence& fence = asked.job.choices.fences[static_cast<std::size_t>(index)];
  const Length cap = cap_of(asked, index);
  const auto pipe = checked_pipe(asked.plan.catalogue, fence.rail_pipe);
  const job::Animal* animal = asked.plan.catalogue.animal(fence.animal);
  if (fence.kind == job::FenceKind::wire || fence.rails <= 0 || !pipe || animal == nullptr) return plainly(asked, input("own_cap", own_cap(fence)), "job");
  const strength::RailLoad load{animal->push, measure::LineLoad::si(pipe->kilograms_per_metre * measure::kStandardGravity)};
  const Length carried = measure::max(strength::max_pitch(pipe->section, pipe->yield, load, CheckRules().sag_ratio), Length::feet(2));
  Answer made = answer(asked, value_of(cap), "min(own_cap, carried)", {input("own_cap", own_cap(fence)), input("carried", carried)}, "carried");
  made.row = animal->source;
  return made;
}

void list_fences(const job::Job& job, const Plan&, const Listed& add) {
  for (const job::Fence& fence : job.choices.fences) add(fence.id, "cap");
}

}  // namespace

const Family kBays{"bay", bay, list_bays};
const Family kRuns{"run", run, list_runs};
const Family kFences{"fence", fence_cap, list_fences};

}  // namespace railwright::why
