// SPDX-License-Identifier: MIT
#include "engine/strength/wind.h"

#include <cmath>

namespace railwright::strength {

namespace {

struct Terrain {
  double alpha, gradient_ft;
};

Terrain terrain(Exposure exposure) {
  if (exposure == Exposure::B) return {7.0, 1200};
  if (exposure == Exposure::C) return {9.5, 900};
  return {11.5, 700};
}

double in_psf(Pressure p) { return measure::in_psi(p) * 144; }

}  // namespace

double exposure_coefficient(Exposure exposure, Length height) {
  const Terrain t = terrain(exposure);
  const double z = measure::max(height, Length::feet(15)).feet_value();
  return std::round(2.01 * std::pow(z / t.gradient_ft, 2 / t.alpha) * 1e9) * 1e-9;
}

Pressure velocity_pressure(double k_z, double k_zt, double k_d, double speed_mph) { return measure::psf(0.00256 * k_z * k_zt * k_d * speed_mph * speed_mph); }

double solid_wall_reduction(double solid_share) {
  if (solid_share < 0.7) return 0;
  const double open = solid_share < 1 ? 1 - solid_share : 0;
  return 1 - open * std::sqrt(open);
}

double lattice_coefficient(LatticeMember member, double solid_share, Length diameter, Pressure velocity_pressure) {
  struct Row {
    double below, flat, round_slow, round_fast;
  };
  static constexpr Row kRows[] = {{0.1, 2.0, 1.2, 0.8}, {0.3, 1.8, 1.3, 0.9}, {2.0, 1.6, 1.5, 1.1}};
  const bool slow = diameter.feet_value() * std::sqrt(in_psf(velocity_pressure)) <= 2.5;
  const Row& row = solid_share < kRows[0].below ? kRows[0] : solid_share < kRows[1].below ? kRows[1] : kRows[2];
  if (member == LatticeMember::flat) return row.flat;
  return slow ? row.round_slow : row.round_fast;
}

Pressure pressure_on_open_frame(Pressure velocity_pressure, double force_coefficient, double solid_share) {
  return velocity_pressure * (kGustFactor * force_coefficient * solid_share);
}

}  // namespace railwright::strength
