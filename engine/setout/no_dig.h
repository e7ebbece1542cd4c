// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/job/job.h"
#include "engine/setout/layout.h"

namespace railwright::setout {

// A stretch of a leg where no post may stand. Its two ends are allowed. `zone` is the first zone that blocks it.
struct Blocked {
  Length from, to;
  int zone = 0;
};

// The no-dig zones of a site, asked along lines. A hole of radius R is kept out of a zone when its middle is farther from the zone's shape than the
// zone's tolerance plus R.
// Properties: (1) blocked stretches are ascending and do not overlap; (2) their ends lie on whole millimetres, rounded outward, so that a post at
// an end is strictly clear; (3) moving zones and leg together changes nothing.
class NoDig {
 public:
  explicit NoDig(const std::vector<job::Zone>& zones);

  bool empty() const { return zones_.empty(); }
  // Stretches of the leg's whole line, also before its start and beyond its end (of a curve a metre, as far as it goes round).
  std::vector<Blocked> along(const LegPlace& leg, Length hole_radius) const;
  // Every zone that keeps holes out of some of the stretch, ascending.
  std::vector<int> zones_between(const LegPlace& leg, Length hole_radius, Length from, Length to) const;
  // The first zone that a hole here would touch; -1: none.
  int zone_at(Vec2 at, Length hole_radius) const;

 private:
  struct Shape;
  // As found, zone by zone: not merged.
  std::vector<Blocked> stretches(const LegPlace& leg, Length hole_radius) const;
  std::vector<Blocked> along_arc(const LegPlace& leg, Length hole_radius) const;
  bool touches(const Shape& shape, Vec2 at, double radius) const;

  struct Shape {
    std::vector<Vec2> corners;
    bool area = false;
    double tolerance = 0;
    Vec2 low, high;  // bounding box of the corners
  };
  std::vector<Shape> zones_;
};

// The first blocked stretch that ends beyond `station`, or null.
const Blocked* blocked_after(const std::vector<Blocked>& stretches, Length station);
// The blocked stretch that holds `station` strictly inside, or null. Stretches ascending.
const Blocked* blocked_at(const std::vector<Blocked>& stretches, Length station);

}  // namespace railwright::setout
