// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/setout/layout.h"

// One straight leg of equal bays, drawn by hand: east from the origin.
namespace railwright::testing_line {

using measure::Length;

inline const Length kPipe = Length::sixty_fourths(152);  // 2-3/8 in

inline job::Catalogue rows() {
  job::Catalogue catalogue;
  job::Pipe pipe;
  pipe.id = "pipe";
  pipe.diameter = kPipe;
  catalogue.pipes.push_back(pipe);
  job::Animal animal;
  animal.id = "animal";
  animal.least_height = Length::inches(54);
  animal.smallest_bottom_gap = Length::inches(8);
  animal.largest_bottom_gap = Length::inches(24);
  animal.largest_opening = Length::inches(18);
  catalogue.animals.push_back(animal);
  for (const auto& [kind, angle] : {std::pair(job::FittingKind::end, 0), std::pair(job::FittingKind::through, 180), std::pair(job::FittingKind::corner, 90)}) {
    job::Fitting fitting;
    fitting.id = "part " + std::to_string(angle);
    fitting.kind = kind;
    fitting.port_angle_deg = angle;
    fitting.angle_tolerance_deg = angle > 0 ? 5 : 0;
    fitting.tilt_limit_deg = 30;
    fitting.take_off = Length::sixty_fourths(96);
    fitting.bolt_offset = Length::sixty_fourths(48);
    fitting.band_height = Length::sixty_fourths(160);
    fitting.sleeve_depth = Length::inches(3);
    fitting.least_engagement = Length::sixty_fourths(96);
    fitting.price = measure::Money::cents(angle > 0 ? 1300 : 900);
    catalogue.fittings.push_back(fitting);
  }
  return catalogue;
}

// Three rails at 60 in.
inline job::Job three_rails(job::RailLine line = job::RailLine::follow) {
  job::Job drawn;
  job::Fence fence;
  fence.id = "fence";
  fence.animal = "animal";
  fence.height = Length::inches(60);
  fence.line = line;
  fence.rail_pipe = fence.line_pipe = fence.strong_pipe = fence.gate_pipe = "pipe";
  drawn.choices.fences.push_back(fence);
  drawn.site.points = {{"A", {}, {}, {}, ""}, {"B", {}, {}, {}, ""}};
  job::Leg leg;
  leg.id = "a";
  leg.from = "A";
  leg.to = "B";
  leg.fence = "fence";
  drawn.site.legs.push_back(leg);
  return drawn;
}

// Ground heights in metres at the posts; `inside`: further points (station, height).
inline setout::Layout line(const std::vector<double>& ground, Length pitch = Length::feet(8), const std::vector<ground::ProfilePoint>& inside = {}) {
  setout::Layout layout;
  const int bays = static_cast<int>(ground.size()) - 1;
  layout.legs.push_back({{0, 0}, {(pitch * bays).metres(), 0}, pitch * bays, {1, 0}});
  ground::Profile profile;
  profile.source = ground::Source::levelled;
  profile.accuracy = 0.01;
  auto next = inside.begin();
  for (int i = 0; i <= bays; ++i) {
    setout::Post post;
    post.name = "a" + std::to_string(i);
    post.at = {(pitch * i).metres(), 0};
    post.on = {{0, pitch * i}};
    post.diameter = kPipe;
    post.ground = ground[i];
    layout.posts.push_back(post);
    for (; next != inside.end() && next->station < (pitch * i).metres(); ++next) profile.points.push_back(*next);
    profile.points.push_back({(pitch * i).metres(), ground[i]});
    if (i == bays) break;
    setout::Bay bay;
    bay.name = "a." + std::to_string(i + 1);
    bay.from = i;
    bay.to = i + 1;
    bay.start = pitch * i;
    bay.end = pitch * (i + 1);
    bay.pitch = pitch;
    bay.gap = pitch - kPipe;
    layout.bays.push_back(bay);
  }
  layout.profiles.push_back(profile);
  return layout;
}

inline bool told(const Findings& findings, const std::string& code, const std::string& where) {
  for (const Finding& finding : findings)
    if (finding.code == code && finding.where == where) return true;
  return false;
}

inline int count_of(const Findings& findings, const std::string& code) {
  int count = 0;
  for (const Finding& finding : findings) count += finding.code == code;
  return count;
}

}  // namespace railwright::testing_line
