// SPDX-License-Identifier: MIT
#include "engine/measure/arc.h"

#include <algorithm>
#include <cmath>

#include "engine/measure/quantity.h"

namespace railwright::measure {
namespace {

constexpr double kQuarter = kPi / 2;

// Taylor's series on [-pi/4, pi/4]: the first term left out is below 1e-17.
double sine_near_zero(double x) {
  const double square = x * x;
  double term = x, sum = x;
  for (int n = 2; n <= 18; n += 2) {
    term = -term * square / (n * (n + 1));
    sum += term;
  }
  return sum;
}

double cosine_near_zero(double x) {
  const double square = x * x;
  double term = 1, sum = 1;
  for (int n = 1; n <= 19; n += 2) {
    term = -term * square / (n * (n + 1));
    sum += term;
  }
  return sum;
}

// Arctangent of 0..1: halved three times by atan t = 2 atan(t / (1 + sqrt(1 + t^2))), then Gregory's series.
double arctangent(double t) {
  for (int i = 0; i < 3; ++i) t = t / (1 + std::sqrt(1 + t * t));
  const double square = t * t;
  double power = t, sum = t;
  for (int n = 3; n <= 21; n += 2) {
    power = -power * square;
    sum += power / n;
  }
  return 8 * sum;
}

}  // namespace

double bearing(Vec2 step) {
  const double x = std::fabs(step.x), y = std::fabs(step.y);
  if (x == 0 && y == 0) return 0;
  const double first = y <= x ? arctangent(y / x) : kQuarter - arctangent(x / y);
  const double upper = step.x < 0 ? kPi - first : first;
  return step.y < 0 ? -upper : upper;
}

double arcsine(double x) {
  x = std::clamp(x, -1.0, 1.0);
  return bearing({std::sqrt((1 - x) * (1 + x)), x});
}

Vec2 turned(Vec2 step, double radians) {
  const double quarters = std::round(radians / kQuarter);
  const double rest = radians - quarters * kQuarter;
  const double s = sine_near_zero(rest), c = cosine_near_zero(rest);
  Vec2 result{step.x * c - step.y * s, step.x * s + step.y * c};
  const int turns = static_cast<int>(quarters - 4 * std::floor(quarters / 4));
  for (int i = 0; i < turns; ++i) result = left_of(result);
  return result;
}

double Arc::station_of(Vec2 place) const {
  const Vec2 out = place - centre;
  double angle = bearing({dot(start, out), turn * cross(start, out)});
  // Beyond an end, the end that is nearer counts.
  if (angle < 0 && angle + 2 * kPi - delta < -angle) angle += 2 * kPi;
  return radius * angle;
}

double Arc::chord_of(double arc_length) const {
  const double half = arc_length / (2 * radius);
  return 2 * radius * turned({1, 0}, half).y;
}

double Arc::arc_of(double chord) const { return 2 * radius * arcsine(chord / (2 * radius)); }

Arc arc_between(Vec2 from, Vec2 to, double radius, double turn, bool more) {
  const Vec2 chord = to - from, along = direction(chord);
  const double half = norm(chord) / 2;
  const double rise = std::sqrt(std::max(0.0, radius * radius - half * half));
  // Bending left, the centre of the smaller arc lies left of the chord.
  const Vec2 centre = from + half * along + (more ? -turn : turn) * rise * left_of(along);
  const double smaller = 2 * arcsine(half / radius);
  return {centre, radius, turn, direction(from - centre), more ? 2 * kPi - smaller : smaller, false};
}

Arc circle_from(Vec2 from, Vec2 centre, double turn) { return {centre, distance(centre, from), turn, direction(from - centre), 2 * kPi, true}; }

}  // namespace railwright::measure
