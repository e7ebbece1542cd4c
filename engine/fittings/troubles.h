// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "engine/fittings/meetings.h"

namespace railwright::fittings {

// What went wrong while parts were chosen; alike troubles are counted and told once, at the first place.
class Troubles {
 public:
  void none_fits(Length post_diameter, int post, const Meeting& meeting);
  void too_steep(const Meeting& meeting);
  void shifted(int post, Length shift);
  void too_short(const std::string& rail, Length length, Length engaged);
  // Rails already cut against the sleeves they must go into.
  void check_rails(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const Assembly& assembly, Findings& findings);
  void report(const setout::Layout& layout, Findings& findings) const;

 private:
  struct None {
    int post = 0;
    std::int64_t count = 0;
    double tilt = 0;
  };
  struct Steep {
    int bay = 0;
    std::int64_t count = 0;
    double tilt = 0;
  };
  std::map<std::pair<Length, Length>, None> none_;  // post and rail diameter
  std::map<int, Steep> steep_;                      // by bay, counted by rail end
  std::vector<std::pair<int, Length>> shifts_;
  Findings short_;
};

}  // namespace railwright::fittings
