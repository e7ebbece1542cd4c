// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/cutting/cutting.h"
#include "sheets/words.h"

namespace railwright::cli {

// The sticks of a plan drawn to one scale, as SVG: a bar for each stick, sticks cut alike once with
// their count, every piece with its label and the tape mark of its far end, drops kept hatched
// light and drops lost left open.
std::string draw_sticks(const cutting::Instance& instance, const cutting::Plan& plan, const sheets::Words& words);

}  // namespace railwright::cli
