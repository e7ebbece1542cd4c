// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace railwright::cutting {

// The finite group of whole-number vectors taken modulo a lattice: two vectors are the same element when their difference is a sum of
// whole multiples of the lattice's generators. All arithmetic is exact.
class Remainders {
 public:
  using Vector = std::vector<std::int64_t>;

  explicit Remainders(std::size_t dimension) : dimension_(dimension), rows_(dimension) {}

  // Adds a generator. False when numbers grew too large; the group is then of no use.
  bool add(Vector generator);
  // To be called after the last generator. False when the group is infinite or has more than `most` elements.
  bool close(std::int64_t most);

  std::int64_t order() const { return order_; }
  // The element's number, 0 for the neutral one.
  std::int64_t element(const Vector& vector) const;
  std::int64_t sum(std::int64_t a, std::int64_t b) const {
    if (moduli_.size() > 2) return sum_of_many(a, b, 1);
    std::int64_t number = a + b;
    if (moduli_.size() == 2 && low(a) + low(b) >= moduli_[1]) number -= moduli_[1];
    return number >= order_ ? number - order_ : number;
  }
  std::int64_t difference(std::int64_t a, std::int64_t b) const {
    if (moduli_.size() > 2) return sum_of_many(a, b, -1);
    std::int64_t number = a - b;
    if (moduli_.size() == 2 && low(a) < low(b)) number += moduli_[1];
    return number < 0 ? number + order_ : number;
  }

 private:
  std::int32_t low(std::int64_t number) const { return low_[static_cast<std::size_t>(number)]; }
  bool reduce(Vector& vector, std::size_t from) const;
  bool diagonalise();
  void join_coprime();
  std::int64_t sum_of_many(std::int64_t a, std::int64_t b, int sign) const;  // a + sign b

  std::size_t dimension_;
  std::vector<Vector> rows_;  // Hermite normal form: row i starts at column i, empty where there is none
  std::int64_t order_ = 0;
  std::vector<std::int64_t> moduli_;  // of the cyclic groups whose product it is
  std::vector<std::int32_t> low_;     // remainder in the second of two cyclic groups, by element
  std::vector<Vector> maps_;          // a vector's remainder in each: its scalar product with this, taken modulo
};

}  // namespace railwright::cutting
