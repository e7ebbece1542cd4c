// SPDX-License-Identifier: MIT
#include "formats/stakes_parts.h"

#include <cmath>
#include <cstdint>
#include <map>

namespace railwright::formats {

using measure::Vec2;

std::string fixed_text(double value, int decimals) {
  double scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const double scaled = std::round(std::abs(value) * scale);
  auto whole = static_cast<std::int64_t>(scaled < 9e18 ? scaled : 9e18);
  std::string digits = std::to_string(whole);
  while (digits.size() <= static_cast<std::size_t>(decimals)) digits.insert(digits.begin(), '0');
  digits.insert(digits.end() - decimals, '.');
  return value < 0 && whole != 0 ? "-" + digits : digits;
}

std::vector<LegEnds> leg_ends(const job::Site& site) {
  std::map<std::string, Vec2> places;
  for (const job::Point& point : site.points) places.emplace(point.id, measure::in_metres(point.east, point.north));
  std::vector<LegEnds> all;
  for (const job::Leg& leg : site.legs) {
    const auto from = places.find(leg.from), to = places.find(leg.to);
    if (from != places.end() && to != places.end()) all.push_back({from->second, to->second, &leg});
  }
  return all;
}

const char* kind_text(int kind) {
  static constexpr const char* kNames[] = {"end", "corner", "line", "tee", "cross", "gate", "brace", "fixed"};
  return kind >= 0 && kind < 8 ? kNames[kind] : "line";
}

}  // namespace railwright::formats
