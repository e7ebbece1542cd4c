// SPDX-License-Identifier: MIT
#include "wasm/drawing.h"

#include <cmath>

#include "engine/ground/profile.h"

namespace railwright::wasm {
namespace {

using Json = nlohmann::ordered_json;

// A whole number where it is one: shorter text for the page to read.
Json tenth(double metres) {
  const double tenths = std::floor(metres * 10000 + 0.5);
  const double whole = std::floor(tenths / 10);
  if (whole * 10 == tenths) return static_cast<std::int64_t>(whole);
  return tenths / 10;
}

Json posts(const Plan& plan) {
  Json names = Json::array(), kinds = Json::array(), at = Json::array();
  for (std::size_t i = 0; i < plan.layout.posts.size(); ++i) {
    const setout::Post& post = plan.layout.posts[i];
    names.push_back(post.name);
    kinds.push_back(static_cast<int>(post.kind));
    const bool sized = i < plan.takeoff.posts.size();
    const double top = sized ? post.ground + plan.takeoff.posts[i].above_ground.metres() : post.ground;
    for (const double value : {post.at.x, post.at.y, post.ground, post.diameter.metres(), top}) at.push_back(tenth(value));
  }
  return {{"name", std::move(names)}, {"kind", std::move(kinds)}, {"at", std::move(at)}};
}

Json rail_heights(const Plan& plan, std::size_t bay) {
  Json heights = Json::array();
  if (bay >= plan.heights.bays.size()) return heights;
  for (const grade::RailEnds& rail : plan.heights.bays[bay].rails) {
    heights.push_back(tenth(rail.from.metres()));
    heights.push_back(tenth(rail.to.metres()));
  }
  return heights;
}

Json bays(const Plan& plan) {
  Json names = Json::array(), kinds = Json::array(), ends = Json::array(), rails = Json::array();
  for (std::size_t i = 0; i < plan.layout.bays.size(); ++i) {
    const setout::Bay& bay = plan.layout.bays[i];
    names.push_back(bay.name);
    kinds.push_back(static_cast<int>(bay.kind));
    for (const int value : {bay.from, bay.to, bay.leg}) ends.push_back(value);
    rails.push_back(rail_heights(plan, i));
  }
  return {{"name", std::move(names)}, {"kind", std::move(kinds)}, {"ends", std::move(ends)}, {"rails", std::move(rails)}};
}

// Of the zones that a stretch of a leg gives; the others are drawn from the job.
Json zone_lines(const Plan& plan) {
  Json zones = Json::array();
  for (const job::Zone& zone : plan.layout.zones) {
    Json line = Json::array();
    if (!zone.leg.empty()) {
      for (const auto& [east, north] : zone.shape)
        for (const measure::Length value : {east, north}) line.push_back(tenth(value.metres()));
    }
    zones.push_back(std::move(line));
  }
  return zones;
}

Json ground_lines(const job::Job& job) {
  Findings unused;  // the plan reports them
  Json legs = Json::array();
  for (const ground::Profile& profile : ground::profiles(job.site, unused)) {
    Json line = Json::array();
    for (const ground::ProfilePoint& point : profile.points) {
      line.push_back(tenth(point.station));
      line.push_back(tenth(point.height));
    }
    legs.push_back(std::move(line));
  }
  return legs;
}

std::int64_t count(const Findings& findings, Severity severity) {
  std::int64_t number = 0;
  for (const Finding& finding : findings) number += finding.severity == severity ? 1 : 0;
  return number;
}

}  // namespace

nlohmann::ordered_json totals(const Plan& plan) {
  std::int64_t sticks = 0;
  measure::Money cost;
  for (const takeoff::PipeCuts& pipe : plan.cuts) {
    sticks += pipe.plan.sticks_used;
    cost += pipe.plan.cost;
  }
  return {{"posts", plan.layout.posts.size()},
          {"bays", plan.layout.bays.size()},
          {"rails", plan.assembly.rails.size()},
          {"sticks", sticks},
          {"cost", measure::decimal_text(cost)},
          {"total", measure::decimal_text(plan.takeoff.price.total)},
          {"currency", plan.takeoff.price.currency},
          {"hours", std::floor(plan.takeoff.person_hours * 10 + 0.5) / 10},
          {"stops", count(plan.findings, Severity::stop)},
          {"warnings", count(plan.findings, Severity::warning)}};
}

nlohmann::ordered_json drawing(const job::Job& job, const Plan& plan) {
  return {{"posts", posts(plan)}, {"bays", bays(plan)}, {"ground", ground_lines(job)}, {"zones", zone_lines(plan)}};
}

}  // namespace railwright::wasm
