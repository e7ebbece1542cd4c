// SPDX-License-Identifier: MIT
#include "engine/ground/curve.h"

#include <algorithm>
#include <cmath>

#include "engine/measure/quantity.h"

namespace railwright::ground {
namespace {

using measure::Vec2;

constexpr double kLeast = 1e-3;  // metres: a smaller circle is no place for a post

double radius_given(const job::Arc& arc) { return arc.radius > measure::Length() ? arc.radius.metres() : (arc.diameter / 2).metres(); }

double radians(double degrees) { return degrees * (measure::kPi / 180); }

Curve circle(const job::Arc& arc, Vec2 from, double turn, double snap) {
  Curve curve;
  const double given = radius_given(arc);
  Vec2 centre;
  if (arc.centre) {
    centre = measure::in_metres(arc.centre->first, arc.centre->second);
    curve.wanted = given;
    curve.found = measure::on_grid(measure::distance(centre, from));
    if (given > 0 && std::fabs(curve.found - given) > snap) curve.fault = CurveFault::centre_off;
  } else {
    centre = from + given * measure::turned({0, 1}, -radians(arc.bearing_deg));
  }
  if (measure::distance(centre, from) < kLeast) {
    curve.fault = CurveFault::no_size;
    return curve;
  }
  curve.arc = measure::circle_from(from, centre, turn);
  return curve;
}

Curve bend(const job::Arc& arc, Vec2 from, Vec2 to, double turn, double snap) {
  Curve curve;
  const double chord = measure::distance(from, to), given = radius_given(arc), rise = arc.middle_ordinate.metres();
  const double sine = measure::turned({1, 0}, radians(arc.turn_deg) / 2).y;
  bool more = arc.turn_deg > 180;
  double radius = given;
  if (radius <= 0 && arc.turn_deg > 0 && sine > 0) radius = chord / (2 * sine);
  if (radius <= 0 && rise > 0) {
    radius = (chord * chord / 4 + rise * rise) / (2 * rise);
    more = rise > chord / 2;
  }
  if (radius <= 0 || chord < kLeast) {
    curve.fault = CurveFault::no_size;
    return curve;
  }
  if (measure::on_grid(radius) < measure::on_grid(chord / 2)) {
    curve = {std::nullopt, CurveFault::too_tight, measure::on_grid(radius), measure::on_grid(chord / 2)};
    return curve;
  }
  curve.arc = measure::arc_between(from, to, std::max(radius, chord / 2), turn, more);
  if (given > 0 && arc.turn_deg > 0) {
    curve.wanted = measure::on_grid(2 * radius * sine);
    curve.found = measure::on_grid(chord);
    if (std::fabs(curve.wanted - curve.found) > snap) curve.fault = CurveFault::ends_apart;
  }
  return curve;
}

}  // namespace

Curve curve_of(const job::Arc& arc, Vec2 from, Vec2 to, bool is_circle, double snap) {
  const double turn = arc.turns == job::Side::left ? 1 : -1;
  return is_circle ? circle(arc, from, turn, snap) : bend(arc, from, to, turn, snap);
}

}  // namespace railwright::ground
