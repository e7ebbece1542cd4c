// SPDX-License-Identifier: MIT
#pragma once

#include "engine/setout/layout.h"

namespace railwright {

// True when bays close round some ground: one of them joins two posts that others join already.
bool encloses(const setout::Layout& layout);

}  // namespace railwright
