// SPDX-License-Identifier: MIT
#include "engine/job/nearest.h"

#include <algorithm>
#include <numeric>

namespace railwright::job {
namespace {

std::size_t changes(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({swapped, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest_word(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t kLetters = 40;
  word = word.substr(0, kLetters);
  std::string best;
  std::size_t fewest = 2 * kLetters;
  for (const std::string& candidate : known) {
    const std::size_t n = changes(word, std::string_view(candidate).substr(0, kLetters));
    if (n < fewest) {
      fewest = n;
      best = candidate;
    }
  }
  return best;
}

}  // namespace railwright::job
