// SPDX-License-Identifier: MIT
#include "engine/ground/surface.h"

#include "engine/ground/grid.h"

namespace railwright::ground {
namespace {

constexpr double kFar = 15;     // m: a spot farther from a gate says nothing about its swing (common practice, no source)
constexpr double kSame = 1e-3;  // m
constexpr std::size_t kNeighbours = 8;

std::vector<Vec2> places_of(const job::Site& site, std::vector<double>& heights) {
  std::vector<Vec2> places;
  for (const job::SpotHeight& spot : site.ground.spots) {
    places.push_back(measure::in_metres(spot.east, spot.north));
    heights.push_back(spot.height.metres());
  }
  for (const job::Point& point : site.points) {
    if (site.ground.spots.empty() || !point.height) continue;
    places.push_back(measure::in_metres(point.east, point.north));
    heights.push_back(point.height->metres());
  }
  return places;
}

}  // namespace

Surface::Surface(const job::Site& site) : site_(site), spots_(places_of(site, heights_)), grid_(site.ground.grid && usable(*site.ground.grid)) {}

std::optional<double> Surface::height_at(Vec2 place) const {
  double sum = 0, weights = 0;
  for (const Nearby::Neighbour& spot : spots_.nearest(place, kNeighbours)) {
    if (spot.squared > kFar * kFar) break;
    if (spot.squared < kSame * kSame) return heights_[spot.index];
    sum += heights_[spot.index] / spot.squared;
    weights += 1 / spot.squared;
  }
  if (weights > 0) return sum / weights;
  if (grid_) return ground::height_at(*site_.ground.grid, place);
  return std::nullopt;
}

}  // namespace railwright::ground
