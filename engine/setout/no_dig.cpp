// SPDX-License-Identifier: MIT
#include "engine/setout/no_dig.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/measure/quantity.h"

// A segment widened by a radius is convex, so a line meets it in one stretch: the hull of its stretches through the two end
// discs and the rectangle between them. An area adds the stretches of the line between its crossings with the outline.
namespace railwright::setout {
namespace {

using measure::cross;
using measure::dot;

using Stretch = std::pair<double, double>;  // metres along the line
constexpr Length kStep = Length::mm(1);
constexpr double kBeyond = 1;        // metres of a curve beyond its ends
constexpr double kSamePlace = 1e-7;  // metres between places of a curve that are one

void widen(Stretch& s, double from, double to) {
  s.first = std::min(s.first, from);
  s.second = std::max(s.second, to);
}

// Places seen from the leg: x along it from its start, y to its left.
Vec2 seen_from(const LegPlace& leg, Vec2 at) { return {dot(at - leg.from, leg.along), cross(leg.along, at - leg.from)}; }

void through_disc(Vec2 middle, double radius, Stretch& hull) {
  const double square = radius * radius - middle.y * middle.y;
  if (square <= 0) return;
  const double half = std::sqrt(square);
  widen(hull, middle.x - half, middle.x + half);
}

// Clips the line y = 0 to the rectangle about the segment a-b of half width `radius`.
void through_rectangle(Vec2 a, Vec2 b, double radius, Stretch& hull) {
  const double length = measure::distance(a, b);
  const Vec2 u = measure::direction(b - a);
  if (length <= 0 || u == Vec2{}) return;
  double from = -1e300, to = 1e300;
  // lower < p + q x < upper for both of the rectangle's own axes.
  const auto clip = [&](double p, double q, double lower, double upper) {
    if (std::fabs(q) < 1e-12) {
      if (p <= lower || p >= upper) to = -1e300;
      return;
    }
    const double x1 = (lower - p) / q, x2 = (upper - p) / q;
    from = std::max(from, std::min(x1, x2));
    to = std::min(to, std::max(x1, x2));
  };
  clip(-dot(a, u), u.x, 0, length);
  clip(-cross(u, a), -u.y, -radius, radius);
  if (from < to) widen(hull, from, to);
}

void inside_outline(const std::vector<Vec2>& corners, std::vector<Stretch>& stretches) {
  std::vector<double> crossings;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vec2 a = corners[i], b = corners[(i + 1) % corners.size()];
    if ((a.y > 0) == (b.y > 0)) continue;
    crossings.push_back(a.x + (b.x - a.x) * (a.y / (a.y - b.y)));
  }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) stretches.emplace_back(crossings[i], crossings[i + 1]);
}

std::size_t edges_of(const std::vector<Vec2>& corners, bool area) {
  if (corners.size() < 2) return corners.size();
  return area && corners.size() > 2 ? corners.size() : corners.size() - 1;
}

Blocked outward(Stretch s, int zone) {
  const Length nm = Length::from_nm(1);
  const Length from = (Length::from_metres(s.first) - nm).round_down_to(kStep);
  const Length to = (Length::from_metres(s.second) + nm).round_up_to(kStep);
  return {from, to, zone};
}

double distance_to_segment(Vec2 a, Vec2 b, Vec2 at) {
  const double square = dot(b - a, b - a);
  const double t = square > 0 ? std::clamp(dot(at - a, b - a) / square, 0.0, 1.0) : 0;
  return measure::distance(a + t * (b - a), at);
}

bool inside(const std::vector<Vec2>& corners, Vec2 at) {
  bool in = false;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vec2 a = corners[i] - at, b = corners[(i + 1) % corners.size()] - at;
    if ((a.y > 0) == (b.y > 0)) continue;
    if (a.x + (b.x - a.x) * (a.y / (a.y - b.y)) > 0) in = !in;
  }
  return in;
}

// Places where a circle meets the discs of a radius about both ends of a segment, the lines beside it at that radius, and its own line.
std::vector<Vec2> meetings(const measure::Arc& arc, Vec2 a, Vec2 b, double radius) {
  std::vector<Vec2> places;
  const double R = arc.radius;
  for (const Vec2 p : {a, b}) {
    const double d = measure::distance(arc.centre, p);
    if (d <= 0 || d >= R + radius || d <= std::fabs(R - radius)) continue;
    const Vec2 u = measure::direction(p - arc.centre);
    const double along = (d * d + R * R - radius * radius) / (2 * d), across = std::sqrt(std::max(0.0, R * R - along * along));
    for (const double side : {1.0, -1.0}) places.push_back(arc.centre + along * u + side * across * measure::left_of(u));
  }
  const Vec2 u = measure::direction(b - a);
  if (u == Vec2{}) return places;
  for (const double beside : {-radius, 0.0, radius}) {
    const Vec2 p = a + beside * measure::left_of(u);
    const Vec2 foot = p + dot(arc.centre - p, u) * u;
    const double off = measure::distance(arc.centre, foot);
    if (off >= R) continue;
    const double half = std::sqrt(R * R - off * off);
    for (const double side : {1.0, -1.0}) places.push_back(foot + side * half * u);
  }
  return places;
}

std::vector<Blocked> merged(std::vector<Blocked> stretches) {
  std::sort(stretches.begin(), stretches.end(), [](const Blocked& a, const Blocked& b) { return a.from != b.from ? a.from < b.from : a.zone < b.zone; });
  std::vector<Blocked> result;
  for (const Blocked& s : stretches) {
    if (result.empty() || s.from >= result.back().to) {
      result.push_back(s);
    } else {
      result.back().to = measure::max(result.back().to, s.to);
    }
  }
  return result;
}

}  // namespace

NoDig::NoDig(const std::vector<job::Zone>& zones) {
  for (const job::Zone& zone : zones) {
    Shape shape;
    for (const auto& [east, north] : zone.shape) shape.corners.push_back(measure::in_metres(east, north));
    shape.area = zone.area;
    shape.tolerance = zone.tolerance.metres();
    shape.low = {1e300, 1e300};
    shape.high = {-1e300, -1e300};
    for (const Vec2 c : shape.corners) {
      shape.low = {std::min(shape.low.x, c.x), std::min(shape.low.y, c.y)};
      shape.high = {std::max(shape.high.x, c.x), std::max(shape.high.y, c.y)};
    }
    zones_.push_back(std::move(shape));
  }
}

std::vector<Blocked> NoDig::along(const LegPlace& leg, Length hole_radius) const { return merged(stretches(leg, hole_radius)); }

std::vector<int> NoDig::zones_between(const LegPlace& leg, Length hole_radius, Length from, Length to) const {
  std::vector<int> zones;
  for (const Blocked& s : stretches(leg, hole_radius)) {
    if (s.from < to && s.to > from) zones.push_back(s.zone);
  }
  std::sort(zones.begin(), zones.end());
  zones.erase(std::unique(zones.begin(), zones.end()), zones.end());
  return zones;
}

std::vector<Blocked> NoDig::stretches(const LegPlace& leg, Length hole_radius) const {
  if (leg.arc) return along_arc(leg, hole_radius);
  std::vector<Blocked> blocked;
  const Vec2 low{std::min(leg.from.x, leg.to.x), std::min(leg.from.y, leg.to.y)};
  const Vec2 high{std::max(leg.from.x, leg.to.x), std::max(leg.from.y, leg.to.y)};
  for (std::size_t z = 0; z < zones_.size(); ++z) {
    const Shape& shape = zones_[z];
    const double radius = shape.tolerance + hole_radius.metres();
    if (shape.low.x - radius > high.x || shape.high.x + radius < low.x) continue;
    if (shape.low.y - radius > high.y || shape.high.y + radius < low.y) continue;
    std::vector<Vec2> corners;
    for (const Vec2 c : shape.corners) corners.push_back(seen_from(leg, c));
    std::vector<Stretch> stretches;
    const std::size_t edges = edges_of(corners, shape.area);
    for (std::size_t i = 0; i < edges; ++i) {
      Stretch hull{1e300, -1e300};
      const Vec2 a = corners[i], b = corners[(i + 1) % corners.size()];
      through_disc(a, radius, hull);
      through_disc(b, radius, hull);
      through_rectangle(a, b, radius, hull);
      if (hull.first < hull.second) stretches.push_back(hull);
    }
    if (shape.area) inside_outline(corners, stretches);
    for (const Stretch& s : stretches) blocked.push_back(outward(s, static_cast<int>(z)));
  }
  return blocked;
}

bool NoDig::touches(const Shape& shape, Vec2 at, double radius) const {
  if (shape.low.x - radius > at.x || shape.high.x + radius < at.x) return false;
  if (shape.low.y - radius > at.y || shape.high.y + radius < at.y) return false;
  if (shape.area && inside(shape.corners, at)) return true;
  const std::size_t edges = edges_of(shape.corners, shape.area);
  for (std::size_t i = 0; i < edges; ++i) {
    const Vec2 b = shape.corners[(i + 1) % shape.corners.size()];
    const double away = distance_to_segment(shape.corners[i], b, at);
    if (measure::on_grid(away) < measure::on_grid(radius)) return true;
  }
  return false;
}

int NoDig::zone_at(Vec2 at, Length hole_radius) const {
  for (std::size_t z = 0; z < zones_.size(); ++z) {
    if (touches(zones_[z], at, zones_[z].tolerance + hole_radius.metres())) return static_cast<int>(z);
  }
  return -1;
}

// The circle meets the edge of a widened zone only where it meets a disc's edge or a line beside a segment; between two such places in a row it is in or out.
std::vector<Blocked> NoDig::along_arc(const LegPlace& leg, Length hole_radius) const {
  const double length = leg.arc->length(), round = 2 * measure::kPi * leg.arc->radius;
  const double beyond = leg.arc->closed ? kBeyond : std::min(kBeyond, (round - length) / 2);
  std::vector<Blocked> blocked;
  for (std::size_t z = 0; z < zones_.size(); ++z) {
    const Shape& shape = zones_[z];
    const double radius = shape.tolerance + hole_radius.metres();
    std::vector<double> at{-beyond, length + beyond};
    for (std::size_t i = 0; i < edges_of(shape.corners, shape.area); ++i) {
      for (const Vec2 place : meetings(*leg.arc, shape.corners[i], shape.corners[(i + 1) % shape.corners.size()], radius)) {
        const double station = leg.arc->station_of(place);
        for (const double s : {station - round, station, station + round}) {
          if (s > -beyond && s < length + beyond) at.push_back(s);
        }
      }
    }
    std::sort(at.begin(), at.end());
    std::vector<Stretch> stretches;  // those that touch made one
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
      if (at[i + 1] - at[i] < kSamePlace || !touches(shape, leg.arc->at((at[i] + at[i + 1]) / 2), radius)) continue;
      if (!stretches.empty() && at[i] - stretches.back().second < kSamePlace)
        stretches.back().second = at[i + 1];
      else
        stretches.emplace_back(at[i], at[i + 1]);
    }
    for (const Stretch& s : stretches) blocked.push_back(outward(s, static_cast<int>(z)));
  }
  return blocked;
}

const Blocked* blocked_after(const std::vector<Blocked>& stretches, Length station) {
  const auto after = std::find_if(stretches.begin(), stretches.end(), [&](const Blocked& b) { return b.to > station; });
  return after == stretches.end() ? nullptr : &*after;
}

const Blocked* blocked_at(const std::vector<Blocked>& stretches, Length station) {
  const auto after = std::lower_bound(stretches.begin(), stretches.end(), station, [](const Blocked& b, Length s) { return b.to <= s; });
  return after != stretches.end() && after->from < station ? &*after : nullptr;
}

}  // namespace railwright::setout
