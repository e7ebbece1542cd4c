// SPDX-License-Identifier: MIT
#include "engine/cutting/remainders.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "engine/cutting/wide.h"

namespace railwright::cutting {
namespace {

constexpr std::int64_t kLargest = std::int64_t{1} << 40;  // entries; products of two still fit 128 bits, sums of few 64

std::int64_t floor_div(std::int64_t a, std::int64_t b) { return a / b - (a % b < 0 ? 1 : 0); }
std::int64_t modulo(Wide a, std::int64_t m) {
  const auto rest = static_cast<std::int64_t>(a % m);
  return rest < 0 ? rest + m : rest;
}

// a -= q b; false when an entry grows too large.
bool subtract(Remainders::Vector& a, std::int64_t q, const Remainders::Vector& b) {
  for (std::size_t j = 0; j < a.size(); ++j) {
    const Wide entry = a[j] - static_cast<Wide>(q) * b[j];
    if (entry > kLargest || entry < -kLargest) return false;
    a[j] = static_cast<std::int64_t>(entry);
  }
  return true;
}

void negate(Remainders::Vector& a) {
  for (std::int64_t& entry : a) entry = -entry;
}

}  // namespace

// Takes whole multiples of the rows off, so that entry i lies between zero and the row's leading entry.
bool Remainders::reduce(Vector& vector, std::size_t from) const {
  for (std::size_t i = from; i < dimension_; ++i) {
    if (rows_[i].empty()) continue;
    const std::int64_t q = floor_div(vector[i], rows_[i][i]);
    if (q != 0 && !subtract(vector, q, rows_[i])) return false;
  }
  return true;
}

// Euclid's algorithm, column by column.
bool Remainders::add(Vector generator) {
  if (!reduce(generator, 0)) return false;
  for (std::size_t i = 0; i < dimension_; ++i) {
    if (generator[i] == 0) continue;
    Vector& row = rows_[i];
    if (row.empty()) {
      if (generator[i] < 0) negate(generator);
      row = std::move(generator);
      break;
    }
    while (generator[i] != 0) {
      if (!subtract(row, row[i] / generator[i], generator)) return false;
      std::swap(row, generator);
    }
    if (row[i] < 0) negate(row);
    if (!reduce(row, i + 1) || !reduce(generator, i + 1)) return false;
  }
  for (std::size_t i = dimension_; i-- > 0;)
    if (!rows_[i].empty() && !reduce(rows_[i], i + 1)) return false;
  return true;
}

bool Remainders::close(std::int64_t most) {
  order_ = 1;
  moduli_.clear();
  maps_.clear();
  low_.clear();
  for (std::size_t i = 0; i < dimension_; ++i) {
    if (rows_[i].empty() || rows_[i][i] > most / order_) return false;
    order_ *= rows_[i][i];
  }
  if (!diagonalise()) return false;
  join_coprime();
  for (std::int64_t number = 0; moduli_.size() == 2 && number < order_; ++number) low_.push_back(static_cast<std::int32_t>(number % moduli_[1]));
  // Bounds rest on the generators being neutral: this is checked rather than believed.
  return std::all_of(rows_.begin(), rows_.end(), [&](const Vector& row) { return element(row) == 0; });
}

// Smith's form but for the order of the diagonal. Every vector's multiple by the order lies in the lattice, so that all entries may be
// taken modulo the order.
bool Remainders::diagonalise() {
  const std::size_t n = dimension_;
  std::vector<Vector> a = rows_;
  std::vector<Vector> w(n, Vector(n, 0));
  for (std::size_t i = 0; i < n; ++i) w[i][i] = 1 % order_;
  for (auto& row : a)
    for (std::int64_t& entry : row) entry = modulo(entry, order_);
  std::int64_t product = 1;
  for (std::size_t t = 0; t < n; ++t) {
    while (true) {
      std::size_t r = n, c = n;  // the smallest entry left that is not zero
      for (std::size_t i = t; i < n; ++i)
        for (std::size_t j = t; j < n; ++j)
          if (a[i][j] != 0 && (r == n || a[i][j] < a[r][c])) r = i, c = j;
      if (r == n) break;
      std::swap(a[t], a[r]);
      for (std::size_t i = 0; i < n; ++i) std::swap(a[i][t], a[i][c]), std::swap(w[i][t], w[i][c]);
      bool clean = true;
      for (std::size_t i = t + 1; i < n; ++i) {
        const std::int64_t q = a[i][t] / a[t][t];
        for (std::size_t j = t; j < n && q != 0; ++j) a[i][j] = modulo(a[i][j] - static_cast<Wide>(q) * a[t][j], order_);
        clean = clean && a[i][t] == 0;
      }
      for (std::size_t j = t + 1; j < n; ++j) {
        const std::int64_t q = a[t][j] / a[t][t];
        for (std::size_t i = 0; i < n && q != 0; ++i) {
          a[i][j] = modulo(a[i][j] - static_cast<Wide>(q) * a[i][t], order_);
          w[i][j] = modulo(w[i][j] - static_cast<Wide>(q) * w[i][t], order_);
        }
        clean = clean && a[t][j] == 0;
      }
      if (clean) break;
    }
    std::int64_t d = order_, rest = a[t][t];
    while (rest != 0) d = std::exchange(rest, d % rest);
    product *= d;
    if (d == 1) continue;
    moduli_.push_back(d);
    Vector& map = maps_.emplace_back();
    for (std::size_t i = 0; i < n; ++i) map.push_back(w[i][t] % d);
  }
  return product == order_;
}

// Cyclic groups of coprime orders are one cyclic group (Chinese remainder theorem): one number is quicker to add than two.
void Remainders::join_coprime() {
  for (std::size_t f = 0; f < moduli_.size(); ++f)
    for (std::size_t g = f + 1; g < moduli_.size();) {
      const std::int64_t m = moduli_[f], n = moduli_[g];
      if (std::gcd(m, n) != 1) {
        ++g;
        continue;
      }
      std::int64_t one = n;  // 1 modulo m, 0 modulo n
      while (one % m != 1 % m) one += n;
      const std::int64_t other = modulo(1 - static_cast<Wide>(one), m * n);
      for (std::size_t i = 0; i < dimension_; ++i) maps_[f][i] = modulo(static_cast<Wide>(maps_[f][i]) * one + static_cast<Wide>(maps_[g][i]) * other, m * n);
      moduli_[f] = m * n;
      moduli_.erase(moduli_.begin() + static_cast<std::ptrdiff_t>(g));
      maps_.erase(maps_.begin() + static_cast<std::ptrdiff_t>(g));
    }
}

std::int64_t Remainders::element(const Vector& vector) const {
  std::int64_t number = 0;
  for (std::size_t f = 0; f < moduli_.size(); ++f) {
    Wide sum = 0;
    for (std::size_t i = 0; i < dimension_; ++i) sum += static_cast<Wide>(vector[i]) * maps_[f][i];
    number = number * moduli_[f] + modulo(sum, moduli_[f]);
  }
  return number;
}

std::int64_t Remainders::sum_of_many(std::int64_t a, std::int64_t b, int sign) const {
  std::int64_t number = 0;
  std::int64_t unit = 1;
  for (std::size_t f = moduli_.size(); f-- > 0;) {
    const std::int64_t m = moduli_[f];
    number += (a % m + sign * (b % m) + m) % m * unit;
    unit *= m;
    a /= m;
    b /= m;
  }
  return number;
}

}  // namespace railwright::cutting
