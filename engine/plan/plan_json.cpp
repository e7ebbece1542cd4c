// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/plan/plan.h"

// One function a table, in the order of schema/plan.schema.json. Lengths are millimetres: a whole number of nanometres divided by 1e6
// is printed shortest and reads back to the same nanometre below 9 007 km.
namespace railwright {
namespace {

using Json = nlohmann::ordered_json;
using measure::Length;
using measure::Money;

double mm(Length length) { return static_cast<double>(length.nm()) / 1e6; }
std::string money(Money amount) { return measure::decimal_text(amount); }

// Doubles that come from floating-point formulas are printed to nine significant digits: the last bits may differ between C libraries.
double rounded(double value) {
  if (value == 0 || !std::isfinite(value)) return 0;
  int exponent = 0;
  double scaled = std::fabs(value);
  while (scaled >= 1e9) scaled /= 10, ++exponent;
  while (scaled < 1e8) scaled *= 10, --exponent;
  double whole = std::floor(scaled + 0.5);
  for (; exponent > 0; --exponent) whole *= 10;
  double power = 1;
  for (; exponent < 0; ++exponent) power *= 10;
  return (value < 0 ? -whole : whole) / power;
}

const char* text(setout::PostKind kind) {
  static constexpr const char* kNames[] = {"end", "corner", "line", "tee", "cross", "gate", "brace", "fixed"};
  return kNames[static_cast<int>(kind)];
}
const char* text(setout::BayKind kind) {
  static constexpr const char* kNames[] = {"fence", "brace", "gate"};
  return kNames[static_cast<int>(kind)];
}
const char* text(grade::Verdict verdict) {
  static constexpr const char* kNames[] = {"clear", "fails", "unknown"};
  return kNames[static_cast<int>(verdict)];
}
const char* text(Severity severity) {
  static constexpr const char* kNames[] = {"note", "warning", "stop"};
  return kNames[static_cast<int>(severity)];
}

Json value_json(const Value& value) {
  struct Visitor {
    Json operator()(const std::string& words) const { return words; }
    Json operator()(std::int64_t number) const { return number; }
    Json operator()(double number) const { return rounded(number); }
    Json operator()(LengthValue v) const { return {{"mm", static_cast<double>(v.nm) / 1e6}}; }
    Json operator()(MoneyValue v) const { return {{"money", money(Money::from_units(v.units))}}; }
    Json operator()(AngleValue v) const { return {{"degrees", rounded(v.degrees)}}; }
    Json operator()(SlopeValue v) const { return {{"slope", rounded(v.rise_per_run)}}; }
    Json operator()(ForceValue v) const { return {{"newtons", rounded(v.newtons)}}; }
    Json operator()(VolumeValue v) const { return {{"m3", rounded(v.cubic_metres)}}; }
  };
  return std::visit(Visitor{}, value);
}

Json values_json(const Values& values) {
  Json object = Json::object();
  for (const auto& [name, value] : values) object[name] = value_json(value);
  return object;
}

Json posts_json(const job::Job& job, const Plan& plan) {
  Json posts = Json::array();
  for (std::size_t i = 0; i < plan.layout.posts.size(); ++i) {
    const setout::Post& post = plan.layout.posts[i];
    Json row = {{"name", post.name}, {"kind", text(post.kind)}};
    if (!post.on.empty()) {
      row["leg"] = job.site.legs[static_cast<std::size_t>(post.on[0].leg)].id;
      row["station"] = mm(post.on[0].station);
    }
    Json on = Json::array();
    for (const setout::OnLeg& place : post.on) {
      on.push_back({{"leg", job.site.legs[static_cast<std::size_t>(place.leg)].id}, {"station", mm(place.station)}});
    }
    row["on"] = std::move(on);
    row["east"] = mm(Length::from_metres(post.at.x));
    row["north"] = mm(Length::from_metres(post.at.y));
    row["ground"] = mm(Length::from_metres(post.ground));
    row["pipe"] = post.pipe;
    row["diameter"] = mm(post.diameter);
    row["set"] = post.set;
    if (!post.gate.empty()) row["gate"] = post.gate;
    if (post.kind == setout::PostKind::corner || post.deflection_deg > 0) row["deflection_deg"] = rounded(post.deflection_deg);
    if (i < plan.takeoff.posts.size()) {
      const takeoff::PostSize& size = plan.takeoff.posts[i];
      row["length"] = mm(size.length);
      row["above_ground"] = mm(size.above_ground);
      row["embedment"] = mm(size.embedment);
      row["hole_diameter"] = mm(size.hole_diameter);
      row["hole_depth"] = mm(size.hole_depth);
      row["concrete_m3"] = rounded(size.concrete_m3);
    }
    posts.push_back(std::move(row));
  }
  return posts;
}

// Degrees to 1e-8 (a millimetre).
double degrees(double value) { return std::round(value * 1e8) / 1e8; }

Json stakes_json(const job::Job& job, const Plan& plan) {
  Json legs = Json::array();
  for (const stakeout::LegStakes& leg : plan.stakes.legs) {
    Json rows = Json::array();
    for (const stakeout::Stake& stake : leg.stakes) {
      const auto post = static_cast<std::size_t>(stake.post);
      const setout::Post& p = plan.layout.posts[post];
      Json row = {{"post", p.name},
                  {"station", mm(stake.station)},
                  {"tape", mm(stake.tape)},
                  {"string_to_centre", mm(stake.string_to_centre)},
                  {"string_to_face", mm(stake.string_to_face)},
                  {"east", mm(Length::from_metres(p.at.x))},
                  {"north", mm(Length::from_metres(p.at.y))},
                  {"ground", mm(Length::from_metres(p.ground))}};
      if (post < plan.stakes.places.size()) {
        row["latitude_deg"] = degrees(plan.stakes.places[post].latitude_deg);
        row["longitude_deg"] = degrees(plan.stakes.places[post].longitude_deg);
      }
      rows.push_back(std::move(row));
    }
    legs.push_back({{"leg", job.site.legs[static_cast<std::size_t>(leg.leg)].id},
                    {"string_side", leg.string_side == job::Side::left ? "left" : "right"},
                    {"level", mm(leg.level)},
                    {"tape", mm(leg.tape)},
                    {"posts", std::move(rows)}});
  }
  return legs;
}

Json bays_json(const job::Job& job, const Plan& plan) {
  Json bays = Json::array();
  for (std::size_t i = 0; i < plan.layout.bays.size(); ++i) {
    const setout::Bay& bay = plan.layout.bays[i];
    Json row = {{"name", bay.name},
                {"kind", text(bay.kind)},
                {"leg", job.site.legs[static_cast<std::size_t>(bay.leg)].id},
                {"from", plan.layout.posts[static_cast<std::size_t>(bay.from)].name},
                {"to", plan.layout.posts[static_cast<std::size_t>(bay.to)].name},
                {"start", mm(bay.start)},
                {"end", mm(bay.end)},
                {"pitch", mm(bay.pitch)},
                {"gap", mm(bay.gap)}};
    if (!bay.gate.empty()) row["gate"] = bay.gate;
    Json heights = Json::array();
    if (i < plan.heights.bays.size()) {
      for (const grade::RailEnds& rail : plan.heights.bays[i].rails) heights.push_back({mm(rail.from), mm(rail.to)});
    }
    row["heights"] = std::move(heights);
    bays.push_back(std::move(row));
  }
  return bays;
}

Json runs_json(const job::Job& job, const Plan& plan) {
  Json runs = Json::array();
  for (const setout::Run& run : plan.layout.runs) {
    runs.push_back({{"name", run.name},
                    {"leg", job.site.legs[static_cast<std::size_t>(run.leg)].id},
                    {"bays", run.bay_count},
                    {"start", mm(run.start)},
                    {"end", mm(run.end)}});
  }
  return runs;
}

Json place_json(setout::Vec2 at) { return {{"east", mm(Length::from_metres(at.x))}, {"north", mm(Length::from_metres(at.y))}}; }

// Each curved leg by the terms of a simple curve.
Json curves_json(const job::Job& job, const setout::Layout& layout) {
  Json rows = Json::array();
  for (std::size_t l = 0; l < layout.legs.size(); ++l) {
    const setout::LegPlace& leg = layout.legs[l];
    if (!leg.arc) continue;
    const double half = measure::turned({1, 0}, leg.arc->delta / 2).x;
    rows.push_back({{"leg", job.site.legs[l].id},
                    {"circle", leg.closed()},
                    {"turns", leg.arc->turn > 0 ? "left" : "right"},
                    {"centre", place_json(leg.arc->centre)},
                    {"radius", mm(Length::from_metres(leg.arc->radius))},
                    {"turn_deg", rounded(leg.arc->delta * (180.0 / measure::kPi))},
                    {"length", mm(leg.length)},
                    {"chord", mm(Length::from_metres(measure::distance(leg.from, leg.to)))},
                    {"middle_ordinate", mm(Length::from_metres(leg.arc->radius * (1 - half)))}});
  }
  return rows;
}

// The leaves of the gates: hinge, and the leaf's end closed and standing open; it sweeps the quarter circle between.
Json leaves_json(const job::Job& job, const setout::Layout& layout) {
  Json rows = Json::array();
  for (const setout::Bay& bay : layout.bays) {
    if (bay.kind != setout::BayKind::gate) continue;
    const auto gate = std::find_if(job.site.gates.begin(), job.site.gates.end(), [&](const job::Gate& g) { return g.id == bay.gate; });
    if (gate == job.site.gates.end()) continue;
    for (const setout::Leaf& leaf : setout::leaves_of(layout, *gate, bay)) {
      const setout::Post& hinge = layout.posts[static_cast<std::size_t>(leaf.hinge)];
      rows.push_back({{"gate", gate->id},
                      {"bay", bay.name},
                      {"hinge", hinge.name},
                      {"leaf", mm(gate->leaf)},
                      {"at", place_json(hinge.at)},
                      {"closed", place_json(hinge.at + leaf.closed)},
                      {"open", place_json(hinge.at + leaf.open)}});
    }
  }
  return rows;
}

Json corners_json(const job::Job& job, const setout::Layout& layout) {
  Json corners = Json::array();
  for (const setout::CornerProof& proof : layout.corners) {
    Json sides = Json::array();
    for (const std::size_t side : {0U, 1U})
      sides.push_back({{"leg", job.site.legs[static_cast<std::size_t>(proof.legs[side])].id}, {"mark", mm(proof.marks[side])}});
    corners.push_back({{"post", layout.posts[static_cast<std::size_t>(proof.post)].name},
                       {"square", proof.square},
                       {"sides", std::move(sides)},
                       {"diagonal", mm(proof.diagonal)}});
  }
  return corners;
}

Json quadrilaterals_json(const setout::Layout& layout) {
  Json rows = Json::array();
  for (const setout::Quadrilateral& quad : layout.quadrilaterals) {
    Json posts = Json::array(), diagonals = Json::array();
    for (const int post : quad.posts) posts.push_back(layout.posts[static_cast<std::size_t>(post)].name);
    for (const Length diagonal : quad.diagonals) diagonals.push_back(mm(diagonal));
    rows.push_back({{"posts", std::move(posts)}, {"diagonals", std::move(diagonals)}});
  }
  return rows;
}

Json rails_json(const Plan& plan) {
  Json rails = Json::array();
  for (const fittings::Rail& rail : plan.assembly.rails) {
    rails.push_back({{"name", rail.name},
                     {"bay", plan.layout.bays[static_cast<std::size_t>(rail.bay)].name},
                     {"number", rail.number},
                     {"pipe", rail.pipe},
                     {"gap", mm(rail.gap)},
                     {"rise", mm(rail.rise)},
                     {"take_off", mm(rail.take_off)},
                     {"true_length", mm(rail.length)},
                     {"length", mm(rail.cut)},
                     {"measured", rail.measured}});
  }
  return rails;
}

Json fittings_json(const Plan& plan) {
  Json uses = Json::array();
  for (const fittings::Use& use : plan.assembly.uses) {
    Json serves = Json::array();
    for (const fittings::RailEnd& end : use.serves) {
      const std::string& bay = plan.layout.bays[static_cast<std::size_t>(end.bay)].name;
      serves.push_back(bay + "/" + (end.number == 0 ? std::string("b") : std::to_string(end.number)));
    }
    uses.push_back({{"post", plan.layout.posts[static_cast<std::size_t>(use.post)].name},
                    {"fitting", plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id},
                    {"rails", std::move(serves)},
                    {"height", mm(use.height)},
                    {"below_top", mm(use.below_top)},
                    {"bearing_deg", rounded(use.bearing_deg)},
                    {"stack", use.stack}});
  }
  return uses;
}

Json stick_json(const takeoff::PipeCuts& pipe, const cutting::Stick& stick) {
  const cutting::Stock& stock = pipe.instance.stocks()[static_cast<std::size_t>(stick.stock)];
  Json pieces = Json::array();
  for (const int piece : stick.pieces) pieces.push_back(pipe.instance.pieces()[static_cast<std::size_t>(piece)].label);
  const auto waits = [&](int piece) { return pipe.instance.pieces()[static_cast<std::size_t>(piece)].waits; };
  const auto ready = std::find_if(stick.pieces.begin(), stick.pieces.end(), waits) - stick.pieces.begin();
  Json marks = Json::array();
  for (const Length mark : stick.marks) marks.push_back(mm(mark));
  return {{"name", stock.name},        {"pipe", pipe.pipe}, {"count", stick.count},   {"length", mm(stock.length)}, {"pieces", std::move(pieces)},
          {"marks", std::move(marks)}, {"ready", ready},    {"drop", mm(stick.drop)}, {"kept", stick.kept}};
}

Json cuts_json(const Plan& plan) {
  Money cost, before_drops, bound;
  std::int64_t sticks_used = 0;
  bool proved = true;
  Json sticks = Json::array();
  Json pipes = Json::array();
  for (const takeoff::PipeCuts& pipe : plan.cuts) {
    cost += pipe.plan.cost;
    before_drops += pipe.plan.cost_before_drops;
    bound += pipe.plan.bound;
    sticks_used += pipe.plan.sticks_used;
    proved = proved && pipe.plan.proved;
    for (const cutting::Stick& stick : pipe.plan.sticks) sticks.push_back(stick_json(pipe, stick));
    pipes.push_back({{"pipe", pipe.pipe},
                     {"cost", money(pipe.plan.cost)},
                     {"bound", money(pipe.plan.bound)},
                     {"proved", pipe.plan.proved},
                     {"sticks_used", pipe.plan.sticks_used},
                     {"setups", pipe.plan.setups}});
  }
  return {{"cost", money(cost)},        {"cost_before_drops", money(before_drops)},
          {"bound", money(bound)},      {"proved", proved},
          {"sticks_used", sticks_used}, {"sticks", std::move(sticks)},
          {"pipes", std::move(pipes)}};
}

Json quantities_json(const takeoff::Takeoff& takeoff) {
  Json lines = Json::array();
  for (const takeoff::OrderLine& line : takeoff.orders) {
    lines.push_back({{"item", line.item},
                     {"group", line.group},
                     {"unit", line.unit},
                     {"needed", rounded(line.needed)},
                     {"spare", rounded(line.spare)},
                     {"order", rounded(line.order)},
                     {"pack", rounded(line.pack)},
                     {"running_short", rounded(line.running_short)},
                     {"priced", line.priced},
                     {"price", money(line.price)},
                     {"amount", money(line.amount)},
                     {"mass_kg", rounded(line.mass_kg)},
                     {"why", line.why}});
  }
  return lines;
}

Json checks_json(const std::vector<Check>& checks) {
  Json rows = Json::array();
  for (const Check& check : checks) {
    rows.push_back({{"code", check.code},
                    {"where", check.where},
                    {"demand", rounded(check.demand)},
                    {"capacity", rounded(check.capacity)},
                    {"ratio", rounded(check.ratio)},
                    {"unit", check.unit},
                    {"ok", check.ok},
                    {"formula", check.formula},
                    {"source", check.source},
                    {"inputs", values_json(check.inputs)}});
  }
  return rows;
}

Json clearances_json(const Plan& plan) {
  Json rows = Json::array();
  for (const grade::Clearance& clearance : plan.heights.clearances) {
    rows.push_back({{"bay", plan.layout.bays[static_cast<std::size_t>(clearance.bay)].name},
                    {"below_rail", clearance.below_rail},
                    {"least", mm(clearance.least)},
                    {"largest", mm(clearance.largest)},
                    {"at", mm(clearance.at)},
                    {"verdict", text(clearance.verdict)}});
  }
  return rows;
}

Json earthwork_json(const job::Job& job, const Plan& plan) {
  Json rows = Json::array();
  for (const grade::EarthWork& work : plan.heights.earthwork) {
    const setout::Bay& bay = plan.layout.bays[static_cast<std::size_t>(work.bay)];
    rows.push_back({{"bay", bay.name},
                    {"leg", job.site.legs[static_cast<std::size_t>(bay.leg)].id},
                    {"way", work.way == job::MendWay::fill ? "fill" : "cut"},
                    {"from", mm(work.from)},
                    {"to", mm(work.to)},
                    {"deepest", mm(work.deepest)},
                    {"volume_m3", rounded(work.volume_m3)}});
  }
  return rows;
}

Json findings_json(const Findings& findings) {
  Json rows = Json::array();
  for (const Finding& finding : findings) {
    rows.push_back({{"code", finding.code}, {"severity", text(finding.severity)}, {"where", finding.where}, {"values", values_json(finding.values)}});
  }
  return rows;
}

Json gaps_json(const Plan& plan) {
  Json rows = Json::array();
  for (const asbuilt::GapReport& report : plan.asbuilt.reports) {
    rows.push_back({{"bay", report.bay},
                    {"rail", report.rail},
                    {"planned", mm(report.planned)},
                    {"measured", mm(report.measured)},
                    {"residual", mm(report.residual)},
                    {"doubtful", report.doubtful}});
  }
  return rows;
}

Json price_json(const takeoff::Price& price) {
  return {{"currency", price.currency},        {"materials", money(price.materials)}, {"labour", money(price.labour)},
          {"overhead", money(price.overhead)}, {"profit", money(price.profit)},       {"tax", money(price.tax)},
          {"total", money(price.total)},       {"per_foot", money(price.per_foot)}};
}

Json position_range_json(const takeoff::PositionRange& range) {
  return {{"accuracy", mm(range.accuracy)}, {"fence", mm(range.fence)}, {"pipe", mm(range.pipe)},     {"bays", range.bays},
          {"posts", range.posts},           {"rails", range.rails},     {"price", money(range.price)}};
}

Json hours_json(const takeoff::Takeoff& takeoff) {
  Json lines = Json::array();
  for (const takeoff::HourLine& line : takeoff.hours) {
    lines.push_back(
        {{"operation", line.operation}, {"count", rounded(line.count)}, {"minutes_each", rounded(line.minutes_each)}, {"hours", rounded(line.hours)}});
  }
  return {{"operations", std::move(lines)}, {"person_hours", rounded(takeoff.person_hours)}, {"days", rounded(takeoff.days)}};
}

Json loads_json(const takeoff::Load& load) {
  return {{"trips", load.trips}, {"mass_kg", rounded(load.mass_kg)}, {"longest", mm(load.longest)}, {"tie_downs", load.tie_downs}, {"overhang", load.overhang}};
}

Json spacing_json(const job::Job& job, const spacing::Choice& choice) {
  const auto known = [](const std::optional<measure::Money>& amount) { return amount ? Json(money(*amount)) : Json(); };
  Json looks = Json::array();
  for (const spacing::Looks& one : choice.looks) {
    looks.push_back({{"fence", job.choices.fences[static_cast<std::size_t>(one.fence)].id}, {"limit", one.limit}, {"shown", one.shown}});
  }
  return {{"cost", money(choice.cost)},
          {"plain", money(choice.plain)},
          {"bound", money(choice.bound)},
          {"eight_foot", money(choice.eight_foot)},
          {"saved", money(choice.plain - choice.cost)},
          {"at_zero_allowance", known(choice.at_zero)},
          {"at_double_allowance", known(choice.at_double)},
          {"looks", std::move(looks)},
          {"without_limit", known(choice.without_limit)},
          {"proved", choice.proved},
          {"finished", choice.finished}};
}

Json issued_json(const Plan& plan) {
  Json posts = Json::array();
  for (const job::IssuedPost& post : plan.layout.new_posts) {
    posts.push_back({{"name", post.name}, {"leg", post.leg}, {"station", mm(post.station)}});
  }
  Json bays = Json::array();
  for (const job::IssuedBay& bay : plan.layout.new_bays) {
    bays.push_back({{"name", bay.name}, {"from", bay.from}, {"to", bay.to}});
  }
  return {{"posts", std::move(posts)}, {"bays", std::move(bays)}};
}

}  // namespace

std::string plan_json(const job::Job& job, const Plan& plan) {
  Json document = {{"schema", "railwright-plan"}, {"version", 1}, {"job", job.name}, {"invented", job.invented}, {"fingerprint", plan.fingerprint}};
  document["posts"] = posts_json(job, plan);
  document["stakes"] = stakes_json(job, plan);
  document["bays"] = bays_json(job, plan);
  document["runs"] = runs_json(job, plan);
  document["curves"] = curves_json(job, plan.layout);
  document["leaves"] = leaves_json(job, plan.layout);
  document["corners"] = corners_json(job, plan.layout);
  document["quadrilaterals"] = quadrilaterals_json(plan.layout);
  document["rails"] = rails_json(plan);
  document["fittings"] = fittings_json(plan);
  document["clearances"] = clearances_json(plan);
  document["earthwork"] = earthwork_json(job, plan);
  document["cuts"] = cuts_json(plan);
  document["quantities"] = quantities_json(plan.takeoff);
  document["checks"] = checks_json(plan.checks);
  document["gaps"] = gaps_json(plan);
  document["findings"] = findings_json(plan.findings);
  document["price"] = price_json(plan.takeoff.price);
  if (plan.takeoff.range) document["position_range"] = position_range_json(*plan.takeoff.range);
  document["hours"] = hours_json(plan.takeoff);
  document["loads"] = loads_json(plan.takeoff.load);
  if (plan.spacing) document["spacing"] = spacing_json(job, *plan.spacing);
  document["new_names"] = issued_json(plan);
  return document.dump(1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace railwright
