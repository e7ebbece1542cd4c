// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Properties of round pipe.
//
// Two walls are in print for one pipe and must not be mixed. The *nominal* wall is what is sold and weighed. The *design* wall is 0.93 of it
// for pipe to ASTM A53 and HSS to A500 (AISC Steel Construction Manual, Table 1-14: every property there is on the design wall). Handbook tables
// such as Mott, Machine Elements in Mechanical Design, 4th ed., Table A16-6, are on the nominal wall; their section modulus is 5 to 6 % larger.
// A `Section` carries which one it stands on.
namespace railwright::strength {

using measure::Length;

enum class WallBasis { nominal, design };

struct Section {
  Length diameter;  // outside
  Length wall;      // the wall that the figures stand on
  WallBasis basis = WallBasis::nominal;
  double area_m2 = 0;     // A = pi/4 (D^2 - d^2)
  double inertia_m4 = 0;  // I = pi/64 (D^4 - d^4)
  double modulus_m3 = 0;  // S = 2 I / D, elastic
  double plastic_m3 = 0;  // Z = (D^3 - d^3) / 6
  double radius_m = 0;    // r = sqrt(I / A)
  double torsion_m4 = 0;  // J = 2 I

  double slenderness() const;  // D / t
};

// The design wall of a nominal one: `factor` as in the pipe's catalogue row, 1 where the sold wall is designed on.
Length design_wall(Length nominal, double factor);

// Exact geometry of a round tube. A wall of half the diameter or more is a solid bar; zero or less gives all zeros.
Section pipe_section(Length diameter, Length wall, WallBasis basis);

// Which constant turns (D - t) t into weight: they differ in the second decimal of lb/ft, so a figure must say which.
//  b36_10   10.69 lb/ft, D and t in inches (form of ASME B36.10M and ASTM A53; AISC rounds to the same figures)
//  api_5ct  10.68 lb/ft (API 5CT plain end)
//  metric   0.0246615 kg/m, D and t in mm (density 7850 kg/m3: EN 10220, API 5CT)
enum class WeightForm { b36_10, api_5ct, metric };

// Mass per metre of plain-end pipe of the nominal wall. Threaded, coupled or upset pipe is 1 to 6 % heavier.
double kilograms_per_metre(Length diameter, Length wall, WeightForm form = WeightForm::b36_10);

double pounds_per_foot(double kilograms_per_metre);

}  // namespace railwright::strength
