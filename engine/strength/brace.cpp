// SPDX-License-Identifier: MIT
#include "engine/strength/brace.h"

#include <cmath>

namespace railwright::strength {

HBraceForces h_brace(const HBrace& brace) {
  const double L = brace.span.metres(), H = brace.rail_height.metres();
  if (L <= 0 || H <= 0) return {};
  const Force c = brace.pull * (brace.pull_height.metres() / H);
  return {c, c * (std::sqrt(L * L + H * H) / L), c * (H / L)};
}

Force pull_out_resistance(PostSetting setting) { return measure::weight(measure::Mass::si(setting == PostSetting::driven ? 900 : 90)); }

}  // namespace railwright::strength
