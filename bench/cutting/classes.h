// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/cutting/cutting.h"

// Instance classes for the cutting benchmark. The published bin-packing classes are generated anew by the rules of their papers
// (their data files are not in any package registry); every instance is fixed by its class, number and draw.
namespace railwright::bench {

struct Case {
  std::string name;
  cutting::Instance instance;
};

struct Class {
  std::string name;
  std::string rule;        // how it is made and where the rule comes from
  double seconds = 10;     // time allowed by the benchmark's target
  std::uint64_t draw = 0;  // other numbers give other instances by the same rule
  std::vector<Case> cases;
};

std::vector<std::string> class_names();
Class make_class(const std::string& name, std::uint64_t draw = 0);

}  // namespace railwright::bench
