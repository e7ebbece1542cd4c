// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/cutting/cutting.h"
#include "sheets/words.h"

// What `railwright cut` says, in lines for a person or as JSON for a program.
namespace railwright::cli {

// Cost before and after drops, what is proved, then each stick with its pieces in cutting order,
// running tape marks and the fate of the drop.
std::string cut_text(const cutting::Instance& instance, const cutting::Plan& plan, const sheets::Words& words);

// The same with lengths in millimetres and money as decimal text; `seconds` is the time that the
// search took.
std::string cut_json(const cutting::Instance& instance, const cutting::Plan& plan, double seconds);

// One line on a search that goes on.
std::string cut_progress(const cutting::Progress& progress, double seconds, const sheets::Words& words);

}  // namespace railwright::cli
