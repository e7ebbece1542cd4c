// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/measure/result.h"

// Levelling notes by height of instrument: HI = height + backsight; height = HI - foresight. A turning point carries a foresight from the
// old set-up and a backsight from the new one; an intermediate sight is taken and left. One unit of length throughout.
namespace railwright::ground {

struct LevelSight {
  std::string point;
  std::optional<double> backsight, intermediate, foresight;
  std::optional<double> known;  // height of a benchmark; needed at the first sight
};

struct LevelledPoint {
  std::string point;
  double height = 0;                 // adjusted
  double raw = 0;                    // as reduced
  std::optional<double> instrument;  // height of instrument set up from here
};

struct Levelled {
  std::vector<LevelledPoint> points;
  bool closed = false;    // ended on a benchmark, or on the point it began with
  double misclosure = 0;  // found less known
  double allowed = 0;     // `per_setup` times the root of the number of set-ups
  int setups = 0;
  // The page check: sum of backsights less sum of foresights is the last turning point's height less the first's.
  double backsights = 0, foresights = 0;
};

// Reduces the notes in order and spreads the misclosure over the set-ups in equal parts. `per_setup`: expected error of one set-up, one sigma.
// Errors (place: number of the sight): `levels.empty`, `levels.no_start` (the first sight has no known height), `levels.no_instrument` (a foresight
// before any backsight), `levels.two_readings` (intermediate and foresight at one sight), `levels.not_finite`.
Result<Levelled> reduce_levels(const std::vector<LevelSight>& sights, double per_setup);

}  // namespace railwright::ground
