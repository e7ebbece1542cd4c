// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/job.h"

// Jobs drawn from a seed, for the tests that want many: every fence kind, tees, loops, gates, zones, grids, set posts. Not all are sound fences:
// a gate may stand on a corner, legs may cross. The same seed gives the same job on every machine.
namespace railwright::testing {

// SplitMix64 (Steele, Lea, Flood 2014): a few lines, and no std distribution, whose results differ between libraries.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed) {}
  std::uint64_t bits() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ull);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
    return z ^ (z >> 31);
  }
  int from_to(int low, int high) { return low + static_cast<int>(bits() % static_cast<std::uint64_t>(high - low + 1)); }
  bool chance(int percent) { return from_to(1, 100) <= percent; }

 private:
  std::uint64_t state_;
};

inline job::Fence draw_fence(Draw& draw, int number) {
  static const char* kAnimals[] = {"donkey", "horse", "cattle", "goat", "sheep"};
  job::Fence fence;
  fence.id = "f" + std::to_string(number);
  fence.kind = static_cast<job::FenceKind>(draw.from_to(0, 4));
  fence.animal = kAnimals[draw.from_to(0, 4)];
  fence.height = measure::Length::inches(draw.from_to(44, 72));
  fence.rails = fence.kind == job::FenceKind::wire ? 0 : fence.kind == job::FenceKind::rails ? draw.from_to(1, 6) : draw.from_to(1, 2);
  fence.line = static_cast<job::RailLine>(draw.from_to(0, 2));
  fence.spacing.cap = measure::Length::inches(draw.from_to(72, 120));
  fence.spacing.mode = static_cast<job::SpacingMode>(draw.from_to(0, 2));
  if (fence.spacing.mode != job::SpacingMode::equal) fence.spacing.pitch = measure::Length::inches(draw.from_to(70, 100));
  fence.rail_pipe = fence.line_pipe = "2-3/8 sch40";
  fence.strong_pipe = fence.gate_pipe = "2-7/8 sch40";
  fence.setting = draw.chance(70) ? job::Setting::concrete : job::Setting::driven;
  fence.soil = draw.chance(50) ? "sand" : "clay";
  if (fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire) {
    fence.infill.wires = draw.from_to(3, 6);
    fence.infill.tension = measure::pounds_force(250);
  }
  return fence;
}

inline void draw_ground(Draw& draw, job::Site& site) {
  const int way = draw.from_to(0, 2);
  if (way == 0) return;
  site.ground.accuracy = measure::Length::mm(draw.from_to(5, 300));
  if (way == 1) {
    for (int i = draw.from_to(1, 30); i > 0; --i) {
      site.ground.spots.push_back({measure::Length::inches(draw.from_to(-100, 6000)), measure::Length::inches(draw.from_to(-100, 6000)),
                                   measure::Length::mm(draw.from_to(-3000, 3000))});
    }
    return;
  }
  job::GroundGrid grid;
  grid.columns = draw.from_to(3, 20);
  grid.rows = draw.from_to(3, 20);
  grid.west = grid.south = measure::Length::feet(-10);
  grid.cell = measure::Length::feet(draw.from_to(20, 60));
  int height = 0;
  for (int i = grid.columns * grid.rows; i > 0; --i) {
    height += draw.from_to(-200, 200);
    grid.heights_m.push_back(static_cast<float>(height) / 1024.0f);
  }
  site.ground.grid = grid;
}

inline job::Job draw_job(std::uint64_t seed) {
  Draw draw(seed);
  job::Job job;
  job.name = "generated " + std::to_string(seed);
  job.invented = true;
  const int fences = draw.from_to(1, 3);
  for (int i = 1; i <= fences; ++i) job.choices.fences.push_back(draw_fence(draw, i));
  const int points = draw.from_to(2, 9);
  int east = 0, north = 0;
  for (int i = 0; i < points; ++i) {
    job.site.points.push_back({std::string(1, static_cast<char>('A' + i)), measure::Length::inches(east), measure::Length::inches(north), std::nullopt, ""});
    // A walk that turns at will and now and then crosses itself.
    (draw.chance(60) ? east : north) += draw.from_to(draw.chance(20) ? -900 : 60, 1800);
    if (draw.chance(40)) north += draw.from_to(-500, 700);
  }
  const auto add_leg = [&](int a, int b) {
    job::Leg leg;
    leg.from = job.site.points[static_cast<std::size_t>(a)].id;
    leg.to = job.site.points[static_cast<std::size_t>(b)].id;
    leg.id = leg.from + leg.to;
    leg.fence = "f" + std::to_string(draw.from_to(1, fences));
    leg.animal_side = draw.chance(50) ? job::Side::left : job::Side::right;
    job.site.legs.push_back(leg);
  };
  for (int i = 0; i + 1 < points; ++i) add_leg(i, i + 1);
  if (points > 3 && draw.chance(50)) add_leg(points - 1, 0);
  if (points > 4 && draw.chance(30)) add_leg(1, points - 2);
  for (int i = draw.from_to(0, 2); i > 0; --i) {
    job::Gate gate;
    gate.id = "G" + std::to_string(i);
    gate.leg = job.site.legs[static_cast<std::size_t>(draw.from_to(0, static_cast<int>(job.site.legs.size()) - 1))].id;
    gate.station = measure::Length::inches(draw.from_to(100, 900));
    gate.leaf = measure::Length::feet(draw.from_to(1, 4) * 4);
    gate.hinge_clearance = measure::Length::inches(3);
    gate.latch_clearance = measure::Length::inches(2);
    gate.hinge = static_cast<job::LeafEnd>(draw.from_to(0, 2));
    job.site.gates.push_back(gate);
  }
  if (draw.chance(40)) {
    job::Zone zone;
    zone.id = "Z1";
    zone.kind = job::ZoneKind::water;
    zone.tolerance = measure::Length::inches(18);
    const measure::Length x = measure::Length::inches(draw.from_to(200, 1500));
    zone.shape = {{x, measure::Length::feet(-100)}, {x, measure::Length::feet(300)}};
    job.site.zones.push_back(zone);
  }
  draw_ground(draw, job.site);
  static const int kSticks[] = {21, 24, 32};
  for (const char* pipe : {"2-3/8 sch40", "2-7/8 sch40"}) {
    for (int i = draw.from_to(0, 2); i >= 0; --i) {
      job.choices.offers.push_back({std::string(pipe) + " x " + std::to_string(kSticks[i]), pipe, measure::Length::feet(kSticks[i]),
                                    measure::Money::cents(draw.from_to(280, 340) * kSticks[i]), std::nullopt, "invented"});
    }
  }
  job.choices.cutting.work_limit = 50;
  return job;
}

}  // namespace railwright::testing
