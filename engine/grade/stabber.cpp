// SPDX-License-Identifier: MIT
#include "engine/grade/stabber.h"

#include <algorithm>

namespace railwright::grade {
namespace {
constexpr double kNanometre = 1e-9;   // windows that touch within it still let a line pass
}

void Stabber::start(double x, Interval window) {
  upper_.assign(1, {x, window.high});
  lower_.assign(1, {x, window.low});
  upper_head_ = lower_head_ = 0;
  cap_ = 1e12;
  single_ = true;
}

Interval Stabber::range(double x, double cap) const {
  const double steepest = std::min(cap_, cap);
  Interval reach;
  if (single_ || rising_ > steepest) {
    reach.high = 1e300;
    for (std::size_t i = upper_head_; i < upper_.size(); ++i)
      reach.high = std::min(reach.high, upper_[i].z + steepest * (x - upper_[i].x));
  } else {
    reach.high = lower_[lower_head_].z + rising_ * (x - lower_[lower_head_].x);
  }
  if (single_ || falling_ < -steepest) {
    reach.low = -1e300;
    for (std::size_t i = lower_head_; i < lower_.size(); ++i)
      reach.low = std::max(reach.low, lower_[i].z - steepest * (x - lower_[i].x));
  } else {
    reach.low = upper_[upper_head_].z + falling_ * (x - upper_[upper_head_].x);
  }
  return reach;
}

bool Stabber::add(double x, Interval window, double cap) {
  const Dot top{x, window.high}, bottom{x, window.low};
  cap_ = std::min(cap_, cap);
  if (single_) {
    rising_ = slope(lower_[0], top);
    falling_ = slope(upper_[0], bottom);
    single_ = false;
  } else {
    const double highest = lower_[lower_head_].z + rising_ * (x - lower_[lower_head_].x);
    const double lowest = upper_[upper_head_].z + falling_ * (x - upper_[upper_head_].x);
    if (top.z < lowest - kNanometre || bottom.z > highest + kNanometre) return false;
    if (top.z < highest) {
      while (lower_head_ + 1 < lower_.size() && slope(lower_[lower_head_ + 1], top) <= slope(lower_[lower_head_], top))
        ++lower_head_;
      rising_ = slope(lower_[lower_head_], top);
    }
    if (bottom.z > lowest) {
      while (upper_head_ + 1 < upper_.size() && slope(upper_[upper_head_ + 1], bottom) >= slope(upper_[upper_head_], bottom))
        ++upper_head_;
      falling_ = slope(upper_[upper_head_], bottom);
    }
  }
  push(x, window);
  const double slack = kNanometre;   // a slope, where a bay is metres long
  return falling_ <= cap_ + slack && rising_ >= -cap_ - slack;
}

void Stabber::push(double x, Interval window) {
  const Dot top{x, window.high}, bottom{x, window.low};
  while (upper_.size() - upper_head_ >= 2 && slope(upper_[upper_.size() - 2], upper_.back()) >= slope(upper_.back(), top))
    upper_.pop_back();
  while (lower_.size() - lower_head_ >= 2 && slope(lower_[lower_.size() - 2], lower_.back()) <= slope(lower_.back(), bottom))
    lower_.pop_back();
  upper_.push_back(top);
  lower_.push_back(bottom);
}

}  // namespace railwright::grade
