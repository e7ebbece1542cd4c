// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "engine/fittings/cover.h"
#include "engine/grade/levels.h"
#include "engine/spacing/account.h"
#include "engine/spacing/tariff.h"

// The ways in which rails held level may step inside a run, whatever its neighbours do.
namespace railwright::spacing {

// What one way needs at least between the end posts of the run; lengths ascending. Fittings with their bolts and minutes.
struct StepWay {
  Money fittings;
  std::vector<Length> posts, rails;
};

// Levels are drawn along a chain of runs and begin as late as they may (grade/levels.h). What comes into a run from its neighbour is one level; it reaches over
// some of the first bays, perhaps none, perhaps all, and from there every level of the run follows, whatever came before. So there are few ways, each with known
// steps: all is exact but the height of the level that comes in, which clears the highest ground of the bays it reaches over.
class Steps {
 public:
  Steps(const Site& site, const Tariff& tariff, const Trial& trial, std::vector<char> may_stop);

  // By run. Empty where nothing exact can be said: rails that are not level, curves, braces, mends, something built, findings that stop, parts that do not fit.
  const std::vector<StepWay>& ways(std::size_t run) const { return ways_[run]; }

 private:
  struct Place;
  struct Fit;
  struct Parts;
  struct Held;
  struct Meet;

  bool plain_run(const setout::Run& run) const;
  void add_ways(std::size_t run, bool reversed, bool opens_chain);
  Fit fit_of(Length post_diameter, const std::vector<fittings::Direction>& directions, const std::vector<int>& side) const;
  static Fit either(const Fit& a, const Fit& b);
  Length most_off(int post, Length rail_diameter) const;
  Place place_of(const setout::Run& run, bool reversed) const;
  std::optional<Parts> parts_of(const Place& place) const;
  std::vector<Held> levels(const Place& place, std::size_t entry) const;
  static Meet inside_level(const Place& place, const Parts& parts, const Held& level);
  static Meet at_step(const Place& place, const Parts& parts, const Held& before, const Held& after);
  Length post_length(int post, Length top) const;
  Length rail_length(int bay, Length off) const;
  StepWay way(const Place& place, const Parts& parts, std::size_t entry) const;

  const Site& site_;
  const Tariff& tariff_;
  const Trial& trial_;
  std::vector<char> may_stop_;
  std::vector<std::vector<StepWay>> ways_;
};

// What every one of the ways needs: no way is cheaper in fittings, none has fewer or shorter pieces.
StepWay least_of(const std::vector<StepWay>& ways);

}  // namespace railwright::spacing
