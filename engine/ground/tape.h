// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/measure/result.h"

// Corrections of taped distances. One unit of length throughout, as printed on the tape.
namespace railwright::ground {

// Level distance under a slope distance with a rise over it: sqrt(S2 - h2). Error `tape.rise`: the rise is not below the distance.
Result<double> level_from_slope(double slope_distance, double rise);
// The builder's approximation -h2 / 2S, the correction to add. Good to 1/8000 at 10 % grade.
double slope_correction_approximate(double slope_distance, double rise);

// A steel tape: its true length at its standard temperature and pull. Temperature in degrees Fahrenheit, forces in pounds.
struct Tape {
  double nominal = 100, true_length = 100;
  double standard_f = 68, standard_pull = 10;
  double section = 0;               // area, square inches; 0: the pull is not corrected
  double elasticity = 29e6;         // psi
  double weight_per_length = 0;     // pounds per unit of length; 0: no sag
  double expansion_per_f = 6.5e-6;  // Engineering Aid Basic (NAVEDTRA 10696), chapter 12: 0.0000065 per degree F
};

// One line taped: recorded lengths of the bays between supports; a bay laid on the ground has `supported` set.
struct TapedBay {
  double length = 0;
  bool supported = true;
};
struct Taped {
  std::vector<TapedBay> bays;
  double temperature_f = 68;
  std::optional<double> pull;  // none: the standard pull
};

struct TapeCorrections {
  double recorded = 0, length = 0, temperature = 0, pull = 0, sag = 0;
  double corrected() const { return recorded + length + temperature + pull + sag; }
};

// length (true - nominal)/nominal L; temperature k (T - T0) L; pull (P - P0) L / (A E); sag -w2 l3 / (24 P2) of each unsupported bay.
//  Source of the formulas: Engineering Aid Basic, chapter 12; J. Mahun, Open Access Surveying, chapter Distance - taping.
TapeCorrections correct(const Tape& tape, const Taped& line);

}  // namespace railwright::ground
