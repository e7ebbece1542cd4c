// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "engine/setout/draft.h"

// Diagonals that prove corners.
//
// Outline
//  1. From every node and arm a straight side is followed through nodes that do not turn.
//  2. A corner gets the largest 3-4-5 triangle that its two sides and a tape allow; a corner that is not square the law of cosines
//     on equal legs.
//  3. Four nodes joined by straight sides make a quadrilateral, whose two diagonals are given. Both the nearest and the farthest node of a side are tried: with a
//     divided paddock that gives its parts and the whole.
namespace railwright::setout {
namespace {

using measure::cross;
using measure::distance;
using measure::dot;

// Within about 0.1 degree a corner is square: 1/4 in in 12 ft, what a tape held by hand can tell.
constexpr double kCosineSquare = 0.00175;
// Sides of quadrilaterals turn by more than this at their meeting; flatter ones have no useful diagonal.
constexpr double kSineFlat = 0.17364817766693033;  // 10 degrees
constexpr std::size_t kMostQuadrilaterals = 500;
constexpr int kMostNodesOfASide = 200;

// Whole steps that a person reads off a tape: units of the 3-4-5 triangle, largest first. 100 ft and 30 m tapes hold its long side.
std::vector<Length> units_of(job::UnitSystem system) {
  std::vector<Length> units;
  if (system == job::UnitSystem::metric) {
    for (int half_metres = 12; half_metres >= 1; --half_metres) units.push_back(Length::mm(500) * half_metres);
    for (int tenths = 4; tenths >= 1; --tenths) units.push_back(Length::mm(100) * tenths);
  } else {
    for (int feet = 20; feet >= 1; --feet) units.push_back(Length::feet(feet));
    for (int inches = 9; inches >= 3; inches -= 3) units.push_back(Length::inches(inches));
  }
  return units;
}

// A straight side seen from a node: its first node, its last, and how far away that is.
struct Ray {
  Vec2 along;
  int arm_leg = 0;
  int nearest = -1, farthest = -1;
  Length reach;
};

class Prover {
 public:
  Prover(const Draft& draft, const std::vector<int>& post_of_node) : draft_(draft), nodes_(draft.network.nodes), post_(post_of_node) {
    find_neighbours();
    for (std::size_t n = 0; n < nodes_.size(); ++n) rays_.push_back(rays_from(static_cast<int>(n)));
  }
  void prove(Layout& layout) const;

 private:
  struct Neighbour {
    int node = 0;
    int leg = 0;
    Vec2 along;
  };

  void find_neighbours();
  std::vector<Ray> rays_from(int node) const;
  bool prove_corner(int node, const Ray& a, const Ray& b, Layout& layout) const;
  void prove_node(int node, Layout& layout) const;
  void quadrilaterals(bool farthest, std::set<std::vector<int>>& found) const;

  const Draft& draft_;
  const std::vector<Node>& nodes_;
  const std::vector<int>& post_;              // per node: index in the layout, -1 none
  std::vector<std::vector<Neighbour>> next_;  // per node
  std::vector<std::vector<Ray>> rays_;
};

void Prover::find_neighbours() {
  next_.resize(nodes_.size());
  for (std::size_t l = 0; l < draft_.network.legs.size(); ++l) {
    const NetworkLeg& leg = draft_.network.legs[l];
    if (!leg.sound || leg.place.arc) continue;  // a curve is no side
    for (std::size_t i = 0; i + 1 < leg.nodes.size(); ++i) {
      if (leg.nodes[i].doubled_after) continue;
      const int a = leg.nodes[i].node, b = leg.nodes[i + 1].node, index = static_cast<int>(l);
      next_[a].push_back({b, index, leg.place.along});
      next_[b].push_back({a, index, -leg.place.along});
    }
  }
}

std::vector<Ray> Prover::rays_from(int node) const {
  std::vector<Ray> rays;
  for (const Neighbour& first : next_[node]) {
    Ray ray{first.along, first.leg, first.node, first.node, Length()};
    int steps = 0;
    for (bool on = true; on && ++steps <= kMostNodesOfASide;) {
      on = false;
      for (const Neighbour& more : next_[ray.farthest]) {
        if (!straight_on(first.along, more.along)) continue;
        ray.farthest = more.node;
        on = true;
        break;
      }
    }
    ray.reach = Length::from_metres(distance(nodes_[node].at, nodes_[ray.farthest].at));
    rays.push_back(ray);
  }
  return rays;
}

// Marks on both sides and the distance between them; false when the sides are too short to mark.
bool Prover::prove_corner(int node, const Ray& a, const Ray& b, Layout& layout) const {
  const double cosine = dot(a.along, b.along);
  CornerProof proof;
  proof.post = post_[node];
  proof.legs = {a.arm_leg, b.arm_leg};
  proof.square = std::fabs(cosine) < kCosineSquare;
  const bool swap = b.reach > a.reach;
  const Length shorter = measure::min(a.reach, b.reach), longer = measure::max(a.reach, b.reach);
  for (const Length unit : units_of(draft_.job.units)) {
    if (unit * 3 > shorter || unit * 4 > longer) continue;
    proof.marks = {unit * (swap ? 3 : 4), unit * (swap ? 4 : 3)};
    if (!proof.square) proof.marks = {unit * 3, unit * 3};
    const double p = proof.marks[0].metres(), q = proof.marks[1].metres();
    proof.diagonal = proof.square ? unit * 5 : Length::from_metres(std::sqrt(p * p + q * q - 2 * p * q * cosine));
    layout.corners.push_back(proof);
    return true;
  }
  return false;
}

// A corner is proved as it is; a tee or cross once, by two sides that are square.
void Prover::prove_node(int node, Layout& layout) const {
  const auto& rays = rays_[node];
  if (post_[node] < 0 || rays.size() < 2) return;
  for (std::size_t i = 0; i < rays.size(); ++i) {
    for (std::size_t j = i + 1; j < rays.size(); ++j) {
      const bool square = std::fabs(dot(rays[i].along, rays[j].along)) < kCosineSquare;
      const bool corner = rays.size() == 2 && !straight_on(-rays[i].along, rays[j].along);
      if ((square || corner) && prove_corner(node, rays[i], rays[j], layout)) return;
    }
  }
}

void Prover::quadrilaterals(bool farthest, std::set<std::vector<int>>& found) const {
  const auto end_of = [&](const Ray& ray) { return farthest ? ray.farthest : ray.nearest; };
  const auto turns = [](const Ray& a, const Ray& b) { return std::fabs(cross(a.along, b.along)) > kSineFlat; };
  const int count = static_cast<int>(nodes_.size());
  for (int u = 0; u < count && found.size() < kMostQuadrilaterals; ++u) {
    for (const Ray& first : rays_[u]) {
      const int w = end_of(first);
      for (const Ray& second : rays_[w]) {
        const int x = end_of(second);
        if (x == u || !turns(first, second)) continue;
        for (const Ray& third : rays_[x]) {
          const int y = end_of(third);
          if (y == w || y == u || !turns(second, third)) continue;
          for (const Ray& last : rays_[y]) {
            if (end_of(last) != u || !turns(third, last) || !turns(last, first)) continue;
            if (u < w && u < x && u < y && w < y) found.insert({u, w, x, y});
          }
        }
      }
    }
  }
}

void Prover::prove(Layout& layout) const {
  for (std::size_t n = 0; n < nodes_.size(); ++n) prove_node(static_cast<int>(n), layout);
  std::set<std::vector<int>> found;
  quadrilaterals(true, found);
  quadrilaterals(false, found);
  for (const std::vector<int>& q : found) {
    Quadrilateral quad;
    for (std::size_t i = 0; i < 4; ++i) quad.posts[i] = post_[q[i]];
    if (*std::min_element(quad.posts.begin(), quad.posts.end()) < 0) continue;
    const auto apart = [&](int a, int b) { return Length::from_metres(distance(layout.posts[a].at, layout.posts[b].at)); };
    quad.diagonals = {apart(quad.posts[0], quad.posts[2]), apart(quad.posts[1], quad.posts[3])};
    layout.quadrilaterals.push_back(quad);
  }
}

}  // namespace

void prove_corners(const Draft& draft, const std::vector<int>& post_of_node, Layout& layout) { Prover(draft, post_of_node).prove(layout); }

}  // namespace railwright::setout
