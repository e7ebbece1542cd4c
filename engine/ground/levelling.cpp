// SPDX-License-Identifier: MIT
#include "engine/ground/levelling.h"

#include <cmath>

namespace railwright::ground {
namespace {

bool sound(const std::optional<double>& reading) { return !reading || (std::isfinite(*reading) && std::abs(*reading) < 1e6); }

Result<void> check(const std::vector<LevelSight>& sights) {
  if (sights.empty()) return fail("levels.empty");
  if (!sights.front().known) return fail("levels.no_start", "1");
  for (std::size_t i = 0; i < sights.size(); ++i) {
    const LevelSight& s = sights[i];
    const std::string place = std::to_string(i + 1);
    if (s.intermediate && s.foresight) return fail("levels.two_readings", place);
    if (!sound(s.backsight) || !sound(s.intermediate) || !sound(s.foresight) || !sound(s.known)) {
      return fail("levels.not_finite", place);
    }
  }
  return {};
}

// Set-ups made before each point's height was read: its share of the misclosure.
struct Reduction {
  Levelled result;
  std::vector<int> setups_before;
};

Result<Reduction> reduce(const std::vector<LevelSight>& sights) {
  Reduction r;
  std::optional<double> instrument;
  double height = *sights.front().known;
  for (std::size_t i = 0; i < sights.size(); ++i) {
    const LevelSight& s = sights[i];
    const auto reading = s.foresight ? s.foresight : s.intermediate;
    if (reading && !instrument) return fail("levels.no_instrument", std::to_string(i + 1));
    if (reading) height = *instrument - *reading;
    r.setups_before.push_back(r.result.setups);
    LevelledPoint point{s.point, height, height, {}};
    if (s.foresight) r.result.foresights += *s.foresight;
    if (s.backsight) {
      instrument = height + *s.backsight;
      point.instrument = instrument;
      r.result.backsights += *s.backsight;
      ++r.result.setups;
    }
    r.result.points.push_back(std::move(point));
  }
  return r;
}

// Height that the last foresight should have found, if anything is known of it.
std::optional<double> known_end(const std::vector<LevelSight>& sights, std::size_t last) {
  if (last == 0) return std::nullopt;
  if (sights[last].known) return sights[last].known;
  if (!sights[last].point.empty() && sights[last].point == sights.front().point) return sights.front().known;
  return std::nullopt;
}

}  // namespace

Result<Levelled> reduce_levels(const std::vector<LevelSight>& sights, double per_setup) {
  if (const auto good = check(sights); !good) return tl::unexpected(good.error());
  auto reduction = reduce(sights);
  if (!reduction) return tl::unexpected(reduction.error());
  Levelled& result = reduction->result;
  std::size_t last = sights.size() - 1;
  while (last > 0 && !sights[last].foresight) --last;
  result.allowed = per_setup * std::sqrt(static_cast<double>(result.setups));
  if (const auto known = known_end(sights, last)) {
    result.closed = true;
    result.misclosure = result.points[last].raw - *known;
    const int setups = reduction->setups_before[last];
    for (std::size_t i = 0; i < result.points.size() && setups > 0; ++i) {
      result.points[i].height = result.points[i].raw - result.misclosure * reduction->setups_before[i] / setups;
    }
  }
  return std::move(result);
}

}  // namespace railwright::ground
