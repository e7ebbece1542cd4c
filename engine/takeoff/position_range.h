// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/takeoff/takeoff.h"

// How far the quantities may be off because the points are: a walked phone track knows its corners to some metres.
namespace railwright::takeoff {

// Moves every point by a random error of its accuracy (job::Point::accuracy, else Site::position_accuracy, one sigma in each direction, points apart from each other)
// a thousand times, from one fixed seed, and sees what the fence then takes:
//  - a leg grows or shrinks with its ends; gates and brace bays keep their size, the other runs share the change by length;
//  - a run has ceil(length / pitch cap) bays, a post and its rails for each;
//  - pipe follows the length (rails) and the posts; the price follows pipe, mesh and wire by length, fittings, concrete, sundries and labour by the bay; gates and braces
//    are fixed; overhead, profit and tax follow.
// The half ranges are the 95 % points of the differences (common practice, no source, for the shares of the price; the propagation itself is simulation). An error common
// to all points moves the fence and changes nothing, so what is said is, for a phone, rather too much. Points whose post is already set have no error.
// No value when every point is taped (accuracy 0) or there is no bay. Only + - * / and sqrt: the same on every machine.
std::optional<PositionRange> position_range(const Input& in, const Takeoff& takeoff, const std::vector<Length>& pitch_caps);

}  // namespace railwright::takeoff
