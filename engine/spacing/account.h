// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/asbuilt/gaps.h"
#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/spacing/table.h"
#include "engine/takeoff/pipe_cuts.h"
#include "engine/takeoff/takeoff.h"

// What one layout of the job needs, share by share.
namespace railwright::spacing {

// One layout with all that is counted on it.
struct Trial {
  setout::Layout layout;
  grade::Heights heights;
  asbuilt::AsBuilt built;
  fittings::Assembly assembly;
  std::vector<takeoff::PostSize> posts;
  std::vector<takeoff::PipeCuts> cuts;
  Findings findings;
};

Trial try_out(const Site& site, const setout::Limits& limits);

// Price of concrete by volume as the buying list of this layout buys it.
Money concrete_price(const Site& site, const Trial& trial);

// Which run each post and bay of a layout belongs to; the number of runs stands for what is shared.
struct Owners {
  explicit Owners(const setout::Layout& layout);
  std::vector<std::size_t> post, bay;
};

// The shares by run, the last for what is shared. Pipes are those of the table (new ones are added); whether a run may have findings that stop is known by the
// table's first column, or by this trial where there is none yet.
std::vector<Share> shares_of(const Site& site, const Trial& trial, Table& table);

// The true account of one vector of counts.
std::vector<Share> account_of(const Site& site, const std::vector<int>& bays, Table& table);

}  // namespace railwright::spacing
