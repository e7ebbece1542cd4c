// SPDX-License-Identifier: MIT
#include "engine/setout/network.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>
#include <utility>

#include "engine/ground/curve.h"
#include "engine/measure/quantity.h"

// Outline
//  1. Points used by legs become nodes; those within `snap` of an earlier one join it.
//  2. Nodes within `snap` of a leg's inside lie on that leg; they are moved onto its line.
//  3. Legs get their final places, and each its nodes by station.
//  4. A stretch between the same two nodes on a second leg is doubled and not planned there.
//  5. Legs that cross without a common node are named.
namespace railwright::setout {
namespace {

using measure::cross;
using measure::distance;
using measure::dot;

constexpr double kLeastLeg = 1e-3;   // metres; shorter has no direction worth the name
constexpr double kPieceMiss = 0.01;  // metres by which a curve may miss its straight pieces
constexpr double kHalfway = 1e-7;
constexpr double kTangentOneDegree = 0.017455064928217585;

Vec2 place_of_point(const job::Point& point) { return measure::in_metres(point.east, point.north); }

// Finds the first node within reach of a place.
class NodeFinder {
 public:
  explicit NodeFinder(double reach) : reach_(reach), cell_(std::max(reach, 1e-3)) {}

  int first_near(const std::vector<Node>& nodes, Vec2 at) const {
    int best = -1;
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy) {
        const auto it = cells_.find(key(at, dx, dy));
        if (it == cells_.end()) continue;
        for (const int n : it->second) {
          const bool within = measure::on_grid(distance(nodes[n].at, at)) <= reach_;
          if (within && (best < 0 || n < best)) best = n;
        }
      }
    }
    return best;
  }
  void add(int node, Vec2 at) { cells_[key(at, 0, 0)].push_back(node); }

 private:
  std::uint64_t key(Vec2 at, int dx, int dy) const {
    const auto column = static_cast<std::int64_t>(std::floor(at.x / cell_)) + dx;
    const auto row = static_cast<std::int64_t>(std::floor(at.y / cell_)) + dy;
    return static_cast<std::uint64_t>(column) * 0x9e3779b97f4a7c15U + static_cast<std::uint64_t>(row);
  }
  double reach_, cell_;
  std::unordered_map<std::uint64_t, std::vector<int>> cells_;
};

struct Ends {
  int from = -1, to = -1;
};

// Nodes of all points that legs use, in the order of the points.
struct Nodes {
  std::vector<Node> nodes;
  std::vector<Ends> ends;  // per leg
};

std::vector<std::pair<int, int>> points_of_legs(const job::Site& site, Findings& findings) {
  std::map<std::string, int> index;
  for (std::size_t i = 0; i < site.points.size(); ++i) index.emplace(site.points[i].id, static_cast<int>(i));
  std::vector<std::pair<int, int>> ends;
  for (const job::Leg& leg : site.legs) {
    const auto from = index.find(leg.from), to = index.find(leg.to);
    if (from == index.end() || to == index.end()) {
      const std::string missing = from == index.end() ? leg.from : leg.to;
      findings.push_back({"setout.no_such_point", Severity::stop, leg.id, {{"point", missing}}});
      ends.emplace_back(-1, -1);
    } else {
      ends.emplace_back(from->second, to->second);
    }
  }
  return ends;
}

Nodes nodes_of(const job::Site& site, Findings& findings) {
  const auto ends = points_of_legs(site, findings);
  std::vector<char> used(site.points.size(), 0);
  for (const auto& [from, to] : ends) {
    if (from < 0) continue;
    used[from] = used[to] = 1;
  }
  Nodes result;
  NodeFinder finder(site.snap.metres());
  std::vector<int> node_of(site.points.size(), -1);
  for (std::size_t p = 0; p < site.points.size(); ++p) {
    if (!used[p]) continue;
    const Vec2 at = place_of_point(site.points[p]);
    int node = finder.first_near(result.nodes, at);
    if (node < 0) {
      node = static_cast<int>(result.nodes.size());
      result.nodes.push_back({static_cast<int>(p), at, {}});
      finder.add(node, at);
    } else {
      const job::Point& kept = site.points[result.nodes[node].point];
      const Length apart = Length::from_metres(distance(result.nodes[node].at, at));
      findings.push_back({"setout.points_merged", Severity::note, site.points[p].id, {{"kept", kept.id}, {"apart", value_of(apart)}}});
    }
    node_of[p] = node;
  }
  for (const auto& [from, to] : ends) {
    result.ends.push_back(from < 0 ? Ends{} : Ends{node_of[from], node_of[to]});
  }
  return result;
}

LegPlace place_between(Vec2 from, Vec2 to) { return {from, to, Length::from_metres(distance(from, to)), measure::direction(to - from)}; }

// The place of a leg between its ends; an impossible arc gives a leg without length.
LegPlace place_of(const job::Site& site, std::size_t leg, Vec2 from, Vec2 to, bool circle, ground::Curve& curve) {
  const auto& arc = site.legs[leg].arc;
  if (!arc) return place_between(from, to);
  curve = ground::curve_of(*arc, from, to, circle, site.snap.metres());
  if (!curve.arc) return {from, to, Length(), {}};
  const Vec2 along = circle ? curve.arc->along(0) : measure::direction(to - from);
  return {from, to, Length::from_metres(curve.arc->length()), along, curve.arc};
}

// Where the legs lie before any node is moved.
std::vector<LegPlace> first_places(const job::Site& site, const Nodes& joined) {
  std::vector<LegPlace> places;
  for (std::size_t l = 0; l < joined.ends.size(); ++l) {
    const Ends& e = joined.ends[l];
    ground::Curve curve;
    if (e.from < 0)
      places.push_back({});
    else
      places.push_back(place_of(site, l, joined.nodes[e.from].at, joined.nodes[e.to].at, e.from == e.to, curve));
  }
  return places;
}

std::vector<Segment> segments_of(const std::vector<LegPlace>& places) {
  std::vector<Segment> segments;
  for (std::size_t l = 0; l < places.size(); ++l) {
    const std::vector<Vec2> pieces = places[l].pieces();
    for (std::size_t i = 0; i + 1 < pieces.size(); ++i) segments.push_back({pieces[i], pieces[i + 1], static_cast<int>(l)});
  }
  return segments;
}

// Legs that pass a node without ending there.
std::vector<int> legs_through(const Nodes& joined, const std::vector<LegPlace>& places, const LegGrid& grid, int node, double snap) {
  const Vec2 at = joined.nodes[node].at, reach{snap + kPieceMiss, snap + kPieceMiss};
  std::vector<int> through;
  for (const int leg : grid.near(at - reach, at + reach)) {
    const Ends& e = joined.ends[leg];
    if (e.from < 0 || places[leg].length == Length() || e.from == node || e.to == node) continue;
    const double station = places[leg].station_of(at).metres(), length = places[leg].length.metres();
    if (station < kLeastLeg || station > length - kLeastLeg) continue;
    if (measure::on_grid(std::fabs(places[leg].off_line(at))) <= snap) through.push_back(leg);
  }
  return through;
}

// Where two segments' lines cross; false when they are parallel.
bool crossing_of(const Segment& a, const Segment& b, double& on_a, double& on_b) {
  const Vec2 r = a.to - a.from, s = b.to - b.from, gap = b.from - a.from;
  const double det = cross(r, s);
  if (std::fabs(det) <= 1e-9 * measure::norm(r) * measure::norm(s)) return false;
  on_a = cross(gap, s) / det;
  on_b = cross(gap, r) / det;
  return true;
}

Vec2 moved_onto(const std::vector<int>& through, const std::vector<LegPlace>& places, Vec2 at, double snap) {
  const LegPlace& first = places[through[0]];
  if (first.arc) return first.at(first.station_of(at));
  double t = 0, u = 0;
  const LegPlace* second = through.size() > 1 ? &places[through[1]] : nullptr;
  if (second != nullptr && !second->arc && crossing_of({first.from, first.to}, {second->from, second->to}, t, u)) {
    const Vec2 crossing = first.from + t * (first.to - first.from);
    if (distance(crossing, at) <= 2 * snap) return crossing;
  }
  return first.from + dot(at - first.from, first.along) * first.along;
}

void sort_nodes(NetworkLeg& leg) {
  std::sort(leg.nodes.begin(), leg.nodes.end(),
            [](const NodeOnLeg& a, const NodeOnLeg& b) { return a.station != b.station ? a.station < b.station : a.node < b.node; });
}

// Two stretches between the same nodes are one where their middles are: of two straight ones always, of curves where they bend alike.
void mark_doubled(const job::Site& site, std::vector<NetworkLeg>& legs, Findings& findings) {
  struct Owner {
    int leg = 0;
    Vec2 middle;
  };
  std::map<std::pair<int, int>, std::vector<Owner>> owners;
  for (std::size_t l = 0; l < legs.size(); ++l) {
    for (std::size_t i = 0; i + 1 < legs[l].nodes.size(); ++i) {
      NodeOnLeg& here = legs[l].nodes[i];
      const NodeOnLeg& next = legs[l].nodes[i + 1];
      const LegPlace& place = legs[l].place;
      const Vec2 middle = place.at(here.station + (next.station - here.station) / 2);
      std::vector<Owner>& known = owners[std::minmax(here.node, next.node)];
      const auto same = std::find_if(known.begin(), known.end(), [&](const Owner& o) {
        const bool straight = !place.arc && !legs[o.leg].place.arc;
        return straight || measure::on_grid(distance(o.middle, middle)) <= site.snap.metres();
      });
      if (same == known.end()) {
        known.push_back({static_cast<int>(l), middle});
        continue;
      }
      here.doubled_after = true;
      findings.push_back({"setout.duplicate_leg",
                          Severity::stop,
                          site.legs[l].id,
                          {{"other", site.legs[same->leg].id}, {"from", value_of(here.station)}, {"to", value_of(next.station)}}});
    }
  }
}

void give_arms(Network& network) {
  for (std::size_t l = 0; l < network.legs.size(); ++l) {
    const auto& on = network.legs[l].nodes;
    const LegPlace& place = network.legs[l].place;
    for (std::size_t i = 0; i + 1 < on.size(); ++i) {
      if (on[i].doubled_after) continue;
      network.nodes[on[i].node].arms.push_back({static_cast<int>(l), true, place.along_at(on[i].station)});
      network.nodes[on[i + 1].node].arms.push_back({static_cast<int>(l), false, -place.along_at(on[i + 1].station)});
    }
  }
}

bool share_node(const NetworkLeg& a, const NetworkLeg& b) {
  for (const NodeOnLeg& n : a.nodes) {
    for (const NodeOnLeg& m : b.nodes) {
      if (n.node == m.node) return true;
    }
  }
  return false;
}

// Where curves meet other legs, between their straight pieces; not where both have a node.
void name_curve_crossing(const job::Site& site, const Network& network, int a, int b, Findings& findings) {
  const LegPlace& la = network.legs[a].place;
  const LegPlace& lb = network.legs[b].place;
  const std::vector<Vec2> pa = la.pieces(), pb = lb.pieces();
  for (std::size_t i = 0; i + 1 < pa.size(); ++i) {
    for (std::size_t j = 0; j + 1 < pb.size(); ++j) {
      double t = 0, u = 0;
      if (!crossing_of({pa[i], pa[i + 1]}, {pb[j], pb[j + 1]}, t, u) || t < 0 || t > 1 || u < 0 || u > 1) continue;
      const Vec2 at = pa[i] + t * (pa[i + 1] - pa[i]);
      const auto is_here = [&](const NodeOnLeg& n) { return distance(network.nodes[n.node].at, at) <= site.snap.metres() + 4 * kPieceMiss; };
      const auto& on = network.legs[a].nodes;
      if (std::any_of(on.begin(), on.end(), is_here)) continue;
      findings.push_back({"setout.crossing",
                          Severity::stop,
                          site.legs[a].id,
                          {{"other", site.legs[b].id}, {"station", value_of(la.station_of(at))}, {"other_station", value_of(lb.station_of(at))}}});
      return;
    }
  }
}

void name_crossings(const job::Site& site, const Network& network, Findings& findings) {
  for (const auto& [a, b] : network.grid.pairs()) {
    const NetworkLeg& la = network.legs[a];
    const NetworkLeg& lb = network.legs[b];
    if (!la.sound || !lb.sound) continue;
    if (la.place.arc || lb.place.arc) {
      name_curve_crossing(site, network, a, b, findings);
      continue;
    }
    double t = 0, u = 0;
    if (!crossing_of({la.place.from, la.place.to}, {lb.place.from, lb.place.to}, t, u)) continue;
    if (t < 0 || t > 1 || u < 0 || u > 1 || share_node(la, lb)) continue;
    const Length on_a = Length::from_metres(t * la.place.length.metres());
    const Length on_b = Length::from_metres(u * lb.place.length.metres());
    findings.push_back(
        {"setout.crossing", Severity::stop, site.legs[a].id, {{"other", site.legs[b].id}, {"station", value_of(on_a)}, {"other_station", value_of(on_b)}}});
  }
}

// False where no arc is possible.
bool name_curve_fault(const job::Leg& leg, const ground::Curve& curve, Findings& findings) {
  const auto wanted = value_of(Length::from_metres(curve.wanted)), found = value_of(Length::from_metres(curve.found));
  switch (curve.fault) {
    case ground::CurveFault::none:
      return true;
    case ground::CurveFault::no_size:
      findings.push_back({"setout.arc_no_size", Severity::stop, leg.id, {}});
      return false;
    case ground::CurveFault::too_tight:
      findings.push_back({"setout.arc_too_tight", Severity::stop, leg.id, {{"radius", wanted}, {"least", found}, {"from", leg.from}, {"to", leg.to}}});
      return false;
    case ground::CurveFault::ends_apart:
      findings.push_back({"setout.arc_ends_apart", Severity::warning, leg.id, {{"wanted", wanted}, {"found", found}, {"from", leg.from}, {"to", leg.to}}});
      return true;
    case ground::CurveFault::centre_off:
      findings.push_back({"setout.arc_centre_off", Severity::warning, leg.id, {{"wanted", wanted}, {"found", found}, {"point", leg.from}}});
      return true;
  }
  return true;
}

// The legs' final places with their ends; unsound ones are named.
std::vector<NetworkLeg> legs_between(const job::Site& site, const Nodes& joined, Findings& findings) {
  std::vector<NetworkLeg> legs(joined.ends.size());
  for (std::size_t l = 0; l < legs.size(); ++l) {
    const Ends& e = joined.ends[l];
    if (e.from < 0) continue;
    ground::Curve curve;
    legs[l].place = place_of(site, l, joined.nodes[e.from].at, joined.nodes[e.to].at, e.from == e.to, curve);
    if (!name_curve_fault(site.legs[l], curve, findings)) continue;
    legs[l].sound = (e.from != e.to || legs[l].place.closed()) && legs[l].place.length.metres() >= kLeastLeg;
    if (legs[l].sound) {
      legs[l].nodes = {{e.from, Length(), false}, {e.to, legs[l].place.length, false}};
    } else {
      const job::Leg& leg = site.legs[l];
      findings.push_back({"setout.zero_leg", Severity::stop, leg.id, {{"from", leg.from}, {"to", leg.to}}});
    }
  }
  return legs;
}

}  // namespace

Network join_legs(const job::Site& site, Findings& findings) {
  Nodes joined = nodes_of(site, findings);
  const std::vector<LegPlace> places = first_places(site, joined);
  Network network{{}, {}, LegGrid(segments_of(places))};
  const double snap = site.snap.metres();
  std::vector<std::vector<int>> through(joined.nodes.size());
  for (std::size_t n = 0; n < joined.nodes.size(); ++n) {
    through[n] = legs_through(joined, places, network.grid, static_cast<int>(n), snap);
  }
  for (std::size_t n = 0; n < joined.nodes.size(); ++n) {
    if (through[n].empty()) continue;
    joined.nodes[n].at = moved_onto(through[n], places, joined.nodes[n].at, snap);
  }
  network.legs = legs_between(site, joined, findings);
  for (std::size_t n = 0; n < joined.nodes.size(); ++n) {
    for (const int l : through[n]) {
      NetworkLeg& leg = network.legs[l];
      if (!leg.sound) continue;
      leg.nodes.push_back({static_cast<int>(n), leg.place.station_of(joined.nodes[n].at), false});
    }
  }
  for (NetworkLeg& leg : network.legs) sort_nodes(leg);
  network.nodes = std::move(joined.nodes);
  mark_doubled(site, network.legs, findings);
  give_arms(network);
  name_crossings(site, network, findings);
  return network;
}

double turn_deg(Vec2 in, Vec2 out) {
  const double turn = measure::bearing({dot(in, out), std::fabs(cross(in, out))}) * (180.0 / measure::kPi);
  // Half a hundredth, as regular curves have it, goes up whatever the last bits say.
  return std::floor(turn * 100 + 0.5 + kHalfway) / 100;
}

bool straight_on(Vec2 in, Vec2 out) { return dot(in, out) > 0 && std::fabs(cross(in, out)) < kTangentOneDegree * dot(in, out); }

}  // namespace railwright::setout
