// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "engine/plan/plan.h"

// The search for the best spacing, kept between two requests so that the page can show the best so far, and stop.
namespace railwright::wasm {

// Answers
//  start -> {wanted}: false where no fence asks for the best spacing; a search that was going on is forgotten.
//  step  -> {known, cost, bound, work, limit, done} and, where asked for or done, `choice`: what plan, drawing, sheets and tables take as `spacing`.
//           cost and bound are decimal strings; before `known` there are none yet. After the end, or with none begun, `done` is true.
// A step spends about `work` units (200 000 elementary steps each, some 0.5 ms natively) and ends with the piece of the search that it is in. What `choice` says
// depends on the job, the effort and how far the search went, never on time.
class SpacingSearch {
 public:
  nlohmann::ordered_json start(const job::Job& job, const job::Catalogue& shipped, Effort effort);
  nlohmann::ordered_json step(std::int64_t work, bool take);

 private:
  std::unique_ptr<spacing::Chooser> chooser_;
};

// A choice as text and back. None: not a choice.
nlohmann::ordered_json choice_json(const spacing::Choice& choice);
std::optional<spacing::Choice> choice_of(const nlohmann::ordered_json& text);

}  // namespace railwright::wasm
