// SPDX-License-Identifier: MIT
#include "sheets/scale.h"

#include <algorithm>
#include <cmath>

#include "sheets/shown.h"

namespace railwright::sheets {
namespace {

constexpr double kFeetPerInch[] = {1, 2, 4, 5, 8, 10, 15, 20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 800};
constexpr double kRatios[] = {10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1250, 1500, 2000, 2500, 4000, 5000, 7500};

// 1, 2 or 5 times a power of ten, not above `most`.
double round_below(double most) {
  double step = 1e-3;
  double best = step;
  for (; step <= most && step < 1e9; step *= 10)
    for (const double k : {1.0, 2.0, 5.0})
      if (step * k <= most * (1 + 1e-9)) best = step * k;
  return best;
}

// Alternate parts filled, figures at both ends and in the middle, on the given side of the bar.
void draw_bar(Svg& svg, Spot at, double part_mm, double part, const char* unit, bool above) {
  const double y0 = above ? at.y - 1.3 : at.y, y1 = above ? at.y : at.y + 1.3;
  for (int i = 0; i < 4; ++i) {
    const Box b{at.x + part_mm * i, y0, at.x + part_mm * (i + 1), y1};
    svg.rect(b, {pen::hair}, i % 2 == 0 ? (above ? ink::black : ink::none) : (above ? ink::none : ink::black));
  }
  const double y = above ? y0 - 1.2 : y1 + 3.6;
  svg.text({at.x, y}, "0", {kLeastType, false, Anchor::middle});
  svg.text({at.x + part_mm * 2, y}, number_text(part * 2, 2, true), {kLeastType, false, Anchor::middle});
  svg.text({at.x + part_mm * 4 - 1, y}, number_text(part * 4, 2, true) + " " + unit, {kLeastType, false, Anchor::start});
}

}  // namespace

Scale fitting_scale(const Pack& pack, double metres, double millimetres) {
  const double least = metres * 1000 / std::max(1.0, millimetres);
  if (pack.shown.metric()) {
    for (const double n : kRatios)
      if (n >= least) return {n};
  } else {
    for (const double feet : kFeetPerInch)
      if (feet * 12 >= least) return {feet * 12};
  }
  double n = pack.shown.metric() ? 10000 : 12000;
  while (n < least && n < 1e12) n *= 2;
  return {n};
}

std::string scale_text(const Pack& pack, Scale scale) {
  if (pack.shown.metric()) return pack.say("strip.scale", {{"scale", "1:" + number_text(scale.n, 0)}});
  return pack.say("strip.scale", {{"scale", "1 in = " + number_text(scale.n / 12, 2, true) + " ft"}});
}

Spot View::at(double x, double y) const {
  const Spot middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  const Spot step = towards(x - (west + east) / 2, y - (south + north) / 2);
  return {middle.x + scale.paper(step.x), middle.y + scale.paper(step.y)};
}

View fit_view(const Pack& pack, double west, double south, double east, double north, Box box) {
  const double w = box.x1 - box.x0, h = box.y1 - box.y0, dx = std::max(0.5, east - west), dy = std::max(0.5, north - south);
  const auto at_turn = [&](bool turned) {
    const Scale across = fitting_scale(pack, turned ? dy : dx, w), down = fitting_scale(pack, turned ? dx : dy, h);
    return Scale{std::max(across.n, down.n)};
  };
  const Scale plain = at_turn(false), turned = at_turn(true);
  const bool turn = turned.n < plain.n * 0.99;
  return {turn ? turned : plain, west, south, east, north, box, turn};
}

Box draw_scale_bar(Svg& svg, Spot at, Scale scale, double most_mm) {
  const double metres = most_mm * scale.n / 1000;
  const double feet_part = round_below(metres / 0.3048 / 4), metre_part = round_below(metres / 4);
  draw_bar(svg, at, scale.paper(feet_part * 0.3048), feet_part, "ft", true);
  draw_bar(svg, at, scale.paper(metre_part), metre_part, "m", false);
  return {at.x - 3, at.y - 6, at.x + most_mm + 16, at.y + 6};
}

Box draw_north(Svg& svg, Spot at, bool turned) {
  const Spot along = turned ? Spot{1, 0} : Spot{0, -1}, side = turned ? Spot{0, 1} : Spot{1, 0};
  const auto spot = [&](double a, double s) { return Spot{at.x + along.x * a + side.x * s, at.y + along.y * a + side.y * s}; };
  svg.polyline({spot(6, 0), spot(-5, 3), spot(-3, 0)}, {pen::thin}, ink::black, true);
  svg.polyline({spot(6, 0), spot(-5, -3), spot(-3, 0)}, {pen::thin}, ink::none, true);
  const Spot letter = turned ? Spot{at.x + 9, at.y + 1.5} : Spot{at.x, at.y - 7.5};
  svg.text(letter, "N", {4.2, true, Anchor::middle});
  return turned ? Box{at.x - 6, at.y - 4, at.x + 12, at.y + 4} : Box{at.x - 4, at.y - 12, at.x + 4, at.y + 6};
}

}  // namespace railwright::sheets
