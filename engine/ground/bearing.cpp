// SPDX-License-Identifier: MIT
#include "engine/ground/bearing.h"

#include <cctype>
#include <cstdlib>
#include <string>
#include <vector>

#include "engine/ground/trig.h"

namespace railwright::ground {
namespace {

// What a direction is made of: capital letters and plain numbers, in their order.
struct Parts {
  std::string letters;  // N, S, E, W, L, R and D of "due", without marks
  std::vector<double> numbers;
  bool negative = false;
  bool sound = true;
};

tl::unexpected<Error> refuse(const char* code, std::string_view text) { return fail(code, {}, {{"text", std::string(text)}}); }

// Reads digits with at most one point by whole-number arithmetic: no locale, the same in every build.
double read_number(std::string_view text, std::size_t& i) {
  double whole = 0, scale = 1;
  bool point = false;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '.' && !point)
      point = true;
    else if (c >= '0' && c <= '9' && whole < 1e15) {
      whole = whole * 10 + (c - '0');
      if (point) scale *= 10;
    } else if (!(c >= '0' && c <= '9'))
      break;
  }
  return whole / scale;
}

bool starts_with_word(std::string_view text, std::size_t i, std::string_view word) {
  if (text.size() - i < word.size()) return false;
  for (std::size_t k = 0; k < word.size(); ++k) {
    if (std::tolower(static_cast<unsigned char>(text[i + k])) != word[k]) return false;
  }
  return true;
}

Parts take_apart(std::string_view text) {
  static constexpr std::string_view kWords[] = {"north", "south", "east", "west", "left", "right", "due", "degrees", "deg"};
  static constexpr char kLetters[] = {'N', 'S', 'E', 'W', 'L', 'R', ' ', ' ', ' '};
  Parts parts;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if ((c >= '0' && c <= '9') || c == '.') {
      parts.numbers.push_back(read_number(text, i));
      continue;
    }
    bool word = false;
    for (std::size_t w = 0; w < std::size(kWords) && !word; ++w) {
      if (!starts_with_word(text, i, kWords[w])) continue;
      if (kLetters[w] != ' ') parts.letters += kLetters[w];
      i += kWords[w].size();
      word = true;
    }
    if (word) continue;
    const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    const bool mark =
        static_cast<unsigned char>(c) >= 0x80 || std::isspace(static_cast<unsigned char>(c)) || std::string_view("'\":+").find(c) != std::string_view::npos;
    if (c == '-')
      parts.negative = parts.negative || (parts.numbers.empty() && parts.letters.empty());
    else if (std::string_view("NSEWLR").find(upper) != std::string_view::npos && !(upper == 'S' && !parts.numbers.empty()))
      parts.letters += upper;
    else if (!mark && !(std::string_view("DMS").find(upper) != std::string_view::npos && !parts.numbers.empty())) {
      parts.sound = false;
    }
    ++i;
  }
  return parts;
}

// Degrees from one to three numbers; negative when minutes or seconds are not below 60.
double degrees_of(const std::vector<double>& numbers) {
  double degrees = numbers[0];
  for (std::size_t i = 1; i < numbers.size(); ++i) {
    if (numbers[i] >= 60) return -1;
  }
  if (numbers.size() > 1) degrees += numbers[1] / 60;
  if (numbers.size() > 2) degrees += numbers[2] / 3600;
  return degrees;
}

// A cardinal direction alone.
Result<double> cardinal(const std::string& letters, std::string_view text) {
  if (letters == "N") return 0.0;
  if (letters == "E") return 90.0;
  if (letters == "S") return 180.0;
  if (letters == "W") return 270.0;
  return refuse("bearing.not_a_bearing", text);
}

}  // namespace

Result<double> parse_azimuth(std::string_view text) {
  const Parts parts = take_apart(text);
  if (parts.letters.empty() && parts.numbers.empty()) {
    return refuse(parts.sound ? "bearing.empty" : "bearing.not_a_bearing", text);
  }
  if (!parts.sound || parts.negative || parts.numbers.size() > 3) return refuse("bearing.not_a_bearing", text);
  if (parts.numbers.empty()) return cardinal(parts.letters, text);
  const double degrees = degrees_of(parts.numbers);
  if (parts.letters.empty()) {
    if (degrees < 0 || degrees > 360) return refuse("bearing.out_of_range", text);
    return turn_deg(degrees);
  }
  const std::string& l = parts.letters;
  if (l.size() != 2 || (l[0] != 'N' && l[0] != 'S') || (l[1] != 'E' && l[1] != 'W')) {
    return refuse("bearing.not_a_bearing", text);
  }
  if (degrees < 0 || degrees > 90) return refuse("bearing.out_of_range", text);
  if (l[0] == 'N') return turn_deg(l[1] == 'E' ? degrees : 360 - degrees);
  return turn_deg(l[1] == 'E' ? 180 - degrees : 180 + degrees);
}

Result<double> parse_deflection(std::string_view text) {
  const Parts parts = take_apart(text);
  if (parts.letters.empty() && parts.numbers.empty()) {
    return refuse(parts.sound ? "bearing.empty" : "bearing.not_a_bearing", text);
  }
  const bool hand = parts.letters == "L" || parts.letters == "R";
  if (!parts.sound || parts.numbers.empty() || parts.numbers.size() > 3 || (!hand && !parts.letters.empty()) || (hand && parts.negative)) {
    return refuse("bearing.not_a_bearing", text);
  }
  const double degrees = degrees_of(parts.numbers);
  if (degrees < 0 || degrees > 180) return refuse("bearing.out_of_range", text);
  return parts.letters == "L" || parts.negative ? -degrees : degrees;
}

std::string bearing_text(double azimuth_deg) {
  const auto all = static_cast<long>(turn_deg(azimuth_deg) * 3600 + 0.5) % (360 * 3600);
  const long quarter = 90 * 3600;
  const bool south = all > quarter && all<3 * quarter, west = all> 2 * quarter;
  const long angle = !south ? (west ? 4 * quarter - all : all) : west ? all - 2 * quarter : 2 * quarter - all;
  const auto two = [](long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::string(south ? "S " : "N ") + std::to_string(angle / 3600) + "-" + two(angle / 60 % 60) + "-" + two(angle % 60) + (west ? " W" : " E");
}

}  // namespace railwright::ground
