// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/ground/nearby.h"
#include "engine/job/job.h"

namespace railwright::ground {

// The ground beside the fence, where spot heights, points with heights or a grid tell it: what a gate's leaf swings over.
// Spots and points by inverse-distance weighting (D. Shepard, 1968, doi 10.1145/800186.810616) over the eight nearest within 15 m, exact at a spot; else the grid,
// bilinear. Nothing where neither reaches. Levelled heights lie on legs alone and say nothing about the ground beside them.
class Surface {
 public:
  explicit Surface(const job::Site& site);
  std::optional<double> height_at(Vec2 place) const;  // metres above the datum

 private:
  const job::Site& site_;
  std::vector<double> heights_;  // of the places in `spots_`
  Nearby spots_;
  bool grid_ = false;
};

}  // namespace railwright::ground
