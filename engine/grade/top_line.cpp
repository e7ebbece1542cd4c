// SPDX-License-Identifier: MIT
#include "engine/grade/top_line.h"

#include <algorithm>

#include "engine/grade/ground_under.h"
#include "engine/grade/levels.h"
#include "engine/grade/smooth_line.h"

namespace railwright::grade {
namespace {

Length ground_at(const setout::Layout& layout, int post) { return Length::from_metres(layout.posts[post].ground); }

Length wish_at(const LineInput& input, int post) { return ground_at(input.layout, post) + input.section.centres.front(); }

constexpr double kWide = 1e3;  // metres: a window that binds nothing

// Heights of the top rail that keep the bottom opening over ground at `height`.
Interval clear_of_ground(const Section& section, double height, double wish) {
  if (section.infilled) return {wish - kWide, wish + kWide};
  const double lowest = height + section.depth().metres();
  return {lowest + section.least_bottom().metres(), section.has_largest_bottom() ? lowest + section.most_bottom().metres() : wish + kWide};
}

class GateList {
 public:
  GateList(const LineInput& input, const SharedHeights& shared) : input_(input), shared_(shared) {
    add_post(0, 1);
    for (std::size_t i = 0; i < input.chain.bays.size(); ++i) add_bay(i);
  }
  std::vector<Gate> take() { return std::move(gates_); }

 private:
  void add_post(std::size_t i, double cap) {
    const int post = input_.chain.posts[i];
    Gate gate;
    gate.x = x_;
    gate.post = true;
    gate.cap = cap;
    gate.wish = wish_at(input_, post).metres();
    gate.window = clear_of_ground(input_.section, input_.layout.posts[post].ground, gate.wish);
    const auto known = shared_.find({post, input_.chain.fence});
    const bool end = i == 0 || i + 1 == input_.chain.posts.size();
    if (known != shared_.end() || (end && input_.chain.closed())) {
      const double height = known != shared_.end() ? known->second.metres() : gate.wish;
      gate.window = {height, height};
      gate.pinned = true;
    }
    gates_.push_back(gate);
  }

  void add_bay(std::size_t i) {
    const ChainBay& place = input_.chain.bays[i];
    const setout::Bay& bay = input_.layout.bays[place.bay];
    const double pitch = bay.pitch.metres();
    const double between_bolts = std::max(0.0, (bay.gap - input_.bolt_offset * 2).metres());
    const double cap = pitch > 0 ? input_.steepest * between_bolts / pitch : input_.steepest;
    std::vector<GroundPoint> ground = ground_under(input_.layout, bay);
    if (place.reversed) {
      std::reverse(ground.begin(), ground.end());
      for (GroundPoint& point : ground) point.at = pitch - point.at;
    }
    for (std::size_t g = 1; g + 1 < ground.size() && !input_.section.infilled; ++g) {
      Gate gate;
      gate.x = x_ + ground[g].at;
      gate.cap = cap;
      gate.window = clear_of_ground(input_.section, ground[g].height, ground[g].height);
      const BayMends mends = input_.mends[place.bay];
      if (mends.cut) gate.window.low = ground[g].height - kWide;
      if (mends.fill || mends.filler) gate.window.high = ground[g].height + kWide;
      gates_.push_back(gate);
    }
    x_ += std::max(pitch, 1e-3);  // a bay of no length is a finding of setout; stations must still increase
    add_post(i + 1, cap);
  }

  const LineInput& input_;
  const SharedHeights& shared_;
  std::vector<Gate> gates_;
  double x_ = 0;
};

}  // namespace

TopLine follow_line(const LineInput& input) {
  TopLine line;
  for (std::size_t i = 0; i < input.chain.bays.size(); ++i)
    line.bays.push_back({wish_at(input, input.chain.posts[i]), wish_at(input, input.chain.posts[i + 1])});
  return line;
}

// From the start, each level reaches as far as it may. Any part of a stretch that one level can serve can be served by one level, so the fewest steps
// come from always going as far as possible.
TopLine level_line(const LineInput& input) {
  TopLine line;
  const double allowance = level_allowance(input.section);
  std::vector<Span> spans;
  for (const ChainBay& place : input.chain.bays) spans.push_back(ground_span(input.layout, input.layout.bays[place.bay], input.mends[place.bay]));
  while (line.bays.size() < spans.size()) {
    const Level level = level_from(spans, line.bays.size(), allowance);
    const Length height = Length::from_metres(level.span.high) + input.section.centres.front();
    line.bays.resize(level.end, {height, height});
  }
  return line;
}

TopLine smooth_top_line(const LineInput& input, const SharedHeights& shared) {
  constexpr double kTapeStep = 0.0254 / 64;  // least departure is sought to what a tape can read
  const SmoothLine smooth = smooth_line(GateList(input, shared).take(), input.section.fence->line_tolerance.metres(), kTapeStep);
  TopLine line;
  for (std::size_t i = 0; i < input.chain.bays.size(); ++i)
    line.bays.push_back({Length::from_metres(smooth.heights[i]), Length::from_metres(smooth.heights[i + 1])});
  line.no_line = smooth.released;
  line.fewest_known = smooth.fewest_known;
  return line;
}

}  // namespace railwright::grade
