// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "engine/spacing/table.h"

// What the pipe of a choice costs, by cutting it.
namespace railwright::spacing {

// A piece as it is cut: longer by the scatter where it grows, but never longer than a stick gives where it fitted before.
Length grown(const Piece& piece, Length scatter, const PipeStock& pipe);

using Pieces = std::vector<std::pair<Length, std::int64_t>>;  // ascending lengths and their numbers

// Cost and a bound below it.
struct Priced {
  Money cost, bound;
  bool found = true;  // false: the counted sticks do not suffice
};

// How finely lengths are told apart where they are many: `exact`; `up` takes few lengths, rounded up, which cuts faster, costs a little more and gives no bound;
// `down` rounds down, which gives a bound and no cost.
enum class Grain { exact, up, down };

// Cuts the pieces of bills; remembers what it has cut.
class PipeCost {
 public:
  PipeCost(const Table& table, Length scatter, std::int64_t work_limit, Grain grain) : table_(table), scatter_(scatter), limit_(work_limit), grain_(grain) {}

  // Bills with their fixed costs.
  Priced of(const std::vector<const Bill*>& bills);
  // One pipe alone, by length.
  Priced of_pipe(int pipe, const Pieces& pieces);
  Length scatter() const { return scatter_; }
  std::int64_t work() const { return work_; }

 private:
  Pieces rounded_up(const Pieces& pieces) const;
  Pieces rounded_down(const Pieces& pieces) const;
  Priced cut(int pipe, const Pieces& pieces);

  const Table& table_;
  Length scatter_;
  std::int64_t limit_;  // of one cutting problem
  Grain grain_;
  std::int64_t work_ = 0;
  std::map<std::pair<int, Pieces>, Priced> known_;
};

}  // namespace railwright::spacing
