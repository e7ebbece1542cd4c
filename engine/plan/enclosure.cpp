// SPDX-License-Identifier: MIT
#include "engine/plan/enclosure.h"

#include <numeric>
#include <vector>

namespace railwright {

bool encloses(const setout::Layout& layout) {
  std::vector<int> joined(layout.posts.size());
  std::iota(joined.begin(), joined.end(), 0);
  const auto head_of = [&](int post) {
    while (joined[post] != post) post = joined[post] = joined[joined[post]];
    return post;
  };
  for (const setout::Bay& bay : layout.bays) {
    const int from = head_of(bay.from), to = head_of(bay.to);
    if (from == to) return true;
    joined[from] = to;
  }
  return false;
}

}  // namespace railwright
