// SPDX-License-Identifier: MIT
#include <array>
#include <optional>

#include "engine/measure/length.h"

// Reading a length. Terms such as `7 ft` and `5 1/4 in` follow one another from the larger unit to the smaller; only the last may have
// a fraction. Sums are kept in whole billionths of a nanometre, so that nothing depends on binary fractions; digits beyond the fifteenth
// decimal are dropped.
namespace railwright::measure {
namespace {

__extension__ using Wide = __int128;

constexpr Wide kFine = 1'000'000'000;  // parts of a nanometre
constexpr std::size_t kLongestText = 200;
constexpr std::int64_t kLargestRead = 1'000'000'000'000'000'000;  // 1e6 km in nm

struct Unit {
  std::string_view name;
  std::int64_t nm;
};
constexpr std::int64_t kInch = Length::kNmPerInch, kFoot = 12 * kInch, kMetre = 1'000'000'000;
constexpr std::array<Unit, 30> kUnits{{
    {"millimetres", 1'000'000},
    {"millimeters", 1'000'000},
    {"millimetre", 1'000'000},
    {"millimeter", 1'000'000},
    {"centimetres", 10'000'000},
    {"centimeters", 10'000'000},
    {"kilometres", 1000 * kMetre},
    {"kilometers", 1000 * kMetre},
    {"metres", kMetre},
    {"meters", kMetre},
    {"metre", kMetre},
    {"meter", kMetre},
    {"inches", kInch},
    {"inch", kInch},
    {"feet", kFoot},
    {"foot", kFoot},
    {"yards", 3 * kFoot},
    {"yard", 3 * kFoot},
    {"miles", 5280 * kFoot},
    {"mile", 5280 * kFoot},
    {"mm", 1'000'000},
    {"cm", 10'000'000},
    {"km", 1000 * kMetre},
    {"mi", 5280 * kFoot},
    {"yd", 3 * kFoot},
    {"ft", kFoot},
    {"in", kInch},
    {"nm", 1},
    {"m", kMetre},
    {"''", kInch},
}};

struct Spelling {
  std::string_view from, to;
};
// What people paste from word processors, in plain characters.
constexpr std::array<Spelling, 21> kSpellings{{
    {"\u00bc", " 1/4"}, {"\u00bd", " 1/2"}, {"\u00be", " 3/4"}, {"\u215b", " 1/8"}, {"\u215c", " 3/8"}, {"\u215d", " 5/8"}, {"\u215e", " 7/8"},
    {"\u2153", " 1/3"}, {"\u2154", " 2/3"}, {"\u2044", "/"},    {"\u2212", "-"},    {"\u2010", "-"},    {"\u2011", "-"},    {"\u2013", "-"},
    {"\u2032", "'"},    {"\u2019", "'"},    {"\u2033", "\""},   {"\u201d", "\""},   {"\u00a0", " "},    {"\u2009", " "},    {"\u202f", " "},
}};

std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Spelling* found = nullptr;
    for (const Spelling& s : kSpellings) {
      if (text.substr(0, s.from.size()) == s.from) found = &s;
    }
    if (found != nullptr) {
      out += found->to;
    } else {
      const char c = text.front();
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    text.remove_prefix(found != nullptr ? found->from.size() : 1);
  }
  return out;
}

// A number as written: whole part, decimals over a power of ten, and a fraction.
struct Number {
  std::int64_t whole = 0;
  std::int64_t part = 0, part_of = 1;  // decimals
  std::int64_t above = 0, below = 1;   // fraction
  bool beyond(std::int64_t unit_nm) const { return whole > kLargestRead / unit_nm; }
  bool broken() const { return part != 0 || above != 0; }
  Wide fine_parts(std::int64_t unit_nm) const {
    const Wide unit = kFine * unit_nm;
    return unit * whole + unit * part / part_of + unit * above / below;
  }
};

enum class Trouble { none, not_a_length, out_of_range };

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  bool at_end() const { return rest_.empty(); }
  Trouble trouble() const { return trouble_; }

  void skip_blanks() {
    while (!rest_.empty() && (rest_[0] == ' ' || rest_[0] == '\t' || rest_[0] == '\n' || rest_[0] == '\r')) {
      rest_.remove_prefix(1);
    }
  }

  bool take(char c) {
    if (rest_.empty() || rest_[0] != c) return false;
    rest_.remove_prefix(1);
    return true;
  }

  // `89`, `1,320`, `5.25`, `.5`, `5 1/4`, `5-1/4`, `1/4`.
  std::optional<Number> number() {
    Number n;
    const bool whole = digits(n.whole);
    if (whole && take('/')) return fraction(n.whole);
    const bool point = take('.');
    const bool decimals = point && decimal_digits(n);
    if (!whole && !decimals) return refuse();
    if (!point) mixed(n);
    if (trouble_ != Trouble::none) return std::nullopt;
    return n;
  }

  // Nothing where no unit stands here.
  std::optional<std::int64_t> unit() {
    skip_blanks();
    if (take('"')) return kInch;
    for (const Unit& u : kUnits) {
      if (rest_.substr(0, u.name.size()) != u.name) continue;
      rest_.remove_prefix(u.name.size());
      if (u.name != "''") full_stop();
      return u.nm;
    }
    if (take('\'')) return kFoot;
    return std::nullopt;
  }

 private:
  static bool is_digit(char c) { return c >= '0' && c <= '9'; }
  bool digit_at(std::size_t i) const { return i < rest_.size() && is_digit(rest_[i]); }
  // A comma that groups: exactly three digits follow.
  bool group_at(std::size_t i) const {
    return i < rest_.size() && rest_[i] == ',' && digit_at(i + 1) && digit_at(i + 2) && digit_at(i + 3) && !digit_at(i + 4);
  }

  // `ft.` is an abbreviation, but `7 ft.5 in` may mean 5 in or half an inch.
  void full_stop() {
    if (take('.') && digit_at(0)) refuse();
  }

  std::nullopt_t refuse() {
    if (trouble_ == Trouble::none) trouble_ = Trouble::not_a_length;
    return std::nullopt;
  }

  bool digits(std::int64_t& value) {
    bool any = false;
    while (digit_at(0) || (any && group_at(0))) {
      if (rest_[0] == ',') rest_.remove_prefix(1);
      if (value > kLargestRead / 10) trouble_ = Trouble::out_of_range;
      value = trouble_ == Trouble::none ? value * 10 + (rest_[0] - '0') : 0;
      any = true;
      rest_.remove_prefix(1);
    }
    if (value > kLargestRead) trouble_ = Trouble::out_of_range;
    return any;
  }

  bool decimal_digits(Number& n) {
    bool any = false;
    while (digit_at(0)) {
      if (n.part_of < 1'000'000'000'000'000) {
        n.part = n.part * 10 + (rest_[0] - '0');
        n.part_of *= 10;
      }
      any = true;
      rest_.remove_prefix(1);
    }
    return any;
  }

  std::optional<Number> fraction(std::int64_t above) {
    Number n;
    n.above = above;
    n.below = 0;
    if (!digits(n.below) || n.below == 0 || n.below > 1'000'000 || above > 1'000'000'000) {
      return refuse();
    }
    return n;
  }

  // The fraction behind a whole number, after a blank or a dash; what follows is left alone when it is no fraction.
  void mixed(Number& n) {
    const std::string_view start = rest_;
    skip_blanks();
    take('-');
    std::int64_t above = 0;
    const bool gap = start.size() != rest_.size();
    if (!gap || !digits(above) || !take('/')) {
      rest_ = start;
      return;
    }
    if (const auto broken = fraction(above)) {
      n.above = broken->above;
      n.below = broken->below;
    }
  }

  std::string_view rest_;
  Trouble trouble_ = Trouble::none;
};

std::int64_t bare_unit(BareNumber bare) {
  switch (bare) {
    case BareNumber::inches:
      return kInch;
    case BareNumber::feet:
      return kFoot;
    case BareNumber::millimetres:
      return Length::kNmPerMm;
    case BareNumber::metres:
      return kMetre;
    case BareNumber::refuse:
      break;
  }
  return 0;
}

tl::unexpected<Error> refusal(const char* code, std::string_view text) { return fail(code, {}, {{"text", std::string(text.substr(0, 60))}}); }

Wide rounded(Wide fine) { return (fine + kFine / 2) / kFine; }

}  // namespace

Result<Length> parse_length(std::string_view text, BareNumber bare) {
  if (text.size() > kLongestText) return refusal("length.not_a_length", text);
  const std::string spelled = plain(text);
  Reader read(spelled);
  read.skip_blanks();
  if (read.at_end()) return refusal("length.empty", text);
  const bool negative = read.take('-');
  if (!negative) read.take('+');

  Wide sum = 0;
  std::int64_t last_unit = 0;
  bool last_broken = false;
  for (bool first = true; first || !read.at_end(); first = false) {
    read.skip_blanks();
    if (!first && last_unit == kFoot) read.take('-');  // 7'-5"
    read.skip_blanks();
    const auto number = read.number();
    auto unit = read.unit();
    read.skip_blanks();
    if (read.trouble() == Trouble::out_of_range) return refusal("length.out_of_range", text);
    if (!number || last_broken || read.trouble() != Trouble::none) {
      return refusal("length.not_a_length", text);
    }
    if (!unit) {
      if (!read.at_end()) return refusal("length.not_a_length", text);
      unit = last_unit == kFoot ? kInch : first ? bare_unit(bare) : 0;
      if (*unit == 0) return refusal("length.no_unit", text);
    }
    if (!first && *unit >= last_unit) return refusal("length.not_a_length", text);
    if (number->beyond(*unit)) return refusal("length.out_of_range", text);
    sum += number->fine_parts(*unit);
    if (rounded(sum) > kLargestRead) return refusal("length.out_of_range", text);
    last_unit = *unit;
    last_broken = number->broken();
  }
  const auto nm = static_cast<std::int64_t>(rounded(sum));
  return Length::from_nm(negative ? -nm : nm);
}

}  // namespace railwright::measure
