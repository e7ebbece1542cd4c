// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/master.h"

namespace railwright::cutting {

// The best plan so far.
struct Incumbent {
  Solution best;
  std::int64_t ceiling = INT64_MAX;  // every plan costs less
  std::int64_t cutoff() const { return best.found ? best.cost : ceiling; }
  bool offer(const Model& model, std::vector<Use> uses);
};

// Rounds the linear program to plans: whole parts of the patterns in use are taken, then the program is solved again for what is
// left, and where no pattern has a whole part the largest fraction is rounded up. After every step greedy completes the plan, so that
// each step may improve the incumbent. `variant` 0 takes the largest fractions; others choose differently, by fixed rules.
struct Dive {
  const Model& model;
  Budget& budget;
  Incumbent& incumbent;
  double gap = 1e-5;             // precision of the programs on the way
  std::vector<Use> before = {};  // sticks already cut, not part of the task

  void run(const Master& root, Task task, int variant);
};

}  // namespace railwright::cutting
