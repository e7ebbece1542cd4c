// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

#include "engine/measure/length.h"

namespace railwright::measure {

// A point or a step on the level plane: double metres, x east, y north. Only + - * and sqrt are used, which give the same bits
// natively and in WebAssembly.
struct Vec2 {
  double x = 0, y = 0;

  friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Vec2 operator-(Vec2 a) { return {-a.x, -a.y}; }
  friend constexpr Vec2 operator*(Vec2 a, double k) { return {a.x * k, a.y * k}; }
  friend constexpr Vec2 operator*(double k, Vec2 a) { return a * k; }
  friend constexpr bool operator==(Vec2 a, Vec2 b) { return a.x == b.x && a.y == b.y; }
};

constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
// Positive when b lies to the left of a.
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
constexpr Vec2 left_of(Vec2 a) { return {-a.y, a.x}; }
constexpr Vec2 right_of(Vec2 a) { return {a.y, -a.x}; }
inline double norm(Vec2 a) { return std::sqrt(dot(a, a)); }
inline double distance(Vec2 a, Vec2 b) { return norm(b - a); }
// Unit vector; the zero vector for a step shorter than half a nanometre, which has no direction.
inline Vec2 direction(Vec2 a) {
  const double n = norm(a);
  return n < 0.5e-9 ? Vec2{} : a * (1.0 / n);
}

constexpr Vec2 in_metres(Length east, Length north) { return {east.metres(), north.metres()}; }

// The same value on the nanometre grid, for comparing and branching.
inline double on_grid(double metres) { return Length::from_metres(metres).metres(); }

// Level distance between two places, to the nearest nanometre.
inline Length level_distance(Length east_a, Length north_a, Length east_b, Length north_b) {
  return Length::from_metres(distance(in_metres(east_a, north_a), in_metres(east_b, north_b)));
}

}  // namespace railwright::measure
