// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "engine/grade/earth.h"
#include "engine/grade/section.h"
#include "engine/setout/layout.h"

// Rails held level: how far one level reaches.
namespace railwright::grade {

// Lowest and highest ground under a stretch, metres above the datum.
struct Span {
  double low = 0, high = 0;
  Span with(const Span& other) const;
};

// What is cut between two posts rises no higher than they do, what is filled or has a filler rail falls no lower.
Span ground_span(const setout::Layout& layout, const setout::Bay& bay, const BayMends& mends);

// How much the ground may fall under one level rail before an animal finds the opening; with infill the tolerance of the line. Metres.
double level_allowance(const Section& section);

// Bays `first` to before `end` at one level.
struct Level {
  std::size_t first = 0, end = 0;
  Span span;
};

// The level that begins with bay `first` reaches as far as the ground under it rises and falls no more than the allowance, and one bay at least.
Level level_from(const std::vector<Span>& spans, std::size_t first, double allowance);

}  // namespace railwright::grade
