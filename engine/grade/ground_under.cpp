// SPDX-License-Identifier: MIT
#include "engine/grade/ground_under.h"

#include <algorithm>

namespace railwright::grade {

std::vector<GroundPoint> ground_under(const setout::Layout& layout, const setout::Bay& bay) {
  std::vector<GroundPoint> points{{0, layout.posts[bay.from].ground}};
  const double start = bay.start.metres(), end = bay.end.metres();
  if (static_cast<std::size_t>(bay.leg) < layout.profiles.size()) {
    const auto& profile = layout.profiles[bay.leg].points;
    auto p = std::upper_bound(profile.begin(), profile.end(), start + 1e-6,
                              [](double station, const ground::ProfilePoint& point) { return station < point.station; });
    // On a curve stations run along the arc and the bay along its chord.
    const bool curved = static_cast<std::size_t>(bay.leg) < layout.legs.size() && layout.legs[bay.leg].arc;
    const double share = curved ? bay.pitch.metres() / (end - start) : 1;
    for (; p != profile.end() && p->station < end - 1e-6; ++p) points.push_back({(p->station - start) * share, p->height});
  }
  points.push_back({bay.pitch.metres(), layout.posts[bay.to].ground});
  return points;
}

bool ground_known(const setout::Layout& layout, int leg, measure::Length accuracy_limit) {
  if (static_cast<std::size_t>(leg) >= layout.profiles.size()) return false;
  const ground::Profile& profile = layout.profiles[leg];
  return profile.source != ground::Source::none && profile.accuracy <= accuracy_limit.metres();
}

}  // namespace railwright::grade
