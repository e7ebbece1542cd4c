// SPDX-License-Identifier: MIT
#include "engine/grade/stabber.h"

#include <algorithm>

namespace railwright::grade {
namespace {
constexpr double kNanometre = 1e-9;  // windows that touch within it still let a line pass
}

void Stabber::start(double x, Interval window) {
  upper_.assign(1, {x, window.high, 0});
  lower_.assign(1, {x, window.low, 0});
  upper_head_ = lower_head_ = 0;
  cap_ = 1e12;
  single_ = true;
}

Stabber::Line Stabber::highest(double x, double cap) const {
  const double steepest = std::min(cap_, cap);
  if (!single_ && rising_ <= steepest) return {lower_[lower_head_].x, lower_[lower_head_].z, rising_};
  Line line{upper_[upper_head_].x, upper_[upper_head_].z, steepest};
  for (std::size_t i = upper_head_ + 1; i < upper_.size(); ++i)
    if (const Line other{upper_[i].x, upper_[i].z, steepest}; other.at(x) < line.at(x)) line = other;
  return line;
}

Stabber::Line Stabber::lowest(double x, double cap) const {
  const double steepest = std::min(cap_, cap);
  if (!single_ && falling_ >= -steepest) return {upper_[upper_head_].x, upper_[upper_head_].z, falling_};
  Line line{lower_[lower_head_].x, lower_[lower_head_].z, -steepest};
  for (std::size_t i = lower_head_ + 1; i < lower_.size(); ++i)
    if (const Line other{lower_[i].x, lower_[i].z, -steepest}; other.at(x) > line.at(x)) line = other;
  return line;
}

Interval Stabber::range(double x, double cap) const { return {lowest(x, cap).at(x), highest(x, cap).at(x)}; }

bool Stabber::add(double x, Interval window, double cap) {
  const Dot top{x, window.high, 0}, bottom{x, window.low, 0};
  cap_ = std::min(cap_, cap);
  if (single_) {
    rising_ = slope(lower_[0], top);
    falling_ = slope(upper_[0], bottom);
    single_ = false;
  } else {
    const double highest = lower_[lower_head_].z + rising_ * (x - lower_[lower_head_].x);
    const double lowest = upper_[upper_head_].z + falling_ * (x - upper_[upper_head_].x);
    if (top.z < lowest - kNanometre || bottom.z > highest + kNanometre) return false;
    if (top.z < highest) rising_ = turn(lower_, lower_head_, top, -1);
    if (bottom.z > lowest) falling_ = turn(upper_, upper_head_, bottom, 1);
  }
  push(upper_, upper_head_, top, 1);
  push(lower_, lower_head_, bottom, -1);
  const double slack = kNanometre;  // a slope, where a bay is metres long
  return falling_ <= cap_ + slack && rising_ >= -cap_ - slack;
}

// Moves the dot on which an extreme line turns to where it touches `dot`; the line's slope. `side`: 1 for the steepest fall to it, -1 for the steepest rise.
double Stabber::turn(const std::vector<Dot>& hull, std::size_t& head, Dot dot, double side) {
  double steepest = slope(hull[head], dot);
  while (head + 1 < hull.size()) {
    const double next = slope(hull[head + 1], dot);
    if (side * next < side * steepest) break;
    steepest = next;
    ++head;
  }
  return steepest;
}

// Adds a dot behind a hull that bends upwards (`side` 1) or downwards (-1).
void Stabber::push(std::vector<Dot>& hull, std::size_t head, Dot dot, double side) {
  dot.in = slope(hull.back(), dot);
  while (hull.size() - head >= 2 && side * hull.back().in >= side * dot.in) {
    hull.pop_back();
    dot.in = slope(hull.back(), dot);
  }
  hull.push_back(dot);
}

}  // namespace railwright::grade
