// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/grade/heights.h"
#include "engine/setout/layout.h"
#include "engine/takeoff/takeoff.h"

namespace railwright {

// One advisory strength check: never an approval. `code` names formula and source texts in the words catalogue.
struct Check {
  std::string code;                            // "rail_bending", "post_embedment", ...
  std::string where;                           // the worst bay, post or gate of its kind
  double demand = 0, capacity = 0, ratio = 0;  // in `unit`; ratio = demand / capacity
  std::string unit;                            // "N m", "N", "mm", "m"
  std::string formula;                         // symbols of the source
  std::string source;                          // standard and clause
  bool ok = false;
  Values inputs;
};

// What the checks take for granted where the job does not say.
struct CheckRules {
  double sag_ratio = 60;           // a rail may sag a sixtieth of the pitch under the push (common practice, no source)
  double wind_mph = 105;           // strength-level gust (from memory: ASCE 7-16, risk category I, much of the interior); local maps decide
  double wind_factor = 0.6;        // strength level to allowable stress (ASCE 7-16 section 2.4)
  double cold_fall_k = 100 / 1.8;  // wire strained on a hot day, 100 F warmer than the coldest night
  measure::Force wire_pull = measure::pounds_force(250);        // per wire where the job gives none: UF/IFAS CIR851
  measure::Force mesh_pull = measure::pounds_force(1500);       // of a mesh without counted wires, when strained and ...
  measure::Force mesh_pull_cold = measure::pounds_force(2500);  // ... in the cold: British Columbia factsheet 307.220-1
};

// The checks of the plan, one for each distinct case (the worst bay or post), fence by fence, then gate by gate:
//  rail_bending, rail_sag            the animal's push at mid-span and the rail's weight, as a simple beam over the pitch
//  post_bending, post_embedment      the push at the top rail on one post alone
//  post_wind, post_wind_embedment    wind on rails with mesh, panels or wires, as an open frame
//  wire_cold                         pull of one wire in the cold against its strength
//  brace_compression, brace_wire, end_post_uplift   a single-span H-brace under all wires in the cold
//  end_post_bending, end_post_embedment             the same pull on an end post without a brace
//  gate_post_bending, gate_post_embedment, gate_post_size   the leaf's weight; the size that MIL-HDBK-1013/10 asks for
// Pipe is checked on its design wall (see strength/section.h), with Mn / 1.67 of AISC 360. Soil values are doubled where the soil's row allows it for isolated posts (IBC 1806.3.4).
// Findings: `checks.<code>` (warning) for each check that is not ok, with `demand`, `capacity` and `ratio`; `checks.no_soil`, `checks.no_leaf_mass`,
// `checks.no_wire_strength` (notes) for what could not be checked.
std::vector<Check> checks(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights,
                          const std::vector<takeoff::PostSize>& posts, Findings& findings, const CheckRules& rules = {});

// The greatest pitch of each fence: the smaller of the user's cap and what its rails carry by bending and sag, rounded down to the millimetre. For setout::Limits::pitch_cap.
std::vector<measure::Length> pitch_caps(const job::Job& job, const job::Catalogue& catalogue, const CheckRules& rules = {});

}  // namespace railwright
