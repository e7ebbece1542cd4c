// SPDX-License-Identifier: MIT
#include "engine/takeoff/stretches.h"

#include <cmath>

namespace railwright::takeoff {

double slope_length_m(const setout::Layout& layout, const setout::Bay& bay) {
  const double rise = layout.posts[static_cast<std::size_t>(bay.to)].ground - layout.posts[static_cast<std::size_t>(bay.from)].ground;
  const double run = bay.pitch.metres();
  return std::sqrt(run * run + rise * rise);
}

std::vector<Stretch> stretches(const setout::Layout& layout, const Remaining& remaining) {
  std::vector<Stretch> found;
  bool open = false;
  for (std::size_t k = 0; k < layout.bays.size(); ++k) {
    const setout::Bay& bay = layout.bays[k];
    const bool counts = bay.kind != setout::BayKind::gate && remaining.bay(static_cast<int>(k));
    const bool follows = counts && open && found.back().leg == bay.leg && found.back().fence == bay.fence;
    if (counts && !follows) found.push_back({bay.leg, bay.fence, static_cast<int>(k), 0, 0, 0});
    open = counts;
    if (!counts) continue;
    Stretch& stretch = found.back();
    ++stretch.bays;
    stretch.level_m += bay.pitch.metres();
    stretch.slope_m += slope_length_m(layout, bay);
  }
  return found;
}

std::int64_t whole_pieces(double length, double piece) { return piece > 0 ? static_cast<std::int64_t>(std::ceil(length / piece - 1e-9)) : 0; }

Rolls rolls_needed(const std::vector<double>& pieces, double roll, double splice, double least) {
  Rolls rolls;
  if (!(roll > splice)) return rolls;
  constexpr double kHair = 1e-9;
  double left = 0;
  for (const double piece : pieces) {
    double need = piece;
    rolls.used_m += piece;
    if (left < least) left = 0;
    while (need > left + kHair) {
      if (left > 0) {
        need += splice - left;
        rolls.used_m += splice;
        ++rolls.splices;
      }
      left = roll;
      ++rolls.count;
    }
    left -= need;
  }
  return rolls;
}

}  // namespace railwright::takeoff
