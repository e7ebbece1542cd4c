// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "engine/job/finding.h"

namespace railwright::job {

using Json = nlohmann::ordered_json;

// What a document may weigh. Beyond these a text is refused before or while it is read, so that no input can use up the machine.
struct DocumentLimits {
  std::size_t bytes = std::size_t{64} << 20;
  std::size_t depth = 24;          // of nested lists and objects
  std::size_t values = 4'000'000;  // in the whole document
  std::size_t keys = 100;          // in one object
};

// Parses a UTF-8 JSON text, without throwing. On failure the finding's `where` is `line:column` and the tree is discarded.
// Codes: job.empty, job.too_large, job.not_utf8, job.not_json, job.too_deep, job.too_many, job.duplicate_key.
Json parse_tree(std::string_view text, Findings& findings, const DocumentLimits& limits = {});

}  // namespace railwright::job
