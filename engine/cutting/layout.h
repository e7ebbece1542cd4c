// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/model.h"

namespace railwright::cutting {

// Turns patterns of lengths into sticks of pieces: which piece of equal length goes where (so that groups stay close), the order of
// the sticks, tape marks, drops, costs and set-ups. Fills everything of the plan but status, proof, bound and work.
Plan lay_out(const Model& model, const Solution& solution);

}  // namespace railwright::cutting
