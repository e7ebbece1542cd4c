// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "engine/fittings/meetings.h"

namespace railwright::fittings {

// Rails this near in height share a level (common practice, no source).
inline constexpr Length kOneLevel = Length::sixty_fourths(16);

// A part with its place on its post.
struct Band {
  Part part;            // `first`, `second`: places in Meetings
  Length wish, height;  // of the middle, above the datum
  Length step;          // least distance above the band before it
  int stack = 0;
};

enum class Trouble { none, tilt, none_fits };

struct PostParts {
  std::vector<Band> bands;     // bottom up
  std::vector<int> unserved;   // places of ends that no part fits
  std::vector<int> too_steep;  // places of ends whose part's tilt limit had to be passed over
};

// Chooses parts post by post and remembers choices: posts along a line repeat.
class PartChooser {
 public:
  PartChooser(const job::Catalogue& catalogue, const Meetings& meetings);
  PostParts choose(int post, Length post_diameter);

 private:
  struct Known {
    Cover cover;
    Trouble trouble = Trouble::none;
    std::vector<Length> up;
  };

  void add_level(const int* begin, const int* end, Length post_diameter, PostParts& parts);
  const Known& known(const int* begin, const int* end, Length post_diameter);
  Known find(Length post_diameter, std::vector<Direction> directions) const;
  void settle(Length post_diameter, PostParts& parts) const;
  Ports ports(const Part& part) const;
  std::int64_t tilt_class(double tilt_deg) const;

  const job::Catalogue& catalogue_;
  const Meetings& meetings_;
  std::vector<double> tilt_limits_;
  std::map<std::vector<std::int64_t>, Known> known_;
  std::vector<std::int64_t> key_;
};

}  // namespace railwright::fittings
