// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/setout/layout.h"

namespace railwright::grade {

// Ground under a bay: straight between points. `at` in metres from the bay's `from` post; the first and last are the posts.
struct GroundPoint {
  double at, height;
};
std::vector<GroundPoint> ground_under(const setout::Layout& layout, const setout::Bay& bay);

// Whether openings to the ground of a leg can be judged.
bool ground_known(const setout::Layout& layout, int leg, measure::Length accuracy_limit);

}  // namespace railwright::grade
