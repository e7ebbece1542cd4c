// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "engine/measure/result.h"

// Directions as surveyors write them. Degrees, minutes and seconds may be marked (68°05'35", 68d05m35s), separated by blanks, colons or
// hyphens (68-05-35), or decimal (68.093).
namespace railwright::ground {

// Azimuth in degrees clockwise from north, 0 <= azimuth < 360. Reads a quadrant bearing (`S 68°05'35" W`, `N45E`, `due north`, `N`) or an azimuth
// (`226°54'23"`, `226.906`). Errors, value `text`: `bearing.empty`, `bearing.not_a_bearing`, `bearing.out_of_range` (a quadrant bearing
// beyond 90 degrees, an azimuth beyond 360, minutes or seconds of 60 and more).
Result<double> parse_azimuth(std::string_view text);

// Turn from the line just walked, degrees, right positive: `R 45°30'`, `45.5 L`, `-45.5` (a bare sign: right positive). Errors as above.
Result<double> parse_deflection(std::string_view text);

// A quadrant bearing to the second: `S 68-05-35 W`; `N 0-00-00 E` is due north. Reads back by parse_azimuth to half a second.
std::string bearing_text(double azimuth_deg);

}  // namespace railwright::ground
