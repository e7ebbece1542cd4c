// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::ground {

struct SineCosine {
  double sine = 0, cosine = 0;
};

// Sine and cosine of an angle in degrees, made of additions and multiplications only: the C libraries of the native and the
// WebAssembly build differ in the last bits of sin and cos, this does not. The angle is first reduced to -45..45 degrees exactly, so
// that multiples of 90 degrees give 0 and 1 exactly. Error below 2 units in the last place; not finite in, not finite out.
SineCosine sine_cosine(double degrees);

// Azimuth of a step, degrees clockwise from north in 0..360, rounded to 1e-9 degrees so that both builds agree. 0 for no step.
double azimuth_deg(double east, double north);

// The angle brought into 0..360 (360 itself becomes 0), and into -180..180.
double turn_deg(double degrees);
double half_turn_deg(double degrees);

}  // namespace railwright::ground
