// SPDX-License-Identifier: MIT
#include "engine/strength/wire.h"

namespace railwright::strength {

double wire_area_m2(Length diameter) { return measure::kPi / 4 * diameter.metres() * diameter.metres(); }

Force temperature_pull(double area_m2, double fall_k, Pressure modulus, double expansion_per_k) {
  return Force::si(modulus.si() * area_m2 * expansion_per_k * fall_k);
}

double stretch_m(Force pull, Length length, double area_m2, Pressure modulus) {
  return area_m2 > 0 ? pull.si() * length.metres() / (area_m2 * modulus.si()) : 0;
}

Force wire_strength(double area_m2, Pressure tensile) { return Force::si(area_m2 * tensile.si()); }

double expansion_m(Length length, double rise_k, double expansion_per_k) { return expansion_per_k * length.metres() * rise_k; }

Pressure restrained_stress(double rise_k, Pressure modulus, double expansion_per_k) { return modulus * (expansion_per_k * rise_k); }

std::optional<Length> steel_wire_gauge(double gauge) {
  struct Row {
    double gauge;
    int ten_thousandths;
  };
  static constexpr Row kRows[] = {{6, 1920},  {7, 1770},   {8, 1620}, {9, 1483}, {10, 1350}, {11, 1205},
                                  {12, 1055}, {12.5, 990}, {13, 915}, {14, 800}, {15, 720},  {16, 625}};
  for (const Row& row : kRows) {
    if (row.gauge == gauge) return Length::from_nm(row.ten_thousandths * (Length::kNmPerInch / 10'000));
  }
  return std::nullopt;
}

}  // namespace railwright::strength
