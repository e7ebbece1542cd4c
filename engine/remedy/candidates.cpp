// SPDX-License-Identifier: MIT
#include "engine/remedy/candidates.h"

#include <algorithm>
#include <cmath>

#include "engine/plan/check_parts.h"
#include "engine/takeoff/posts.h"

namespace railwright::remedy {
namespace {

using job::Fence;
using job::Gate;
using job::Job;
using measure::Length;
using measure::Money;

// One finding, the job it is of, and the changes thought of so far.
struct Bench {
  const Job& job;
  const Plan& plan;
  const Finding& finding;
  std::vector<Candidate>& found;

  template <class Change>
  void offer(const char* code, Values values, const Change& change) {
    Job changed = job;
    change(changed);
    found.push_back({code, std::move(values), std::move(changed)});
  }
  const Value* value(const char* name) const {
    for (const auto& [key, given] : finding.values) {
      if (key == name) return &given;
    }
    return nullptr;
  }
  Length length(const char* name) const {
    const Value* given = value(name);
    const auto* found_length = given == nullptr ? nullptr : std::get_if<LengthValue>(given);
    return found_length == nullptr ? Length() : Length::from_nm(found_length->nm);
  }
  double number(const char* name) const {
    const Value* given = value(name);
    const auto* real = given == nullptr ? nullptr : std::get_if<double>(given);
    return real == nullptr ? 0 : *real;
  }
  bool is(const char* code) const { return finding.code == code; }
  // The part of a place before a slash: a rail's bay.
  std::string place() const { return finding.where.substr(0, finding.where.find('/')); }
};

template <class Rows>
int named(const Rows& rows, const std::string& name) {
  for (std::size_t k = 0; k < rows.size(); ++k) {
    if (rows[k].name == name) return static_cast<int>(k);
  }
  return -1;
}
template <class Rows>
int with_id(const Rows& rows, const std::string& id) {
  for (std::size_t k = 0; k < rows.size(); ++k) {
    if (rows[k].id == id) return static_cast<int>(k);
  }
  return -1;
}

int post_of(const Bench& bench) { return named(bench.plan.layout.posts, bench.place()); }
int bay_of(const Bench& bench) { return named(bench.plan.layout.bays, bench.place()); }

// The fence that a finding is about, by whatever it names; -1: none.
int fence_of(const Bench& bench) {
  const setout::Layout& layout = bench.plan.layout;
  if (const int k = with_id(bench.job.choices.fences, bench.place()); k >= 0) return k;
  if (const int k = bay_of(bench); k >= 0) return layout.bays[static_cast<std::size_t>(k)].fence;
  if (const int k = post_of(bench); k >= 0) return layout.posts[static_cast<std::size_t>(k)].fence;
  if (const int k = named(layout.runs, bench.finding.where); k >= 0) return layout.runs[static_cast<std::size_t>(k)].fence;
  if (const int k = with_id(bench.job.site.legs, bench.place()); k >= 0) {
    return with_id(bench.job.choices.fences, bench.job.site.legs[static_cast<std::size_t>(k)].fence);
  }
  for (const setout::Post& post : layout.posts) {
    if (post.gate == bench.place() && !post.gate.empty()) return post.fence;
  }
  return -1;
}

// Offers a change of that fence.
template <class Change>
void change_fence(Bench& bench, const char* code, Values values, const Change& change) {
  const int k = fence_of(bench);
  if (k < 0 || static_cast<std::size_t>(k) >= bench.job.choices.fences.size()) return;
  bench.offer(code, std::move(values), [&](Job& job) { change(job.choices.fences[static_cast<std::size_t>(k)]); });
}
const Fence* the_fence(const Bench& bench) {
  const int k = fence_of(bench);
  return k < 0 || static_cast<std::size_t>(k) >= bench.job.choices.fences.size() ? nullptr : &bench.job.choices.fences[static_cast<std::size_t>(k)];
}

// ---- strength ----

// The lightest listed pipes that carry so much in bending, two at most.
std::vector<std::string> pipes_that_carry(const Bench& bench, double moment, double stiffer_than, Length least) {
  struct Found {
    std::string id;
    double mass;
  };
  std::vector<Found> pipes;
  for (const job::Pipe& pipe : bench.plan.catalogue.pipes) {
    const auto checked = checked_pipe(bench.plan.catalogue, pipe.id);
    if (!checked || pipe.diameter < least) continue;
    if (checked->allowable.si() >= moment && checked->section.inertia_m4 > stiffer_than) pipes.push_back({pipe.id, pipe.mass_kg_per_m});
  }
  std::sort(pipes.begin(), pipes.end(), [](const Found& a, const Found& b) { return a.mass != b.mass ? a.mass < b.mass : a.id < b.id; });
  std::vector<std::string> ids;
  for (std::size_t k = 0; k < pipes.size() && k < 2; ++k) ids.push_back(pipes[k].id);
  return ids;
}

takeoff::PostRole role_there(const Bench& bench) {
  const int post = post_of(bench);
  return post < 0 ? takeoff::PostRole::gate : takeoff::role(bench.plan.layout.posts[static_cast<std::size_t>(post)]);
}

void stronger_rail(Bench& bench) {
  const Fence* fence = the_fence(bench);
  if (fence == nullptr) return;
  const auto now = checked_pipe(bench.plan.catalogue, fence->rail_pipe);
  const bool bending = bench.is("checks.rail_bending");
  const double moment = bending ? bench.number("demand") : 0, stiffness = !bending && now ? now->section.inertia_m4 * bench.number("ratio") : 0;
  for (const std::string& id : pipes_that_carry(bench, moment, stiffness, {})) {
    change_fence(bench, "rail_pipe", {{"pipe", id}}, [&](Fence& f) { f.rail_pipe = id; });
  }
}

void stronger_post(Bench& bench) {
  const takeoff::PostRole role = role_there(bench);
  const bool size = bench.is("checks.gate_post_size");
  const Length least = size ? Length::from_metres(bench.number("demand") / 1000) : Length();
  for (const std::string& id : pipes_that_carry(bench, size ? 0 : bench.number("demand"), 0, least)) {
    change_fence(bench, "post_pipe", {{"pipe", id}}, [&](Fence& f) { takeoff::post_pipe(f, role) = id; });
  }
}

// To the next whole inch, or centimetre.
Length rounded_depth(const Bench& bench, double metres) {
  const Length step = bench.job.units == job::UnitSystem::metric ? Length::mm(10) : Length::inches(1);
  return Length::from_metres(metres).round_up_to(step);
}

void deeper_post(Bench& bench) {
  const takeoff::PostRole role = role_there(bench);
  const Length depth = rounded_depth(bench, bench.number("demand"));
  change_fence(bench, "deeper", {{"depth", value_of(depth)}}, [&](Fence& f) { takeoff::own_embedment(f, role) = depth; });
}

void brace_the_ends(Bench& bench) {
  change_fence(bench, "brace", {}, [](Fence& f) { f.braces.ends = f.braces.corners = f.braces.gates = true; });
}

void hold_down(Bench& bench) {
  const int k = post_of(bench);
  if (k < 0 || static_cast<std::size_t>(k) >= bench.plan.takeoff.posts.size()) return;
  const Length hole = bench.plan.takeoff.posts[static_cast<std::size_t>(k)].hole_diameter;
  if (hole.nm() == 0) return;
  for (const int more : {4, 8, 16}) {
    const Length wider = hole + Length::inches(more);
    change_fence(bench, "hole", {{"hole", value_of(wider)}}, [&](Fence& f) { f.hole = wider; });
  }
}

void strain_less(Bench& bench) {
  const Fence* fence = the_fence(bench);
  const auto pull = fence == nullptr ? std::nullopt : wire_pull(bench.plan.catalogue, *fence, CheckRules());
  if (!pull) return;
  const double allowed = std::floor(bench.number("capacity") - (pull->one_cold.si() - pull->one.si()));
  if (allowed > 0) change_fence(bench, "strain", {{"pull", ForceValue{allowed}}}, [&](Fence& f) { f.infill.tension = measure::Force::si(allowed); });
}

void name_the_soil(Bench& bench) {
  for (const job::Soil& soil : bench.plan.catalogue.soils) {
    if (bench.found.size() >= 3) return;
    change_fence(bench, "soil", {{"soil", soil.id}}, [&](Fence& f) { f.soil = soil.id; });
  }
}

// ---- heights ----

void other_rails(Bench& bench) {
  const Fence* fence = the_fence(bench);
  if (fence == nullptr || !fence->rail_centres.empty()) return;
  for (const int more : {1, 2, -1}) {
    const int rails = fence->rails + more;
    if (rails < 1 || rails > 6) continue;
    change_fence(bench, "rails", {{"rails", std::int64_t{rails}}}, [&](Fence& f) { f.rails = rails; });
  }
}

void higher_fence(Bench& bench) {
  const Fence* fence = the_fence(bench);
  if (fence == nullptr) return;
  const Length short_by = measure::max(bench.length("least") - bench.length("height"), Length());
  const Length height = (fence->height + short_by).round_up_to(Length::inches(1));
  change_fence(bench, "height", {{"height", value_of(height)}}, [&](Fence& f) { f.height = height; });
}

void other_line(Bench& bench, job::RailLine line, const char* code) {
  const Fence* fence = the_fence(bench);
  if (fence != nullptr && fence->line != line) change_fence(bench, code, {}, [&](Fence& f) { f.line = line; });
}

// A post where the ground is worst.
void post_there(Bench& bench) {
  const int k = bay_of(bench);
  if (k < 0 || bench.value("from_post") == nullptr) return;
  const setout::Bay& bay = bench.plan.layout.bays[static_cast<std::size_t>(k)];
  const Length station = (bay.start + bench.length("from_post")).round_to(Length::inches(1));
  if (station <= bay.start || station >= bay.end) return;
  bench.offer("post_there", {{"station", value_of(station)}}, [&](Job& job) {
    std::vector<Length>& fixed = job.site.legs[static_cast<std::size_t>(bay.leg)].fixed;
    fixed.push_back(station);
    std::sort(fixed.begin(), fixed.end());
  });
}

void more_tolerance(Bench& bench) {
  const Fence* fence = the_fence(bench);
  if (fence == nullptr) return;
  for (const int times : {2, 4}) {
    const Length tolerance = fence->line_tolerance * times;
    change_fence(bench, "line_tolerance", {{"tolerance", value_of(tolerance)}}, [&](Fence& f) { f.line_tolerance = tolerance; });
  }
}

// Cut, fill or a filler rail in the bay, as the finding's values say what would help.
void mend_there(Bench& bench) {
  const Value* leg = bench.value("leg");
  const auto* id = leg == nullptr ? nullptr : std::get_if<std::string>(leg);
  if (id == nullptr) return;
  const auto offer = [&](const char* code, Values values, job::MendWay way) {
    bench.offer(code, std::move(values), [&](Job& job) { job.choices.mends.push_back({*id, bench.length("leg_station"), way}); });
  };
  if (bench.value("filler_below") != nullptr) offer("mend_filler", {{"below", value_of(bench.length("filler_below"))}}, job::MendWay::filler);
  for (const bool fill : {false, true}) {
    const Value* earth = bench.value(fill ? "fill" : "cut");
    const auto* volume = earth == nullptr ? nullptr : std::get_if<VolumeValue>(earth);
    if (volume != nullptr && volume->cubic_metres > 0)
      offer(fill ? "mend_fill" : "mend_cut", {{"earth", *volume}}, fill ? job::MendWay::fill : job::MendWay::cut);
  }
}

void rolling_ground(Bench& bench) {
  post_there(bench);
  mend_there(bench);
  other_line(bench, job::RailLine::smooth, "line_smooth");
  other_line(bench, job::RailLine::follow, "line_follow");
  other_line(bench, job::RailLine::level, "line_level");
  other_rails(bench);
}

// ---- set-out ----

template <class Change>
void change_gate(Bench& bench, const char* code, Values values, const Change& change) {
  const int k = with_id(bench.job.site.gates, bench.finding.where);
  if (k >= 0) bench.offer(code, std::move(values), [&](Job& job) { change(job.site.gates[static_cast<std::size_t>(k)]); });
}

void move_gate(Bench& bench) {
  const int k = with_id(bench.job.site.gates, bench.finding.where);
  if (k < 0) return;
  const Gate& gate = bench.job.site.gates[static_cast<std::size_t>(k)];
  const Length by = bench.length("by").round_up_to(Length::inches(1));
  for (const Length station : {gate.station + by, gate.station - by}) {
    if (station > Length()) change_gate(bench, "gate_station", {{"station", value_of(station)}}, [&](Gate& g) { g.station = station; });
  }
}

void gate_onto_leg(Bench& bench) {
  const int k = with_id(bench.job.site.gates, bench.finding.where);
  const Length leg = bench.length("length");
  if (k >= 0 && leg.nm() > 0) change_gate(bench, "gate_station", {{"station", value_of(leg / 2)}}, [&](Gate& g) { g.station = leg / 2; });
}

void narrower_gate(Bench& bench) {
  const int k = with_id(bench.job.site.gates, bench.finding.where);
  if (k < 0) return;
  const Gate& gate = bench.job.site.gates[static_cast<std::size_t>(k)];
  const int leaves = gate.hinge == job::LeafEnd::both ? 2 : 1;
  const Length leaf = (gate.leaf - (bench.length("opening") - bench.length("room")) / leaves).round_down_to(Length::inches(1));
  if (leaf > Length::feet(2)) change_gate(bench, "gate_leaf", {{"leaf", value_of(leaf)}}, [&](Gate& g) { g.leaf = leaf; });
}

void swing_gate(Bench& bench) {
  change_gate(bench, "gate_swing", {}, [](Gate& g) { g.swing = g.swing == job::Side::left ? job::Side::right : job::Side::left; });
  change_gate(bench, "gate_hinge", {}, [](Gate& g) {
    if (g.hinge != job::LeafEnd::both) g.hinge = g.hinge == job::LeafEnd::from ? job::LeafEnd::to : job::LeafEnd::from;
  });
}

void drop_fixed(Bench& bench) {
  const int k = with_id(bench.job.site.legs, bench.finding.where);
  const Length station = bench.length("station");
  if (k < 0) return;
  bench.offer("drop_fixed", {{"station", value_of(station)}}, [&](Job& job) {
    std::vector<Length>& fixed = job.site.legs[static_cast<std::size_t>(k)].fixed;
    fixed.erase(std::remove(fixed.begin(), fixed.end(), station), fixed.end());
  });
}

void drop_leg(Bench& bench) {
  const int k = with_id(bench.job.site.legs, bench.finding.where);
  if (k >= 0) bench.offer("drop_leg", {{"leg", bench.finding.where}}, [&](Job& job) { job.site.legs.erase(job.site.legs.begin() + k); });
}

void drop_set_post(Bench& bench) {
  const int k = named(bench.job.field.posts, bench.finding.where);
  if (k >= 0) bench.offer("drop_set_post", {{"post", bench.finding.where}}, [&](Job& job) { job.field.posts.erase(job.field.posts.begin() + k); });
}

void cap_to(Bench& bench, Length cap) {
  if (cap.nm() > 0) change_fence(bench, "cap", {{"cap", value_of(cap)}}, [&](Fence& f) { f.spacing.cap = cap; });
}

void held_pitch(Bench& bench) {
  const Length cap = bench.length("cap").round_down_to(Length::mm(1));
  change_fence(bench, "pitch", {{"pitch", value_of(cap)}}, [&](Fence& f) { f.spacing.pitch = cap; });
  change_fence(bench, "equal_bays", {}, [&](Fence& f) { f.spacing.mode = job::SpacingMode::equal; });
}

void shorter_brace(Bench& bench) {
  const Length room = bench.length("room").round_down_to(Length::inches(1));
  if (room > Length::feet(3)) change_fence(bench, "brace_bay", {{"bay", value_of(room)}}, [&](Fence& f) { f.braces.bay = room; });
}

void listed_pipe(Bench& bench) {
  if (bench.plan.catalogue.pipes.empty()) return;
  for (const job::Pipe& pipe : bench.plan.catalogue.pipes) {
    if (pipe.diameter != Length::from_inches(2.375)) continue;
    const auto missing = [&](const std::string& id) { return bench.plan.catalogue.pipe(id) == nullptr; };
    change_fence(bench, "listed_pipe", {{"pipe", pipe.id}}, [&](Fence& f) {
      for (std::string* id : {&f.rail_pipe, &f.line_pipe, &f.strong_pipe, &f.gate_pipe}) {
        if (missing(*id)) *id = pipe.id;
      }
    });
    return;
  }
}

// ---- stock, prices, crew ----

// What a stick of this pipe costs by length in the plan's cutting problem.
void offer_sticks(Bench& bench) {
  const bool too_long = bench.is("takeoff.piece_too_long");
  for (const takeoff::PipeCuts& pipe : bench.plan.cuts) {
    if (pipe.instance.stocks().empty()) continue;
    const cutting::Stock& stock = pipe.instance.stocks().front();
    const bool bare = pipe.pipe == bench.finding.where;
    if (!bare && !too_long) continue;
    const Length longer = measure::max(bench.length("length") + Length::feet(1), stock.length).round_up_to(Length::feet(1));
    const Length length = too_long ? longer : stock.length;
    const Money price = stock.price.times(length / stock.length).round_to_cents();
    bench.offer(too_long ? "longer_sticks" : "offer", {{"pipe", pipe.pipe}, {"length", value_of(length)}, {"price", value_of(price)}}, [&](Job& job) {
      job::StockOffer offer;
      offer.pipe = pipe.pipe;
      offer.length = length;
      offer.price = price;
      offer.name = pipe.pipe + " " + measure::format_length(length);
      job.choices.offers.push_back(offer);
    });
  }
}

void lift_counts(Bench& bench) {
  bench.offer("no_count", {}, [&](Job& job) {
    for (job::StockOffer& offer : job.choices.offers) {
      if (offer.name == bench.finding.where || offer.pipe == bench.finding.where) offer.count.reset();
    }
  });
}

void hole_by_rule(Bench& bench) {
  change_fence(bench, "hole_by_rule", {}, [](Fence& f) { f.hole = Length(); });
}

void usual_day(Bench& bench) {
  bench.offer("usual_day", {}, [](Job& job) {
    const job::Crew usual;
    job.choices.crew.hours_per_day = usual.hours_per_day;
    job.choices.crew.setup_minutes_per_day = usual.setup_minutes_per_day;
    job.choices.crew.travel_minutes_per_day = usual.travel_minutes_per_day;
  });
}

void usual_trailer(Bench& bench) {
  bench.offer("usual_payload", {{"payload", job::Trailer().payload_kg}}, [](Job& job) { job.choices.trailer.payload_kg = job::Trailer().payload_kg; });
}

void longer_bed(Bench& bench) {
  const Length bed = (bench.length("longest") - Length::feet(4)).round_up_to(Length::feet(1));
  if (bed.nm() > 0) bench.offer("trailer_bed", {{"bed", value_of(bed)}}, [&](Job& job) { job.choices.trailer.bed = bed; });
}

// ---- measured gaps and cut rails ----

// Readings of the bay that the finding names; of one rail where it names one.
template <class Change>
void change_gaps(Bench& bench, const char* code, Values values, const Change& change) {
  const Value* rail = bench.value("rail");
  const auto* number = rail == nullptr ? nullptr : std::get_if<std::int64_t>(rail);
  bench.offer(code, std::move(values), [&](Job& job) {
    std::vector<job::MeasuredGap>& gaps = job.field.gaps;
    for (std::size_t k = gaps.size(); k-- > 0;) {
      if (gaps[k].bay == bench.place() && (number == nullptr || gaps[k].rail == *number) && change(gaps[k])) {
        gaps.erase(gaps.begin() + static_cast<std::ptrdiff_t>(k));
      }
    }
  });
}

void drop_reading(Bench& bench) {
  change_gaps(bench, "drop_reading", {}, [](job::MeasuredGap&) { return true; });
}

void drop_first_reading(Bench& bench) {
  bool later_seen = false;
  change_gaps(bench, "keep_later", {}, [&](job::MeasuredGap&) { return std::exchange(later_seen, true); });
}

// A foot or an inch was misread: take the reading that is expected, to that step.
void mend_slip(Bench& bench) {
  const Length step = bench.is("gaps.slip_foot") ? Length::feet(1) : Length::inches(1);
  const Length off = bench.length("measured") - bench.length("expected");
  const Length slip = off.nm() < 0 ? -step * std::llround(-off / step) : step * std::llround(off / step);
  const Length right = bench.length("measured") - slip;
  if (right.nm() > 0) {
    change_gaps(bench, "mend_reading", {{"gap", value_of(right)}}, [&](job::MeasuredGap& gap) {
      gap.gap -= slip;
      return false;
    });
  }
  drop_reading(bench);
}

void forget_cut(Bench& bench) {
  bench.offer("forget_cut", {{"rail", bench.finding.where}}, [&](Job& job) {
    std::vector<job::CutRail>& cut = job.field.cut;
    cut.erase(std::remove_if(cut.begin(), cut.end(), [&](const job::CutRail& row) { return row.rail == bench.finding.where; }), cut.end());
  });
}

struct Cure {
  const char* code;
  void (*think)(Bench& bench);
};
constexpr Cure kCures[] = {{"checks.rail_bending", stronger_rail},
                           {"checks.rail_sag", stronger_rail},
                           {"checks.post_bending", stronger_post},
                           {"checks.post_wind", stronger_post},
                           {"checks.gate_post_bending", stronger_post},
                           {"checks.gate_post_size", stronger_post},
                           {"checks.post_embedment", deeper_post},
                           {"checks.post_wind_embedment", deeper_post},
                           {"checks.gate_post_embedment", deeper_post},
                           {"checks.end_post_bending", brace_the_ends},
                           {"checks.end_post_embedment", brace_the_ends},
                           {"checks.end_post_uplift", hold_down},
                           {"checks.wire_cold", strain_less},
                           {"checks.no_soil", name_the_soil},
                           {"grade.opening_traps", other_rails},
                           {"grade.opening_large", other_rails},
                           {"grade.too_low", higher_fence},
                           {"grade.hump", rolling_ground},
                           {"grade.humps", rolling_ground},
                           {"grade.dip", rolling_ground},
                           {"grade.dip_deep", rolling_ground},
                           {"grade.dip_deeps", rolling_ground},
                           {"grade.dips", rolling_ground},
                           {"setout.gate_on_corner", move_gate},
                           {"setout.gates_overlap", move_gate},
                           {"setout.gate_outside", gate_onto_leg},
                           {"setout.gate_too_wide", narrower_gate},
                           {"setout.gate_swing", swing_gate},
                           {"setout.gate_swing_zone", swing_gate},
                           {"setout.fixed_outside", drop_fixed},
                           {"setout.fixed_in_gate", drop_fixed},
                           {"setout.zero_leg", drop_leg},
                           {"setout.duplicate_leg", drop_leg},
                           {"setout.no_such_point", drop_leg},
                           {"setout.no_such_fence", drop_leg},
                           {"setout.set_post_outside", drop_set_post},
                           {"setout.set_post_in_gate", drop_set_post},
                           {"setout.set_post_off_line", drop_set_post},
                           {"setout.pitch_over_cap", held_pitch},
                           {"setout.brace_does_not_fit", shorter_brace},
                           {"setout.no_pipe", listed_pipe},
                           {"takeoff.no_offer", offer_sticks},
                           {"takeoff.piece_too_long", offer_sticks},
                           {"takeoff.sticks_do_not_suffice", lift_counts},
                           {"takeoff.offer_runs_out", lift_counts},
                           {"takeoff.hole_too_narrow", hole_by_rule},
                           {"takeoff.no_working_hours", usual_day},
                           {"takeoff.overloaded", usual_trailer},
                           {"takeoff.overhang", longer_bed},
                           {"gaps.no_such_bay", drop_reading},
                           {"gaps.no_such_rail", drop_reading},
                           {"gaps.impossible", drop_reading},
                           {"gaps.retape", drop_reading},
                           {"gaps.twice", drop_first_reading},
                           {"gaps.slip_foot", mend_slip},
                           {"gaps.slip_inch", mend_slip},
                           {"fittings.rail_too_long", forget_cut},
                           {"fittings.engagement", forget_cut}};

}  // namespace

std::vector<Candidate> candidates(const Job& job, const Plan& plan, const Finding& finding) {
  std::vector<Candidate> found;
  Bench bench{job, plan, finding, found};
  for (const Cure& cure : kCures) {
    if (finding.code == cure.code) cure.think(bench);
  }
  if (bench.is("setout.no_dig") || bench.is("setout.one_bay_less")) cap_to(bench, bench.length("pitch").round_up_to(Length::sixty_fourths(16)));
  if (bench.is("setout.cap_too_small") || bench.is("setout.too_many_posts")) cap_to(bench, Length::feet(8));
  if (bench.is("grade.tilt") || bench.is("fittings.tilt")) other_line(bench, job::RailLine::level, "line_level");
  if (bench.is("grade.step")) other_line(bench, job::RailLine::smooth, "line_smooth");
  if (bench.is("grade.no_line")) {
    other_line(bench, job::RailLine::follow, "line_follow");
    more_tolerance(bench);
    post_there(bench);
    mend_there(bench);
  }
  return found;
}

}  // namespace railwright::remedy
