// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sheets/svg.h"

// Finds a free place for each label: near its anchor, on the preferred side, clear of all labels and lines already there; farther away it gets a leader.
//
// Method: candidates in 16 directions on rings of growing distance; the first one free is taken, so labels given first get the better places. A grid of
// 8 mm squares keeps each question short. No trigonometry and no chance: the same labels land on the same places everywhere.
namespace railwright::sheets {

class Labels {
 public:
  explicit Labels(Box area);

  void keep_clear(const Box& box);
  void keep_clear(Spot a, Spot b);

  struct Place {
    Spot base;                                    // base line, start of the text
    std::optional<std::pair<Spot, Spot>> leader;  // from beside the anchor to the label
  };
  // `toward`: the side to try first (need not be a unit vector). Nothing when even the farthest ring has no room.
  std::optional<Place> place(Spot anchor, const std::string& text, const Type& type, Spot toward);
  // Finds a place and draws the label with its leader; false when there was no room.
  bool draw(Svg& svg, Spot anchor, const std::string& text, const Type& type, Spot toward);

 private:
  struct Segment {
    Spot a, b;
  };
  bool box_free(const Box& box) const;
  bool leader_free(Spot a, Spot b) const;
  void squares(const Box& box, std::vector<std::size_t>& out) const;

  Box area_;
  int columns_ = 1, rows_ = 1;
  std::vector<Box> boxes_;
  std::vector<Segment> lines_, leaders_;
  std::vector<std::vector<int>> box_squares_, line_squares_;
};

// True when the segment has a point inside the box.
bool crosses(Spot a, Spot b, const Box& box);

}  // namespace railwright::sheets
