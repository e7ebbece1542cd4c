// SPDX-License-Identifier: MIT
#include "formats/start_job.h"

#include <algorithm>
#include <set>

#include "engine/measure/quantity.h"
#include "formats/strengthen.h"

namespace railwright::formats {
namespace {

using job::FenceKind;
using measure::Length;

constexpr int kMostRails = 6;
constexpr Length kUsualPitch = Length::feet(8);
constexpr Length kSticks[] = {Length::feet(21), Length::feet(24), Length::feet(32)};  // common practice, no source
constexpr Length kOverhang = Length::feet(4);                                         // behind, without flags: 49 CFR 393.87
constexpr double kWireTension_lbf = 250;                                              // common practice, no source
constexpr Length kWireStep = Length::inches(10);                                      // common practice, no source
constexpr Length kInfillGap = Length::inches(2);
constexpr Length kClearOfTrap = Length::inches(1) / 4;  // what is set out to the sixteenth stays clear of it

template <class Rows>
std::string ids_of(const Rows& rows) {
  std::string ids;
  for (const auto& row : rows) ids += (ids.empty() ? "" : ", ") + row.id;
  return ids;
}

Result<job::Pipe> pipe_named(const std::string& name, const job::Catalogue& catalogue) {
  if (const job::Pipe* exact = catalogue.pipe(name)) return *exact;
  for (const job::Pipe& pipe : catalogue.pipes) {
    if (!name.empty() && pipe.id.rfind(name + " ", 0) == 0) return pipe;
  }
  return fail("start.pipe", {}, {{"text", name}, {"choices", ids_of(catalogue.pipes)}});
}

bool traps(Length opening, const job::Animal& animal) { return animal.trap_to > Length() && opening >= animal.trap_from && opening <= animal.trap_to; }

// Rails at equal steps leave openings of a step less the pipe, the lowest of them at the ground.
std::optional<int> fewest_rails(Length height, Length diameter, const job::Animal& animal) {
  const Length widest = measure::min(animal.largest_opening, animal.largest_bottom_gap);
  for (int rails = 1; rails <= kMostRails; ++rails) {
    const Length opening = height / rails - diameter;
    if (opening <= widest && (rails == 1 || !traps(opening, animal))) return rails;
  }
  return std::nullopt;
}

// How high a mesh hangs above the ground: no higher than it takes to close what lies between it and the top rail.
Length gap_under_infill(Length height, Length diameter, Length infill, const job::Animal& animal) {
  const Length usual = measure::min(kInfillGap, height - infill);
  const Length open = height - diameter - infill - usual;
  Length widest = animal.largest_opening;
  if (traps(measure::min(open, widest), animal)) widest = animal.trap_from - kClearOfTrap;
  if (open <= widest) return usual;
  return usual + measure::min(open - widest, measure::max(Length(), animal.largest_bottom_gap - usual)).round_up_to(kClearOfTrap);
}

// The highest infill of a kind that ends below the top rail.
const job::Supply* infill_for(const job::Catalogue& catalogue, const char* kind, Length height) {
  const job::Supply* best = nullptr;
  for (const job::Supply& supply : catalogue.supplies) {
    if (supply.kind != kind || supply.width > height) continue;
    if (best == nullptr || supply.width > best->width) best = &supply;
  }
  return best;
}

const job::Supply* first_of(const job::Catalogue& catalogue, const char* kind) {
  for (const job::Supply& supply : catalogue.supplies) {
    if (supply.kind == kind) return &supply;
  }
  return nullptr;
}

Result<void> fill(job::Fence& fence, const job::Animal& animal, const job::Catalogue& catalogue) {
  if (fence.kind == FenceKind::rails) return {};
  const bool wires = fence.kind == FenceKind::strained || fence.kind == FenceKind::wire;
  const char* kind = wires ? "wire" : fence.kind == FenceKind::panels ? "panel" : "mesh";
  const job::Supply* supply = wires ? first_of(catalogue, kind) : infill_for(catalogue, kind, fence.height);
  if (supply == nullptr) return fail("start.no_infill", {}, {{"kind", std::string(kind)}, {"height", value_of(fence.height)}});
  fence.infill.supply = supply->id;
  if (wires) {
    const Length step = measure::min(kWireStep, animal.largest_opening);
    const auto steps = static_cast<int>((fence.height.nm() + step.nm() - 1) / step.nm());
    fence.infill.wires = std::clamp(fence.kind == FenceKind::wire ? steps : steps - 1, 1, 20);
    fence.infill.tension = measure::pounds_force(kWireTension_lbf);
    return {};
  }
  const job::Pipe* rail = catalogue.pipe(fence.rail_pipe);
  fence.infill.ground_gap = gap_under_infill(fence.height, rail == nullptr ? Length() : rail->diameter, supply->width, animal);
  if (fence.kind == FenceKind::panels) fence.spacing.panel = supply->length;
  return {};
}

Result<void> check(const StartChoices& choices) {
  if (choices.rails && (*choices.rails < 1 || *choices.rails > kMostRails)) {
    return fail("start.rails", {}, {{"rails", std::int64_t{*choices.rails}}, {"most", std::int64_t{kMostRails}}});
  }
  if (choices.height && (*choices.height < Length::feet(2) || *choices.height > Length::feet(10))) {
    return fail("start.height", {}, {{"height", value_of(*choices.height)}});
  }
  if (choices.pitch && (*choices.pitch < Length::feet(3) || *choices.pitch > Length::feet(20))) {
    return fail("start.pitch", {}, {{"pitch", value_of(*choices.pitch)}});
  }
  return {};
}

// Kind and number of rails as chosen, or as the animal needs.
void choose_kind(const StartChoices& choices, const job::Animal& animal, const job::Pipe& pipe, job::Fence& fence) {
  const auto enough = fewest_rails(fence.height, pipe.diameter, animal);
  const bool by_rails = choices.rails.has_value() || enough.has_value();
  fence.kind = choices.kind.value_or(by_rails ? FenceKind::rails : FenceKind::mesh);
  const bool rails = fence.kind == FenceKind::rails;
  fence.rails = choices.rails.value_or(rails ? enough.value_or(kMostRails) : 1);
  if (fence.kind == FenceKind::wire) fence.rails = 0;
}

Result<job::Fence> fence_for(const StartChoices& choices, const job::Catalogue& catalogue) {
  if (const auto good = check(choices); !good) return tl::unexpected(good.error());
  const job::Animal* animal = catalogue.animal(choices.animal);
  if (animal == nullptr) return fail("start.animal", {}, {{"text", choices.animal}, {"choices", ids_of(catalogue.animals)}});
  const auto pipe = pipe_named(choices.pipe, catalogue);
  if (!pipe) return tl::unexpected(pipe.error());
  job::Fence fence;
  fence.id = "fence";
  fence.animal = animal->id;
  fence.height = choices.height.value_or(animal->least_height);
  choose_kind(choices, *animal, *pipe, fence);
  fence.spacing.cap = choices.pitch.value_or(kUsualPitch);
  fence.rail_pipe = fence.line_pipe = pipe->id;
  fence.strong_pipe = fence.gate_pipe = next_size_up(catalogue, *pipe, *pipe).id;
  fence.soil = catalogue.soils.empty() ? std::string() : catalogue.soils.front().id;
  if (const auto good = fill(fence, *animal, catalogue); !good) return tl::unexpected(good.error());
  return fence;
}

// Sticks of every pipe used, priced by the foot; none that hangs over the trailer's bed by more than may go without flags.
void offer_sticks(const job::Fence& fence, const job::Catalogue& catalogue, Length bed, std::vector<job::StockOffer>& offers) {
  const std::set<std::string> pipes{fence.rail_pipe, fence.line_pipe, fence.strong_pipe, fence.gate_pipe};
  for (const std::string& pipe : pipes) {
    const job::PriceRow* price = catalogue.price(pipe);
    for (const Length length : kSticks) {
      if (length > bed + kOverhang) continue;
      job::StockOffer offer;
      offer.pipe = pipe;
      offer.length = length;
      offer.name = pipe + " x " + measure::exact_text(length);
      if (price != nullptr && price->unit == "ft") {
        offer.price = price->price.times(length.feet_value()).round_to_cents();
        offer.source = price->source;
      }
      offers.push_back(std::move(offer));
    }
  }
}

job::Site paddock() {
  job::Site site;
  const Length wide = Length::feet(100), deep = Length::feet(80);
  site.points = {{"A", {}, {}, {}, {}}, {"B", wide, {}, {}, {}}, {"C", wide, deep, {}, {}}, {"D", {}, deep, {}, {}}};
  const char* const ends[] = {"A", "B", "C", "D", "A"};
  for (int i = 0; i < 4; ++i) {
    job::Leg leg;
    leg.from = ends[i];
    leg.to = ends[i + 1];
    leg.id = leg.from + leg.to;
    site.legs.push_back(std::move(leg));
  }
  job::Gate gate;
  gate.id = "G1";
  gate.leg = "AB";
  gate.station = Length::feet(50);
  gate.leaf = Length::feet(12);
  gate.hinge_clearance = Length::inches(3);
  gate.latch_clearance = Length::inches(2);
  site.gates.push_back(std::move(gate));
  return site;
}

// A grid speaks for the ground; a phone's heights, wrong by metres, would bend it.
void lay_grid(const job::GroundGrid& grid, job::Site& site) {
  site.ground.grid = grid;
  if (site.ground.accuracy <= Length::feet(3)) return;
  for (job::Point& point : site.points) point.height.reset();
  site.ground.profile.clear();
  site.ground.spots.clear();
  site.ground.accuracy = {};
}

// Every fence named in the file is a fence of the job; it starts as the common one.
void share_fences(const job::Fence& fence, job::Job& job) {
  std::set<std::string> made;
  for (job::Leg& leg : job.site.legs) {
    if (leg.fence.empty() || leg.fence.size() > 60) leg.fence = fence.id;
    if (!made.insert(leg.fence).second) continue;
    job.choices.fences.push_back(fence);
    job.choices.fences.back().id = leg.fence;
  }
}

}  // namespace

Result<StartedJob> start_job(const StartChoices& choices, const job::Catalogue& catalogue, const WalkedSite* walk, const job::GroundGrid* grid) {
  const auto fence = fence_for(choices, catalogue);
  if (!fence) return tl::unexpected(fence.error());
  StartedJob started;
  job::Job& job = started.job;
  job.units = choices.units;
  if (job.units == job::UnitSystem::metric) job.choices.cutting.saw_step = Length::mm(1);  // a metric tape shows no sixteenths
  job.name = !choices.name.empty() ? choices.name : walk != nullptr ? walk->name : std::string();
  if (job.name.empty()) job.name = "New fence";
  if (walk != nullptr) {
    job.site = walk->site;
    started.findings = walk->findings;
  } else {
    job.site = paddock();
    job.invented = true;
  }
  if (grid != nullptr) {
    WalkedSite own;
    own.site = job.site;
    const auto laid = grid_for(walk != nullptr ? *walk : own, *grid);
    if (!laid) return tl::unexpected(laid.error());
    lay_grid(*laid, job.site);
  }
  share_fences(*fence, job);
  offer_sticks(job.choices.fences.front(), catalogue, job.choices.trailer.bed, job.choices.offers);
  if (!choices.strengthen) return started;
  Findings over = strengthen(job, catalogue);
  job.choices.offers.clear();  // stronger pipe brings new sticks, whose prices and lengths change no check
  offer_sticks(job.choices.fences.front(), catalogue, job.choices.trailer.bed, job.choices.offers);
  started.findings.insert(started.findings.end(), over.begin(), over.end());
  return started;
}

}  // namespace railwright::formats
