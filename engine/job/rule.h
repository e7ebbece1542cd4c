// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "engine/job/job.h"

// What a field of the document may hold. Rules stand beside the keys in `fields.h`; reading, checking and the schema all use them.
namespace railwright::job {

// Things of the document that have an id. Ids are unique within a kind.
enum class Kind { none, point, leg, gate, zone, fence, offer, stick, set_post, issued_post, issued_bay, pipe, fitting, animal, soil, price, supply, hour };

struct Rule {
  bool required = false;
  bool bounded = false;
  double least = 0, most = 0;  // whole nanometres for lengths, the currency for money, else as stored
  Kind names = Kind::none;     // the field is the id of a thing of this kind
  Kind refers = Kind::none;    // the field is the id of another thing; empty: none
};

constexpr Rule between(double least, double most) {
  Rule rule;
  rule.bounded = true;
  rule.least = least;
  rule.most = most;
  return rule;
}
constexpr Rule between(Length least, Length most) { return between(static_cast<double>(least.nm()), static_cast<double>(most.nm())); }
constexpr Rule required(Rule rule = {}) {
  rule.required = true;
  return rule;
}
constexpr Rule id_of(Kind kind) {
  Rule rule = required();
  rule.names = kind;
  return rule;
}
constexpr Rule refers_to(Kind kind) {
  Rule rule;
  rule.refers = kind;
  return rule;
}

inline constexpr Length kFarthest = Length::mm(1'000'000'000);  // 1000 km
inline constexpr Rule kSize = between(Length(), kFarthest);     // the rule of a length without one
inline constexpr Rule kPlace = between(-kFarthest, kFarthest);
inline constexpr Rule kSmall = between(Length(), Length::feet(100));  // parts of a fence
inline constexpr Rule kPart = between(Length(), Length::feet(10));    // parts of a fitting, allowances
inline constexpr Rule kShare = between(0.0, 1.0);
inline constexpr Rule kAmount = between(0.0, 1e9);  // the rule of a number or an amount without one

// The words of a choice, in the order of its enumerators.
template <class E>
struct Words;
template <>
struct Words<Side> {
  static constexpr std::array<std::string_view, 2> all{"left", "right"};
};
template <>
struct Words<ZoneKind> {
  static constexpr std::array<std::string_view, 12> all{"power",  "gas",  "communication", "water",   "sewer", "irrigation",
                                                        "survey", "rock", "roots",         "culvert", "wet",   "other"};
};
template <>
struct Words<LeafEnd> {
  static constexpr std::array<std::string_view, 3> all{"from", "to", "both"};
};
template <>
struct Words<FenceKind> {
  static constexpr std::array<std::string_view, 5> all{"rails", "mesh", "panels", "strained", "wire"};
};
template <>
struct Words<RailLine> {
  static constexpr std::array<std::string_view, 3> all{"follow", "level", "smooth"};
};
template <>
struct Words<Setting> {
  static constexpr std::array<std::string_view, 2> all{"concrete", "driven"};
};
template <>
struct Words<SpacingMode> {
  static constexpr std::array<std::string_view, 5> all{"equal", "at_pitch", "module", "list", "best"};
};
template <>
struct Words<WorkOrder> {
  static constexpr std::array<std::string_view, 2> all{"posts_first", "rails_first"};
};
template <>
struct Words<GapWay> {
  static constexpr std::array<std::string_view, 2> all{"level", "slope"};
};
template <>
struct Words<MendWay> {
  static constexpr std::array<std::string_view, 3> all{"cut", "fill", "filler"};
};
template <>
struct Words<UnitSystem> {
  static constexpr std::array<std::string_view, 2> all{"feet_inches", "metric"};
};
template <>
struct Words<FittingKind> {
  static constexpr std::array<std::string_view, 3> all{"end", "through", "corner"};
};

}  // namespace railwright::job
