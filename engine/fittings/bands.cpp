// SPDX-License-Identifier: MIT
#include "engine/fittings/bands.h"

namespace railwright::fittings {
namespace {

// Neighbouring bands pressed together: their mean wish, each less its distance above the first band of all.
struct Pool {
  std::size_t first, count;
  Length sum;
  Length mean() const { return sum / static_cast<std::int64_t>(count); }
};

}  // namespace

std::vector<Length> spread(const std::vector<Length>& wishes, const std::vector<Length>& steps) {
  std::vector<Length> above(wishes.size());
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    if (i > 0) above[i] = above[i - 1] + steps[i];
    pools.push_back({i, 1, wishes[i] - above[i]});
    while (pools.size() >= 2 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().count += last.count;
      pools.back().sum += last.sum;
    }
  }
  std::vector<Length> heights(wishes.size());
  for (const Pool& pool : pools)
    for (std::size_t i = pool.first; i < pool.first + pool.count; ++i) heights[i] = pool.mean() + above[i];
  return heights;
}

}  // namespace railwright::fittings
