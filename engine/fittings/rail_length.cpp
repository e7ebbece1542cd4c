// SPDX-License-Identifier: MIT
#include <cmath>

#include "engine/fittings/assembly.h"

namespace railwright::fittings {
namespace {

const Length kMicrometre = Length::from_nm(1000);

}  // namespace

Length rail_length(Length level_gap, Length rise, Length take_off_1, Length bolt_1, Length take_off_2, Length bolt_2) {
  if (rise == Length()) return level_gap - take_off_1 - take_off_2;
  const double run = (level_gap - bolt_1 - bolt_2).metres(), dz = rise.metres();
  const Length between_bolts = Length::from_metres(std::sqrt(run * run + dz * dz));
  return (between_bolts - (take_off_1 - bolt_1) - (take_off_2 - bolt_2)).round_to(kMicrometre);
}

Length level_gap(Length slope_gap, Length rise) {
  if (rise == Length()) return slope_gap;
  const double s = slope_gap.metres(), dz = rise.metres();
  if (std::abs(dz) >= s) return Length();
  return Length::from_metres(std::sqrt(s * s - dz * dz)).round_to(kMicrometre);
}

}  // namespace railwright::fittings
