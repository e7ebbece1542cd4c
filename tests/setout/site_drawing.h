// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/job/job.h"

// Test jobs from drawings. In a drawing every letter is a point; one column is `east` long, one line `north`; the first line is the north end.
// Legs are then named by their two letters: {"AB", "BC"}.
namespace railwright::setout::drawn {

using measure::Length;

inline constexpr Length kTwoThreeEighths = Length::sixty_fourths(152);
inline constexpr Length kTwoSevenEighths = Length::sixty_fourths(184);

inline job::Pipe pipe(const char* id, Length diameter) {
  job::Pipe p;
  p.id = id;
  p.diameter = diameter;
  return p;
}

// A catalogue of three pipes, by diameter.
inline job::Catalogue catalogue() {
  job::Catalogue c;
  c.pipes = {pipe("2-3/8", kTwoThreeEighths), pipe("2-7/8", kTwoSevenEighths), pipe("4-1/2", Length::sixty_fourths(288))};
  return c;
}

// Three rails, every post 2-3/8 in, 8 ft cap.
inline job::Fence plain_fence() {
  job::Fence f;
  f.id = "plain";
  f.height = Length::feet(5);
  f.rail_pipe = f.line_pipe = f.strong_pipe = f.gate_pipe = "2-3/8";
  return f;
}

inline job::Job site(std::string_view drawing, const std::vector<std::string>& legs, Length east, Length north) {
  job::Job job;
  std::vector<std::pair<int, int>> rows;
  std::map<char, std::pair<int, int>> letters;
  int column = 0, row = 0;
  for (const char c : drawing) {
    if (c == '\n') {
      ++row;
      column = 0;
      continue;
    }
    if (c >= 'A' && c <= 'Z') letters[c] = {column, row};
    ++column;
  }
  for (const auto& [letter, at] : letters) {
    job::Point point;
    point.id = std::string(1, letter);
    point.east = east * at.first;
    point.north = north * (row - at.second);
    job.site.points.push_back(point);
  }
  for (const std::string& name : legs) {
    job::Leg leg;
    leg.id = name;
    leg.from = name.substr(0, 1);
    leg.to = name.substr(1, 1);
    leg.fence = "plain";
    job.site.legs.push_back(leg);
  }
  job.choices.fences.push_back(plain_fence());
  return job;
}

// One straight leg "L" from A to B, due east.
inline job::Job straight(Length length) {
  job::Job job = site("A B", {"AB"}, Length::feet(1), Length::feet(1));
  job.site.points[1].east = length;
  job.site.legs[0].id = "L";
  return job;
}

}  // namespace railwright::setout::drawn
