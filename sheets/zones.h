// SPDX-License-Identifier: MIT
#pragma once

#include "sheets/labels.h"
#include "sheets/scale.h"

namespace railwright::sheets {

// Buried lines and other places without holes: the line in the colour of the public utility-marking code, its word written on it, its tolerance hatched.
// Colours: APWA Uniform Color Code (red power, yellow gas and oil, orange communication, blue drinking water, green sewer, purple irrigation, pink survey).
void draw_zones(Svg& svg, const Pack& pack, const View& view, Labels& labels);
// The words, after the posts have their names.
void name_zones(Svg& svg, const Pack& pack, const View& view, Labels& labels);

std::string zone_word(const Pack& pack, job::ZoneKind kind);
const char* zone_colour(job::ZoneKind kind);

}  // namespace railwright::sheets
