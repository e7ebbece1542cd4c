// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>

#include "engine/plan/check_parts.h"
#include "engine/strength/embedment.h"
#include "engine/strength/wind.h"
#include "engine/takeoff/orders.h"

namespace railwright {

namespace {

using measure::Force;
using measure::Length;
using measure::Moment;

// Height at which an animal pushes: the top rail, near enough the post's top less what it stands above its band.
Length push_height(const CheckBench& bench, int post) { return measure::max(bench.size(post).above_ground - bench.job.choices.projection, Length()); }

// Posts still to be set that belong to a fence, by pipe. What stands already stands at a depth we do not know.
std::map<std::string, std::vector<int>> posts_by_pipe(const CheckBench& bench, int fence) {
  std::map<std::string, std::vector<int>> by_pipe;
  for (int k = 0; k < static_cast<int>(bench.posts.size()); ++k) {
    const setout::Post& post = bench.post(k);
    if (post.fence == fence && !post.set) by_pipe[post.pipe].push_back(k);
  }
  return by_pipe;
}

int tallest(const CheckBench& bench, const std::vector<int>& posts) {
  return *std::max_element(posts.begin(), posts.end(), [&](int a, int b) { return push_height(bench, a) < push_height(bench, b); });
}

// The post that the soil holds least.
int loosest(const CheckBench& bench, const std::vector<int>& posts, double soil) {
  const auto held = [&](int k) {
    return strength::resisted_push(bench.size(k).embedment, push_height(bench, k), bearing_width(bench.post(k), bench.size(k)), soil).si();
  };
  int worst = posts.front();
  double least = held(worst);
  for (const int k : posts) {
    const double now = held(k);
    if (now >= least) continue;
    least = now;
    worst = k;
  }
  return worst;
}

void add_embedment(CheckBench& bench, const std::string& code, int post, Force push, Length height, double soil) {
  const takeoff::PostSize& size = bench.size(post);
  const Length width = bearing_width(bench.post(post), size);
  const strength::Embedment needed = strength::nonconstrained({push, height, width}, soil);
  bench.add({code,
             bench.post(post).name,
             needed.depth_m,
             size.embedment.metres(),
             0,
             "m",
             "d = A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 P/(S1 b)",
             "IBC 1807.3.2.1, Table 1806.2",
             false,
             {{"push", ForceValue{push.si()}}, {"height", value_of(height)}, {"width", value_of(width)}, {"depth", value_of(size.embedment)}}});
}

// Area of pipe and wires seen from the front, over the gross area. Mesh and panels are taken as wires 2 in and 4 in apart, two ways.
double solid_share(const job::Catalogue& catalogue, const job::Fence& fence) {
  const job::Pipe* rail = catalogue.pipe(fence.rail_pipe);
  const job::Supply* supply = catalogue.supply(fence.infill.supply);
  const double tall = fence.height.metres();
  if (tall <= 0) return 0;
  double solid = rail == nullptr ? 0 : fence.rails * rail->diameter.metres() / tall;
  if (fence.kind == job::FenceKind::rails) return std::min(solid, 1.0);
  const double wire = wire_diameter_mm(supply) * 1e-3;
  if (fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire) return std::min(solid + takeoff::wires_of(fence) * wire / tall, 1.0);
  const Length infill = fence.infill.height.nm() > 0 ? fence.infill.height : supply == nullptr ? fence.height : supply->width;
  solid += std::min(infill / fence.height, 1.0) * (wire / (2 * measure::kMetrePerInch) + wire / (4 * measure::kMetrePerInch));
  return std::min(solid, 1.0);
}

Length longest_pitch(const setout::Layout& layout, int fence) {
  Length longest;
  for (const setout::Bay& bay : layout.bays) {
    if (bay.fence == fence && bay.kind != setout::BayKind::gate) longest = measure::max(longest, bay.pitch);
  }
  return longest;
}

// Wind on a post's share of fence: allowable-stress level. K_zt = 1: flat ground; K_d = 0.85 of open signs and single-plane
// open frames (ASCE 7-16 Table 26.6-1, from memory).
Force wind_on_post(const CheckBench& bench, const job::Fence& fence, double solid, Length pitch) {
  const job::Pipe* rail = bench.catalogue.pipe(fence.rail_pipe);
  const double k_z = strength::exposure_coefficient(strength::Exposure::C, fence.height);
  const measure::Pressure q = strength::velocity_pressure(k_z, 1, 0.85, bench.rules.wind_mph);
  const double c_f = strength::lattice_coefficient(strength::LatticeMember::round, solid, rail == nullptr ? Length() : rail->diameter, q);
  const measure::Pressure least = measure::psf(16) * solid;  // the standard's minimum on the solid area (ASCE 7-16 chapter 29, from memory)
  const measure::Pressure p = std::max(strength::pressure_on_open_frame(q, c_f, solid), least);
  return Force::si(bench.rules.wind_factor * p.si() * fence.height.metres() * pitch.metres());
}

}  // namespace

void check_posts(CheckBench& bench, int index) {
  const job::Fence& fence = bench.job.choices.fences[static_cast<std::size_t>(index)];
  const job::Animal* animal = bench.catalogue.animal(fence.animal);
  const auto by_pipe = posts_by_pipe(bench, index);
  if (animal == nullptr || by_pipe.empty()) return;
  const double soil = soil_of(bench.catalogue, fence, true);
  if (!(soil > 0)) bench.note("checks.no_soil", fence.id);
  for (const auto& [id, posts] : by_pipe) {
    const auto pipe = checked_pipe(bench.catalogue, id);
    if (!pipe) continue;
    const int tall = tallest(bench, posts);
    const Length height = push_height(bench, tall);
    bench.add({"post_bending",
               bench.post(tall).name,
               animal->push.si() * height.metres(),
               pipe->allowable.si(),
               0,
               "N m",
               "P h <= Fy Z/1.67",
               "AISC 360 F8",
               false,
               {{"push", ForceValue{animal->push.si()}}, {"height", value_of(height)}, {"pipe", id}}});
    if (!(soil > 0)) continue;
    const int loose = loosest(bench, posts, soil);
    add_embedment(bench, "post_embedment", loose, animal->push, push_height(bench, loose), soil);
  }
}

void check_wind(CheckBench& bench, int index) {
  const job::Fence& fence = bench.job.choices.fences[static_cast<std::size_t>(index)];
  std::vector<int> line;
  for (const auto& [pipe, posts] : posts_by_pipe(bench, index)) {
    for (const int k : posts) {
      if (takeoff::role(bench.post(k)) == takeoff::PostRole::line) line.push_back(k);
    }
  }
  const double solid = solid_share(bench.catalogue, fence);
  if (line.empty() || !(solid > 0) || !(bench.rules.wind_mph > 0)) return;
  const Length pitch = longest_pitch(bench.layout, index);
  const Force wind = wind_on_post(bench, fence, solid, pitch);
  const int tall = tallest(bench, line);
  const auto pipe = checked_pipe(bench.catalogue, bench.post(tall).pipe);
  const Length middle = fence.height / 2;
  if (pipe) {
    bench.add({"post_wind",
               bench.post(tall).name,
               wind.si() * middle.metres(),
               pipe->allowable.si(),
               0,
               "N m",
               "0.6 q G Cf e H L (H/2) <= Fy Z/1.67",
               "ASCE 7-16 Table 29.4-2, AISC 360 F8",
               false,
               {{"wind", ForceValue{wind.si()}}, {"solid", solid}, {"pitch", value_of(pitch)}}});
  }
  const double soil = soil_of(bench.catalogue, fence, true);
  if (soil > 0) add_embedment(bench, "post_wind_embedment", loosest(bench, line, soil), wind, middle, soil);
}

}  // namespace railwright
