// SPDX-License-Identifier: MIT
#include "sheets/labels.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sheets/type.h"

namespace railwright::sheets {
namespace {

constexpr double kSquare = 8, kClear = 0.35, kLeaderFrom = 5;
constexpr std::array<double, 9> kRings = {1.6, 2.4, 3.6, 5.2, 7.5, 10.5, 14, 19, 26};
// Sixteen directions round the circle, written out so that no sine is needed.
constexpr std::array<Spot, 16> kDirections = {{{1, 0},
                                               {0.924, 0.383},
                                               {0.707, 0.707},
                                               {0.383, 0.924},
                                               {0, 1},
                                               {-0.383, 0.924},
                                               {-0.707, 0.707},
                                               {-0.924, 0.383},
                                               {-1, 0},
                                               {-0.924, -0.383},
                                               {-0.707, -0.707},
                                               {-0.383, -0.924},
                                               {0, -1},
                                               {0.383, -0.924},
                                               {0.707, -0.707},
                                               {0.924, -0.383}}};

// The part of the segment inside a slab lo..hi of one axis, as the parameters t0..t1; false when there is none.
bool cut_slab(double from, double step, double lo, double hi, double& t0, double& t1) {
  if (step == 0) return from >= lo && from <= hi;
  double enter = (lo - from) / step, leave = (hi - from) / step;
  if (enter > leave) std::swap(enter, leave);
  t0 = std::max(t0, enter);
  t1 = std::min(t1, leave);
  return t0 <= t1;
}

double side_of(Spot a, Spot b, Spot p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); }

bool segments_cross(Spot a, Spot b, Spot c, Spot d) { return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0; }

// The directions, those that look the preferred way first.
std::array<std::size_t, 16> by_preference(Spot toward) {
  std::array<std::size_t, 16> order{};
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto score = [&](std::size_t i) { return std::llround(1000 * (kDirections[i].x * toward.x + kDirections[i].y * toward.y)); };
    return score(a) > score(b);
  });
  return order;
}

}  // namespace

bool crosses(Spot a, Spot b, const Box& box) {
  double t0 = 0, t1 = 1;
  return cut_slab(a.x, b.x - a.x, box.x0, box.x1, t0, t1) && cut_slab(a.y, b.y - a.y, box.y0, box.y1, t0, t1);
}

Labels::Labels(Box area) : area_(area) {
  columns_ = std::max(1, static_cast<int>((area.x1 - area.x0) / kSquare) + 1);
  rows_ = std::max(1, static_cast<int>((area.y1 - area.y0) / kSquare) + 1);
  const auto n = static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_);
  box_squares_.resize(n);
  line_squares_.resize(n);
}

void Labels::squares(const Box& box, std::vector<std::size_t>& out) const {
  out.clear();
  const auto index = [](double v, double from, int n) { return std::clamp(static_cast<int>(std::floor((v - from) / kSquare)), 0, n - 1); };
  const int x0 = index(box.x0, area_.x0, columns_), x1 = index(box.x1, area_.x0, columns_);
  const int y0 = index(box.y0, area_.y0, rows_), y1 = index(box.y1, area_.y0, rows_);
  for (int y = y0; y <= y1; ++y)
    for (int x = x0; x <= x1; ++x) out.push_back(static_cast<std::size_t>(y * columns_ + x));
}

void Labels::keep_clear(const Box& box) {
  std::vector<std::size_t> where;
  squares(box, where);
  for (const auto s : where) box_squares_[s].push_back(static_cast<int>(boxes_.size()));
  boxes_.push_back(box);
}

void Labels::keep_clear(Spot a, Spot b) {
  std::vector<std::size_t> where;
  squares({std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)}, where);
  for (const auto s : where) {
    const double x = area_.x0 + kSquare * static_cast<double>(s % static_cast<std::size_t>(columns_));
    const double y = area_.y0 + kSquare * static_cast<double>(s / static_cast<std::size_t>(columns_));
    if (crosses(a, b, {x - 0.1, y - 0.1, x + kSquare + 0.1, y + kSquare + 0.1})) line_squares_[s].push_back(static_cast<int>(lines_.size()));
  }
  lines_.push_back({a, b});
}

bool Labels::box_free(const Box& box) const {
  if (box.x0 < area_.x0 || box.y0 < area_.y0 || box.x1 > area_.x1 || box.y1 > area_.y1) return false;
  const Box wide{box.x0 - kClear, box.y0 - kClear, box.x1 + kClear, box.y1 + kClear};
  std::vector<std::size_t> where;
  squares(wide, where);
  for (const auto s : where) {
    for (const int i : box_squares_[s])
      if (overlap(boxes_[static_cast<std::size_t>(i)], wide)) return false;
    for (const int i : line_squares_[s])
      if (crosses(lines_[static_cast<std::size_t>(i)].a, lines_[static_cast<std::size_t>(i)].b, wide)) return false;
  }
  return true;
}

bool Labels::leader_free(Spot a, Spot b) const {
  for (const auto& other : leaders_)
    if (segments_cross(a, b, other.a, other.b)) return false;
  for (const auto& box : boxes_)
    if (crosses(a, b, box)) return false;
  return true;
}

std::optional<Labels::Place> Labels::place(Spot anchor, const std::string& text, const Type& type, Spot toward) {
  const double up = type.size * kCapHeight;
  const double w = text_width(text, type.size, type.bold) / 2, h = up / 2;
  const auto order = by_preference(toward);
  for (const double ring : kRings) {
    for (const std::size_t i : order) {
      const Spot d = kDirections[i];
      const Spot middle{anchor.x + d.x * (ring + w), anchor.y + d.y * (ring + h)};
      const Spot base{middle.x - w, middle.y + h};
      const Box box = text_box(base, text, {type.size, type.bold});
      if (!box_free(box)) continue;
      Place place{base, {}};
      if (ring > kLeaderFrom) {
        const Spot to{std::clamp(anchor.x, box.x0, box.x1), std::clamp(anchor.y, box.y0, box.y1)};
        const double reach = std::sqrt((to.x - anchor.x) * (to.x - anchor.x) + (to.y - anchor.y) * (to.y - anchor.y));
        if (reach < 2) continue;
        const Spot from{anchor.x + (to.x - anchor.x) * 1.1 / reach, anchor.y + (to.y - anchor.y) * 1.1 / reach};
        const Spot end{to.x - (to.x - anchor.x) * 0.6 / reach, to.y - (to.y - anchor.y) * 0.6 / reach};
        if (!leader_free(from, end)) continue;
        place.leader = {from, end};
      }
      return place;
    }
  }
  return std::nullopt;
}

bool Labels::draw(Svg& svg, Spot anchor, const std::string& text, const Type& type, Spot toward) {
  Type plain = type;
  plain.anchor = Anchor::start;
  const auto found = place(anchor, text, plain, toward);
  if (!found) return false;
  if (found->leader) {
    svg.line(found->leader->first, found->leader->second, {pen::hair, ink::grey});
    leaders_.push_back({found->leader->first, found->leader->second});
    keep_clear(found->leader->first, found->leader->second);
  }
  svg.text(found->base, text, plain);
  keep_clear(text_box(found->base, text, plain));
  return true;
}

}  // namespace railwright::sheets
