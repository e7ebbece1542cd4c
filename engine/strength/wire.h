// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "engine/measure/length.h"
#include "engine/measure/quantity.h"
#include "engine/strength/flexure.h"

// Strained wire, and the heat and cold in wire and pipe.
namespace railwright::strength {

// Structural steel, 6.5e-6 per degree Fahrenheit (AISC note on thermal movement), per kelvin here.
inline constexpr double kSteelExpansionPerKelvin = 6.5e-6 * 1.8;
constexpr double kelvins_of_fahrenheit(double degrees_f) { return degrees_f / 1.8; }

// Area of a round wire.
double wire_area_m2(Length diameter);

// Rise of pull in a wire held at both ends when it cools by `fall_k`: E A alpha dT. Negative when it warms.
Force temperature_pull(double area_m2, double fall_k, Pressure modulus = kSteelModulus, double expansion_per_k = kSteelExpansionPerKelvin);

// Elastic stretch of a wire under a pull: F L / (A E), metres.
double stretch_m(Force pull, Length length, double area_m2, Pressure modulus = kSteelModulus);

// Breaking load of a wire from its tensile strength: A f_u.
Force wire_strength(double area_m2, Pressure tensile);

// Free change of length, metres: alpha L dT. Stress when it is held instead: E alpha dT.
double expansion_m(Length length, double rise_k, double expansion_per_k = kSteelExpansionPerKelvin);
Pressure restrained_stress(double rise_k, Pressure modulus = kSteelModulus, double expansion_per_k = kSteelExpansionPerKelvin);

// Diameter of steel wire gauge (Washburn & Moen) 6 to 16, and 12.5; nothing for others.
std::optional<Length> steel_wire_gauge(double gauge);

}  // namespace railwright::strength
