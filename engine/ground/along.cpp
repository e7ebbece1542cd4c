// SPDX-License-Identifier: MIT
#include "engine/ground/along.h"

#include <algorithm>
#include <cmath>

namespace railwright::ground {
namespace {

double slope_length(double run, double rise) { return std::sqrt(run * run + rise * rise); }

}  // namespace

GroundTape::GroundTape(const Profile& profile) : points_(profile.points) {
  double reading = 0;
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (i > 0) reading += slope_length(points_[i].station - points_[i - 1].station, points_[i].height - points_[i - 1].height);
    readings_.push_back(reading);
  }
}

double GroundTape::reading(double station) const {
  if (points_.size() < 2 || station <= points_.front().station) return station;
  if (station >= points_.back().station) return readings_.back() + (station - points_.back().station);
  const auto after = std::upper_bound(points_.begin(), points_.end(), station, [](double s, const ProfilePoint& p) { return s < p.station; });
  const auto i = static_cast<std::size_t>(after - points_.begin());
  const ProfilePoint &p = points_[i - 1], &q = points_[i];
  const double share = (station - p.station) / (q.station - p.station);
  return readings_[i - 1] + share * (readings_[i] - readings_[i - 1]);
}

}  // namespace railwright::ground
