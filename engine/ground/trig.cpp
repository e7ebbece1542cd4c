// SPDX-License-Identifier: MIT
#include "engine/ground/trig.h"

#include <cmath>

#include "engine/measure/quantity.h"

namespace railwright::ground {
namespace {

// Taylor series: the first term left out is below 1e-18 at 45 degrees.
double sine_series(double x) {
  const double square = x * x;
  double sum = 0;
  for (int n = 17; n >= 3; n -= 2) sum = (sum + 1) * (-square / (n * (n - 1)));
  return x * (1 + sum);
}

double cosine_series(double x) {
  const double square = x * x;
  double sum = 0;
  for (int n = 18; n >= 2; n -= 2) sum = (sum + 1) * (-square / (n * (n - 1)));
  return 1 + sum;
}

}  // namespace

SineCosine sine_cosine(double degrees) {
  const double turned = std::fmod(degrees, 360.0);  // exact
  if (!std::isfinite(turned)) return {turned, turned};
  const double quarters = std::floor(turned / 90.0 + 0.5);
  const double x = (turned - 90.0 * quarters) * (measure::kPi / 180.0);
  const double sine = sine_series(x), cosine = cosine_series(x);
  switch (static_cast<int>(quarters) & 3) {
    case 0:
      return {sine, cosine};
    case 1:
      return {cosine, -sine};
    case 2:
      return {-sine, -cosine};
    default:
      return {-cosine, sine};
  }
}

double azimuth_deg(double east, double north) {
  if (east == 0 && north == 0) return 0;
  const double degrees = std::atan2(east, north) * (180.0 / measure::kPi);
  return turn_deg(std::floor(degrees * 1e9 + 0.5) / 1e9);
}

double turn_deg(double degrees) {
  const double turned = std::fmod(degrees, 360.0);
  const double positive = turned < 0 ? turned + 360.0 : turned;
  return positive >= 360.0 ? 0.0 : positive + 0.0;
}

double half_turn_deg(double degrees) {
  const double turned = turn_deg(degrees);
  return turned > 180.0 ? turned - 360.0 : turned;
}

}  // namespace railwright::ground
