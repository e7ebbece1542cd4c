// SPDX-License-Identifier: MIT
#include "engine/strength/section.h"

#include <cmath>

namespace railwright::strength {

namespace {

constexpr double kPerSquareInchFoot = measure::kKilogramPerPound / measure::kMetrePerFoot / (measure::kMetrePerInch * measure::kMetrePerInch);

double kilograms_per_cubic_metre(WeightForm form) {
  switch (form) {
    case WeightForm::b36_10:
      return 10.69 * kPerSquareInchFoot;
    case WeightForm::api_5ct:
      return 10.68 * kPerSquareInchFoot;
    case WeightForm::metric:
      break;
  }
  return 0.0246615e6;
}

}  // namespace

double Section::slenderness() const { return wall.nm() > 0 ? diameter / wall : 0; }

Length design_wall(Length nominal, double factor) { return Length::from_metres(nominal.metres() * factor); }

Section pipe_section(Length diameter, Length wall, WallBasis basis) {
  Section s;
  s.diameter = diameter;
  s.wall = wall;
  s.basis = basis;
  if (diameter.nm() <= 0 || wall.nm() <= 0) return s;
  const double D = diameter.metres();
  const double d = measure::max(diameter - 2 * wall, Length()).metres();
  s.area_m2 = measure::kPi / 4 * (D * D - d * d);
  s.inertia_m4 = measure::kPi / 64 * (D * D * D * D - d * d * d * d);
  s.modulus_m3 = 2 * s.inertia_m4 / D;
  s.plastic_m3 = (D * D * D - d * d * d) / 6;
  s.radius_m = std::sqrt(s.inertia_m4 / s.area_m2);
  s.torsion_m4 = 2 * s.inertia_m4;
  return s;
}

double kilograms_per_metre(Length diameter, Length wall, WeightForm form) {
  return kilograms_per_cubic_metre(form) * (diameter - wall).metres() * wall.metres();
}

double pounds_per_foot(double kilograms_per_metre) { return kilograms_per_metre * measure::kMetrePerFoot / measure::kKilogramPerPound; }

}  // namespace railwright::strength
