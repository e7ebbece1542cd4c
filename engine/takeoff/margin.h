// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

// How many more to order so that running short is unlikely. Every figure is the same on every machine: sums and products alone, and where the
// error function is used its result is rounded to 1e-12.
namespace railwright::takeoff {

// P(X > k) of a binomial X over n trials of chance p. Exact up to 300 expected hits, above that the normal limit with continuity correction.
double binomial_exceeds(std::int64_t n, std::int64_t k, double p);
// The least k with P(X > k) <= accepted.
std::int64_t binomial_limit(std::int64_t n, double p, double accepted);

// Chance that fewer than `needed` of `ordered` pieces are good, when each is lost (dropped, bent, wrong) with chance `loss`, one apart from the
// other: P(X > ordered - needed), X binomial.
// Property: falls as `ordered` grows; 1 when ordered < needed; 0 when nothing is needed or lost.
double chance_short(std::int64_t needed, std::int64_t ordered, double loss);

// The least spares that keep that chance at or under `accepted` (0 < accepted < 1; other values are taken as 0.05).
std::int64_t spares(std::int64_t needed, double loss, double accepted);

// P(Z > z) for a standard normal Z, and the z that leaves `tail` above it (to 1e-9). Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.
double normal_tail(double z);
double normal_quantile(double tail);

// A quantity that is measured, not counted: mean and deviation of what will truly be used.
struct Spread {
  double mean = 0, deviation = 0;
};
// What to order so that P(use > order) <= accepted, and that chance for a given order.
double enough(const Spread& use, double accepted);
double chance_short(const Spread& use, double ordered);

}  // namespace railwright::takeoff
