// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/geometry.h"

namespace railwright::measure {

// Angles by + - * / and sqrt alone, so that both builds give the same bits (the C libraries' own differ in the last ones). Accurate to a few 1e-16.
// Radians; `bearing` is the angle of a step, counter-clockwise from east, in (-pi, pi]; 0 for the zero step.
double bearing(Vec2 step);
double arcsine(double x);                // clamped to [-1, 1]
Vec2 turned(Vec2 step, double radians);  // counter-clockwise

// A circular arc, walked from its start. A station is the distance walked along the arc; it may lie beyond the ends.
//   chord = 2 R sin(delta / 2), middle ordinate = R (1 - cos(delta / 2)), length = R delta
// Source: US Army FM 5-233 "Construction Surveying" (1985), chapter 3, formulas of the simple curve.
struct Arc {
  Vec2 centre;
  double radius = 1;
  double turn = 1;      // +1 bends to the left, -1 to the right
  Vec2 start{1, 0};     // unit step from the centre to where the arc begins
  double delta = 0;     // central angle, > 0, at most a full turn
  bool closed = false;  // a full circle

  double length() const { return radius * delta; }
  Vec2 at(double station) const { return centre + radius * turned(start, turn * station / radius); }
  // Unit direction of walking at a station.
  Vec2 along(double station) const { return turn * left_of(turned(start, turn * station / radius)); }
  // Station of the place of the arc nearest to `place`: in [0, length] where that lies on the arc, else the nearer way beyond an end.
  double station_of(Vec2 place) const;
  // How far a place stands outside the circle on the walker's right: negative on the left.
  double right_of_line(Vec2 place) const { return turn * (distance(centre, place) - radius); }
  double chord_of(double arc_length) const;  // straight distance of two places this far apart along the arc
  double arc_of(double chord) const;         // the reverse, up to the diameter: half the circle beyond
};

// The arc from `from` to `to` that bends left or right (+1, -1) with this radius; `more` than half a circle or not.
// The radius must be at least half the distance.
Arc arc_between(Vec2 from, Vec2 to, double radius, double turn, bool more);
// The full circle from a place on it.
Arc circle_from(Vec2 from, Vec2 centre, double turn);

}  // namespace railwright::measure
