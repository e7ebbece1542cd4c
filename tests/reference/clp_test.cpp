// SPDX-License-Identifier: MIT
// The reference solver itself answers rightly as we build it.
#include <gtest/gtest.h>

#include <ClpSimplex.hpp>

namespace {

// Least number of 100-inch sticks, fractions allowed, for 97 x 45, 610 x 36, 395 x 31 and 211 x 14 inches. The optimum
// is known by a certificate done by hand: at the prices 1/2, 1/2, 1/4 and 0 a piece no pattern is worth more than one
// stick (checked below), so no plan uses fewer than 97/2 + 610/2 + 395/4 = 452.25; and 48.5 x (2,0,0,0),
// 206.25 x (0,2,0,2) and 197.5 x (0,1,2,0) meet the demand with just that many.
struct Demand {
  double length;
  double count;
};
constexpr Demand kDemands[] = {{45, 97}, {36, 610}, {31, 395}, {14, 211}};
constexpr double kOptimum = 452.25;

ClpSimplex all_patterns_model() {
  ClpSimplex model;
  model.setLogLevel(0);
  model.resize(4, 0);
  for (int row = 0; row < 4; ++row) model.setRowBounds(row, kDemands[row].count, COIN_DBL_MAX);
  for (int a = 0; a <= 2; ++a) {
    for (int b = 0; b <= 2; ++b) {
      for (int c = 0; c <= 3; ++c) {
        for (int d = 0; d <= 7; ++d) {
          if (45 * a + 36 * b + 31 * c + 14 * d > 100) continue;
          EXPECT_LE(0.5 * a + 0.5 * b + 0.25 * c, 1.0);
          const int rows[] = {0, 1, 2, 3};
          const double counts[] = {double(a), double(b), double(c), double(d)};
          model.addColumn(4, rows, counts, 0.0, COIN_DBL_MAX, 1.0);
        }
      }
    }
  }
  return model;
}

TEST(Clp, CuttingMasterProblemMeetsItsCertificate) {
  ClpSimplex model = all_patterns_model();
  model.primal();
  ASSERT_EQ(model.status(), 0);
  EXPECT_NEAR(model.objectiveValue(), kOptimum, 1e-9);
  double dual_value = 0;
  for (int row = 0; row < 4; ++row) dual_value += model.dualRowSolution()[row] * kDemands[row].count;
  EXPECT_NEAR(dual_value, kOptimum, 1e-9);
}

TEST(Clp, SaysWhenNothingIsFeasible) {
  ClpSimplex model;
  model.setLogLevel(0);
  model.resize(1, 0);
  model.setRowBounds(0, 5, 5);
  const int rows[] = {0};
  const double one[] = {1};
  model.addColumn(1, rows, one, 0.0, 4.0, 1.0);
  model.primal();
  EXPECT_EQ(model.status(), 1);
}

}  // namespace
