// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/cutting/cutting.h"

namespace railwright::bench {

// The same problem as an integer program in the text format that the general solvers read ("LP format"): one whole-number variable for
// every maximal pattern while there are at most 100,000, otherwise an arc-flow model (Valerio de Carvalho 1999) on the reachable positions.
// `kind` tells which: "patterns" or "arcs"; empty text when the arcs pass two million.
std::string integer_program(const cutting::Instance& instance, std::string& kind);

}  // namespace railwright::bench
