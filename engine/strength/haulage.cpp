// SPDX-License-Identifier: MIT
#include "engine/strength/haulage.h"

namespace railwright::strength {

namespace {

int tens_of_feet(Length length) {
  const std::int64_t ten = Length::feet(10).nm();
  return static_cast<int>((length.nm() + ten - 1) / ten);
}

}  // namespace

int tie_downs(Length article, Mass mass, bool blocked_forward) {
  if (article.nm() <= 0) return 0;
  if (blocked_forward) return tens_of_feet(article);
  if (article <= Length::feet(5)) return mass <= measure::pounds(1100) ? 1 : 2;
  return 1 + tens_of_feet(article);
}

Mass least_working_load_limit(Mass cargo) { return cargo / 2; }

bool needs_flags(Length beyond_rear) { return beyond_rear > Length::feet(4); }

Length overhead_distance(double kilovolts) {
  const double above = kilovolts > 50 ? kilovolts - 50 : 0;
  return Length::feet(10) + Length::from_inches(0.4 * above);
}

}  // namespace railwright::strength
