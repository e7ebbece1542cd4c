// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>

#include "engine/job/job.h"
#include "engine/plan/plan.h"

namespace railwright::wasm {

// What a drawing needs of a plan, as flat rows of numbers: a drag asks for it dozens of times a second. Lengths are millimetres, rounded to a tenth.
//  posts    {name: [text], kind: [0..7 as setout::PostKind], at: [east, north, ground, diameter, top, ...]}; top: height above the datum
//  bays     {name: [text], kind: [0 fence, 1 brace, 2 gate], ends: [from post, to post, leg, ...], rails: [[from, to, ...] heights, top rail first]}
//  ground   [[station, height, ...] one list per leg]
//  zones    [[east, north, ...] one list per no-dig zone of the job: the line of one that is a stretch of a leg; empty for the others]
// and what the plan comes to, which takes its cutting:
//  totals   {posts, rails, bays, sticks, cost, total, hours, currency, stops, warnings}
nlohmann::ordered_json drawing(const job::Job& job, const Plan& plan);
nlohmann::ordered_json totals(const Plan& plan);

}  // namespace railwright::wasm
