// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "engine/measure/geometry.h"
#include "formats/walk.h"

// From polylines on the level plane to the points and legs of a site.
namespace railwright::formats {

using measure::Vec2;

struct Vertex {
  Vec2 at;
  std::optional<double> height;
  std::string name, note;
  double error = 0;  // metres, one sigma; 0: as the whole walk
};

struct Polyline {
  std::vector<Vertex> vertices;
  std::string fence;
  bool closed = false;  // the last vertex joins the first without repeating it
  // Heights between the vertices: leg of this polyline, metres along it, height.
  struct Between {
    std::size_t leg = 0;
    double station = 0, height = 0;
  };
  std::vector<Between> between;
};

struct Mark {  // a place beside the line: a gate, a name, a spot height
  Vertex vertex;
  std::optional<measure::Length> gate;
};

struct Sketch {
  std::vector<Polyline> lines;
  std::vector<Mark> marks;
  double join = 0.1;                                          // m: places nearer than this are one; ends nearer than this to a leg lie on it
  double reach = 5;                                           // m: marks nearer than this belong to the line
  measure::Length round = measure::Length::from_nm(100'000);  // coordinates are rounded to this, so that both builds agree
};

// Fills points, legs, gates and ground of `walked.site` and adds findings: `walk.point_unused`, `walk.doubled_leg`, `walk.gate_guessed`, `walk.gate_moved`.
// Points are named A, B ... Z, AA ... in walking order, or by the name given when it is short and not taken; legs by their two points,
// or L1, L2 ... when those names are long or ambiguous.
Result<void> lay_out(const Sketch& sketch, WalkedSite& walked);

// A, B ... Z, AA, AB ...
std::string letter_name(std::size_t number);

// A width in a gate's name such as "gate 12 ft"; none when there is none that makes a gate.
std::optional<measure::Length> gate_width(std::string_view text);
bool is_gate(std::string_view name);

}  // namespace railwright::formats
