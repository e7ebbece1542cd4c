// SPDX-License-Identifier: MIT
#include "engine/takeoff/margin.h"

#include <cmath>

namespace railwright::takeoff {

namespace {

constexpr double kMostExactLosses = 300;

double sane(double accepted) { return accepted > 0 && accepted < 1 ? accepted : 0.05; }

// base^n by repeated squaring: pow differs between C libraries.
double whole_power(double base, std::int64_t n) {
  double result = 1;
  for (; n > 0; n /= 2, base *= base) {
    if (n % 2 == 1) result *= base;
  }
  return result;
}

double exact_tail(std::int64_t n, std::int64_t k, double p) {
  double term = whole_power(1 - p, n), sum = term;
  const double odds = p / (1 - p);
  for (std::int64_t i = 0; i < k; ++i) {
    term *= static_cast<double>(n - i) / static_cast<double>(i + 1) * odds;
    sum += term;
  }
  return sum < 1 ? 1 - sum : 0;
}

// The least whole number from 0 at which `suffices` turns true, by doubling and halving.
template <class Test>
std::int64_t least(const Test& suffices) {
  std::int64_t low = -1, high = 0;
  while (!suffices(high)) {
    low = high;
    high = 2 * high + 1;
  }
  while (high - low > 1) {
    const std::int64_t middle = low + (high - low) / 2;
    (suffices(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

double normal_tail(double z) { return std::round(std::erfc(z / std::sqrt(2.0)) / 2 * 1e12) * 1e-12; }

double normal_quantile(double tail) {
  double low = -10, high = 10;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (normal_tail(middle) > tail ? low : high) = middle;
  }
  return std::round((low + high) / 2 * 1e9) * 1e-9;
}

double binomial_exceeds(std::int64_t n, std::int64_t k, double p) {
  if (n <= k || !(p > 0)) return 0;
  if (k < 0 || p >= 1) return 1;
  const double mean = static_cast<double>(n) * p;
  if (mean <= kMostExactLosses && p <= 0.6) return exact_tail(n, k, p);
  return normal_tail((static_cast<double>(k) + 0.5 - mean) / std::sqrt(mean * (1 - p)));
}

std::int64_t binomial_limit(std::int64_t n, double p, double accepted) {
  return least([&](std::int64_t k) { return binomial_exceeds(n, k, p) <= sane(accepted); });
}

double chance_short(std::int64_t needed, std::int64_t ordered, double loss) {
  if (needed <= 0) return 0;
  if (ordered < needed) return 1;
  return binomial_exceeds(ordered, ordered - needed, loss);
}

std::int64_t spares(std::int64_t needed, double loss, double accepted) {
  return least([&](std::int64_t spare) { return chance_short(needed, needed + spare, loss) <= sane(accepted); });
}

double enough(const Spread& use, double accepted) { return use.deviation > 0 ? use.mean + normal_quantile(sane(accepted)) * use.deviation : use.mean; }

double chance_short(const Spread& use, double ordered) {
  if (use.deviation > 0) return normal_tail((ordered - use.mean) / use.deviation);
  return ordered * (1 + 1e-12) >= use.mean ? 0 : 1;
}

}  // namespace railwright::takeoff
