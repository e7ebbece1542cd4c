// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <cmath>

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"

namespace railwright::strength {

// A published figure is met when ours lies within half of its last printed digit.
#define EXPECT_PRINTED(value, printed, decimals) EXPECT_NEAR((value), (printed), 0.5 * std::pow(10.0, -(decimals)) * (1 + 1e-9))

inline measure::Length inch(double value) { return measure::Length::from_inches(value); }
inline measure::Length foot(double value) { return measure::Length::from_inches(12 * value); }
inline double square_inches(double m2) { return m2 / (0.0254 * 0.0254); }
inline double cubic_inches(double m3) { return m3 / (0.0254 * 0.0254 * 0.0254); }
inline double inches_4(double m4) { return m4 / (0.0254 * 0.0254 * 0.0254 * 0.0254); }
inline double kip_inches(measure::Moment m) { return m.si() / (measure::pounds_force(1000).si() * 0.0254); }
inline double ksi(measure::Pressure p) { return measure::in_psi(p) / 1000; }
inline double in_psf(measure::Pressure p) { return measure::in_psi(p) * 144; }
inline measure::LineLoad plf(double v) { return measure::LineLoad::si(measure::pounds_force(v).si() / 0.3048); }

}  // namespace railwright::strength
