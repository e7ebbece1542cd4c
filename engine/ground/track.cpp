// SPDX-License-Identifier: MIT
#include "engine/ground/track.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace railwright::ground {
namespace {

using measure::Vec2;

constexpr double kGather = 1.5;  // m
constexpr std::size_t kMostFixes = 20000;
constexpr std::size_t kStandingFixes = 15;
constexpr std::size_t kSpikeFixes = 6;  // a jump lasts at most this many fixes
constexpr double kCorrelation = 15;     // m over which a phone's error stays the same
constexpr double kSmallestTurn = 0.17;  // sine of 10 degrees: flatter corners are not moved to the crossing of their legs

double median(std::vector<double> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

bool sound(const Fix& fix) { return std::isfinite(fix.place.x) && std::isfinite(fix.place.y) && std::abs(fix.place.x) < 1e6 && std::abs(fix.place.y) < 1e6; }

// A jump far longer than the usual step, from which the track returns within a few fixes to where it was.
std::vector<Fix> without_spikes(const std::vector<Fix>& fixes, std::size_t& spikes) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < fixes.size(); ++i) steps.push_back(measure::distance(fixes[i - 1].place, fixes[i].place));
  const double jump = std::max(10.0, 6 * median(steps));
  std::vector<Fix> kept;
  for (std::size_t i = 0; i < fixes.size(); ++i) {
    if (!kept.empty()) {
      const double step = measure::distance(kept.back().place, fixes[i].place);
      std::size_t back = 0;
      for (std::size_t k = 1; step > jump && k <= kSpikeFixes && i + k < fixes.size() && back == 0; ++k) {
        if (measure::distance(kept.back().place, fixes[i + k].place) < step / 2) back = k;
      }
      if (back > 0) {
        spikes += back;
        i += back;
      }
    }
    kept.push_back(fixes[i]);
  }
  return kept;
}

// Fixes nearer than `radius` to the first of their group become their mean.
std::vector<Fix> gathered(const std::vector<Fix>& fixes, double radius, std::size_t& stops) {
  std::vector<Fix> path;
  stops = 0;
  for (std::size_t i = 0; i < fixes.size();) {
    Vec2 sum;
    double heights = 0;
    std::size_t count = 0, with_height = 0, j = i;
    for (; j < fixes.size() && measure::distance(fixes[i].place, fixes[j].place) <= radius; ++j) {
      sum = sum + fixes[j].place;
      ++count;
      if (fixes[j].height) heights += *fixes[j].height, ++with_height;
    }
    Fix fix{sum * (1.0 / static_cast<double>(count)), {}};
    if (with_height > 0) fix.height = heights / static_cast<double>(with_height);
    path.push_back(fix);
    stops += count >= kStandingFixes ? 1 : 0;
    i = j;
  }
  return path;
}

double stray(Vec2 a, Vec2 b, Vec2 place) {
  const double square = dot(b - a, b - a);
  const double t = square > 0 ? std::clamp(dot(place - a, b - a) / square, 0.0, 1.0) : 0;
  return measure::distance(a + (b - a) * t, place);
}

// Indices of the corners between first and last, both kept. An explicit stack: a spiral would recurse once per fix.
std::vector<std::size_t> farthest_strays(const std::vector<Fix>& path, std::size_t first, std::size_t last, double tolerance) {
  std::vector<std::size_t> kept{first, last};
  std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    double most = tolerance;
    std::size_t at = from;
    for (std::size_t i = from + 1; i < to; ++i) {
      const double off = stray(path[from].place, path[to].place, path[i].place);
      if (off > most) most = off, at = i;
    }
    if (at == from) continue;
    kept.push_back(at);
    open.emplace_back(from, at);
    open.emplace_back(at, to);
  }
  std::sort(kept.begin(), kept.end());
  return kept;
}

struct Fitted {
  Vec2 centre, along;  // `along` is a unit vector in walking direction
  double rms = 0, worst = 0, length = 0;
  double off(Vec2 place) const { return cross(along, place - centre); }
};

// One weighted total least squares line. The larger eigenvector of the 2 x 2 scatter, by square roots only.
Fitted line_through(const std::vector<Vec2>& places, const std::vector<double>& weights) {
  Fitted line;
  double total = 0;
  for (std::size_t i = 0; i < places.size(); ++i) line.centre = line.centre + places[i] * weights[i], total += weights[i];
  line.centre = line.centre * (1 / total);
  double xx = 0, xy = 0, yy = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Vec2 d = places[i] - line.centre;
    xx += weights[i] * d.x * d.x, xy += weights[i] * d.x * d.y, yy += weights[i] * d.y * d.y;
  }
  const double half = (xx - yy) / 2, root = std::sqrt(half * half + xy * xy);
  // (half + root, xy) and (xy, root - half) are the same direction; the longer is the better conditioned.
  const Vec2 by_x{half + root, xy}, by_y{xy, root - half};
  line.along = measure::direction(dot(by_x, by_x) >= dot(by_y, by_y) ? by_x : by_y);
  const Vec2 walked = places.back() - places.front();
  if (line.along == Vec2{}) line.along = measure::direction(walked);
  if (dot(line.along, walked) < 0) line.along = -line.along;
  return line;
}

// Huber's weights: fixes beyond 1.5 times the typical stray count less.
Fitted robust_line(const std::vector<Vec2>& places) {
  std::vector<double> weights(places.size(), 1.0);
  Fitted line = line_through(places, weights);
  for (int round = 0; round < 4; ++round) {
    std::vector<double> offs;
    for (const Vec2 place : places) offs.push_back(std::abs(line.off(place)));
    const double limit = std::max(1.5 * 1.4826 * median(offs), 1e-3);
    for (std::size_t i = 0; i < places.size(); ++i) weights[i] = offs[i] > limit ? limit / offs[i] : 1.0;
    line = line_through(places, weights);
  }
  double squares = 0;
  for (const Vec2 place : places) {
    const double off = std::abs(line.off(place));
    squares += off * off;
    line.worst = std::max(line.worst, off);
  }
  line.rms = std::sqrt(squares / static_cast<double>(places.size()));
  line.length = measure::distance(places.front(), places.back());
  return line;
}

// The leg through fixes from..to; its rounded ends are left out when enough remains.
Fitted fit_leg(const std::vector<Fix>& path, std::size_t from, std::size_t to, double tolerance) {
  const Vec2 a = path[from].place, b = path[to].place;
  std::vector<Vec2> inner;
  for (std::size_t i = from; i <= to; ++i) {
    const Vec2 place = path[i].place;
    if (std::min(measure::distance(a, place), measure::distance(b, place)) > 1.5 * tolerance) inner.push_back(place);
  }
  if (inner.size() < 4 || measure::distance(inner.front(), inner.back()) < 4 * tolerance) {
    inner.clear();
    for (std::size_t i = from; i <= to; ++i) inner.push_back(path[i].place);
  }
  return robust_line(inner);
}

// Drops corners, flattest first, while the two legs at one are a single line within the tolerance.
void drop_flat_corners(const std::vector<Fix>& path, std::vector<std::size_t>& corners, double tolerance) {
  const auto worst_without = [&](std::size_t i) { return fit_leg(path, corners[i - 1], corners[i + 1], tolerance).worst; };
  std::vector<double> worst(corners.size(), std::numeric_limits<double>::infinity());
  for (std::size_t i = 1; i + 1 < corners.size(); ++i) worst[i] = worst_without(i);
  while (corners.size() > 2) {
    const auto flattest = std::min_element(worst.begin(), worst.end());
    if (*flattest > tolerance) return;
    const std::ptrdiff_t at = flattest - worst.begin();
    corners.erase(corners.begin() + at);
    worst.erase(flattest);
    const auto i = static_cast<std::size_t>(at);
    if (i >= 2) worst[i - 1] = worst_without(i - 1);
    if (i + 1 < corners.size()) worst[i] = worst_without(i);
  }
}

// Variance of a leg's place at its end: four times that of its middle.
double end_variance(const Fitted& leg) {
  const double independent = std::max(1.0, leg.length / kCorrelation);
  return 4 * leg.rms * leg.rms / independent;
}

TrackCorner meet(const Fitted& before, const Fitted& after, const Fix& turned, std::size_t fix, double tolerance) {
  const double sine = cross(before.along, after.along);
  const Vec2 on_before = before.centre + before.along * dot(turned.place - before.centre, before.along);
  const Vec2 on_after = after.centre + after.along * dot(turned.place - after.centre, after.along);
  TrackCorner corner{(on_before + on_after) * 0.5, 0, fix};
  const double spread = std::sqrt(end_variance(before) + end_variance(after));
  corner.error = spread / std::max(std::abs(sine), kSmallestTurn);
  if (std::abs(sine) < kSmallestTurn) return corner;
  const Vec2 crossing = before.centre + before.along * (cross(after.centre - before.centre, after.along) / sine);
  // Legs that cross far from where the walker turned are no better than the turn itself.
  if (measure::distance(crossing, turned.place) < 6 * tolerance) corner.place = crossing;
  return corner;
}

TrackCorner end_of(const Fitted& leg, const Fix& fix, std::size_t index) {
  const Vec2 place = leg.centre + leg.along * dot(fix.place - leg.centre, leg.along);
  return {place, std::sqrt(end_variance(leg) + leg.rms * leg.rms), index};
}

// The walk as legs between the fixes `at`.
WalkedLine legs_between(const std::vector<Fix>& path, const std::vector<std::size_t>& at, double tolerance, bool closed) {
  WalkedLine walk;
  walk.tolerance = tolerance;
  walk.closed = closed;
  std::vector<Fitted> legs;
  double squares = 0;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    legs.push_back(fit_leg(path, at[i], at[i + 1], tolerance));
    squares += legs.back().rms * legs.back().rms;
  }
  walk.noise = std::sqrt(squares / static_cast<double>(legs.size()));
  // A loop begun in the middle of a side: its first and last leg are one line, and the start is no corner.
  walk.closed = closed && legs.size() >= 3;
  if (walk.closed) {
    const double sine = cross(legs.back().along, legs.front().along);
    const bool flat = std::abs(sine) < kSmallestTurn && dot(legs.back().along, legs.front().along) > 0;
    if (!flat || legs.size() < 4) walk.corners.push_back(meet(legs.back(), legs.front(), path.front(), 0, tolerance));
  } else {
    walk.corners.push_back(end_of(legs.front(), path.front(), 0));
  }
  for (std::size_t i = 1; i < legs.size(); ++i) {
    walk.corners.push_back(meet(legs[i - 1], legs[i], path[at[i]], at[i], tolerance));
  }
  if (!walk.closed) walk.corners.push_back(end_of(legs.back(), path.back(), path.size() - 1));
  return walk;
}

// The leg between two inner corners that is least known to exist: no longer than three times the error of a corner of it. A walker who stands at a corner
// leaves such a leg behind. 0 when there is none: the index in `at` of its first corner.
std::size_t doubtful_leg(const WalkedLine& walk, const std::vector<std::size_t>& at) {
  std::size_t worst = 0;
  double least = 1;
  for (std::size_t i = 0; i + 1 < walk.corners.size(); ++i) {
    const TrackCorner &from = walk.corners[i], &to = walk.corners[i + 1];
    const auto found = std::find(at.begin() + 1, at.end() - 1, from.fix);
    if (from.fix == 0 || found == at.end() - 1 || *(found + 1) != to.fix || found + 1 == at.end() - 1) continue;
    const double share = measure::distance(from.place, to.place) / (3 * std::max({from.error, to.error, 1e-6}));
    if (share < least) least = share, worst = static_cast<std::size_t>(found - at.begin());
  }
  return worst;
}

// The walk as legs for one tolerance.
WalkedLine legs_for(const std::vector<Fix>& path, double tolerance, bool closed) {
  std::vector<std::size_t> at = farthest_strays(path, 0, path.size() - 1, tolerance);
  drop_flat_corners(path, at, tolerance);
  WalkedLine walk = legs_between(path, at, tolerance, closed);
  for (std::size_t leg = doubtful_leg(walk, at); leg != 0 && at.size() > 3; leg = doubtful_leg(walk, at)) {
    at[leg] = (at[leg] + at[leg + 1]) / 2;  // one corner in place of two
    at.erase(at.begin() + static_cast<std::ptrdiff_t>(leg) + 1);
    walk = legs_between(path, at, tolerance, closed);
  }
  return walk;
}

}  // namespace

Result<WalkedLine> straighten(const std::vector<Fix>& fixes, const TrackOptions& options) {
  std::vector<Fix> good;
  std::copy_if(fixes.begin(), fixes.end(), std::back_inserter(good), sound);
  if (good.size() < 2) return fail("track.too_few_points");
  std::size_t spikes = fixes.size() - good.size(), stops = 0;
  good = without_spikes(good, spikes);
  std::vector<Fix> path = gathered(good, kGather, stops);
  for (double radius = 2 * kGather; path.size() > kMostFixes && radius < 1e6; radius *= 2) {
    path = gathered(good, radius, stops);
  }
  double reach = 0;
  for (const Fix& fix : path) reach = std::max(reach, measure::distance(path.front().place, fix.place));
  if (path.size() < 2 || reach < 5) return fail("track.too_short", {}, {{"reach", reach}});
  const bool closed = measure::distance(path.front().place, path.back().place) <= options.closing && reach > 2 * options.closing;

  double tolerance = std::max(options.tolerance, 0.01);
  WalkedLine walk = legs_for(path, tolerance, closed);
  for (int round = 0; round < 4 && 2.2 * walk.noise > tolerance; ++round) {
    tolerance *= 1.5;
    walk = legs_for(path, tolerance, closed);
  }
  walk.spikes = spikes;
  walk.stops = stops;
  walk.path = std::move(path);
  return walk;
}

}  // namespace railwright::ground
