// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "engine/measure/length.h"
#include "engine/measure/round.h"

namespace railwright::measure {
namespace {

constexpr std::uint64_t kNmPerInch = Length::kNmPerInch;
constexpr std::uint64_t kNmPerFoot = 12 * kNmPerInch;
constexpr std::uint64_t kNmPerMetre = 1'000'000'000;

const char* sign_of(Length length) { return length < Length() ? "-" : ""; }

// "5", "5 1/4", "1/4" of `parts` pieces of 1/`fraction`.
std::string mixed_number(std::uint64_t parts, std::uint64_t fraction, char joint) {
  const std::uint64_t whole = parts / fraction;
  const std::uint64_t rest = parts % fraction;
  if (rest == 0) return fmt::format("{}", whole);
  const std::uint64_t common = std::gcd(rest, fraction);
  const std::string broken = fmt::format("{}/{}", rest / common, fraction / common);
  return whole == 0 ? broken : fmt::format("{}{}{}", whole, joint, broken);
}

// `count` units of 10^-decimals, trailing zeros kept.
std::string fixed_point(std::uint64_t count, int decimals) {
  if (decimals == 0) return fmt::format("{}", count);
  std::uint64_t scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  return fmt::format("{}.{:0{}}", count / scale, count % scale, decimals);
}

std::string trimmed(std::string decimal) {
  if (decimal.find('.') == std::string::npos) return decimal;
  decimal.erase(decimal.find_last_not_of('0') + 1);
  if (decimal.back() == '.') decimal.pop_back();
  return decimal;
}

std::uint64_t sane_fraction(int fraction) {
  for (int f = 1; f <= 64; f *= 2) {
    if (f == fraction) return static_cast<std::uint64_t>(f);
  }
  return 16;
}

std::string inch_parts(std::uint64_t parts, std::uint64_t fraction, const LengthFormat& format) {
  const std::string number = mixed_number(parts, fraction, format.primes ? '-' : ' ');
  if (format.primes) return number + "\"";
  return number + (format.with_unit || format.style == LengthStyle::feet_inches ? " in" : "");
}

std::string feet_and_inches(std::uint64_t parts, std::uint64_t fraction, const LengthFormat& format) {
  const std::uint64_t feet = parts / (12 * fraction);
  const std::uint64_t rest = parts % (12 * fraction);
  const std::string inches = inch_parts(rest, fraction, format);
  if (feet == 0) return inches;
  if (!format.primes) return fmt::format("{} ft {}", feet, inches);
  // 7' 0-7/8": without the nought it is read as seven and seven eighths.
  const bool no_whole_inch = rest != 0 && rest < fraction;
  return fmt::format("{}' {}{}", feet, no_whole_inch ? "0-" : "", inches);
}

std::string inch_style(std::uint64_t nm, const LengthFormat& format) {
  const std::uint64_t fraction = sane_fraction(format.fraction);
  const std::uint64_t parts = nearest_div(nm, kNmPerInch / fraction);
  return format.style == LengthStyle::inches ? inch_parts(parts, fraction, format) : feet_and_inches(parts, fraction, format);
}

std::string metric_style(std::uint64_t nm, const LengthFormat& format) {
  const bool in_mm = format.style == LengthStyle::millimetres;
  const int decimals = in_mm ? 0 : std::clamp(format.decimals, 0, 9);
  std::uint64_t step = in_mm ? Length::kNmPerMm : kNmPerMetre;
  for (int i = 0; i < decimals; ++i) step /= 10;
  const std::string number = fixed_point(nearest_div(nm, step), decimals);
  return number + (format.with_unit ? (in_mm ? " mm" : " m") : "");
}

// The number of `unit_nm` as a decimal of at most `decimals` places, or nothing where that is not exact.
std::string exact_decimal(std::uint64_t nm, std::uint64_t unit_nm, int decimals) {
  std::uint64_t scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const std::uint64_t rest = nm % unit_nm;
  if (rest * scale % unit_nm != 0) return {};
  if (decimals == 0) return fmt::format("{}", nm / unit_nm);
  return trimmed(fmt::format("{}.{:0{}}", nm / unit_nm, rest * scale / unit_nm, decimals));
}

}  // namespace

std::string format_length(Length length, const LengthFormat& format) {
  const std::uint64_t nm = magnitude(length.nm());
  const bool metric = format.style == LengthStyle::millimetres || format.style == LengthStyle::metres;
  const std::string text = metric ? metric_style(nm, format) : inch_style(nm, format);
  // What rounds to nothing has no sign.
  return text.find_first_of("123456789") == std::string::npos ? text : sign_of(length) + text;
}

std::string exact_text(Length length) {
  const std::uint64_t nm = magnitude(length.nm());
  std::string best;
  const auto offer = [&best](const std::string& number, const char* unit) {
    const std::string text = number + unit;
    if (!number.empty() && (best.empty() || text.size() < best.size())) best = text;
  };
  const bool on_tape = nm % (kNmPerInch / 64) == 0;
  if (on_tape) offer(mixed_number(nm / (kNmPerInch / 64), 64, ' '), " in");
  offer(exact_decimal(nm, kNmPerFoot, on_tape ? 0 : 3), " ft");
  if (!on_tape) {
    offer(exact_decimal(nm, Length::kNmPerMm, 6), " mm");
    offer(exact_decimal(nm, kNmPerInch, 6), " in");
    if (nm >= kNmPerMetre) offer(exact_decimal(nm, kNmPerMetre, 9), " m");
  }
  return sign_of(length) + best;
}

}  // namespace railwright::measure
