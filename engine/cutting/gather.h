// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "engine/cutting/budget.h"
#include "engine/cutting/model.h"

namespace railwright::cutting {

// Fits pieces into a given number of sticks of each type, starting from a plan that uses others: a local search on fillings.
//
// The sticks that are too many are taken apart and their pieces laid aside. What is then wasted on the sticks that stay is gathered: up
// to a few pieces of one stick are exchanged for pieces of another so that the first is filled better and its waste moves on to the second,
// where it meets the waste of others. Waste that cannot merge wanders from stick to stick, since exact exchanges abound where
// there are many lengths. Wherever enough has come together a piece that was laid aside goes in, or is exchanged for a shorter one. (The idea of filling
// a fixed number of bins while a set of unassigned items shrinks is that of Buljubasic and Vasquez 2016, from memory; the moves are this library's own.)
class Gather {
 public:
  Gather(const Model& model, Budget& budget, std::uint64_t seed) : model_(model), budget_(budget), random_(seed * 2 + 1) {}

  // True when every piece found a place within `steps` exchanges; `plan` then holds the new fillings, otherwise it is left alone.
  bool run(const std::vector<std::int64_t>& sticks, std::int64_t steps, std::vector<Use>& plan);

 private:
  struct Part {  // some pieces of a filling
    std::int64_t sum = 0;
    std::uint32_t mask = 0;
  };
  struct Filling {
    int type = 0;
    std::int64_t waste = 0;
    std::vector<int> pieces;  // sorts, longest first
    std::vector<Part> parts;  // by sum; the first is empty
    int spot = -1;            // where `wasteful_` names it, -1
  };
  struct Move {
    std::int64_t shift = 0;  // waste that moves
    std::uint32_t from = 0, to = 0;
  };

  void lay_out(std::vector<std::int64_t> sticks, const std::vector<Use>& plan);
  void fill_empty();
  void list_parts(Filling& filling) const;
  void changed(int f);
  Move best_move(const Filling& from, const Filling& to, std::int64_t most);
  void exchange(int a, int b, const Move& move);
  bool step();
  bool merge(int f);
  bool wander(int f);
  bool take_in(int f);
  bool trade_in(int f);
  std::size_t draw(std::uint64_t below);
  std::vector<Use> result() const;

  const Model& model_;
  Budget& budget_;
  std::uint64_t random_;
  std::int64_t looked_ = 0;
  std::vector<Filling> fillings_;
  std::vector<int> wasteful_;
  std::vector<Use> untouched_;
  std::vector<int> aside_;  // sorts of pieces without a place, longest first
};

}  // namespace railwright::cutting
