// SPDX-License-Identifier: MIT
#include "engine/stakeout/stakes.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/along.h"
#include "engine/ground/geodesy.h"

namespace railwright::stakeout {
namespace {

constexpr Length kStep = Length::from_nm(10'000);  // a hundredth of a millimetre: below it an offset is rounding

// How far a post's centre stands from the line of the leg, towards the animals.
Length off_line(const setout::LegPlace& leg, const setout::Post& post, job::Side animals) {
  const double right = leg.off_line(post.at);
  return Length::from_metres(animals == job::Side::right ? right : -right).round_to(kStep);
}

void add_tape(const setout::Layout& layout, LegStakes& leg) {
  const auto index = static_cast<std::size_t>(leg.leg);
  const ground::Profile level;
  const ground::GroundTape tape(index < layout.profiles.size() ? layout.profiles[index] : level);
  const double start = leg.stakes.empty() ? 0 : tape.reading(leg.stakes.front().station.metres());
  for (Stake& stake : leg.stakes) stake.tape = Length::from_metres(tape.reading(stake.station.metres()) - start);
  leg.tape = Length::from_metres(tape.reading(leg.level.metres()));
}

// Straight from the post before: on a curve the chord.
void add_pitch(const setout::Layout& layout, LegStakes& leg) {
  const setout::LegPlace& place = layout.legs[static_cast<std::size_t>(leg.leg)];
  for (std::size_t i = 1; i < leg.stakes.size(); ++i) leg.stakes[i].from_before = place.chord_of(leg.stakes[i].station - leg.stakes[i - 1].station);
}

// The string touches the face that stands out farthest from the line of centres on its side.
void add_string(const setout::Layout& layout, job::Side animals, LegStakes& leg) {
  const setout::LegPlace& place = layout.legs[static_cast<std::size_t>(leg.leg)];
  std::vector<Length> inwards;
  Length string;
  for (const Stake& stake : leg.stakes) {
    const setout::Post& post = layout.posts[static_cast<std::size_t>(stake.post)];
    inwards.push_back(off_line(place, post, animals));
    string = measure::max(string, post.diameter / 2 - inwards.back());
  }
  for (std::size_t i = 0; i < leg.stakes.size(); ++i) {
    Stake& stake = leg.stakes[i];
    stake.string_to_centre = string + inwards[i];
    stake.string_to_face = stake.string_to_centre - layout.posts[static_cast<std::size_t>(stake.post)].diameter / 2;
  }
}

std::vector<LegStakes> by_leg(const setout::Layout& layout) {
  std::vector<LegStakes> legs(layout.legs.size());
  for (std::size_t i = 0; i < legs.size(); ++i) {
    legs[i].leg = static_cast<int>(i);
    legs[i].level = layout.legs[i].length;
  }
  for (std::size_t post = 0; post < layout.posts.size(); ++post) {
    for (const setout::OnLeg& on : layout.posts[post].on) {
      Stake stake;
      stake.post = static_cast<int>(post);
      stake.station = on.station;
      legs[static_cast<std::size_t>(on.leg)].stakes.push_back(stake);
    }
  }
  for (LegStakes& leg : legs) {
    std::sort(leg.stakes.begin(), leg.stakes.end(),
              [](const Stake& a, const Stake& b) { return a.station != b.station ? a.station < b.station : a.post < b.post; });
  }
  return legs;
}

std::vector<GeoPost> places_of(const job::Site& site, const setout::Layout& layout) {
  if (!site.origin) return {};
  const auto plane = ground::LevelPlane::about(*site.origin);
  if (!plane) return {};
  const auto grid = [](double degrees) { return std::round(degrees * 1e8) / 1e8; };
  std::vector<GeoPost> places;
  for (const setout::Post& post : layout.posts) {
    const ground::GeoPlace at = plane->to_earth(post.at);
    places.push_back({grid(at.latitude_deg), grid(at.longitude_deg)});
  }
  return places;
}

}  // namespace

StakeOut stake_out(const job::Site& site, const setout::Layout& layout) {
  StakeOut result{by_leg(layout), places_of(site, layout)};
  for (LegStakes& leg : result.legs) {
    const auto index = static_cast<std::size_t>(leg.leg);
    const job::Side animals = index < site.legs.size() ? site.legs[index].animal_side : job::Side::left;
    leg.string_side = animals == job::Side::left ? job::Side::right : job::Side::left;
    add_tape(layout, leg);
    add_pitch(layout, leg);
    add_string(layout, animals, leg);
  }
  return result;
}

}  // namespace railwright::stakeout
