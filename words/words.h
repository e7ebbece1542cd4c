// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// The sentences that people read, embedded at build time from `words/`. A face parses them with `sheets::Words`.
namespace railwright::words {

// All sentences of a language ("en", "es") as one JSON object; empty when there are none in that language.
std::string_view catalogue_json(std::string_view language);

}  // namespace railwright::words
