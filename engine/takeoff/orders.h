// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/takeoff/margin.h"
#include "engine/takeoff/price_book.h"
#include "engine/takeoff/remaining.h"
#include "engine/takeoff/stretches.h"
#include "engine/takeoff/takeoff.h"

// The lines of the buying list, group by group.
namespace railwright::takeoff {

// Shares of pieces that are lost, dropped or found bad (common practice, no source).
struct Losses {
  double stick = 0.01, fitting = 0.005, bolt = 0.02, cap = 0.01, clip = 0.05, panel = 0.005;
  // Concrete: holes come out 5 % larger on the whole, each with a deviation of 10 % of itself.
  double hole_excess = 0.05, hole_deviation = 0.10;
  // Mesh and wire: 1 % on the whole and a deviation of 1 %.
  double roll_excess = 0.01, roll_deviation = 0.01;
};

// Lengths of work that are no catalogue rows (common practice, no source, but for the ties).
struct Habits {
  double mesh_wrap = 0.5 * measure::kMetrePerFoot;  // round a terminal post, each end
  double mesh_splice = 1 * measure::kMetrePerFoot;
  double mesh_least = 8 * measure::kMetrePerFoot;  // a shorter rest of a roll is not used
  double wire_tie = 3 * measure::kMetrePerFoot;    // wrapped and tied off, each end of each wire
  double wire_splice = 2 * measure::kMetrePerFoot;
  double brace_tie = 4 * measure::kMetrePerFoot;  // of a brace wire's loop
  // Ties every 14 in on posts and 18 in on rails: California DOT Standard Specifications 80-3.03.
  Length tie_on_post = Length::inches(14), tie_on_rail = Length::inches(18);
};

struct Orders {
  const Input& in;
  const std::vector<PostSize>& posts;
  const Remaining& remaining;
  const std::vector<Stretch>& stretches;
  std::vector<OrderLine>& lines;
  Findings& findings;
  Losses losses = {};
  Habits habits = {};

  const job::Fence& fence(int index) const { return in.job.choices.fences[static_cast<std::size_t>(index)]; }
  bool has_fence(int index) const { return index >= 0 && static_cast<std::size_t>(index) < in.job.choices.fences.size(); }
  // The post at the start or the end of a bay.
  const setout::Post& post_of(int bay, bool at_from) const {
    const setout::Bay& b = in.layout.bays[static_cast<std::size_t>(bay)];
    return in.layout.posts[static_cast<std::size_t>(at_from ? b.from : b.to)];
  }
  double accepted() const { return in.job.choices.allowances.running_short; }
  // Adds a counted line with its spares; nothing when none is needed.
  void counted(Need need, double loss);
  // Adds a line bought in units that each hold `holds` of a measured quantity; `least` units at least.
  void measured(Need need, const Spread& use, double holds, double least);
  // The first supply of a kind, of the given width where it is not zero.
  const job::Supply* supply(const std::string& kind, Length width = {}) const;
  // The need of a supply, or of the bare kind with a finding where the catalogue has none.
  Need need_of(const job::Supply* supply, const std::string& kind, const std::string& group, const std::string& why);
};

void order_pipe(Orders& orders);
void order_fittings(Orders& orders);  // with bolts, nuts and caps
void order_concrete(Orders& orders);
void order_infill(Orders& orders);  // mesh, panels, ties
void order_wire(Orders& orders);    // wires, strainers, brace wire
void order_gates(Orders& orders);

// Bays that hold a brace rail and pull against a brace wire.
bool braced_with_wire(const job::Fence& fence, const setout::Bay& bay, const grade::BayHeights& heights);
int wires_of(const job::Fence& fence);

}  // namespace railwright::takeoff
