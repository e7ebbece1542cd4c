// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "engine/ground/surface.h"
#include "engine/setout/draft.h"

// What the leaves of gates strike as they open by a right angle.
//
// Outline, leaf by leaf, seen from its hinge with x towards the other post and y to the side it swings to:
//  1. fence: does a straight piece of a leg enter the quarter disc?
//  2. rocks and roots: does an edge of the zone enter it, or the end of the leaf the zone?
//  3. other gates: do the two quarter discs, as polygons, overlap (no axis parts them)?
//  4. ground: a leaf swings level. Where the ground rises over what lies under the closed leaf by more than its clearance, it strikes.
namespace railwright::setout {
namespace {

// Around a hinge, this much is not counted as struck: the leaf stands off the post and the fence line.
constexpr double kSwingMargin = 0.05;
constexpr int kArcSteps = 24;  // of the quarter circle: its polygon misses it by 1/2000 of the leaf
constexpr int kLeafSteps = 8;  // along the leaf, for the ground

// A frame at a hinge: x towards the other post, y to the side the leaf swings to.
struct Hinge {
  Vec2 at, x, y;
  double leaf = 0;
  int leg = 0, gate = 0;  // gate: index into Site::gates
  Length from, to;        // stations of the opening

  Vec2 place(double right, double ahead) const { return at + right * x + ahead * y; }
};

std::vector<Hinge> hinges_of(const Draft& draft, const Layout& layout) {
  std::vector<Hinge> hinges;
  for (const Bay& bay : layout.bays) {
    if (bay.kind != BayKind::gate) continue;
    for (std::size_t g = 0; g < draft.job.site.gates.size(); ++g) {
      const job::Gate& gate = draft.job.site.gates[g];
      if (gate.id != bay.gate) continue;
      for (const Leaf& leaf : leaves_of(layout, gate, bay)) {
        hinges.push_back({layout.posts[leaf.hinge].at, measure::direction(leaf.closed), measure::direction(leaf.open), gate.leaf.metres(), bay.leg,
                          static_cast<int>(g), bay.start, bay.end});
      }
      break;
    }
  }
  return hinges;
}

// Does a segment enter the quarter disc that the leaf sweeps?
bool strikes(const Hinge& hinge, Vec2 a, Vec2 b) {
  const Vec2 p{measure::dot(a - hinge.at, hinge.x), measure::dot(a - hinge.at, hinge.y)};
  const Vec2 q{measure::dot(b - hinge.at, hinge.x), measure::dot(b - hinge.at, hinge.y)};
  double from = 0, to = 1;
  for (const auto& [u, v] : {std::pair{p.x, q.x}, std::pair{p.y, q.y}}) {
    if (u < kSwingMargin && v < kSwingMargin) return false;
    const double t = u == v ? 0 : (kSwingMargin - u) / (v - u);
    if (u < kSwingMargin) from = std::max(from, t);
    if (v < kSwingMargin) to = std::min(to, t);
  }
  if (from > to) return false;
  const Vec2 d = q - p;
  const double square = measure::dot(d, d);
  const double t = square > 0 ? std::clamp(-measure::dot(p, d) / square, from, to) : from;
  return measure::on_grid(measure::norm(p + t * d)) < hinge.leaf;
}

bool strikes_leg(const Draft& draft, const Hinge& hinge, int leg) {
  const LegPlace& place = draft.network.legs[leg].place;
  const std::vector<Vec2> pieces = place.pieces();
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    // Of its own curve the opening is no fence.
    if (leg == hinge.leg && place.station_of(pieces[i + 1]) > hinge.from && place.station_of(pieces[i]) < hinge.to) continue;
    if (strikes(hinge, pieces[i], pieces[i + 1])) return true;
  }
  return false;
}

void check_fence(Draft& draft, const Hinge& hinge, const job::Gate& gate) {
  const Vec2 reach{hinge.leaf, hinge.leaf};
  for (const int other : draft.network.grid.near(hinge.at - reach, hinge.at + reach)) {
    const NetworkLeg& line = draft.network.legs[other];
    if (!line.sound || (other == hinge.leg && !line.place.arc) || !strikes_leg(draft, hinge, other)) continue;
    draft.findings.push_back({"setout.gate_swing", Severity::warning, gate.id, {{"other", draft.job.site.legs[other].id}, {"leaf", value_of(gate.leaf)}}});
  }
}

void check_rocks(Draft& draft, const Hinge& hinge, const job::Gate& gate) {
  for (const job::Zone& zone : draft.zones) {
    if (zone.kind != job::ZoneKind::rock && zone.kind != job::ZoneKind::roots) continue;
    const std::size_t count = zone.shape.size(), edges = zone.area || count < 2 ? count : count - 1;
    bool struck = false;
    for (std::size_t i = 0; i < edges && !struck; ++i) {
      const auto& a = zone.shape[i];
      const auto& b = zone.shape[(i + 1) % count];
      struck = strikes(hinge, measure::in_metres(a.first, a.second), measure::in_metres(b.first, b.second));
    }
    if (!struck) continue;
    draft.findings.push_back({"setout.gate_swing_zone", Severity::warning, gate.id, {{"zone", zone.id}, {"leaf", value_of(gate.leaf)}}});
  }
}

// The quarter disc, off the fence line and the open leaf's line by the margin, as a polygon.
std::vector<Vec2> sweep_of(const Hinge& hinge) {
  std::vector<Vec2> corners{hinge.place(kSwingMargin, kSwingMargin)};
  for (int i = 0; i <= kArcSteps; ++i) {
    const Vec2 u = measure::turned({1, 0}, measure::kPi / 2 * i / kArcSteps);
    corners.push_back(hinge.place(std::max(kSwingMargin, hinge.leaf * u.x), std::max(kSwingMargin, hinge.leaf * u.y)));
  }
  return corners;
}

// True where a line along an edge of `a` has all of `b` on the other side of it: convex shapes are apart just where one of their edges parts them.
bool parted(const std::vector<Vec2>& a, const std::vector<Vec2>& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Vec2 normal = measure::left_of(a[(i + 1) % a.size()] - a[i]);
    double low_a = 1e300, high_a = -1e300, low_b = 1e300, high_b = -1e300;
    for (const Vec2 p : a) low_a = std::min(low_a, measure::dot(normal, p)), high_a = std::max(high_a, measure::dot(normal, p));
    for (const Vec2 p : b) low_b = std::min(low_b, measure::dot(normal, p)), high_b = std::max(high_b, measure::dot(normal, p));
    if (high_a <= low_b || high_b <= low_a) return true;
  }
  return false;
}

void check_neighbours(Draft& draft, const std::vector<Hinge>& hinges) {
  std::vector<std::vector<Vec2>> sweeps;
  for (const Hinge& hinge : hinges) sweeps.push_back(sweep_of(hinge));
  for (std::size_t i = 0; i < hinges.size(); ++i) {
    for (std::size_t j = i + 1; j < hinges.size(); ++j) {
      if (hinges[i].gate == hinges[j].gate) continue;
      if (measure::distance(hinges[i].at, hinges[j].at) >= hinges[i].leaf + hinges[j].leaf) continue;
      if (parted(sweeps[i], sweeps[j]) || parted(sweeps[j], sweeps[i])) continue;
      const job::Gate& gate = draft.job.site.gates[hinges[i].gate];
      draft.findings.push_back({"setout.gate_swings", Severity::warning, gate.id, {{"other", draft.job.site.gates[hinges[j].gate].id}}});
    }
  }
}

// How far the ground under the open and opening leaf rises over the highest ground under the closed one; nothing where any of it is unknown.
std::optional<double> rise_of(const ground::Surface& surface, const Hinge& hinge, double side) {
  double under_closed = -1e300, under_sweep = -1e300;
  for (int i = 0; i <= kArcSteps; ++i) {
    const Vec2 u = measure::turned({1, 0}, measure::kPi / 2 * i / kArcSteps);
    for (int k = 1; k <= kLeafSteps; ++k) {
      const double r = hinge.leaf * k / kLeafSteps;
      const auto height = surface.height_at(hinge.place(r * u.x, side * r * u.y));
      if (!height) return std::nullopt;
      double& highest = i == 0 ? under_closed : under_sweep;
      highest = std::max(highest, *height);
    }
  }
  return measure::on_grid(under_sweep - under_closed);
}

void check_ground(Draft& draft, const ground::Surface& surface, const Hinge& hinge, const job::Gate& gate) {
  if (gate.ground_clearance <= Length()) return;
  const auto rise = rise_of(surface, hinge, 1);
  if (!rise) {
    draft.findings.push_back({"setout.gate_ground_unknown", Severity::note, gate.id, {{"leaf", value_of(gate.leaf)}}});
    return;
  }
  const Length rises = Length::from_metres(*rise);
  if (rises <= gate.ground_clearance) return;
  const auto other = rise_of(surface, hinge, -1);
  const bool other_side = other && Length::from_metres(*other) <= gate.ground_clearance;
  draft.findings.push_back({other_side ? "setout.gate_ground_turn" : "setout.gate_ground",
                            Severity::warning,
                            gate.id,
                            {{"rise", value_of(rises)},
                             {"clearance", value_of(gate.ground_clearance)},
                             {"over", value_of(rises - gate.ground_clearance)},
                             {"slope", SlopeValue{*rise / hinge.leaf}},
                             {"side", std::string(gate.swing == job::Side::left ? "left" : "right")}}});
}

bool cross_inside(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto side = [](Vec2 p, Vec2 q, Vec2 r) { return measure::cross(q - p, r - p); };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

}  // namespace

std::vector<Leaf> leaves_of(const Layout& layout, const job::Gate& gate, const Bay& bay) {
  const Vec2 along = direction_of(layout, bay);
  const double leaf = gate.leaf.metres();
  const Vec2 open = leaf * (gate.swing == job::Side::left ? measure::left_of(along) : measure::right_of(along));
  std::vector<Leaf> leaves;
  if (gate.hinge != job::LeafEnd::to) leaves.push_back({bay.from, leaf * along, open});
  if (gate.hinge != job::LeafEnd::from) leaves.push_back({bay.to, -(leaf * along), open});
  return leaves;
}

void check_swings(Draft& draft, const Layout& layout) {
  const std::vector<Hinge> hinges = hinges_of(draft, layout);
  if (hinges.empty()) return;
  std::optional<ground::Surface> surface;
  for (const Hinge& hinge : hinges) {
    const job::Gate& gate = draft.job.site.gates[hinge.gate];
    check_fence(draft, hinge, gate);
    check_rocks(draft, hinge, gate);
    if (gate.ground_clearance <= Length()) continue;
    if (!surface) surface.emplace(draft.job.site);
    check_ground(draft, *surface, hinge, gate);
  }
  check_neighbours(draft, hinges);
}

void check_zones(Draft& draft) {
  constexpr std::size_t kMostCorners = 2000;  // of one outline that is looked at
  for (const job::Zone& zone : draft.zones) {
    const std::size_t n = zone.shape.size();
    if (!zone.area || n < 4 || n > kMostCorners) continue;
    const auto corner = [&](std::size_t i) { return measure::in_metres(zone.shape[i % n].first, zone.shape[i % n].second); };
    bool crosses = false;
    for (std::size_t i = 0; i < n && !crosses; ++i) {
      for (std::size_t j = i + 2; j < n && !crosses; ++j) {
        crosses = (j + 1) % n != i && cross_inside(corner(i), corner(i + 1), corner(j), corner(j + 1));
      }
    }
    if (crosses) draft.findings.push_back({"setout.zone_crosses_itself", Severity::warning, zone.id, {}});
  }
}

}  // namespace railwright::setout
