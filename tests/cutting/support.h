// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include "engine/cutting/checker.h"
#include "engine/cutting/cutting.h"

namespace railwright::cutting::testing {

// Small whole numbers stand for nanometres and ten-thousandths, so that published instances read as printed.
inline Stock stock(std::int64_t length, std::int64_t price, std::optional<std::int64_t> count = {}) {
  return Stock{std::to_string(length), Length::from_nm(length), Money::from_units(price), count};
}
inline Piece piece(std::int64_t length, std::int64_t count = 1) { return Piece{std::to_string(length), Length::from_nm(length), count, -1}; }
inline Rules kerf(std::int64_t nm) {
  Rules rules;
  rules.kerf = Length::from_nm(nm);
  return rules;
}

inline Plan solve_checked(const Instance& instance, const Options& options = {}) {
  Plan plan = solve(instance, options);
  for (const std::string& fault : check_plan(instance, plan)) ADD_FAILURE() << fault;
  return plan;
}

inline Plan solve_checked(std::vector<Stock> stocks, std::vector<Piece> pieces, Rules rules = {}, const Options& options = {}) {
  const auto instance = Instance::build(std::move(stocks), std::move(pieces), rules);
  EXPECT_TRUE(instance.has_value()) << (instance ? "" : instance.error().code);
  return instance ? solve_checked(*instance, options) : Plan{};
}

// The same numbers on every platform: a 64-bit linear congruential generator, high bits (Knuth, TAOCP vol. 2, 3.3.4, table 1, line 26).
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed * 2862933555777941757ULL + 3037000493ULL) {}
  std::int64_t between(std::int64_t low, std::int64_t high) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(high - low + 1));
  }

 private:
  std::uint64_t state_;
};

}  // namespace railwright::cutting::testing
