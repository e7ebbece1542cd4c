// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/fittings/assembly.h"
#include "engine/fittings/cover.h"

namespace railwright::fittings {

// One end of one rail, and what the choice of its part needs to know.
struct Meeting {
  RailEnd end;
  int post = 0;
  Length height;  // of the rail's centre above the datum
  Direction direction;
};

// All rail ends of a layout, grouped by post. Bay b's ends stand at `place(b, rail, at_from)`, whatever the grouping.
class Meetings {
 public:
  Meetings(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights);

  int rails_in(int bay) const { return first_rail_[bay + 1] - first_rail_[bay]; }  // with the brace, which comes last
  bool is_brace(int bay, int k) const { return heights_.bays[bay].has_brace_rail && k + 1 == rails_in(bay); }
  // Index of an end: of rail k (from 0) of a bay.
  int place(int bay, int k, bool at_from) const { return 2 * (first_rail_[bay] + k) + (at_from ? 0 : 1); }
  const Meeting& at(int place) const { return meetings_[place]; }
  int count() const { return static_cast<int>(meetings_.size()); }
  // Places of the ends at a post, from the lowest up.
  const int* begin(int post) const { return order_.data() + first_at_[post]; }
  const int* end(int post) const { return order_.data() + first_at_[post + 1]; }

 private:
  void add_bay(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, int bay, Length bolt_offset);
  void group(int posts);

  const grade::Heights& heights_;
  std::vector<int> first_rail_, first_at_, order_;
  std::vector<Meeting> meetings_;
};

// The pipe that a fence's rails and brace rails are cut from; a wire fence without a rail pipe braces with its strong pipe.
const std::string& rail_pipe_of(const job::Fence& fence);

// Degrees out of level of a line, without sign, rounded to 0.01; 90 where it has no run.
double tilt_deg(Length run, Length rise);

}  // namespace railwright::fittings
