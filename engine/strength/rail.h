// SPDX-License-Identifier: MIT
#pragma once

#include "engine/measure/quantity.h"
#include "engine/strength/flexure.h"
#include "engine/strength/section.h"

// A rail between two posts: it lies loose in a sleeve at each end, so it is a simple beam over the pitch.
namespace railwright::strength {

using measure::LineLoad;

struct RailLoad {
  Force push;        // an animal or a person at mid-span
  LineLoad uniform;  // the rail's own weight and what leans on all of it
};

// Loads are added as if all acted one way (an animal standing on the rail), which is the worse case for a round pipe.
struct RailAnswer {
  Moment moment;     // P L / 4 + w L^2 / 8
  double sag_m = 0;  // P L^3 / 48 E I + 5 w L^4 / 384 E I
};
RailAnswer rail_under_load(const Section& section, const RailLoad& load, Length pitch);

// The greatest pitch that keeps the moment within the allowable one and the sag within pitch / `sag_ratio`, rounded down to the millimetre.
// sag_ratio 0 leaves sag out. There is no published sag limit for a stock fence: the default is the caller's (common practice, no source).
// Without any load the answer is `most`; a rail that carries nothing at any pitch gives 0.
Length max_pitch(const Section& section, Pressure yield, const RailLoad& load, double sag_ratio, Length most = Length::feet(100));

}  // namespace railwright::strength
