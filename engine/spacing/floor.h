// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/spacing/account.h"
#include "engine/spacing/tariff.h"

// How little the things of a run can come to, whatever counts the other runs have.
namespace railwright::spacing {

// What is known of a run with so many bays before its neighbours are: stations, clear gaps, the ground at its posts, the pipes. From that follow
//  * where rails follow the ground, everything at and between its line posts, exactly;
//  * elsewhere a rail is at least as long as level, or (smooth) as a rise of the ground's less twice the line's tolerance makes it, with the parts that take
//    most off its ends; a post at least as high as the lowest line there may be; and the rail ends at a post cost at least their weights: a weight is no more than
//    the cheapest single part, two weights no more than any part that serves both (so whatever cover of the ends is chosen, it costs their sum at least).
// Properties: (1) no layout in which the run has this count, and no run has a fault more than by the plain rule, needs less pipe piece by piece, or less of the
// rest; (2) what belongs to a leg whose built parts have no issued names counts as nothing: names, and so what is built, move with the counts there.
class Floor {
 public:
  // `may_stop`: by owner (the last for what is shared), whether findings that stop are admitted: pieces that may be too long for every stick may then be left out.
  Floor(const Site& site, const Tariff& tariff, const Trial& trial, const Owners& owners, std::vector<char> may_stop);

  // Nothing can be said of this bay, this post.
  bool loose_bay(int bay) const { return loose_leg_[static_cast<std::size_t>(trial_.layout.bays[static_cast<std::size_t>(bay)].leg)] != 0; }
  bool loose_post(int post) const;
  // A filler rail, which hangs only where the line leaves room for it.
  bool uncertain(const fittings::Rail& rail) const;
  // The length to be cut at least; zero: it may be left out.
  Length rail(const fittings::Rail& rail, Length longest) const;
  Length post(int post, Length longest) const;
  // Fittings of the rail ends at a post, with their bolts and minutes. `whole`: what they cost in this layout.
  Money fittings(int post, const std::vector<char>& bay_remains, Money whole) const;

 private:
  // The rails of one bay that end at a post.
  struct Arm {
    int bay = 0;
    measure::Vec2 away;
    Length rail_diameter;
    std::int64_t ends = 0;
    bool curved = false;
  };

  bool shared(int post) const;
  bool exact_post(int post) const;
  bool exact_bay(int bay) const;
  const job::Fence& fence_of_bay(int bay) const;
  Length rail_diameter(int bay) const;
  std::vector<const job::Fitting*> candidates(Length post_diameter, Length rail_diameter) const;
  Length least_rise(int bay) const;
  Length stack_room() const;
  bool served(Length post_diameter, Length rail_diameter) const;
  double least_line(int bay, int post) const;
  bool apart(int post, int one, int other) const;
  Length least_top(int post) const;
  std::vector<Arm> arms_of(int post, const std::vector<char>& bay_remains) const;
  std::vector<Money> weights(int post, const std::vector<Arm>& arms) const;
  void find_loose_legs();

  const Site& site_;
  const Tariff& tariff_;
  const Trial& trial_;
  const Owners& owners_;
  std::vector<char> may_stop_, loose_leg_;
  std::vector<std::vector<int>> bays_at_;  // by post, without gates
};

}  // namespace railwright::spacing
