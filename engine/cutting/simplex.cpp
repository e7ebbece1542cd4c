// SPDX-License-Identifier: MIT
#include "engine/cutting/simplex.h"

#include <algorithm>
#include <cmath>

namespace railwright::cutting {
namespace {

constexpr double kPivot = 1e-7;
constexpr double kSlack = 1e-9;

// Between 1e-7 and 2e-7 of the right side's unit, different for every row.
double raise(int row) { return 1e-7 * (1.0 + static_cast<double>((static_cast<std::uint32_t>(row) * 2654435761U) >> 16) / 65536.0); }

}  // namespace

Simplex::Simplex(const std::vector<Row>& rows) : m_(static_cast<int>(rows.size())) {
  inverse_.assign(static_cast<std::size_t>(m_) * m_, 0.0);
  basis_.resize(m_);
  start_.push_back(0);
  for (int i = 0; i < m_; ++i) {
    rhs_.push_back(rows[i].rhs + raise(i));
    const Entry one{i, 1.0};
    const Entry minus{i, -1.0};
    const int column = add_column(rows[i].at_least ? rows[i].penalty : 0.0, std::span(&one, 1));
    artificial_[column] = rows[i].at_least;
    if (rows[i].at_least) add_column(0.0, std::span(&minus, 1));
    logical_.push_back(column);
    basis_[i] = column;
    place_[column] = i;
    inverse_[static_cast<std::size_t>(i) * m_ + i] = 1.0;
  }
  refresh();
}

int Simplex::add_column(double cost, std::span<const Entry> entries) {
  for (const Entry& entry : entries) {
    row_.push_back(entry.row);
    value_.push_back(entry.value);
  }
  start_.push_back(static_cast<int>(row_.size()));
  cost_.push_back(cost);
  place_.push_back(-1);
  artificial_.push_back(0);
  return columns() - 1;
}

void Simplex::set_penalty(double factor) {
  for (int j = 0; j < columns(); ++j)
    if (artificial_[j]) cost_[j] *= factor;
  tolerance_ *= factor;  // rounding grows with the largest cost
  refresh();
}

double Simplex::reduced_cost(int column) const {
  double d = cost_[column];
  for (int e = start_[column]; e < start_[column + 1]; ++e) d -= dual_[row_[e]] * value_[e];
  return d;
}

// The most negative reduced cost among a stretch of columns that moves on, so that thousands of columns are not looked at each time.
int Simplex::entering() {
  const int n = columns();
  const int stretch = std::max(400, n / 8);
  int best = -1;
  double least = -tolerance_;
  for (int seen = 0; seen < n; ++seen) {
    if (scan_ >= n) scan_ = 0;
    const int j = scan_++;
    if (place_[j] < 0) {
      const double d = reduced_cost(j);
      if (d < least) {
        least = d;
        best = j;
      }
    }
    if (best >= 0 && seen >= stretch) break;
  }
  return best;
}

void Simplex::transform(int column, std::vector<double>& alpha) const {
  std::fill(alpha.begin(), alpha.end(), 0.0);
  for (int e = start_[column]; e < start_[column + 1]; ++e) {
    const double* from = &inverse_[static_cast<std::size_t>(row_[e]) * m_];
    const double v = value_[e];
    for (int i = 0; i < m_; ++i) alpha[i] += v * from[i];
  }
}

// Two passes: the step that keeps everything above a small negative slack, then the largest pivot within it.
int Simplex::leaving(const std::vector<double>& alpha) const {
  double step = 1e300;
  for (int i = 0; i < m_; ++i)
    if (alpha[i] > kPivot) step = std::min(step, (std::max(x_[i], 0.0) + kSlack) / alpha[i]);
  int best = -1;
  double largest = 0;
  for (int i = 0; i < m_; ++i) {
    if (alpha[i] <= kPivot || std::max(x_[i], 0.0) > step * alpha[i]) continue;
    const double weight = artificial_[basis_[i]] ? alpha[i] * 16 : alpha[i];
    if (weight > largest) {
      largest = weight;
      best = i;
    }
  }
  return best;
}

std::int64_t Simplex::pivot(int row, int column, const std::vector<double>& alpha) {
  const double d = reduced_cost(column);
  const double step = std::max(x_[row], 0.0) / alpha[row];
  for (int i = 0; i < m_; ++i) x_[i] -= step * alpha[i];
  x_[row] = step;
  std::int64_t work = m_;
  for (int j = 0; j < m_; ++j) {
    double* to = &inverse_[static_cast<std::size_t>(j) * m_];
    if (to[row] == 0.0) continue;
    const double v = to[row] / alpha[row];
    for (int i = 0; i < m_; ++i) to[i] -= v * alpha[i];
    to[row] = std::abs(v) < 1e-14 ? 0.0 : v;
    dual_[j] += d * v;
    work += m_;
  }
  place_[basis_[row]] = -1;
  basis_[row] = column;
  place_[column] = row;
  return work;
}

// x and duals afresh from the inverse.
void Simplex::refresh() {
  x_.assign(m_, 0.0);
  dual_.assign(m_, 0.0);
  for (int j = 0; j < m_; ++j) {
    double* from = &inverse_[static_cast<std::size_t>(j) * m_];
    double y = 0;
    for (int i = 0; i < m_; ++i) {
      if (std::abs(from[i]) < 1e-13) from[i] = 0.0;  // rounding dust would make the inverse look dense
      x_[i] += rhs_[j] * from[i];
      y += cost_[basis_[i]] * from[i];
    }
    dual_[j] = y;
  }
}

void Simplex::reinvert() {
  std::vector<int> wanted;
  for (const int column : basis_) {
    wanted.push_back(column);
    place_[column] = -1;
  }
  std::sort(wanted.begin(), wanted.end(), [&](int a, int b) {
    const int na = start_[a + 1] - start_[a];
    const int nb = start_[b + 1] - start_[b];
    return na != nb ? na < nb : a < b;
  });
  std::fill(inverse_.begin(), inverse_.end(), 0.0);
  for (int i = 0; i < m_; ++i) {
    inverse_[static_cast<std::size_t>(i) * m_ + i] = 1.0;
    basis_[i] = logical_[i];
  }
  std::vector<char> taken(m_, 0);
  std::vector<double> alpha(m_);
  x_.assign(m_, 0.0);
  for (const int column : wanted) {
    transform(column, alpha);
    int row = -1;
    for (int i = 0; i < m_; ++i)
      if (!taken[i] && std::abs(alpha[i]) > kPivot && (row < 0 || std::abs(alpha[i]) > std::abs(alpha[row]))) row = i;
    if (row < 0) continue;  // dependent within tolerance: the logical column of a free row stays
    taken[row] = 1;
    pivot(row, column, alpha);
  }
  std::fill(place_.begin(), place_.end(), -1);
  for (int i = 0; i < m_; ++i) place_[basis_[i]] = i;
  refresh();
}

bool Simplex::optimise(Budget& budget) {
  std::vector<double> alpha(m_);
  int pivots = 0;
  int repairs = 0;
  refresh();
  while (true) {
    const int column = entering();
    if (column < 0) {
      const double lowest = m_ > 0 ? *std::min_element(x_.begin(), x_.end()) : 0.0;
      if (lowest > -1e-5 || ++repairs > 3) return lowest > -1e-3;
      reinvert();
      continue;
    }
    transform(column, alpha);
    const int row = leaving(alpha);
    if (row < 0) {
      if (++repairs > 3) return false;
      reinvert();
      continue;
    }
    const std::int64_t work = pivot(row, column, alpha);
    ++pivots;
    if (pivots % 64 == 0) refresh();
    if (pivots % 1024 == 0) reinvert();
    if (!budget.spend(work / 2 + columns() / 4)) return false;
    if (pivots > 50 * (m_ + 100)) return false;
  }
}

double Simplex::objective() const {
  double sum = 0;
  for (int i = 0; i < m_; ++i) sum += cost_[basis_[i]] * x_[i];
  return sum;
}

double Simplex::shortfall() const {
  double sum = 0;
  for (int i = 0; i < m_; ++i)
    if (artificial_[basis_[i]]) sum += std::max(x_[i], 0.0);
  return sum;
}

std::vector<double> Simplex::values() const {
  std::vector<double> values(columns(), 0.0);
  for (int i = 0; i < m_; ++i) values[basis_[i]] = std::max(x_[i], 0.0);
  return values;
}

}  // namespace railwright::cutting
