// SPDX-License-Identifier: MIT
#include "engine/fittings/post_parts.h"

#include <algorithm>
#include <cmath>

#include "engine/fittings/bands.h"

namespace railwright::fittings {
namespace {

constexpr int kMostAtOneLevel = 10;  // rails that one choice looks at; a star of more is served in lots

}  // namespace

PartChooser::PartChooser(const job::Catalogue& catalogue, const Meetings& meetings) : catalogue_(catalogue), meetings_(meetings) {
  for (const job::Fitting& fitting : catalogue.fittings) tilt_limits_.push_back(fitting.tilt_limit_deg);
  std::sort(tilt_limits_.begin(), tilt_limits_.end());
}

// Which limits a tilt passes is all that a choice depends on.
std::int64_t PartChooser::tilt_class(double tilt_deg) const {
  return std::lower_bound(tilt_limits_.begin(), tilt_limits_.end(), tilt_deg) - tilt_limits_.begin();
}

PostParts PartChooser::choose(int post, Length post_diameter) {
  PostParts parts;
  const int* const end = meetings_.end(post);
  for (const int* begin = meetings_.begin(post); begin != end;) {
    const int* next = begin + 1;
    while (next != end && next - begin < kMostAtOneLevel && meetings_.at(*next).height - meetings_.at(*begin).height <= kOneLevel) ++next;
    add_level(begin, next, post_diameter, parts);
    begin = next;
  }
  settle(post_diameter, parts);
  return parts;
}

const PartChooser::Known& PartChooser::known(const int* begin, const int* end, Length post_diameter) {
  key_.assign(1, post_diameter.nm());
  for (const int* place = begin; place != end; ++place) {
    const Direction& d = meetings_.at(*place).direction;
    key_.push_back(std::llround(d.away.x * 1e9));
    key_.push_back(std::llround(d.away.y * 1e9));
    key_.push_back(d.rail_diameter.nm());
    key_.push_back(tilt_class(d.tilt_deg));
  }
  const auto found = known_.find(key_);
  if (found != known_.end()) return found->second;
  std::vector<Direction> directions;
  for (const int* place = begin; place != end; ++place) directions.push_back(meetings_.at(*place).direction);
  return known_.emplace(key_, find(post_diameter, std::move(directions))).first->second;
}

// The cover; where tilt forbids all, the cover without tilt limits; where nothing fits, the parts of those that can be served one by one.
PartChooser::Known PartChooser::find(Length post_diameter, std::vector<Direction> directions) const {
  Known known;
  known.cover = cheapest_cover(catalogue_, post_diameter, directions);
  if (!known.cover.possible) {
    known.trouble = Trouble::tilt;
    for (Direction& direction : directions) direction.tilt_deg = 0;
    known.cover = cheapest_cover(catalogue_, post_diameter, directions);
  }
  if (!known.cover.possible) {
    known.trouble = Trouble::none_fits;
    for (int i = 0; i < static_cast<int>(directions.size()); ++i) {
      const Cover one = cheapest_cover(catalogue_, post_diameter, {directions[i]});
      if (one.possible) known.cover.parts.push_back({one.parts[0].fitting, i, -1});
    }
  }
  const auto ports_of = [&](const Part& part) {
    Ports ports{&catalogue_.fittings[part.fitting], {directions[part.first]}};
    if (part.second >= 0) ports.directions.push_back(directions[part.second]);
    return ports;
  };
  const std::vector<Part>& parts = known.cover.parts;
  known.up.resize(parts.size());
  for (std::size_t i = 1; i < parts.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) known.up[i] = max(known.up[i], known.up[j] + least_step(post_diameter, ports_of(parts[j]), ports_of(parts[i])));
  return known;
}

void PartChooser::add_level(const int* begin, const int* end, Length post_diameter, PostParts& parts) {
  const Known& level = known(begin, end, post_diameter);
  std::vector<bool> served(static_cast<std::size_t>(end - begin), false);
  for (std::size_t i = 0; i < level.cover.parts.size(); ++i) {
    const Part& chosen = level.cover.parts[i];
    Band band;
    band.part = {chosen.fitting, begin[chosen.first], chosen.second < 0 ? -1 : begin[chosen.second]};
    band.wish = meetings_.at(band.part.first).height;
    if (chosen.second >= 0) band.wish = band.wish + (meetings_.at(band.part.second).height - band.wish) / 2;
    band.step = i > 0 ? level.up[i] - level.up[i - 1] : Length();
    band.stack = level.cover.parts.size() > 1 ? static_cast<int>(i) + 1 : 0;
    served[chosen.first] = true;
    if (chosen.second >= 0) served[chosen.second] = true;
    parts.bands.push_back(band);
  }
  for (const int* place = begin; place != end; ++place) {
    if (!served[place - begin])
      parts.unserved.push_back(*place);
    else if (level.trouble == Trouble::tilt)
      parts.too_steep.push_back(*place);
  }
}

Ports PartChooser::ports(const Part& part) const {
  Ports ports{&catalogue_.fittings[part.fitting], {meetings_.at(part.first).direction}};
  if (part.second >= 0) ports.directions.push_back(meetings_.at(part.second).direction);
  return ports;
}

// Levels too near each other push each other apart; most posts have none.
void PartChooser::settle(Length post_diameter, PostParts& parts) const {
  std::vector<Band>& bands = parts.bands;
  bool pressed = false;
  for (std::size_t i = 1; i < bands.size(); ++i) {
    if (bands[i].step == Length()) {
      const job::Fitting& below = catalogue_.fittings[bands[i - 1].part.fitting];
      const job::Fitting& here = catalogue_.fittings[bands[i].part.fitting];
      const Length rails = max(meetings_.at(bands[i - 1].part.first).direction.rail_diameter, meetings_.at(bands[i].part.first).direction.rail_diameter);
      const Length ample = max(max(below.band_height, here.band_height), max(max(below.sleeve_diameter, here.sleeve_diameter), rails));
      if (bands[i].wish - bands[i - 1].wish >= ample) continue;
      bands[i].step = least_step(post_diameter, ports(bands[i - 1].part), ports(bands[i].part));
    }
    pressed = pressed || bands[i].wish - bands[i - 1].wish < bands[i].step;
  }
  for (Band& band : bands) band.height = band.wish;
  if (!pressed) return;
  std::vector<Length> wishes, steps;
  for (const Band& band : bands) {
    wishes.push_back(band.wish);
    steps.push_back(band.step);
  }
  const std::vector<Length> heights = spread(wishes, steps);
  for (std::size_t i = 0; i < bands.size(); ++i) bands[i].height = heights[i];
}

}  // namespace railwright::fittings
