// SPDX-License-Identifier: MIT
// Strength checks: what is demanded, what the member carries, and the share of it that is used.
#include <cmath>

#include "engine/plan/check_parts.h"
#include "engine/strength/brace.h"
#include "engine/strength/concrete.h"
#include "engine/strength/embedment.h"
#include "engine/strength/wind.h"
#include "engine/strength/wire.h"
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

using measure::Force;

struct Here {
  const Asked& asked;
  const Check& check;
  int post = -1, bay = -1, fence = -1;
  std::string gate;

  Value given(const char* name) const {
    for (const auto& [key, value] : check.inputs) {
      if (key == name) return value;
    }
    return 0.0;
  }
  Length length(const char* name) const {
    const Value value = given(name);
    const auto* found = std::get_if<LengthValue>(&value);
    return found == nullptr ? Length() : Length::from_nm(found->nm);
  }
  double amount(const char* name) const {
    const Value value = given(name);
    if (const auto* force = std::get_if<ForceValue>(&value)) return force->newtons;
    const auto* found = std::get_if<double>(&value);
    return found == nullptr ? 0 : *found;
  }
  std::string name(const char* part) const { return "check/" + check.code + "/" + check.where + "/" + part; }
  const job::Fence* the_fence() const { return asked.fence(fence); }
  const std::string pipe() const { return post >= 0 ? asked.post(post).pipe : the_fence() == nullptr ? "" : the_fence()->rail_pipe; }

  // Lengths of checks are shown as lengths, forces as forces.
  Value shown(double in_unit) const {
    if (check.unit == "mm") return value_of(Length::from_metres(in_unit / 1000));
    if (check.unit == "m") return value_of(Length::from_metres(in_unit));
    if (check.unit == "N") return ForceValue{in_unit};
    return in_unit;
  }
  std::string bare_unit() const { return check.unit == "N m" ? "N m" : ""; }
  Answer say(double value, std::string formula, std::vector<Input> inputs, std::string source) const {
    Answer made = answer(asked, shown(value), std::move(formula), std::move(inputs), std::move(source), {check.where}, bare_unit());
    if (post >= 0 && made.where.back() != asked.post(post).name) made.where.push_back(asked.post(post).name);
    return made;
  }
};

std::optional<Here> opened(const Asked& asked) {
  for (const Check& check : asked.plan.checks) {
    if (asked.thing != check.code + "/" + check.where) continue;
    Here here{asked, check, post_named(asked.plan, check.where), bay_named(asked.plan, check.where), -1, {}};
    if (const Value named = here.given("post"); std::holds_alternative<std::string>(named)) here.post = post_named(asked.plan, std::get<std::string>(named));
    here.fence = here.post >= 0 ? asked.post(here.post).fence : here.bay >= 0 ? asked.bay(here.bay).fence : -1;
    if (here.fence < 0) here.fence = index_where(asked.job.choices.fences, [&](const job::Fence& fence) { return fence.id == check.where; });
    return here;
  }
  return std::nullopt;
}

Input push(const Here& here) { return input("push", Force::si(here.amount("push"))); }
Input modulus() { return number("modulus", strength::kSteelModulus.si(), "Pa"); }

// ---- what a pipe carries in bending ----

std::optional<Answer> bending_capacity(const Here& here) {
  const auto pipe = checked_pipe(here.asked.plan.catalogue, here.pipe());
  if (!pipe) return std::nullopt;
  const bool compact = strength::pipe_flexure(pipe->section, pipe->yield).compact;
  const double modulus_m3 = compact ? pipe->section.plastic_m3 : pipe->section.modulus_m3;
  Answer made = here.say(here.check.capacity, "yield * section / safety",
                         {number("yield", pipe->yield.si(), "Pa"), number("section", modulus_m3, "m3"), number("safety", strength::kSafetyFactor)}, "aisc_f8");
  if (const job::Pipe* row = here.asked.plan.catalogue.pipe(here.pipe())) made.row = row->source;
  return made;
}

// ---- rails ----

Input rail_weight(const CheckedPipe& pipe) { return number("weight", pipe.kilograms_per_metre * measure::kStandardGravity, "N/m"); }

Input pitch_of(const Here& here) {
  const std::string name = here.bay >= 0 ? "bay/" + here.check.where + "/pitch" : "";
  return figure(name, "pitch", here.length("pitch"));
}

std::optional<Answer> rail_demand(const Here& here, bool sag) {
  const auto pipe = checked_pipe(here.asked.plan.catalogue, here.pipe());
  if (!pipe) return std::nullopt;
  std::vector<Input> inputs{push(here), pitch_of(here), rail_weight(*pipe)};
  if (!sag) return here.say(here.check.demand, "push * pitch / 4 + weight * pitch ^ 2 / 8", std::move(inputs), "aisc_table_3_23");
  inputs.push_back(modulus());
  inputs.push_back(number("inertia", pipe->section.inertia_m4, "m4"));
  return here.say(here.check.demand, "push * pitch ^ 3 / (48 * modulus * inertia) + 5 * weight * pitch ^ 4 / (384 * modulus * inertia)", std::move(inputs),
                  "aisc_table_3_23");
}

// ---- posts ----

Answer bending_demand(const Here& here, const char* force, const char* arm) {
  return here.say(here.check.demand, "push * height", {input("push", Force::si(here.amount(force))), input("height", here.length(arm))}, "statics");
}

double soil(const Here& here, bool isolated) { return here.the_fence() == nullptr ? 0 : soil_of(here.asked.plan.catalogue, *here.the_fence(), isolated); }

std::string soil_row(const Here& here) {
  const job::Soil* row = here.the_fence() == nullptr ? nullptr : here.asked.plan.catalogue.soil(here.the_fence()->soil);
  return row == nullptr ? "" : row->source;
}

Answer embedment_demand(const Here& here, const char* force, Length height, Length width) {
  const Force pushed = Force::si(here.amount(force));
  const strength::Embedment found = strength::nonconstrained({pushed, height, width}, soil(here, true));
  Answer made = here.say(here.check.demand, "2.34 * push / (bearing * width) / 2 * (1 + sqrt(1 + 4.36 * height * bearing * width / (2.34 * push)))",
                         {input("height", height), input("push", pushed), input("width", width), number("bearing", found.bearing.si(), "Pa")}, "ibc_1807");
  made.row = soil_row(here);
  return made;
}

Answer depth_there(const Here& here) {
  const std::string name = here.post < 0 ? "" : "post/" + here.asked.post(here.post).name + "/depth";
  return here.say(here.check.capacity, "depth", {figure(name, "depth", Length::from_metres(here.check.capacity))}, "setout");
}

Answer wind_demand(const Here& here) {
  const job::Fence* fence = here.the_fence();
  const Length middle = fence == nullptr ? Length() : fence->height / 2;
  return here.say(here.check.demand, "push * height", {figure(here.name("wind"), "push", Force::si(here.amount("wind"))), input("height", middle)}, "statics");
}

// The wind on one post's share of the fence.
std::optional<Answer> wind_force(const Here& here) {
  const job::Fence* fence = here.the_fence();
  if (fence == nullptr) return std::nullopt;
  const CheckRules rules;
  const double solid = here.amount("solid"), k_z = strength::exposure_coefficient(strength::Exposure::C, fence->height);
  const measure::Pressure q = strength::velocity_pressure(k_z, 1, 0.85, rules.wind_mph);
  const job::Pipe* rail = here.asked.plan.catalogue.pipe(fence->rail_pipe);
  const double c_f = strength::lattice_coefficient(strength::LatticeMember::round, solid, rail == nullptr ? Length() : rail->diameter, q);
  Answer made = here.say(
      here.amount("wind"), "factor * max(velocity_pressure * gust * shape * solid, least_pressure * solid) * height * pitch",
      {number("factor", rules.wind_factor), number("velocity_pressure", q.si(), "Pa"), number("gust", strength::kGustFactor), number("shape", c_f),
       number("solid", solid), number("least_pressure", measure::psf(16).si(), "Pa"), input("height", fence->height), input("pitch", here.length("pitch"))},
      "asce_7");
  made.value = ForceValue{here.amount("wind")};
  made.unit.clear();
  return made;
}

// ---- braces and wires ----

Answer brace_demand(const Here& here) {
  std::vector<Input> inputs{input("pull", Force::si(here.amount("pull"))), input("pull_height", here.length("pull_height"))};
  const bool uplift = here.check.code == "end_post_uplift", wire = here.check.code == "brace_wire";
  if (!uplift) inputs.push_back(input("rail_height", here.length("rail_height")));
  if (uplift || wire) inputs.push_back(input("pitch", here.length("span")));
  const char* formula = uplift ? "pull * pull_height / pitch"
                        : wire ? "pull * pull_height / rail_height * sqrt(pitch ^ 2 + rail_height ^ 2) / pitch"
                               : "pull * pull_height / rail_height";
  return here.say(here.check.demand, formula, std::move(inputs), "statics");
}

std::optional<Answer> compression_capacity(const Here& here) {
  const job::Fence* fence = here.the_fence();
  const auto pipe = fence == nullptr ? std::nullopt : checked_pipe(here.asked.plan.catalogue, fence->rail_pipe);
  if (!pipe) return std::nullopt;
  const Force alone = strength::allowable_compression(pipe->section, pipe->yield, here.length("span"));
  const double slender = here.length("span").metres() / pipe->section.radius_m;
  const double elastic = measure::kPi * measure::kPi * strength::kSteelModulus.si() / (slender * slender);
  std::vector<Input> inputs{number("elastic", elastic, "Pa"), number("area", pipe->section.area_m2, "m2"), number("safety", strength::kSafetyFactor)};
  std::string formula = "0.877 * elastic * area / safety";
  if (pipe->yield.si() / elastic <= 2.25) {
    formula = "0.658 ^ (yield / elastic) * yield * area / safety";
    inputs.insert(inputs.begin(), number("yield", pipe->yield.si(), "Pa"));
  }
  if (here.check.capacity < alone.si() * (1 - 1e-9)) {
    formula = "min(" + formula + ", sleeve)";
    inputs.push_back(input("sleeve", sleeve_push(here.asked.plan.catalogue, pipe->section.diameter)));
  }
  return here.say(here.check.capacity, formula, std::move(inputs), "aisc_e3");
}

std::optional<Answer> uplift_capacity(const Here& here) {
  if (here.post < 0) return std::nullopt;
  const takeoff::PostSize& size = here.asked.plan.takeoff.posts[static_cast<std::size_t>(here.post)];
  if (size.hole_diameter.nm() == 0) return here.say(here.check.capacity, "held", {input("held", Force::si(here.check.capacity))}, "pull_out");
  const Force held = strength::pull_out_resistance(strength::PostSetting::dug_and_rammed);
  const measure::Volume volume = strength::concrete_round_post(size.hole_diameter, size.hole_depth, here.asked.post(here.post).diameter, size.embedment);
  return here.say(here.check.capacity, "held + volume * density * gravity",
                  {input("held", held), number("volume", volume.si(), "m3"), number("density", strength::concrete_mass(measure::Volume::si(1)).si(), "kg/m3"),
                   number("gravity", measure::kStandardGravity, "m/s2")},
                  "pull_out");
}

std::optional<Answer> wire_demand(const Here& here) {
  const job::Fence* fence = here.the_fence();
  if (fence == nullptr) return std::nullopt;
  const job::Supply* supply = here.asked.plan.catalogue.supply(fence->infill.supply);
  const double diameter_mm = wire_diameter_mm(supply);
  return here.say(
      here.check.demand, "pull + modulus * area * expansion * fall",
      {input("pull", Force::si(here.amount("pull"))), modulus(), number("area", strength::wire_area_m2(Length::from_metres(diameter_mm * 1e-3)), "m2"),
       number("expansion", strength::kSteelExpansionPerKelvin, "1/K"), number("fall", CheckRules().cold_fall_k, "K")},
      "restrained_wire");
}

Answer wire_capacity(const Here& here, double strands) {
  return here.say(here.check.capacity, "strands * strength / safety",
                  {number("strands", strands), input("strength", Force::si(here.check.capacity * 2 / strands)), number("safety", 2)}, "wire_safety");
}

// ---- gates ----

const job::Gate* gate_of(const Here& here) {
  const int index = index_where(here.asked.job.site.gates, [&](const job::Gate& gate) { return gate.id == here.check.where; });
  return index < 0 ? nullptr : &here.asked.job.site.gates[static_cast<std::size_t>(index)];
}

std::vector<Input> leaf_inputs(const Here& here, const job::Gate& gate) {
  return {number("mass", here.amount("mass_kg"), "kg"), number("gravity", measure::kStandardGravity, "m/s2"), input("clearance", gate.hinge_clearance),
          input("leaf", gate.leaf)};
}

std::optional<Answer> gate_demand(const Here& here) {
  const job::Gate* gate = gate_of(here);
  if (gate == nullptr) return std::nullopt;
  if (here.check.code == "gate_post_size")
    return here.say(here.check.demand, "least_diameter", {input("least_diameter", Length::from_metres(here.check.demand / 1000))}, "mil_hdbk");
  std::vector<Input> inputs = leaf_inputs(here, *gate);
  if (here.check.code == "gate_post_bending") return here.say(here.check.demand, "mass * gravity * (clearance + leaf / 2)", std::move(inputs), "statics");
  const takeoff::PostSize& size = here.asked.plan.takeoff.posts[static_cast<std::size_t>(here.post)];
  inputs.push_back(input("width", bearing_width(here.asked.post(here.post), size)));
  inputs.push_back(number("soil", soil(here, false), "Pa/m"));
  Answer made =
      here.say(here.check.demand, "cbrt(3 * 1.09 * 2.34 * mass * gravity * (clearance + leaf / 2) / (soil * width))", std::move(inputs), "ibc_1807_moment");
  made.row = soil_row(here);
  return made;
}

// ---- one code after another ----

std::optional<Answer> demand(const Here& here) {
  const std::string& code = here.check.code;
  if (code == "rail_bending" || code == "rail_sag") return rail_demand(here, code == "rail_sag");
  if (code == "post_bending") return bending_demand(here, "push", "height");
  if (code == "end_post_bending") return bending_demand(here, "pull", "height");
  if (code == "post_embedment" || code == "post_wind_embedment") return embedment_demand(here, "push", here.length("height"), here.length("width"));
  if (code == "end_post_embedment" && here.post >= 0) {
    return embedment_demand(here, "pull", here.length("height"),
                            bearing_width(here.asked.post(here.post), here.asked.plan.takeoff.posts[static_cast<std::size_t>(here.post)]));
  }
  if (code == "post_wind") return wind_demand(here);
  if (code == "wire_cold") return wire_demand(here);
  if (code == "brace_compression" || code == "brace_wire" || code == "end_post_uplift") return brace_demand(here);
  return gate_demand(here);
}

std::optional<Answer> capacity(const Here& here) {
  const std::string& code = here.check.code;
  if (code == "rail_sag") {
    return here.say(here.check.capacity, "pitch / sag_ratio", {pitch_of(here), number("sag_ratio", CheckRules().sag_ratio)}, "practice");
  }
  if (code == "wire_cold") return wire_capacity(here, 1);
  if (code == "brace_wire") return wire_capacity(here, 2);
  if (code == "brace_compression") return compression_capacity(here);
  if (code == "end_post_uplift") return uplift_capacity(here);
  if (code == "gate_post_size")
    return here.say(here.check.capacity, "diameter", {input("diameter", Length::from_metres(here.check.capacity / 1000))}, "catalogue");
  return here.check.unit == "m" ? depth_there(here) : bending_capacity(here);
}

// The text that the check itself gives, where a part has none of its own.
std::optional<Answer> check(const Asked& asked) {
  const auto here = opened(asked);
  if (!here) return std::nullopt;
  if (asked.part == "demand") return demand(*here);
  if (asked.part == "capacity") return capacity(*here);
  if (asked.part == "wind" && here->check.code == "post_wind") return wind_force(*here);
  if (asked.part != "ratio") return std::nullopt;
  Answer made = answer(asked, here->check.ratio, "demand / capacity",
                       {figure(here->name("demand"), "demand", here->shown(here->check.demand), here->bare_unit()),
                        figure(here->name("capacity"), "capacity", here->shown(here->check.capacity), here->bare_unit())},
                       "check", {here->check.where}, "share");
  made.row = here->check.source;
  return made;
}

void list_checks(const job::Job& job, const Plan& plan, const Listed& add) {
  for (const Check& row : plan.checks) {
    const std::string thing = row.code + "/" + row.where;
    for (const char* part : {"ratio", "demand", "capacity", "wind"}) {
      const std::string figure_name = "check/" + thing + "/" + part;
      if (check({job, plan, figure_name, thing, part})) add(thing, part);
    }
  }
}

}  // namespace

const Family kChecks{"check", check, list_checks};

}  // namespace railwright::why
