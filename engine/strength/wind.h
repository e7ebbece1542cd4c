// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

// Wind on a fence. Every figure depends on the edition of the standard: these are ASCE 7-05 to 7-16; in 7-22 the directionality factor moves.
namespace railwright::strength {

using measure::Length;
using measure::Pressure;

enum class Exposure { B, C, D };

// K_z = 2.01 (z / z_g)^(2/alpha), z not under 15 ft; B: alpha 7.0, z_g 1200 ft; C: 9.5, 900; D: 11.5, 700 (ASCE 7-10 Table 29.3-1). Rounded to 1e-9.
double exposure_coefficient(Exposure exposure, Length height);

// q = 0.00256 K_z K_zt K_d V^2 psf with V in miles per hour (ASCE 7-10 section 29.3.2). `speed_mph` is of the same edition as the load combination it is used in.
Pressure velocity_pressure(double k_z, double k_zt, double k_d, double speed_mph);

// Reduction of the force on a solid freestanding wall with openings: 1 - (1 - e)^1.5, e = solid / gross area, only where less than 30 % is open
// (ASCE 7-16 section 29.3). More open than that: 0, as the rule does not apply; see below.
double solid_wall_reduction(double solid_share);

enum class LatticeMember { flat, round };

// C_f of open signs and single-plane open frames, 30 % open or more: ASCE 7-16 Table 29.4-2. `diameter` of round members and q decide the column
// (D sqrt(q) <= 2.5 in ft and psf). Solid share from 0 to 0.7; above that the table's last row is given.
double lattice_coefficient(LatticeMember member, double solid_share, Length diameter, Pressure velocity_pressure);

// F / gross area = q G C_f e (on the solid area of an open frame), G = 0.85.
inline constexpr double kGustFactor = 0.85;
Pressure pressure_on_open_frame(Pressure velocity_pressure, double force_coefficient, double solid_share);

}  // namespace railwright::strength
