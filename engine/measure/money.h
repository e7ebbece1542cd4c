// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/measure/result.h"

namespace railwright::measure {

// An amount of the job's currency: a whole number of ten-thousandths, so that a price per foot with four decimals is exact.
// Totals are rounded to cents once, by `round_to_cents` (halves away from zero).
class Money {
 public:
  constexpr Money() = default;
  static constexpr Money from_units(std::int64_t ten_thousandths) { return Money(ten_thousandths); }
  static constexpr Money whole(std::int64_t amount) { return Money(amount * kUnits); }
  static constexpr Money cents(std::int64_t cents) { return Money(cents * (kUnits / 100)); }
  constexpr std::int64_t units() const { return units_; }
  constexpr double value() const { return static_cast<double>(units_) / kUnits; }

  constexpr Money& operator+=(Money b) {
    units_ += b.units_;
    return *this;
  }
  constexpr Money& operator-=(Money b) {
    units_ -= b.units_;
    return *this;
  }
  constexpr Money operator-() const { return Money(-units_); }
  friend constexpr Money operator+(Money a, Money b) { return Money(a.units_ + b.units_); }
  friend constexpr Money operator-(Money a, Money b) { return Money(a.units_ - b.units_); }
  friend constexpr Money operator*(Money a, std::int64_t k) { return Money(a.units_ * k); }
  friend constexpr bool operator==(Money a, Money b) = default;
  friend constexpr auto operator<=>(Money a, Money b) = default;

  // a * factor, nearest ten-thousandth, halves away from zero; saturates.
  Money times(double factor) const;
  Money round_to_cents() const;

  static constexpr std::int64_t kUnits = 10'000;

 private:
  constexpr explicit Money(std::int64_t units) : units_(units) {}
  std::int64_t units_ = 0;
};

// `12.5`, `$1,250.00`, `0.0125`. Errors: `money.not_an_amount`, `money.out_of_range`; value `text`.
Result<Money> parse_money(std::string_view text);
// Decimal string with two decimals, four where needed to be exact: "76.80", "1.9550". No currency sign.
std::string decimal_text(Money amount);

}  // namespace railwright::measure
