// SPDX-License-Identifier: MIT
#include "engine/fittings/cover.h"

#include <algorithm>
#include <cmath>

#include "engine/measure/arc.h"
#include "engine/measure/quantity.h"

namespace railwright::fittings {
namespace {

constexpr std::size_t kMostPermuted = 6;

bool fits(Length of_part, Length diameter) { return of_part == Length() || of_part == diameter; }

bool carries(const job::Fitting& fitting, const Direction& direction) {
  return fits(fitting.rail_diameter, direction.rail_diameter) && direction.tilt_deg <= fitting.tilt_limit_deg;
}

bool turns_clockwise(Vec2 a, Vec2 b) { return measure::cross(a, b) <= 1e-9; }

// Parts of least price for one set of directions; several only where prices tie.
struct Choice {
  Money price;
  std::vector<Part> parts;
};

void offer(Choice& choice, Money price, Part part) {
  if (!choice.parts.empty() && price > choice.price) return;
  if (choice.parts.empty() || price < choice.price) choice = {price, {}};
  choice.parts.push_back(part);
}

class CoverSearch {
 public:
  CoverSearch(const job::Catalogue& catalogue, Length post_diameter, const std::vector<Direction>& directions, Money stacking)
      : catalogue_(catalogue), post_(post_diameter), directions_(directions), stacking_(stacking), count_(static_cast<int>(directions.size())) {
    fill_choices();
  }

  Cover solve() {
    place(0, Money());
    return best_;
  }

 private:
  Choice& pair(int i, int j) { return choices_[i * count_ + j]; }  // i == j: one direction

  void fill_choices();
  // Serves the first direction that is left, alone or with a later one.
  void place(unsigned served, Money cost);
  void serve(const Choice& choice, unsigned served, Money cost);
  void finish(Money cost);
  Ports ports(const Part& part) const;

  const job::Catalogue& catalogue_;
  Length post_;
  const std::vector<Direction>& directions_;
  Money stacking_;
  int count_;
  std::vector<Choice> choices_;
  std::vector<Part> placed_;
  Cover best_;
};

void CoverSearch::fill_choices() {
  choices_.resize(static_cast<std::size_t>(count_) * count_);
  for (int f = 0; f < static_cast<int>(catalogue_.fittings.size()); ++f) {
    const job::Fitting& fitting = catalogue_.fittings[f];
    if (!fits(fitting.post_diameter, post_)) continue;
    for (int i = 0; i < count_; ++i) {
      if (!carries(fitting, directions_[i])) continue;
      if (fitting.kind == job::FittingKind::end) {
        offer(pair(i, i), fitting.price, {f, i, -1});
        continue;
      }
      for (int j = i + 1; j < count_; ++j) {
        if (!carries(fitting, directions_[j])) continue;
        const double angle = angle_between_deg(directions_[i].away, directions_[j].away);
        const double miss = std::round(std::abs(angle - fitting.port_angle_deg) * 100) / 100;
        if (miss > fitting.angle_tolerance_deg) continue;
        const bool clockwise = turns_clockwise(directions_[i].away, directions_[j].away);
        offer(pair(i, j), fitting.price, {f, clockwise ? i : j, clockwise ? j : i});
      }
    }
  }
}

void CoverSearch::place(unsigned served, Money cost) {
  if (best_.possible && cost > best_.cost) return;
  int i = 0;
  while (i < count_ && (served >> i & 1u)) ++i;
  if (i == count_) return finish(cost);
  for (int j = i; j < count_; ++j)
    if (!(served >> j & 1u)) serve(pair(i, j), served | 1u << i | 1u << j, cost);
}

void CoverSearch::serve(const Choice& choice, unsigned served, Money cost) {
  const Money above = placed_.empty() ? Money() : stacking_;
  for (const Part& part : choice.parts) {
    placed_.push_back(part);
    place(served, cost + choice.price + above);
    placed_.pop_back();
  }
}

Ports CoverSearch::ports(const Part& part) const {
  Ports ports{&catalogue_.fittings[part.fitting], {directions_[part.first]}};
  if (part.second >= 0) ports.directions.push_back(directions_[part.second]);
  return ports;
}

// Each band as low as those below it allow.
Length stack_of_steps(const std::vector<std::vector<Length>>& steps, const std::vector<int>& order) {
  std::vector<Length> up(order.size());
  for (std::size_t i = 1; i < order.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) up[i] = max(up[i], up[j] + steps[order[j]][order[i]]);
  return up.empty() ? Length() : up.back();
}

void CoverSearch::finish(Money cost) {
  const std::size_t count = placed_.size();
  if (best_.possible && cost == best_.cost && count == 1 && best_.parts.size() == 1) return;  // the first one stands
  std::vector<std::vector<Length>> steps(count, std::vector<Length>(count));
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = i + 1; j < count; ++j) steps[i][j] = steps[j][i] = least_step(post_, ports(placed_[i]), ports(placed_[j]));
  std::vector<int> order(count);
  for (std::size_t i = 0; i < count; ++i) order[i] = static_cast<int>(i);
  do {
    const Length stack = stack_of_steps(steps, order);
    const bool better = !best_.possible || cost < best_.cost || stack < best_.stack || (stack == best_.stack && count < best_.parts.size());
    if (!better) continue;
    best_ = {true, cost, stack, {}};
    for (const int i : order) best_.parts.push_back(placed_[i]);
  } while (count <= kMostPermuted && std::next_permutation(order.begin(), order.end()));
}

Length apart(double r, double R, double half_tangent) {
  const double plan = R * half_tangent;
  if (plan >= r) return Length();
  return Length::from_metres(2 * std::sqrt(r * r - plan * plan));
}

Length apart(Length post, const job::Fitting& f, const Direction& a, const job::Fitting& g, const Direction& b) {
  const double turn = 1 + measure::dot(a.away, b.away);
  if (turn < 1e-9) return Length();  // in line: they never meet
  const double half_tangent = std::abs(measure::cross(a.away, b.away)) / turn;
  const double radius = post.metres() / 2;
  const Length sleeves = apart(max(f.sleeve_diameter, g.sleeve_diameter).metres() / 2, radius + min(f.bolt_offset, g.bolt_offset).metres(), half_tangent);
  const Length rails = apart(max(a.rail_diameter, b.rail_diameter).metres() / 2, radius + min(f.take_off, g.take_off).metres(), half_tangent);
  return max(sleeves, rails);
}

}  // namespace

double angle_between_deg(Vec2 a, Vec2 b) {
  const double radians = measure::bearing({measure::dot(a, b), std::abs(measure::cross(a, b))});
  return std::floor(radians * (180.0 / measure::kPi) * 100 + 0.5 + 1e-7) / 100;
}

Length least_step(Length post_diameter, const Ports& lower, const Ports& upper) {
  Length step = (lower.fitting->band_height + upper.fitting->band_height) / 2;
  for (const Direction& a : lower.directions)
    for (const Direction& b : upper.directions) step = max(step, apart(post_diameter, *lower.fitting, a, *upper.fitting, b));
  return step;
}

Cover cheapest_cover(const job::Catalogue& catalogue, Length post_diameter, const std::vector<Direction>& directions, Money stacking) {
  if (directions.empty()) return {true, {}, {}, {}};
  return CoverSearch(catalogue, post_diameter, directions, stacking).solve();
}

}  // namespace railwright::fittings
