// SPDX-License-Identifier: MIT
#include "engine/takeoff/margin.h"

#include <gtest/gtest.h>

#include <cmath>

namespace railwright::takeoff {
namespace {

// By hand, loss 2 %: of ten ordered for ten, P(any lost) = 1 - 0.98^10 = 0.18293; of eleven, P(2 or more) = 1 - 0.98^11 - 11 x 0.02 x 0.98^10 = 0.01951.
TEST(Margin, BinomialByHand) {
  EXPECT_NEAR(chance_short(10, 10, 0.02), 0.182927, 1e-6);
  EXPECT_NEAR(chance_short(10, 11, 0.02), 0.019512, 1e-6);
  EXPECT_EQ(spares(10, 0.02, 0.05), 1);
  EXPECT_EQ(spares(10, 0.02, 0.20), 0);
  EXPECT_EQ(spares(10, 0.02, 0.01), 2);
}

// Property: the spares found suffice, one fewer does not; chances fall with each more.
TEST(Margin, SparesAreTheLeast) {
  for (const double loss : {0.001, 0.005, 0.02, 0.05}) {
    for (const std::int64_t needed : {1, 7, 60, 999, 20000}) {
      for (const double accepted : {0.2, 0.05, 0.001}) {
        const std::int64_t spare = spares(needed, loss, accepted);
        EXPECT_LE(chance_short(needed, needed + spare, loss), accepted);
        if (spare > 0) {
          EXPECT_GT(chance_short(needed, needed + spare - 1, loss), accepted);
        }
      }
    }
  }
}

// The exact sum and the normal limit meet where one takes over from the other.
TEST(Margin, ExactAndNormalAgreeAtTheSwitch) {
  const std::int64_t below = binomial_limit(14'990, 0.02, 0.05), above = binomial_limit(15'010, 0.02, 0.05);
  EXPECT_NEAR(static_cast<double>(below), static_cast<double>(above), 2);
  // Mean 300, deviation 17.15: 300 + 1.645 x 17.15 = 328.
  EXPECT_NEAR(static_cast<double>(above), 328, 1.5);
}

TEST(Margin, Degenerate) {
  EXPECT_EQ(chance_short(0, 0, 0.5), 0);
  EXPECT_EQ(chance_short(5, 4, 0.0), 1);
  EXPECT_EQ(chance_short(5, 5, 0.0), 0);
  EXPECT_EQ(spares(0, 0.5, 0.05), 0);
  EXPECT_EQ(spares(10, 0.02, 0), spares(10, 0.02, 0.05));
  EXPECT_EQ(spares(10, 0.02, std::nan("")), spares(10, 0.02, 0.05));
}

// Abramowitz and Stegun, Handbook of Mathematical Functions, Table 26.1: Q(1), Q(2), Q(3) and the upper 5 % point (Table 26.5).
TEST(Margin, NormalTable) {
  EXPECT_NEAR(normal_tail(0), 0.5, 1e-12);
  EXPECT_NEAR(normal_tail(1), 0.158655254, 1e-9);
  EXPECT_NEAR(normal_tail(2), 0.022750132, 1e-9);
  EXPECT_NEAR(normal_tail(3), 0.001349898, 1e-9);
  EXPECT_NEAR(normal_quantile(0.05), 1.644853627, 1e-8);
}

TEST(Margin, Spread) {
  const Spread use{100, 5};
  EXPECT_NEAR(enough(use, 0.05), 100 + 1.644853627 * 5, 1e-7);
  EXPECT_NEAR(chance_short(use, enough(use, 0.05)), 0.05, 1e-8);
  EXPECT_EQ(enough(Spread{100, 0}, 0.05), 100);
  EXPECT_EQ(chance_short(Spread{100, 0}, 99), 1);
}

}  // namespace
}  // namespace railwright::takeoff
