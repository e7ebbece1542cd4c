// SPDX-License-Identifier: MIT
#include "engine/grade/levels.h"

#include <algorithm>

#include "engine/grade/ground_under.h"

namespace railwright::grade {

Span Span::with(const Span& other) const { return {std::min(low, other.low), std::max(high, other.high)}; }

Span ground_span(const setout::Layout& layout, const setout::Bay& bay, const BayMends& mends) {
  const std::vector<GroundPoint> ground = ground_under(layout, bay);
  Span span{std::min(ground.front().height, ground.back().height), std::max(ground.front().height, ground.back().height)};
  for (const GroundPoint& point : ground) {
    if (!mends.fill && !mends.filler) span.low = std::min(span.low, point.height);
    if (!mends.cut) span.high = std::max(span.high, point.height);
  }
  return span;
}

double level_allowance(const Section& section) {
  const double tolerance = section.fence->line_tolerance.metres();
  if (section.infilled || !section.has_largest_bottom()) return std::max(tolerance, section.infilled ? 0.0 : section.bottom_opening().metres());
  return (section.most_bottom() - section.bottom_opening()).metres();
}

Level level_from(const std::vector<Span>& spans, std::size_t first, double allowance) {
  Level level{first, first + 1, spans[first]};
  for (; level.end < spans.size(); ++level.end) {
    const Span both = level.span.with(spans[level.end]);
    if (both.high - both.low > allowance) break;
    level.span = both;
  }
  return level;
}

}  // namespace railwright::grade
