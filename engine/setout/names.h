// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "engine/job/job.h"
#include "engine/setout/layout.h"

namespace railwright::setout {

// Gives posts and bays names that stay. A name once issued belongs to its place (a post: leg and station within 1 mm; a bay: its two posts) and comes back with
// it; it is never given to anything else, and a retired name never at all.
// New names count along the leg: `<leg><n>`, `<leg>.<n>`, from 1 or on from the highest number issued on that leg.
class Namer {
 public:
  explicit Namer(const job::Job& job);

  // Stations of issued line posts strictly between two posts of a leg, ascending.
  std::vector<Length> issued_between(const std::string& leg, Length start, Length end) const;
  // Names the unnamed posts among posts[first ..], all on this leg and ascending.
  void name_posts(const std::string& leg, std::size_t first, std::vector<Post>& posts);
  // Names bays[first ..], all on this leg and ascending.
  void name_bays(const std::string& leg, std::size_t first, std::vector<Bay>& bays, const std::vector<Post>& posts);

  bool post_issued(const std::string& name) const { return issued_posts_.count(name) != 0; }
  bool bay_issued(const std::string& name) const { return issued_bays_.count(name) != 0; }

 private:
  struct Place {
    Length station;
    int issued = 0;  // index into Issued::posts
    bool used = false;
  };
  void take_issued_posts(const job::Job& job);
  void take_issued_bays(const job::Job& job);
  // True when another leg's names could read the same: legs `A` and `A1` both have an A11.
  bool may_collide(const std::string& leg) const;

  const job::Job& job_;
  std::unordered_set<std::string> legs_;
  std::unordered_set<std::string> stems_;                     // leg names without their last digits, each stage
  std::unordered_set<std::string> taken_posts_, taken_bays_;  // never given again
  std::unordered_set<std::string> issued_posts_, issued_bays_;
  std::unordered_map<std::string, std::vector<Place>> places_;                // by leg, by station
  std::unordered_map<std::string, std::string> bay_of_;                       // by the names of its posts
  std::unordered_map<std::string, std::int64_t> highest_post_, highest_bay_;  // by prefix
};

}  // namespace railwright::setout
