// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>

// Rounding on whole numbers: the one place where halves and signs are decided.
namespace railwright::measure {

// n / d towards minus infinity; d > 0.
constexpr std::int64_t floor_div(std::int64_t n, std::int64_t d) { return n / d - (n % d < 0 ? 1 : 0); }

// The magnitude as an unsigned number, so that the most negative value has one too.
constexpr std::uint64_t magnitude(std::int64_t n) { return n < 0 ? ~static_cast<std::uint64_t>(n) + 1 : static_cast<std::uint64_t>(n); }

// n / d to the nearest whole number, halves up; d > 0.
constexpr std::uint64_t nearest_div(std::uint64_t n, std::uint64_t d) { return n / d + (n % d >= d - n % d ? 1 : 0); }

// The nearest whole number, halves away from zero, kept within -limit..limit; not a number gives the limit.
// The comparison comes first: casting a double beyond the range of the integer is undefined.
constexpr std::int64_t saturating_round(double x, std::int64_t limit) {
  const auto bound = static_cast<double>(limit);
  if (!(x < bound)) return limit;
  if (x <= -bound) return -limit;
  const auto whole = static_cast<std::int64_t>(x);  // towards zero
  const double rest = x - static_cast<double>(whole);
  return whole + (rest >= 0.5 ? 1 : 0) - (rest <= -0.5 ? 1 : 0);
}

}  // namespace railwright::measure
