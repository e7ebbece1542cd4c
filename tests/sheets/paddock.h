// SPDX-License-Identifier: MIT
#pragma once

#include "engine/plan/plan.h"
#include "sheets/sheets.h"

// A plan laid out by hand, so that the sheets are tested without the rooms that plan: a rectangular paddock with one gate, a water line under it and a slope.
// Invented data.
namespace railwright::sheets::testing {

struct PaddockSize {
  int bays_long = 12, bays_short = 8;  // bays of 7 ft 5 1/4 in
  int rails = 3;
  bool metric = false, measured = false;
  std::string prefix;  // lengthens every name
};

struct Paddock {
  job::Job job;
  Plan plan;
};
Paddock paddock(const PaddockSize& size = {});

// The shipped English words.
Words english();

}  // namespace railwright::sheets::testing
