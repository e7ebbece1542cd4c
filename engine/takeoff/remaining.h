// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <string>
#include <vector>

#include "engine/fittings/assembly.h"
#include "engine/job/job.h"
#include "engine/setout/layout.h"

// What is still to be done, by the field's reports.
namespace railwright::takeoff {

class Remaining {
 public:
  Remaining(const job::Job& job, const setout::Layout& layout);

  bool bay(int index) const { return bays_[static_cast<std::size_t>(index)] != 0; }
  bool post(int index) const { return posts_[static_cast<std::size_t>(index)] != 0; }
  bool rail(const fittings::Rail& rail) const { return bay(rail.bay) && cut_.count(rail.name) == 0; }
  bool gate(const std::string& id) const { return done_.count(id) == 0; }
  // A fitting is needed while any rail end that it serves belongs to a bay still to be bolted.
  bool use(const fittings::Use& use) const;

 private:
  std::vector<char> bays_, posts_;
  std::set<std::string> done_, cut_;
};

}  // namespace railwright::takeoff
