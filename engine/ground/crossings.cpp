// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/ground/traverse.h"

namespace railwright::ground {
namespace {

using measure::Vec2;

struct Side {
  Vec2 a, b;
  std::size_t index = 0;
  double west = 0, east = 0;
};

// On which side of the line from a to b: 1 left, -1 right, 0 on it (within a tenth of a millimetre).
int side_of(Vec2 a, Vec2 b, Vec2 p) {
  const double off = cross(b - a, p - a), near = 1e-4 * measure::distance(a, b);
  return off > near ? 1 : off < -near ? -1 : 0;
}

bool cross_inside(const Side& one, const Side& other) {
  return side_of(one.a, one.b, other.a) * side_of(one.a, one.b, other.b) < 0 && side_of(other.a, other.b, one.a) * side_of(other.a, other.b, one.b) < 0;
}

}  // namespace

// A sweep from west to east: a side is compared with those begun before it that have not yet ended.
std::vector<std::pair<std::size_t, std::size_t>> crossings(const std::vector<Vec2>& points, bool closed) {
  std::vector<Side> sides;
  const std::size_t count = points.size() < 2 ? 0 : closed ? points.size() : points.size() - 1;
  for (std::size_t i = 0; i < count; ++i) {
    const Vec2 a = points[i], b = points[(i + 1) % points.size()];
    sides.push_back({a, b, i, std::min(a.x, b.x), std::max(a.x, b.x)});
  }
  std::sort(sides.begin(), sides.end(), [](const Side& p, const Side& q) { return p.west != q.west ? p.west < q.west : p.index < q.index; });
  std::vector<std::pair<std::size_t, std::size_t>> found;
  std::vector<const Side*> open;
  for (const Side& side : sides) {
    open.erase(std::remove_if(open.begin(), open.end(), [&](const Side* o) { return o->east < side.west; }), open.end());
    for (const Side* other : open) {
      if (cross_inside(*other, side)) found.push_back(std::minmax(other->index, side.index));
    }
    open.push_back(&side);
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace railwright::ground
