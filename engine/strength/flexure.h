// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/quantity.h"
#include "engine/strength/section.h"

// What a pipe carries in bending and in compression.
namespace railwright::strength {

using measure::Force;
using measure::Moment;
using measure::Pressure;

// Steel, 29 000 ksi (AISC 360).
inline constexpr Pressure kSteelModulus = measure::psi(29e6);
// Allowable strength = nominal strength / 1.67 (AISC 360, ASD).
inline constexpr double kSafetyFactor = 1.67;

struct Flexure {
  Moment nominal;          // Mn
  Moment allowable;        // Mn / 1.67: what the checks compare with
  double slenderness = 0;  // D / t
  bool compact = false;
  bool covered = true;  // false beyond D/t = 0.31 E/Fy: no capacity is stated (both moments 0)
};

// AISC 360 section F8, round sections. Compact (D/t <= 0.07 E/Fy): Mn = Fy Z. Above that and to 0.31 E/Fy we take Mn = Fy S, which is a little
// under the standard's own expression. The limits are quoted from memory; all fence pipe is far on the compact side (D/t below 26 against 58 at 35 ksi).
Flexure pipe_flexure(const Section& section, Pressure yield);

// M / S: elastic bending stress. Older rules compare it with 0.66 Fy; the checks here do not use that limit.
Pressure bending_stress(const Section& section, Moment moment);
Moment elastic_moment(const Section& section, Pressure stress);

// Allowable axial compression by AISC 360 section E3 (from memory): Fe = pi^2 E / (L/r)^2; Fcr = 0.658^(Fy/Fe) Fy where Fy/Fe <= 2.25,
// else 0.877 Fe; Pn = Fcr A; allowable Pn / 1.67. Pinned ends. Zero length: Fy A / 1.67.
Force allowable_compression(const Section& section, Pressure yield, Length length);

}  // namespace railwright::strength
