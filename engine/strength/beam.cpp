// SPDX-License-Identifier: MIT
#include "engine/strength/beam.h"

namespace railwright::strength {

namespace {

struct Coefficients {
  double moment, sag;
};

Coefficients of_point(Support support) {
  if (support == Support::simple) return {1.0 / 4, 1.0 / 48};
  if (support == Support::fixed) return {1.0 / 8, 1.0 / 192};
  return {1.0, 1.0 / 3};
}

Coefficients of_uniform(Support support) {
  if (support == Support::simple) return {1.0 / 8, 5.0 / 384};
  if (support == Support::fixed) return {1.0 / 12, 1.0 / 384};
  return {1.0 / 2, 1.0 / 8};
}

// Support moments m[1..n-1] of n equal spans: m[i-1] + 4 m[i] + m[i+1] = -(q[i-1] + q[i]) / 4, solved by elimination.
std::vector<double> support_moments(const std::vector<double>& q) {
  const std::size_t n = q.size();
  std::vector<double> m(n + 1, 0.0), upper(n + 1, 0.0);
  for (std::size_t i = 1; i < n; ++i) {
    const double pivot = 4 - upper[i - 1];
    upper[i] = 1 / pivot;
    m[i] = (-(q[i - 1] + q[i]) / 4 - m[i - 1]) / pivot;
  }
  for (std::size_t i = n - 1; i >= 1 && i < n; --i) m[i] -= upper[i] * m[i + 1];
  m[n] = 0;
  return m;
}

// One span of unit length under load q with end moments a and b.
struct Span {
  double q, a, b;
  double left_shear() const { return q / 2 + b - a; }
  // Deflection, down positive, and its slope, times E I.
  double sag(double x) const { return q * (x - 2 * x * x * x + x * x * x * x) / 24 + a * x * (1 - x) * (2 - x) / 6 + b * x * (1 - x * x) / 6; }
  double slope(double x) const { return q * (1 - 6 * x * x + 4 * x * x * x) / 24 + a * (2 - 6 * x + 3 * x * x) / 6 + b * (1 - 3 * x * x) / 6; }
};

SpanBent bend(const Span& span) {
  SpanBent bent;
  const double v = span.left_shear();
  if (span.q > 0 && v > 0 && v < span.q) bent.largest_moment = span.a + v * v / (2 * span.q);
  constexpr int kSteps = 64;
  double best = 0;
  for (int i = 1; i < kSteps; ++i) {
    const double x = static_cast<double>(i) / kSteps;
    if (span.sag(x) > span.sag(best)) best = x;
  }
  if (best <= 0) return bent;
  double left = best - 1.0 / kSteps, right = best + 1.0 / kSteps;
  for (int i = 0; i < 60; ++i) {
    const double middle = (left + right) / 2;
    (span.slope(middle) > 0 ? left : right) = middle;
  }
  bent.sag_at = (left + right) / 2;
  bent.sag = span.sag(bent.sag_at);
  return bent;
}

}  // namespace

Bent point_load(Support support, Force load, Length span, double stiffness_n_m2) {
  const double l = span.metres();
  const Coefficients k = of_point(support);
  return {Moment::si(k.moment * load.si() * l), k.sag * load.si() * l * l * l / stiffness_n_m2};
}

Bent uniform_load(Support support, LineLoad load, Length span, double stiffness_n_m2) {
  const double l = span.metres();
  const Coefficients k = of_uniform(support);
  return {Moment::si(k.moment * load.si() * l * l), k.sag * load.si() * l * l * l * l / stiffness_n_m2};
}

ContinuousBeam continuous_beam(const std::vector<bool>& loaded) {
  ContinuousBeam beam;
  if (loaded.empty()) return beam;
  std::vector<double> q;
  for (const bool on : loaded) q.push_back(on ? 1.0 : 0.0);
  beam.support_moments = support_moments(q);
  beam.reactions.assign(q.size() + 1, 0.0);
  for (std::size_t i = 0; i < q.size(); ++i) {
    const Span span{q[i], beam.support_moments[i], beam.support_moments[i + 1]};
    beam.reactions[i] += span.left_shear();
    beam.reactions[i + 1] += q[i] - span.left_shear();
    beam.spans.push_back(bend(span));
  }
  return beam;
}

}  // namespace railwright::strength
