// SPDX-License-Identifier: MIT
#include "sheets/shown.h"

#include <cmath>

#include "engine/measure/quantity.h"

namespace railwright::sheets {

using measure::LengthFormat;
using measure::LengthStyle;

std::string number_text(double value, int decimals, bool trim) {
  if (!(value > -1e14 && value < 1e14)) return "–";
  long long scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const long long whole = std::llround(value * static_cast<double>(scale));
  const long long size = whole < 0 ? -whole : whole;
  std::string rest = decimals > 0 ? std::to_string(size % scale) : "";
  rest.insert(0, static_cast<std::size_t>(decimals) - rest.size(), '0');
  while (trim && !rest.empty() && rest.back() == '0') rest.pop_back();
  return (whole < 0 ? "-" : "") + std::to_string(size / scale) + (rest.empty() ? "" : "." + rest);
}

std::string grouped(const std::string& number) {
  const auto point = std::min(number.find('.'), number.size());
  const std::size_t first = !number.empty() && number[0] == '-' ? 1 : 0;
  std::string out = number;
  for (std::size_t i = point; i > first + 3; i -= 3) out.insert(i - 3, ",");
  return out;
}

std::string Shown::tape(Length length) const { return metric_ ? format_length(length, {LengthStyle::millimetres}) : cell(length); }

std::string Shown::cell(Length length) const {
  LengthFormat format;
  format.style = metric_ ? LengthStyle::millimetres : LengthStyle::feet_inches;
  format.primes = !metric_;
  format.with_unit = !metric_;
  return format_length(length, format);
}

Length Shown::cut(Length length) const {
  const std::int64_t step = metric_ ? Length::mm(1).nm() : Length::sixty_fourths(4).nm();
  return length < Length() ? length : Length::from_nm(length.nm() / step * step);
}

std::string Shown::metres(Length length, bool unit) const {
  LengthFormat format;
  format.style = LengthStyle::metres;
  format.with_unit = unit;
  return format_length(length, format);
}

std::string Shown::rough(Length length) const {
  if (metric_) return number_text(length.metres(), length.metres() < 100 ? 1 : 0) + " m";
  return grouped(number_text(length.feet_value(), 0)) + " ft";
}

std::string Shown::size(Length diameter) const {
  if (metric_) return number_text(diameter.metres() * 1000, 1) + " mm";
  LengthFormat format;
  format.style = LengthStyle::inches;
  format.primes = true;
  return format_length(diameter, format);
}

double Shown::in_mass_unit(double kg) const { return metric_ ? kg : measure::in_pounds(measure::Mass::si(kg)); }
double Shown::in_volume_unit(double m3) const { return metric_ ? m3 : measure::in_cubic_feet(measure::Volume::si(m3)); }

std::string Shown::mass(double kg) const {
  const double shown = in_mass_unit(kg);
  return grouped(number_text(shown, shown < 10 ? 1 : 0)) + " " + mass_unit();
}

std::string Shown::volume(double m3) const { return number_text(in_volume_unit(m3), metric_ ? 3 : 1) + " " + volume_unit(); }

std::string Shown::money(Money amount) const {
  const std::string digits = grouped(decimal_text(amount.round_to_cents()));
  if (currency_ != "USD") return digits + " " + currency_;
  return digits[0] == '-' ? "-$" + digits.substr(1) : "$" + digits;
}

std::string Shown::plain(Length length) const {
  return metric_ ? number_text(static_cast<double>(length.nm()) * 1e-6, 2, true) : number_text(length.inches_value(), 4, true);
}

}  // namespace railwright::sheets
