// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/setout/layout.h"
#include "engine/takeoff/pipe_cuts.h"

// Quantities, packs, loads, hours and prices.
namespace railwright::takeoff {

using measure::Length;
using measure::Money;

struct PostSize {       // one row of the post schedule, as Layout::posts
  Length length;        // embedment + top rail's centre + half the top stack + projection + trim
  Length above_ground;  // finished
  Length embedment;
  Length hole_diameter, hole_depth;
  double concrete_m3 = 0;  // hole less post; 0 when driven or set already
};

// A line of the buying list. `needed` is the count without spares; `spare` the margin that makes running short unlikely;
// `order` is their sum rounded up to whole packs.
struct OrderLine {
  std::string item;   // catalogue id or stick offer name
  std::string group;  // pipe, fittings, bolts, caps, concrete, infill, wire, gates, braces, sundries
  std::string unit;
  double needed = 0, spare = 0, order = 0, pack = 1;
  double running_short = 0;  // chance that the order runs short, 0..1
  Money price, amount;       // per unit; total
  double mass_kg = 0;
  std::string why;     // code of the reason, in the words catalogue: `why.<code>`
  bool priced = true;  // false: the price book has no row
};

struct HourLine {
  std::string operation;
  double count = 0;
  double minutes_each = 0;
  double hours = 0;
};

struct Load {
  int trips = 0;
  double mass_kg = 0;
  Length longest;
  int tie_downs = 0;
  bool overhang = false;
};

struct Price {
  Money materials, labour, overhead, profit, tax, total, per_foot;
  std::string currency;
};

// In 19 of 20 such fences the true figure lies within the planned one plus or minus these; see position_range.h.
struct PositionRange {
  Length accuracy;     // of a point, one sigma: root of the mean square
  Length fence, pipe;  // length of fence; of pipe in rails and posts
  std::int64_t bays = 0, posts = 0, rails = 0;
  Money price;  // of the whole job
};

struct Takeoff {
  std::vector<PostSize> posts;
  std::vector<OrderLine> orders;
  std::vector<HourLine> hours;
  double person_hours = 0, days = 0;
  Load load;
  Price price;
  std::optional<PositionRange> range;  // where points are not taped
};

struct Input {
  const job::Job& job;
  const job::Catalogue& catalogue;
  const setout::Layout& layout;
  const grade::Heights& heights;
  const fittings::Assembly& assembly;
  const std::vector<PipeCuts>& cuts;  // solved
};

// Sizes of posts, holes and concrete. Needed before cutting (posts are cut from sticks as well).
std::vector<PostSize> size_posts(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights,
                                 const fittings::Assembly& assembly, Findings& findings);

// All quantities of what is still to be bought and done: bays, posts and gates that the field reports as done are left out.
// Properties: (1) order >= needed + spare and is a whole number of packs; (2) running_short <= Allowances::running_short on every line; (3) the amounts add up
// to Price::materials to the cent; (4) quantities do not depend on the order of legs.
// Findings: `takeoff.no_supply`, `takeoff.no_price`, `takeoff.price_unit`, `takeoff.hour_unit`, `takeoff.no_working_hours`, `takeoff.sticks_do_not_suffice`,
// `takeoff.offer_runs_out`, `takeoff.overhang`, `takeoff.overloaded`.
Takeoff take_off(const Input& input, std::vector<PostSize> posts, Findings& findings);

}  // namespace railwright::takeoff
