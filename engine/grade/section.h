// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/job/catalogue.h"
#include "engine/job/job.h"

namespace railwright::grade {

using measure::Length;

// A fence seen end on, above level ground, with the limits it has to keep.
struct Section {
  const job::Fence* fence = nullptr;
  std::vector<Length> centres;  // pipe rails, top first
  Length rail_diameter;
  Length brace;           // centre of the brace rail
  bool infilled = false;  // mesh, panels or wires below
  Length infill_top, infill_bottom;
  std::vector<Length> wires;                                 // top first
  Length largest_opening, trap_from, trap_to, least_height;  // 0: no limit
  Length largest_bottom, smallest_bottom;

  bool has_rails() const { return !centres.empty(); }
  // Clear, under the lowest pipe as drawn; with infill, under the infill.
  Length bottom_opening() const;
  // From the top rail's centre down to the lowest pipe's underside.
  Length depth() const { return centres.front() - centres.back() + rail_diameter / 2; }
  // Bottom openings allowed: the animal's limits, widened to hold the fence as drawn.
  Length least_bottom() const { return min(smallest_bottom, bottom_opening()); }
  bool has_largest_bottom() const { return largest_bottom > Length(); }
  Length most_bottom() const { return max(largest_bottom, bottom_opening()); }
};

Section section_of(const job::Fence& fence, const job::Catalogue& catalogue);

}  // namespace railwright::grade
