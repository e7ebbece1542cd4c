// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/plan/plan.h"

namespace railwright {

// Twelve hexadecimal digits of the names, places, lengths, patterns and amounts of a plan. Equal plans have equal fingerprints; it guards
// against mixing two printed papers, not against malice.
std::string fingerprint(const Plan& plan);

}  // namespace railwright
