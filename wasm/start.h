// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>

#include "engine/job/catalogue.h"
#include "engine/measure/result.h"
#include "formats/start_job.h"

namespace railwright::wasm {

// A job from the first screen's choices and, where given, a walk and a ground grid as text. Keys: `choices` {name, animal, height, rails, pitch, pipe, kind,
// units}, each may be left out; `walk`; `grid`. Errors: those of formats::read_walk, read_grid and start_job; `start.kind` for a kind that there is not.
Result<formats::StartedJob> start(const nlohmann::ordered_json& request, const job::Catalogue& catalogue);

}  // namespace railwright::wasm
