// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace railwright::job {

// The known word that takes the fewest single-letter changes to reach (Levenshtein distance), the first of equals; empty without any.
// Only the first 40 letters count.
std::string nearest_word(std::string_view word, const std::vector<std::string>& known);

}  // namespace railwright::job
