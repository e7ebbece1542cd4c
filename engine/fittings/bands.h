// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/measure/length.h"

namespace railwright::fittings {

using measure::Length;

// Bands on a post, bottom up: where each would like to be, and the least distance of its middle above that of the band before it (the first's is
// not read). Returns heights that keep the distances and stray least from the wishes (least squares; pooling of adjacent violators). Two bands
// that want one height part by half a step each; a band that is free to be where it wants stays there to the nanometre.
std::vector<Length> spread(const std::vector<Length>& wishes, const std::vector<Length>& steps);

}  // namespace railwright::fittings
