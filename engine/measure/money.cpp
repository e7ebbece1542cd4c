// SPDX-License-Identifier: MIT
#include "engine/measure/money.h"

#include <fmt/format.h>

#include "engine/measure/round.h"

namespace railwright::measure {
namespace {

constexpr std::int64_t kLargestUnits = 4'600'000'000'000'000'000;
constexpr std::int64_t kLargestRead = 1'000'000'000'000 * Money::kUnits;  // a million millions

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view without_blanks(std::string_view text) {
  const auto from = text.find_first_not_of(" \t\r\n");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

// Takes `-` and `$` in either order off the front; true when the amount is negative.
bool take_sign_and_currency(std::string_view& text) {
  bool negative = false, signed_ = false, currency = false;
  while (!text.empty()) {
    const char c = text.front();
    if ((c == '-' || c == '+') && !signed_) {
      signed_ = true;
      negative = c == '-';
    } else if (c == '$' && !currency) {
      currency = true;
    } else if (c != ' ' || !currency) {
      break;
    }
    text.remove_prefix(1);
  }
  return negative;
}

// Digits; where there are commas, one before every group of three digits and nowhere else.
bool well_grouped(std::string_view whole) {
  const bool grouped = whole.find(',') != std::string_view::npos;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    const bool comma_place = grouped && i > 0 && (whole.size() - i) % 4 == 0;
    if (comma_place ? whole[i] != ',' : !is_digit(whole[i])) return false;
  }
  return true;
}

// Ten-thousandths of the digits after the point; the fifth digit rounds.
std::int64_t decimals_of(std::string_view digits) {
  std::int64_t units = 0;
  for (std::size_t i = 0; i < 4; ++i) units = units * 10 + (i < digits.size() ? digits[i] - '0' : 0);
  return units + (digits.size() > 4 && digits[4] >= '5' ? 1 : 0);
}

bool all_digits(std::string_view text) {
  for (const char c : text) {
    if (!is_digit(c)) return false;
  }
  return true;
}

}  // namespace

Money Money::times(double factor) const { return Money(saturating_round(static_cast<double>(units_) * factor, kLargestUnits)); }

Money Money::round_to_cents() const {
  constexpr std::int64_t cent = kUnits / 100;
  const auto cents = static_cast<std::int64_t>(nearest_div(magnitude(units_), cent));
  return Money((units_ < 0 ? -cents : cents) * cent);
}

Result<Money> parse_money(std::string_view text) {
  const Values said{{"text", std::string(text.substr(0, 60))}};
  std::string_view rest = without_blanks(text);
  const bool negative = take_sign_and_currency(rest);
  const auto point = rest.find('.');
  const std::string_view whole = rest.substr(0, point);
  const std::string_view decimals = point == std::string_view::npos ? std::string_view() : rest.substr(point + 1);
  if ((whole.empty() && decimals.empty()) || !well_grouped(whole) || !all_digits(decimals)) {
    return fail("money.not_an_amount", {}, said);
  }
  std::int64_t units = 0;
  for (const char c : whole) {
    if (c == ',') continue;
    units = units * 10 + (c - '0');
    if (units > kLargestRead / Money::kUnits) return fail("money.out_of_range", {}, said);
  }
  units = units * Money::kUnits + decimals_of(decimals);
  return Money::from_units(negative ? -units : units);
}

std::string decimal_text(Money amount) {
  const std::uint64_t units = magnitude(amount.units());
  const char* sign = amount.units() < 0 ? "-" : "";
  const std::uint64_t whole = units / Money::kUnits, part = units % Money::kUnits;
  return part % 100 == 0 ? fmt::format("{}{}.{:02}", sign, whole, part / 100) : fmt::format("{}{}.{:04}", sign, whole, part);
}

}  // namespace railwright::measure
