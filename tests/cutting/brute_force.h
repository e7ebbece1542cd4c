// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "tests/cutting/support.h"

// Small cases and their least cost by trying everything: the cheapest way to cut each multiset of pieces, over all first sticks.
namespace railwright::cutting::testing {

inline constexpr std::int64_t kNever = INT64_MAX / 4;

class BruteForce {
 public:
  explicit BruteForce(const Instance& instance) : instance_(instance) {
    for (const Piece& piece : instance.pieces()) state_.push_back(piece.count);
    for (const Stock& stock : instance.stocks()) state_.push_back(stock.count.value_or(99));
  }
  std::int64_t cost() { return best(state_); }

 private:
  std::int64_t best(const std::vector<std::int64_t>& state) {
    const std::size_t pieces = instance_.pieces().size();
    bool empty = true;
    for (std::size_t p = 0; p < pieces; ++p) empty = empty && state[p] == 0;
    if (empty) return 0;
    if (const auto known = memo_.find(state); known != memo_.end()) return known->second;
    std::int64_t least = kNever;
    for (std::size_t k = 0; k < instance_.stocks().size(); ++k) {
      if (state[pieces + k] == 0) continue;
      std::vector<std::int64_t> rest = state;
      --rest[pieces + k];
      least = std::min(least, fill(instance_.stocks()[k], 0, 0, 0, rest));
    }
    return memo_[state] = least;
  }

  std::int64_t fill(const Stock& stock, std::size_t p, std::int64_t sum, std::int64_t count, std::vector<std::int64_t>& rest) {
    const std::int64_t kerf = instance_.rules().kerf.nm();
    const std::int64_t usable = instance_.usable(stock).nm();
    if (count > 0 && sum + (count - 1) * kerf > usable) return kNever;
    if (p == instance_.pieces().size()) {
      if (count == 0) return kNever;
      const std::int64_t drop = std::max<std::int64_t>(0, usable - sum - count * kerf);
      const std::int64_t after = best(rest);
      return after >= kNever ? kNever : after + stock.price.units() - instance_.worth(stock, Length::from_nm(drop)).units();
    }
    std::int64_t least = kNever;
    const std::int64_t most = rest[p];
    for (std::int64_t n = 0; n <= most; ++n) {
      rest[p] = most - n;
      least = std::min(least, fill(stock, p + 1, sum + n * instance_.pieces()[p].length.nm(), count + n, rest));
    }
    rest[p] = most;
    return least;
  }

  const Instance& instance_;
  std::vector<std::int64_t> state_;
  std::map<std::vector<std::int64_t>, std::int64_t> memo_;
};

struct Shape {
  bool counted = false;
  bool drops = false;
  std::int64_t longest = 30;
};

inline Result<Instance> random_case(Random& random, const Shape& shape) {
  Rules rules;
  rules.kerf = Length::from_nm(random.between(0, 3));
  if (random.between(0, 2) == 0) rules.crop_start = Length::from_nm(random.between(0, 3));
  if (random.between(0, 2) == 0) rules.crop_end = Length::from_nm(random.between(0, 3));
  if (shape.drops) {
    rules.keep_from = Length::from_nm(random.between(1, shape.longest / 2));
    rules.drop_value = Money::from_units(random.between(0, 12));
    rules.drop_value_per = Length::from_nm(random.between(1, 10));
  }
  std::vector<Stock> stocks;
  for (std::int64_t k = random.between(1, 3); k > 0; --k) {
    const std::int64_t length = random.between(shape.longest, 2 * shape.longest);
    std::optional<std::int64_t> count;
    if (shape.counted && random.between(0, 2) > 0) count = random.between(0, 3);
    stocks.push_back(stock(length, random.between(length / 2, 2 * length), count));
  }
  std::vector<Piece> pieces;
  for (std::int64_t p = random.between(1, 4); p > 0; --p) pieces.push_back(piece(random.between(3, shape.longest * 3 / 4), random.between(1, 3)));
  return Instance::build(stocks, pieces, rules);
}

}  // namespace railwright::cutting::testing
