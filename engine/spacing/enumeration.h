// SPDX-License-Identifier: MIT
#pragma once

#include <queue>
#include <utility>
#include <vector>

#include "engine/cutting/wide.h"

// Choices of one element from each list in ascending order of their sums.
namespace railwright::spacing {

using cutting::Wide;

class Enumeration {
 public:
  // A list of (number, element), to be sorted here; `run`: what it stands for. Lists are not empty.
  struct List {
    std::size_t run = 0;
    std::vector<std::pair<Wide, int>> items;
  };
  explicit Enumeration(std::vector<List> lists);

  bool done() const { return queue_.empty(); }
  Wide sum() const { return queue_.top().sum; }  // of the choice to come, above the sum of the lists' least
  // The elements of the choice to come are written over `choice` at their runs, and it is passed.
  void next(std::vector<int>& choice);

 private:
  // Places taken in the lists up to `list`; later lists stand at their first place.
  struct State {
    Wide sum = 0;
    std::size_t list = 0;
    std::vector<int> at;
  };
  struct Later {
    bool operator()(const State& a, const State& b) const { return a.sum != b.sum ? a.sum > b.sum : a.at > b.at; }
  };
  void push(std::vector<int> at, std::size_t list, int place);

  std::vector<List> lists_;
  std::priority_queue<State, std::vector<State>, Later> queue_;
};

}  // namespace railwright::spacing
