// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sheets/page.h"

// From the site's metres to millimetres of paper, at a scale a person can lay a ruler on.
namespace railwright::sheets {

// A drawing scale 1:n.
struct Scale {
  double n = 1;
  double paper(double metres) const { return metres * 1000.0 / n; }
};

// The largest usual scale at which `metres` takes no more than `millimetres`: 1 in = 4, 5, 8, 10, 20 ... ft, or 1:50, 100, 200, 250 ....
Scale fitting_scale(const Pack& pack, double metres, double millimetres);
std::string scale_text(const Pack& pack, Scale scale);

// Where a part of the site lies on the paper. Turned: north points right, so that a long site lies along a wide sheet.
struct View {
  Scale scale;
  double west = 0, south = 0, east = 0, north = 0;  // metres shown
  Box box;                                          // paper it is centred in
  bool turned = false;

  Spot at(double x, double y) const;
  Spot at(setout::Vec2 p) const { return at(p.x, p.y); }
  // A direction of the site (east, north) on the paper.
  Spot towards(double x, double y) const { return turned ? Spot{y, x} : Spot{x, -y}; }
};
// The view that shows the given part of the site as large as the usual scales allow.
View fit_view(const Pack& pack, double west, double south, double east, double north, Box box);

// A bar divided in feet above and metres below, its left end at `at`; gives the box it takes.
Box draw_scale_bar(Svg& svg, Spot at, Scale scale, double most_mm);
// An arrow with N, centred at `at`, about 14 mm long; gives the box it takes.
Box draw_north(Svg& svg, Spot at, bool turned);

}  // namespace railwright::sheets
