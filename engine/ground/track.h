// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/measure/geometry.h"
#include "engine/measure/result.h"

// From the track of a phone carried along the line to straight legs and corners. A phone's fixes stray by metres, wander while the walker stands still,
// and now and then jump away and back. What comes out is a sketch with a stated error: tape the legs before buying pipe.
namespace railwright::ground {

struct Fix {
  measure::Vec2 place;
  std::optional<double> height;
};

struct TrackCorner {
  measure::Vec2 place;
  double error = 0;     // metres, one sigma
  std::size_t fix = 0;  // index in `path` where the walker turned
};

struct WalkedLine {
  std::vector<TrackCorner> corners;  // in walking order; a closed walk does not repeat its first
  bool closed = false;
  double noise = 0;        // rms distance of the fixes from their legs, metres
  double tolerance = 0;    // used
  std::size_t spikes = 0;  // fixes thrown out
  std::size_t stops = 0;   // places where the walker stood
  std::vector<Fix> path;   // cleaned
};

struct TrackOptions {
  double tolerance = 3;  // metres a fix may stray from its leg; grows by itself on a noisier track
  double closing = 10;   // a walk that ends this near its start is a loop
};

// Outline: throw out fixes that jump away and come back; gather fixes nearer than 1.5 m into one; find the corners by the line of farthest strays
// (D. Douglas, T. Peucker, 1973, doi 10.3138/FM57-6770-U75U-7727); fit each leg by total least squares with Huber's weights, leaving
// out the rounded ends; drop corners whose two legs are one line within the tolerance; put
// one corner in place of two whose leg is no longer than three times its error; put each corner where its legs meet.
// The error of a corner is that of the fitted legs, with fixes nearer than 15 m taken to share their error (common practice, no source).
// Errors: `track.too_few_points` (fewer than two places), `track.too_short` (all within 5 m).
// Work O(n log n) on ordinary tracks, at most that of 20,000 fixes squared.
Result<WalkedLine> straighten(const std::vector<Fix>& fixes, const TrackOptions& options = {});

}  // namespace railwright::ground
