// SPDX-License-Identifier: MIT
#include "engine/asbuilt/run_adjustment.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

namespace railwright::asbuilt {
namespace {

using Matrix = std::vector<std::vector<double>>;

// Inverse by Gauss-Jordan with row exchange: slow, dense, independent of the block recursion.
Matrix inverse_of(Matrix a) {
  const std::size_t n = a.size();
  Matrix b(n, std::vector<double>(n, 0));
  for (std::size_t i = 0; i < n; ++i) b[i][i] = 1;
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t p = c;
    for (std::size_t r = c; r < n; ++r) {
      if (std::fabs(a[r][c]) > std::fabs(a[p][c])) p = r;
    }
    std::swap(a[c], a[p]);
    std::swap(b[c], b[p]);
    const double d = a[c][c];
    for (std::size_t k = 0; k < n; ++k) a[c][k] /= d, b[c][k] /= d;
    for (std::size_t r = 0; r < n; ++r) {
      const double f = a[r][c];
      if (r == c || f == 0) continue;
      for (std::size_t k = 0; k < n; ++k) a[r][k] -= f * a[c][k], b[r][k] -= f * b[c][k];
    }
  }
  return b;
}

std::vector<double> row_of(const GapObservation& o, std::size_t unknowns) {
  std::vector<double> row(unknowns, 0);
  const auto at = static_cast<std::size_t>(o.bay) * 2;
  row[at] = -1;
  row[at + 1] = -o.height_from;
  row[at + 2] = 1;
  row[at + 3] = o.height_to;
  return row;
}

// The textbook answer: x = (P + A' W A)^-1 A' W y.
std::vector<double> dense_answer(const std::vector<PostPrior>& priors, const std::vector<GapObservation>& observations) {
  const std::size_t n = priors.size() * 2;
  Matrix normal(n, std::vector<double>(n, 0));
  std::vector<double> right(n, 0), x(n, 0);
  for (std::size_t i = 0; i < priors.size(); ++i) {
    normal[2 * i][2 * i] = 1 / (priors[i].place_sigma * priors[i].place_sigma);
    normal[2 * i + 1][2 * i + 1] = 1 / (priors[i].lean_sigma * priors[i].lean_sigma);
  }
  for (const GapObservation& o : observations) {
    if (!o.used) continue;
    const auto row = row_of(o, n);
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) normal[i][j] += row[i] * row[j] / (o.sigma * o.sigma);
      right[i] += row[i] * o.excess / (o.sigma * o.sigma);
    }
  }
  const Matrix q = inverse_of(normal);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) x[i] += q[i][j] * right[j];
  }
  return x;
}

std::vector<GapObservation> observations() {
  std::vector<GapObservation> all;
  const double excess[] = {0.004, -0.011, 0.002, 0.009, -0.006, 0.013, -0.003, 0.001};
  for (int i = 0; i < 8; ++i) {
    GapObservation o;
    o.bay = i / 2;
    o.height_from = i % 2 == 0 ? 1.4 : 0.4;
    o.height_to = o.height_from + 0.05 * i;
    o.excess = excess[i];
    o.sigma = 0.0016;
    all.push_back(o);
  }
  return all;
}

std::vector<PostPrior> priors() { return {{0.0127, 0.005}, {0.003, 0.005}, {0.0127, 0.006}, {0.0127, 0.005}, {0.01, 0.004}}; }

TEST(RunAdjustment, AgreesWithTheDenseNormalEquations) {
  auto all = observations();
  all[3].used = false;
  const RunAdjustment got = adjust_run(priors(), all);
  const auto want = dense_answer(priors(), all);
  for (std::size_t i = 0; i < priors().size(); ++i) {
    EXPECT_NEAR(got.place[i], want[2 * i], 1e-12);
    EXPECT_NEAR(got.lean[i], want[2 * i + 1], 1e-12);
  }
}

// The surprise of a reading is what it differs from the answer that never saw it.
TEST(RunAdjustment, SurpriseIsThatOfTheAnswerWithoutTheReading) {
  const auto all = observations();
  const RunAdjustment with = adjust_run(priors(), all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    auto others = all;
    others[i].used = false;
    const auto x = dense_answer(priors(), others);
    const auto row = row_of(all[i], x.size());
    double expected = 0;
    for (std::size_t k = 0; k < x.size(); ++k) expected += row[k] * x[k];
    EXPECT_NEAR(with.checks[i].surprise, all[i].excess - expected, 1e-11);
    // Its sigma is the same, whether the reading was left out or not.
    EXPECT_NEAR(with.checks[i].sigma, adjust_run(priors(), others).checks[i].sigma, 1e-11);
  }
}

// Property 2.
TEST(RunAdjustment, MirroredRunGivesTheMirroredAnswer) {
  const auto all = observations();
  auto mirrored = all;
  for (GapObservation& o : mirrored) {
    o.bay = 3 - o.bay;
    std::swap(o.height_from, o.height_to);
  }
  auto p = priors();
  const RunAdjustment here = adjust_run(p, all);
  std::swap(p[0], p[4]);
  std::swap(p[1], p[3]);
  const RunAdjustment there = adjust_run(p, mirrored);
  for (std::size_t i = 0; i < p.size(); ++i) EXPECT_NEAR(here.place[i], -there.place[p.size() - 1 - i], 1e-12);
  for (std::size_t i = 0; i < all.size(); ++i) EXPECT_NEAR(here.checks[i].surprise, there.checks[i].surprise, 1e-12);
}

}  // namespace
}  // namespace railwright::asbuilt
