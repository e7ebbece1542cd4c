// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/plan/checks.h"
#include "engine/strength/flexure.h"
#include "engine/strength/section.h"
#include "engine/takeoff/posts.h"

// The groups of checks, and what they share.
namespace railwright {

struct CheckBench {
  const job::Job& job;
  const job::Catalogue& catalogue;
  const setout::Layout& layout;
  const grade::Heights& heights;
  const std::vector<takeoff::PostSize>& posts;
  const CheckRules& rules;
  Findings& findings;
  std::vector<Check>& done;

  const setout::Post& post(int index) const { return layout.posts[static_cast<std::size_t>(index)]; }
  const takeoff::PostSize& size(int index) const { return posts[static_cast<std::size_t>(index)]; }
  // Ratio and verdict from demand and capacity; a finding when it is over.
  void add(Check check);
  void note(const std::string& code, const std::string& where) { findings.push_back({code, Severity::note, where, {}}); }
};

// A pipe as it is checked: design wall, yield and allowable moment.
struct CheckedPipe {
  strength::Section section;
  measure::Pressure yield;
  measure::Moment allowable;
  double kilograms_per_metre = 0;
};
std::optional<CheckedPipe> checked_pipe(const job::Catalogue& catalogue, const std::string& id);

// Lateral bearing per metre of depth; 0 where the fence names no known soil. `isolated`: doubled where the soil's row allows it.
double soil_of(const job::Catalogue& catalogue, const job::Fence& fence, bool isolated);
// What bears on the ground: the hole's concrete, or the driven post itself.
measure::Length bearing_width(const setout::Post& post, const takeoff::PostSize& size);

// Push along a rail that the weakest sleeve for it is said to carry; zero where no row says: a sliding sleeve carries none.
measure::Force sleeve_push(const job::Catalogue& catalogue, measure::Length rail_diameter);

// 12-1/2 gauge (2.515 mm, strength::steel_wire_gauge) where the wire's own diameter is not known.
double wire_diameter_mm(const job::Supply* supply);

// All wires or the mesh of a fence, when strained and in the cold, and the height at which they pull.
struct WirePull {
  measure::Force one, one_cold;  // of one wire; zero for mesh without counted wires
  measure::Force all_cold;
  measure::Length height;
  double strength_n = 0;  // breaking load of one wire; 0: unknown
};
std::optional<WirePull> wire_pull(const job::Catalogue& catalogue, const job::Fence& fence, const CheckRules& rules);

void check_rails(CheckBench& bench, int fence);
void check_posts(CheckBench& bench, int fence);
void check_wind(CheckBench& bench, int fence);
void check_braces(CheckBench& bench, int fence);
void check_unbraced_ends(CheckBench& bench, int fence);
void check_gates(CheckBench& bench);

}  // namespace railwright
