// SPDX-License-Identifier: MIT
#include "engine/ground/nearby.h"

#include <algorithm>
#include <numeric>

namespace railwright::ground {
namespace {

using Neighbour = Nearby::Neighbour;

bool nearer(const Neighbour& a, const Neighbour& b) { return a.squared != b.squared ? a.squared < b.squared : a.index < b.index; }

double axis(Vec2 place, bool by_east) { return by_east ? place.x : place.y; }

}  // namespace

double share_along(Vec2 a, Vec2 b, Vec2 place) {
  const double squared = dot(b - a, b - a);
  return squared > 0 ? std::clamp(dot(place - a, b - a) / squared, 0.0, 1.0) : 0.0;
}

Nearby::Nearby(std::vector<Vec2> places) : places_(std::move(places)), order_(places_.size()), by_east_(places_.size()) {
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  arrange(0, order_.size());
}

void Nearby::arrange(std::size_t first, std::size_t last) {
  if (last - first < 2) return;
  Vec2 low = places_[order_[first]], high = low;
  for (std::size_t i = first + 1; i < last; ++i) {
    const Vec2 place = places_[order_[i]];
    low = {std::min(low.x, place.x), std::min(low.y, place.y)};
    high = {std::max(high.x, place.x), std::max(high.y, place.y)};
  }
  const std::size_t middle = first + (last - first) / 2;
  const bool by_east = high.x - low.x >= high.y - low.y;
  by_east_[middle] = by_east;
  const auto at = [&](std::size_t i) { return order_.begin() + static_cast<std::ptrdiff_t>(i); };
  std::nth_element(at(first), at(middle), at(last), [&](std::size_t i, std::size_t j) {
    const double a = axis(places_[i], by_east), b = axis(places_[j], by_east);
    return a != b ? a < b : i < j;
  });
  arrange(first, middle);
  arrange(middle + 1, last);
}

std::vector<Neighbour> Nearby::nearest(Vec2 from, std::size_t count, std::size_t* looked) const {
  std::vector<Neighbour> best;
  if (count > 0) search(0, order_.size(), from, count, best, looked);
  return best;
}

void Nearby::search(std::size_t first, std::size_t last, Vec2 from, std::size_t count, std::vector<Neighbour>& best, std::size_t* looked) const {
  if (first >= last) return;
  if (looked) ++*looked;
  const std::size_t middle = first + (last - first) / 2;
  const bool by_east = by_east_[middle] != 0;
  const Vec2 place = places_[order_[middle]];
  const Neighbour here{order_[middle], dot(place - from, place - from)};
  if (best.size() < count || nearer(here, best.back())) {
    best.insert(std::upper_bound(best.begin(), best.end(), here, nearer), here);
    if (best.size() > count) best.pop_back();
  }
  const double beyond = axis(from, by_east) - axis(place, by_east);
  const bool low_first = beyond < 0;
  const auto visit = [&](bool low) { low ? search(first, middle, from, count, best, looked) : search(middle + 1, last, from, count, best, looked); };
  visit(low_first);
  // A place exactly as far may still win its tie by index.
  if (best.size() < count || beyond * beyond <= best.back().squared) visit(!low_first);
}

std::vector<std::size_t> Nearby::along(Vec2 a, Vec2 b, double reach, std::size_t* looked) const {
  std::vector<std::size_t> found;
  sweep(0, order_.size(), {a, b - a, reach, looked}, 0, 1, found);
  std::sort(found.begin(), found.end());
  return found;
}

// Only the part t0..t1 of the segment can have neighbours in this range of the tree: it is clipped at every split,
// so that a long slanting segment does not ask everything inside its bounding box.
void Nearby::sweep(std::size_t first, std::size_t last, const Segment& segment, double t0, double t1, std::vector<std::size_t>& found) const {
  if (first >= last || t0 > t1) return;
  if (segment.looked) ++*segment.looked;
  const std::size_t middle = first + (last - first) / 2;
  const bool by_east = by_east_[middle] != 0;
  const Vec2 place = places_[order_[middle]];
  const Vec2 foot = segment.a + segment.step * share_along(segment.a, segment.a + segment.step, place);
  if (dot(place - foot, place - foot) <= segment.reach * segment.reach) found.push_back(order_[middle]);

  const double start = axis(segment.a, by_east), step = axis(segment.step, by_east);
  const double split = axis(place, by_east);
  // Parts of the segment at or below `limit`, or at or above it when `above`.
  const auto clip = [&](double limit, bool above, double& from, double& to) {
    if (step == 0) {
      if (above ? start < limit : start > limit) to = from - 1;
      return;
    }
    const double t = (limit - start) / step;
    if ((step > 0) == above)
      from = std::max(from, t);
    else
      to = std::min(to, t);
  };
  // A nanometre more than the reach forgives the rounding of the clip itself.
  const double margin = segment.reach + 1e-9;
  double from = t0, to = t1;
  clip(split + margin, false, from, to);
  sweep(first, middle, segment, from, to, found);
  from = t0, to = t1;
  clip(split - margin, true, from, to);
  sweep(middle + 1, last, segment, from, to, found);
}

}  // namespace railwright::ground
