// SPDX-License-Identifier: MIT
#include "engine/asbuilt/run_adjustment.h"

#include <algorithm>
#include <cmath>

namespace railwright::asbuilt {
namespace {

struct Pair {
  double x = 0, l = 0;  // of place, of lean
};

struct Block {
  double a = 0, b = 0, c = 0, d = 0;  // a b / c d
};

Block operator*(const Block& m, const Block& n) { return {m.a * n.a + m.b * n.c, m.a * n.b + m.b * n.d, m.c * n.a + m.d * n.c, m.c * n.b + m.d * n.d}; }
Block operator+(const Block& m, const Block& n) { return {m.a + n.a, m.b + n.b, m.c + n.c, m.d + n.d}; }
Block operator-(const Block& m, const Block& n) { return {m.a - n.a, m.b - n.b, m.c - n.c, m.d - n.d}; }
Pair operator*(const Block& m, Pair v) { return {m.a * v.x + m.b * v.l, m.c * v.x + m.d * v.l}; }
Pair operator-(Pair u, Pair v) { return {u.x - v.x, u.l - v.l}; }
Block transposed(const Block& m) { return {m.a, m.c, m.b, m.d}; }
Block inverse(const Block& m) {
  const double det = m.a * m.d - m.b * m.c;
  return {m.d / det, -m.b / det, -m.c / det, m.a / det};
}
double dot(Pair u, Pair v) { return u.x * v.x + u.l * v.l; }
// weight * u v^T
Block outer(Pair u, Pair v, double weight) { return {weight * u.x * v.x, weight * u.x * v.l, weight * u.l * v.x, weight * u.l * v.l}; }

// How a gap depends on its two posts.
Pair near_row(const GapObservation& o) { return {-1, -o.height_from}; }
Pair far_row(const GapObservation& o) { return {1, o.height_to}; }

struct Normal {
  std::vector<Block> diagonal, off;  // off[i]: post i to post i + 1
  std::vector<Pair> right;
};

Normal normal_equations(const std::vector<PostPrior>& priors, const std::vector<GapObservation>& observations) {
  Normal n;
  for (const PostPrior& p : priors) {
    n.diagonal.push_back({1 / (p.place_sigma * p.place_sigma), 0, 0, 1 / (p.lean_sigma * p.lean_sigma)});
  }
  n.off.resize(priors.size() - 1);
  n.right.resize(priors.size());
  for (const GapObservation& o : observations) {
    if (!o.used) continue;
    const double weight = 1 / (o.sigma * o.sigma);
    const Pair u = near_row(o), v = far_row(o);
    n.diagonal[o.bay] = n.diagonal[o.bay] + outer(u, u, weight);
    n.diagonal[o.bay + 1] = n.diagonal[o.bay + 1] + outer(v, v, weight);
    n.off[o.bay] = n.off[o.bay] + outer(u, v, weight);
    Pair& near = n.right[o.bay];
    Pair& far = n.right[o.bay + 1];
    near = {near.x + weight * u.x * o.excess, near.l + weight * u.l * o.excess};
    far = {far.x + weight * v.x * o.excess, far.l + weight * v.l * o.excess};
  }
  return n;
}

struct Solution {
  std::vector<Pair> at;
  std::vector<Block> own, next;  // blocks of the inverse: of a post with itself and with the next one
};

Solution solve(Normal n) {
  const std::size_t count = n.diagonal.size();
  Solution s;
  s.at.resize(count);
  s.own.resize(count);
  s.next.resize(count - 1);
  std::vector<Block> pivot(count);  // inverses of the eliminated diagonal blocks
  pivot[0] = inverse(n.diagonal[0]);
  for (std::size_t i = 1; i < count; ++i) {
    const Block carried = transposed(n.off[i - 1]) * pivot[i - 1];
    n.right[i] = n.right[i] - carried * n.right[i - 1];
    pivot[i] = inverse(n.diagonal[i] - carried * n.off[i - 1]);
  }
  s.at[count - 1] = pivot[count - 1] * n.right[count - 1];
  s.own[count - 1] = pivot[count - 1];
  for (std::size_t i = count - 1; i-- > 0;) {
    const Block reach = pivot[i] * n.off[i];
    s.at[i] = pivot[i] * n.right[i] - reach * s.at[i + 1];
    const Block through = reach * s.own[i + 1];
    s.next[i] = Block{} - through;
    s.own[i] = pivot[i] + through * transposed(reach);
  }
  return s;
}

// Variance of what the answer says about a gap.
double variance_of(const Solution& s, const GapObservation& o) {
  const Pair u = near_row(o), v = far_row(o);
  return dot(u, s.own[o.bay] * u) + dot(v, s.own[o.bay + 1] * v) + 2 * dot(u, s.next[o.bay] * v);
}

ObservationCheck check_of(const Solution& s, const GapObservation& o) {
  const double expected = dot(near_row(o), s.at[o.bay]) + dot(far_row(o), s.at[o.bay + 1]);
  const double residual = o.excess - expected;
  const double own = o.sigma * o.sigma;
  const double explained = variance_of(s, o);
  if (!o.used) return {residual, std::sqrt(own + std::max(0.0, explained))};
  // Leaving the reading out of the answer enlarges its residual by 1 / redundancy.
  const double redundancy = std::max(1e-9, 1 - explained / own);
  return {residual / redundancy, o.sigma / std::sqrt(redundancy)};
}

}  // namespace

RunAdjustment adjust_run(const std::vector<PostPrior>& priors, const std::vector<GapObservation>& observations) {
  const Solution s = solve(normal_equations(priors, observations));
  RunAdjustment result;
  for (const Pair& at : s.at) {
    result.place.push_back(at.x);
    result.lean.push_back(at.l);
  }
  for (const GapObservation& o : observations) result.checks.push_back(check_of(s, o));
  return result;
}

}  // namespace railwright::asbuilt
