// SPDX-License-Identifier: MIT
#include "formats/geo.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/geodesy.h"
#include "engine/ground/track.h"
#include "formats/network.h"

namespace railwright::formats {
namespace {

using measure::Length;

// Common practice, no source: what a phone and a finger on a satellite picture are good for.
constexpr double kPhoneError = 3, kDrawnError = 1, kPhoneHeightError = 5;  // m, one sigma
constexpr double kDenseStep = 30;                                          // m: fixes nearer than this on average were recorded on the way, not placed
constexpr std::size_t kDenseFixes = 20;
constexpr double kHeightStep = 15;  // m between heights kept along a walked leg
constexpr double kClosing = 10;     // m

Result<void> check(const GeoVertex& v, std::size_t number) {
  const auto good = ground::checked({v.latitude_deg, v.longitude_deg, v.height_m.value_or(0)});
  if (good) return {};
  Error error = good.error();
  error.place = std::to_string(number);
  // Metres of a map grid where degrees belong.
  if (std::abs(v.latitude_deg) > 360 || std::abs(v.longitude_deg) > 1000) error.code = "walk.not_degrees";
  return tl::unexpected(std::move(error));
}

Result<void> check(const GeoWalk& geo) {
  std::size_t number = 0;
  for (const GeoLine& line : geo.lines) {
    for (const GeoVertex& v : line.vertices) {
      if (const auto good = check(v, ++number); !good) return good;
    }
  }
  for (const GeoMark& mark : geo.marks) {
    if (const auto good = check(mark.vertex, ++number); !good) return good;
  }
  return {};
}

const GeoVertex* first_vertex(const GeoWalk& geo) {
  for (const GeoLine& line : geo.lines) {
    if (!line.vertices.empty()) return &line.vertices.front();
  }
  return geo.marks.empty() ? nullptr : &geo.marks.front().vertex;
}

// The origin, on a grid of 1e-7 degrees (a centimetre) and whole metres of height, so that it reads well in the job.
job::Origin origin_at(const GeoVertex& v) {
  const auto grid = [](double degrees) { return std::round(degrees * 1e7) / 1e7; };
  double longitude = v.longitude_deg;
  while (longitude > 180) longitude -= 360;
  while (longitude < -180) longitude += 360;
  return {grid(v.latitude_deg), grid(longitude), std::clamp(std::round(v.height_m.value_or(0)), -1000.0, 10'000.0)};
}

bool dense(const std::vector<Vertex>& vertices) {
  if (vertices.size() < kDenseFixes) return false;
  double length = 0;
  for (std::size_t i = 1; i < vertices.size(); ++i) length += measure::distance(vertices[i - 1].at, vertices[i].at);
  return length / static_cast<double>(vertices.size() - 1) < kDenseStep;
}

class Layer {
 public:
  Layer(const GeoWalk& geo, const ground::LevelPlane& plane, WalkedSite& walked) : geo_(geo), plane_(plane), walked_(walked) {}

  Result<void> run() {
    sketch_.join = geo_.recorded ? 1.0 : 0.3;
    sketch_.reach = geo_.recorded ? 8 : 3;
    for (const GeoLine& line : geo_.lines) {
      if (const auto good = add(line); !good) return good;
    }
    if (sketch_.lines.empty())
      line_of_marks();
    else
      for (const GeoMark& mark : geo_.marks) sketch_.marks.push_back({vertex(mark.vertex), mark.gate});
    if (const auto good = lay_out(sketch_, walked_); !good) return good;
    state_errors();
    return {};
  }

 private:
  Vertex vertex(const GeoVertex& v) const {
    const auto at = plane_.to_plane(v.latitude_deg, v.longitude_deg);
    return {at.value_or(Vec2{}), v.height_m, v.name, v.note};
  }

  Result<void> add(const GeoLine& line) {
    Polyline polyline;
    polyline.fence = line.fence;
    polyline.closed = line.closed;
    for (const GeoVertex& v : line.vertices) polyline.vertices.push_back(vertex(v));
    auto& vertices = polyline.vertices;
    const bool comes_back = vertices.size() > 2 && measure::distance(vertices.front().at, vertices.back().at) <= sketch_.join;
    if (line.closed && comes_back) vertices.pop_back();
    if (line.track && dense(vertices)) return add_track(line);
    if (vertices.size() >= 2) sketch_.lines.push_back(std::move(polyline));
    return {};
  }

  Result<void> add_track(const GeoLine& line) {
    std::vector<ground::Fix> fixes;
    for (const GeoVertex& v : line.vertices) fixes.push_back({vertex(v).at, v.height_m});
    const auto walk = ground::straighten(fixes, {3, kClosing});
    if (!walk) return tl::unexpected(walk.error());
    Polyline polyline;
    polyline.fence = line.fence;
    polyline.closed = walk->closed;
    double squares = 0;
    for (const ground::TrackCorner& corner : walk->corners) {
      polyline.vertices.push_back({corner.place, walk->path[corner.fix].height, {}, {}, std::max(corner.error, 0.01)});
      squares += corner.error * corner.error;
    }
    heights_between(*walk, polyline);
    const double error = std::sqrt(squares / static_cast<double>(walk->corners.size()));
    track_error_ = std::max(track_error_, error);
    walked_.findings.push_back({"walk.track",
                                Severity::note,
                                "site",
                                {{"corners", static_cast<std::int64_t>(walk->corners.size())},
                                 {"fixes", static_cast<std::int64_t>(line.vertices.size())},
                                 {"spikes", static_cast<std::int64_t>(walk->spikes)},
                                 {"stops", static_cast<std::int64_t>(walk->stops)},
                                 {"noise", value_of(rounded(walk->noise))},
                                 {"error", value_of(rounded(error))}}});
    sketch_.join = std::max(sketch_.join, 3.0);
    sketch_.lines.push_back(std::move(polyline));
    return {};
  }

  // To a centimetre: an estimate, and the same in both builds.
  static Length rounded(double metres) { return Length::from_metres(metres).round_to(Length::mm(10)); }

  // The walker's heights, averaged every few metres along each leg between its corners.
  void heights_between(const ground::WalkedLine& walk, Polyline& polyline) {
    const std::size_t count = walk.corners.size(), legs = walk.closed ? count : count - 1;
    for (std::size_t leg = 0; leg < legs; ++leg) {
      const ground::TrackCorner &from = walk.corners[leg], &to = walk.corners[(leg + 1) % count];
      const Vec2 step = to.place - from.place;
      const double length = measure::norm(step);
      const auto bins = static_cast<std::size_t>(length / kHeightStep);
      if (bins < 2) continue;
      std::vector<std::pair<double, int>> sums(bins + 1, {0.0, 0});
      const std::size_t last = to.fix > from.fix ? to.fix : walk.path.size();
      for (std::size_t i = from.fix; i < last; ++i) {
        if (!walk.path[i].height) continue;
        const double t = dot(walk.path[i].place - from.place, step) / (length * length);
        if (t < 0 || t > 1) continue;
        auto& [sum, fixes] = sums[static_cast<std::size_t>(t * static_cast<double>(bins) + 0.5)];
        sum += *walk.path[i].height, ++fixes;
      }
      for (std::size_t bin = 1; bin < bins; ++bin) {
        if (sums[bin].second == 0) continue;
        polyline.between.push_back({leg, length * static_cast<double>(bin) / static_cast<double>(bins), sums[bin].first / sums[bin].second});
      }
    }
  }

  void line_of_marks() {
    Polyline polyline;
    for (const GeoMark& mark : geo_.marks) {
      const bool gate = mark.gate || is_gate(mark.vertex.name);
      if (gate)
        sketch_.marks.push_back({vertex(mark.vertex), mark.gate});
      else
        polyline.vertices.push_back(vertex(mark.vertex));
    }
    const auto& vertices = polyline.vertices;
    polyline.closed = vertices.size() > 3 && measure::distance(vertices.front().at, vertices.back().at) <= kClosing / 3;
    if (polyline.closed) polyline.vertices.pop_back();
    if (polyline.vertices.size() >= 2) sketch_.lines.push_back(std::move(polyline));
  }

  void state_errors() {
    job::Site& site = walked_.site;
    const double error = std::max(track_error_, geo_.recorded ? kPhoneError : kDrawnError);
    site.position_accuracy = rounded(error);
    walked_.findings.push_back({"walk.approximate", Severity::warning, "site", {{"error", value_of(site.position_accuracy)}}});
    const bool heights = !site.ground.profile.empty() || !site.ground.spots.empty() ||
                         std::any_of(site.points.begin(), site.points.end(), [](const job::Point& p) { return p.height.has_value(); });
    if (heights) site.ground.accuracy = Length::from_metres(kPhoneHeightError);
  }

  const GeoWalk& geo_;
  const ground::LevelPlane& plane_;
  WalkedSite& walked_;
  Sketch sketch_;
  double track_error_ = 0;
};

}  // namespace

Result<void> lay_out_geo(const GeoWalk& geo, WalkedSite& walked) {
  const GeoVertex* first = first_vertex(geo);
  if (first == nullptr) return fail("walk.no_line");
  if (const auto good = check(geo); !good) return good;
  walked.site.origin = origin_at(*first);
  const auto plane = ground::LevelPlane::about(*walked.site.origin);
  if (!plane) return tl::unexpected(plane.error());
  walked.name = geo.name;
  return Layer(geo, *plane, walked).run();
}

}  // namespace railwright::formats
