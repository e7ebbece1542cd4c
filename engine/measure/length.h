// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/measure/result.h"

namespace railwright::measure {

// A length that a tape can read: a whole number of nanometres in 64 bits.
//
// 1/64 in (396 875 nm), 0.001 ft (304 800 nm) and 0.1 mm are all exact; the range is 9.2 million km. Geometry between
// lengths is done in double metres and comes back through `from_metres`, which rounds to the nearest nanometre.
// Source of the conversion: 1 in = 25.4 mm exactly, 1 ft = 0.3048 m exactly (NIST SP 811:2008, appendix B.8).
//
// Properties
//  (1) a + b - b == a for all lengths below 4.6e6 km.
//  (2) from_nm(x).nm() == x.
//  (3) round_down_to(step) <= x < round_down_to(step) + step, also below zero.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_nm(std::int64_t nm) { return Length(nm); }
  static constexpr Length mm(std::int64_t whole) { return Length(whole * kNmPerMm); }
  static constexpr Length inches(std::int64_t whole) { return Length(whole * kNmPerInch); }
  static constexpr Length feet(std::int64_t whole) { return Length(whole * 12 * kNmPerInch); }
  static constexpr Length sixty_fourths(std::int64_t count) { return Length(count * kNmPerInch / 64); }
  // Nearest nanometre, halves away from zero. Not finite or out of range: saturates at the largest length, `kLargestNm`
  // (4.6e6 km, so that the sum of any two results still fits).
  static Length from_metres(double metres);
  static Length from_inches(double inches);

  constexpr std::int64_t nm() const { return nm_; }
  constexpr double metres() const { return static_cast<double>(nm_) * 1e-9; }
  constexpr double inches_value() const { return static_cast<double>(nm_) / kNmPerInch; }
  constexpr double feet_value() const { return static_cast<double>(nm_) / (12.0 * kNmPerInch); }

  constexpr Length operator-() const { return Length(-nm_); }
  constexpr Length& operator+=(Length b) {
    nm_ += b.nm_;
    return *this;
  }
  constexpr Length& operator-=(Length b) {
    nm_ -= b.nm_;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return Length(a.nm_ + b.nm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.nm_ - b.nm_); }
  friend constexpr Length operator*(Length a, std::int64_t k) { return Length(a.nm_ * k); }
  friend constexpr Length operator*(std::int64_t k, Length a) { return a * k; }
  friend constexpr Length operator/(Length a, std::int64_t k) { return Length(a.nm_ / k); }
  friend constexpr double operator/(Length a, Length b) { return static_cast<double>(a.nm_) / static_cast<double>(b.nm_); }
  friend constexpr bool operator==(Length a, Length b) = default;
  friend constexpr auto operator<=>(Length a, Length b) = default;

  // To a multiple of `step` (> 0), towards minus infinity, plus infinity, or nearest (halves up). The saw's step is applied
  // with `round_down_to`, so that no rail is ever cut long.
  Length round_down_to(Length step) const;
  Length round_up_to(Length step) const;
  Length round_to(Length step) const;

  static constexpr std::int64_t kNmPerMm = 1'000'000;
  static constexpr std::int64_t kNmPerInch = 25'400'000;
  static constexpr std::int64_t kLargestNm = 4'600'000'000'000'000'000;

 private:
  constexpr explicit Length(std::int64_t nm) : nm_(nm) {}
  std::int64_t nm_ = 0;
};

constexpr Length abs(Length a) { return a < Length() ? -a : a; }
constexpr Length min(Length a, Length b) { return b < a ? b : a; }
constexpr Length max(Length a, Length b) { return a < b ? b : a; }

// How a number without a unit is read.
enum class BareNumber { refuse, inches, feet, millimetres, metres };

// Reads one length as people write it: `7 ft 5 1/4 in`, `7' 5-1/4"`, `7ft5.25in`, `89.25 in`, `89 1/4`, `2.27 m`, `2270 mm`, `227 cm`,
// `-3 in`, `1 mi`, `1320 ft`, unicode fractions and primes. Blanks are free. A value that is not a whole number of nanometres is rounded.
// Errors: `length.empty`, `length.not_a_length`, `length.no_unit`, `length.out_of_range` (beyond 1e6 km), each with value `text`.
Result<Length> parse_length(std::string_view text, BareNumber bare = BareNumber::refuse);

// How a length is shown.
//  feet_inches   7 ft 5 1/4 in, 8 ft 0 in, 5 1/4 in (no feet part under a foot), to `fraction` parts of an inch; always with its units
//  inches        89 1/4 in
//  millimetres   2267 mm
//  metres        2.267 m
enum class LengthStyle { feet_inches, inches, millimetres, metres };
struct LengthFormat {
  LengthStyle style = LengthStyle::feet_inches;
  int fraction = 16;  // parts of an inch (1, 2, 4 ... 64) for the inch styles
  int decimals = 3;   // for metres
  bool with_unit = true;
  bool primes = false;  // 7' 5-1/4" instead of 7 ft 5 1/4 in
};

// Nearest shown value, halves away from zero; property: parse_length(format_length(x, f)) differs from x by at most half a step.
std::string format_length(Length length, const LengthFormat& format = {});

// Exact text for files. On the 1/64 in grid inches or whole feet: "89 1/4 in", "8 ft"; else the shortest of decimal `ft`, `mm`, `in`
// and, from a metre up, `m`: "116.619 ft", "100 mm", "2.27 m". Property: parses back to the same nanometre, within the range that parse_length reads.
std::string exact_text(Length length);

}  // namespace railwright::measure
