// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "engine/measure/quantity.h"
#include "engine/setout/layout.h"

namespace railwright::setout {
namespace {

constexpr double kMiss = 0.01;  // metres between a curve and its straight pieces
constexpr int kMostPieces = 720;

// Straight pieces of an arc between two distances along it. A piece of angle d misses the arc by R (1 - cos(d / 2)), about R d^2 / 8.
std::vector<Vec2> pieces_of(const measure::Arc& arc, double from, double to) {
  const double step = std::sqrt(8 * kMiss / arc.radius) * arc.radius;
  const int count = std::clamp(static_cast<int>(std::ceil((to - from) / step)), 4, kMostPieces);
  std::vector<Vec2> places;
  for (int i = 0; i <= count; ++i) places.push_back(arc.at(from + (to - from) * i / count));
  return places;
}

}  // namespace

Vec2 LegPlace::at(Length station, Length offset_right) const {
  const Vec2 on = arc ? arc->at(station.metres()) : from + station.metres() * along;
  return on + offset_right.metres() * measure::right_of(along_at(station));
}

Vec2 LegPlace::along_at(Length station) const { return arc ? arc->along(station.metres()) : along; }

Length LegPlace::station_of(Vec2 place) const { return Length::from_metres(arc ? arc->station_of(place) : measure::dot(place - from, along)); }

double LegPlace::off_line(Vec2 place) const { return arc ? arc->right_of_line(place) : measure::cross(place - from, along); }

Length LegPlace::chord_of(Length apart) const { return arc ? Length::from_metres(arc->chord_of(apart.metres())) : apart; }

Length LegPlace::apart_by(Length chord) const {
  if (!arc) return chord;
  const double third = arc->radius * 2 * measure::kPi / 3;
  return Length::from_metres(std::min(arc->arc_of(chord.metres()), third));
}

std::vector<Vec2> LegPlace::pieces() const {
  if (!arc) return {from, to};
  return pieces_of(*arc, 0, arc->length());
}

std::vector<Vec2> LegPlace::pieces_between(Length start, Length end) const {
  if (!arc) return {at(start), at(end)};
  return pieces_of(*arc, start.metres(), end.metres());
}

Vec2 direction_of(const Layout& layout, const Bay& bay) {
  const LegPlace& leg = layout.legs[static_cast<std::size_t>(bay.leg)];
  if (!leg.arc) return leg.along;
  return measure::direction(layout.posts[static_cast<std::size_t>(bay.to)].at - layout.posts[static_cast<std::size_t>(bay.from)].at);
}

}  // namespace railwright::setout
