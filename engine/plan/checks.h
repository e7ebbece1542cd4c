// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/grade/heights.h"
#include "engine/setout/layout.h"
#include "engine/takeoff/takeoff.h"

namespace railwright {

// One advisory strength check: never an approval. `code` names formula and source texts in the words catalogue.
struct Check {
  std::string code;               // "rail_bending", "post_embedment", ...
  std::string where;              // the worst bay, post or gate of its kind
  double demand = 0, capacity = 0, ratio = 0;   // in `unit`; ratio = demand / capacity
  std::string unit;               // "N m", "N", "mm", "m"
  std::string formula;            // symbols of the source
  std::string source;             // standard and clause
  bool ok = false;
  Values inputs;
};

}  // namespace railwright
