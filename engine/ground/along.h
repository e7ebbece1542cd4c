// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/ground/profile.h"

namespace railwright::ground {

// What a tape reads that is laid along the ground from the leg's start: the lengths of the slopes, added up. The tape lies on the ground from one
// point of the profile to the next; over hollows narrower than that it is pulled straight anyway.
//   reading(s) = sum of sqrt(ds^2 + dh^2)  (Pythagoras, slope by slope)
// Properties: (1) never less than the level station, and the station itself on level ground; (2) rises with the station; (3) on one straight slope of
// grade g it is s sqrt(1 + g^2): 300 ft at 10 % reads 301 ft 6 in.
// Stations outside the profile go on level. O(log n) a reading.
class GroundTape {
 public:
  explicit GroundTape(const Profile& profile);
  double reading(double station) const;  // metres of level distance -> metres of tape

 private:
  std::vector<ProfilePoint> points_;
  std::vector<double> readings_;  // at the points
};

}  // namespace railwright::ground
