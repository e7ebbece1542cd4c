// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

namespace railwright::grade {

struct Interval {
  double low = 0, high = 0;
  bool empty() const { return !(low <= high); }
};

// All straight lines that pass through vertical windows added from left to right and are no steeper than a cap. Heights and stations in metres.
//
// The set is convex; its steepest rising and steepest falling lines are kept, with the two hulls on which they turn, so that a window
// costs constant time when spread over all windows. Source: J. O'Rourke, "An on-line algorithm for fitting straight lines between
// data ranges", Communications of the ACM 24(9), 1981 (method, from memory).
// Only + - * / and comparisons are used: the same bits natively and in WebAssembly.
class Stabber {
 public:
  struct Line {
    double x, z, slope;
    double at(double station) const { return z + slope * (station - x); }
  };

  // Lines that start within the window at x.
  void start(double x, Interval window);
  // Of the lines no steeper than `cap` on the way to x, right of every window so far, those that are highest and lowest there.
  Line highest(double x, double cap) const;
  Line lowest(double x, double cap) const;
  // Heights at x, right of every window so far, of lines no steeper than `cap` on the way there.
  Interval range(double x, double cap) const;
  // Keeps the lines that also pass this window. False: none is left.
  bool add(double x, Interval window, double cap);

 private:
  struct Dot {
    double x, z, in;
  };  // `in`: slope from the dot before
  static double slope(Dot a, Dot b) { return (b.z - a.z) / (b.x - a.x); }
  static double turn(const std::vector<Dot>& hull, std::size_t& head, Dot dot, double side);
  static void push(std::vector<Dot>& hull, std::size_t head, Dot dot, double side);

  std::vector<Dot> upper_, lower_;               // lower hull of the windows' tops, upper hull of their bottoms
  std::size_t upper_head_ = 0, lower_head_ = 0;  // where the falling and the rising line turn
  double rising_ = 0, falling_ = 0;              // slopes
  double cap_ = 0;
  bool single_ = true;
};

}  // namespace railwright::grade
