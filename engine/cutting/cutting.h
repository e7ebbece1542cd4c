// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/measure/length.h"
#include "engine/measure/money.h"
#include "engine/measure/result.h"

// One-dimensional cutting: which pieces are cut from which sticks so that the sticks used, less the worth of the drops kept,
// cost least; with a lower bound that no plan can beat.
//
// Terms
//  stick   an uncut bar of a `Stock`;      piece  a length to be cut from a stick
//  kerf    what one cut of the blade eats;  crop   a bad end cut off before use
//  drop    what is left of a stick after its last piece
//
// What fits. A stick of length L is usable for U = L - crop_start - crop_end - (one kerf for each crop that is not zero).
// Pieces of lengths l1..ln fit when l1 + ... + ln + (n - 1) kerf <= U. The drop is U - (l1 + ... + ln) - n kerf, or zero when
// that is negative (the last cut then runs off the end of the stick, or is not needed).
//
// What it costs. Each stick used costs its price. A drop of at least `keep_from` is kept and is worth its length times
// `drop_value`, rounded down to a ten-thousandth, and never more than the price of the stick it came from (so a stick that
// is already owned should be priced at what it could be sold for). cost = prices - worth of the kept drops.
//
// Among plans of equal cost: fewer set-ups (different cutting patterns) are sought, then sticks are ordered so that pieces of
// one group lie close together: equal patterns are merged and sticks put in the order of their groups. Neither is proved least.
//
// Properties (tested)
//  (1) every piece is cut exactly `count` times, no stick is overfilled, no stock is used more often than its count;
//  (2) bound <= cost of every feasible plan, exactly, whatever the rounding of floating-point arithmetic;
//  (3) `proved` means bound == cost: no plan is cheaper;
//  (4) the same instance, effort and work limit give the same plan, natively and in WebAssembly;
//  (5) the order in which stocks and pieces are given changes neither cost nor bound where `proved`;
//  (6) multiplying every length by a whole number changes nothing but the lengths where drops are worth nothing;
//  (7) on every stick the pieces that wait come after those that do not.
//
// Method and sources: docs/cutting.md.
namespace railwright::cutting {

using measure::Length;
using measure::Money;

struct Stock {
  std::string name;
  Length length;
  Money price;                             // per stick, >= 0
  std::optional<std::int64_t> count = {};  // how many there are; empty: as many as wanted
};

struct Piece {
  std::string label;
  Length length;
  std::int64_t count = 1;
  std::int32_t group = -1;  // pieces to be kept close share a number; numbers in walking order; -1: none
  bool waits = false;       // its length may still change: on its stick it comes after the pieces that do not wait
};

struct Rules {
  Length kerf;
  Length crop_start;
  Length crop_end;
  std::optional<Length> keep_from = {};  // drops at least this long are kept; empty: none is
  Money drop_value;                      // worth of a kept drop per `drop_value_per`
  Length drop_value_per = Length::feet(1);
};

// A validated problem. Immutable: everything after `build` may rely on what `build` checked.
class Instance {
 public:
  // Errors (place `/stocks/3`, `/pieces/7`, `/rules/kerf`): `cutting.no_stocks`, `cutting.stock_length` (not positive),
  // `cutting.stock_price` (negative), `cutting.stock_count` (negative), `cutting.piece_length` (not positive),
  // `cutting.piece_count` (negative), `cutting.kerf` (negative), `cutting.crop` (negative), `cutting.drop_rule` (negative value,
  // or length not positive), `cutting.piece_too_long` (values `label`, `length`, `longest`: fits no stick),
  // `cutting.too_large` (lengths over 1000 km, more than 1e9 pieces, or money beyond 1e14 in all).
  // No pieces at all is a valid problem with an empty plan. Names and labels may repeat.
  static Result<Instance> build(std::vector<Stock> stocks, std::vector<Piece> pieces, Rules rules);

  const std::vector<Stock>& stocks() const { return stocks_; }
  const std::vector<Piece>& pieces() const { return pieces_; }
  const Rules& rules() const { return rules_; }

  // Length usable for pieces and the kerfs between them; may be negative (such a stock is never used).
  Length usable(const Stock& stock) const;
  // Where the first piece starts on the tape: crop_start and its kerf.
  Length start() const;
  // Worth of a drop from a stick of this stock; zero when it is not kept.
  Money worth(const Stock& stock, Length drop) const;
  bool keeps(Length drop) const;

 private:
  Instance() = default;
  std::vector<Stock> stocks_;
  std::vector<Piece> pieces_;
  Rules rules_;
};

// One stick, or `count` sticks cut alike with the same pieces.
struct Stick {
  int stock = 0;  // index into Instance::stocks
  std::int64_t count = 1;
  std::vector<int> pieces;    // indexes into Instance::pieces, in cutting order
  std::vector<Length> marks;  // running tape mark of each piece's far end from the stick's start, kerfs included
  Length drop;
  bool kept = false;  // the drop is at least `keep_from`
};

enum class Status {
  optimal,     // proved: no plan is cheaper
  feasible,    // a plan and a bound; the work limit ended the search
  infeasible,  // proved: the counted sticks do not suffice
  unknown,     // the work limit ended the search before any plan was found (counted sticks only)
  cancelled,   // the callback asked to stop; the plan is the best so far, and may be empty
};

struct Plan {
  Status status = Status::unknown;
  bool found = false;  // `sticks` holds a whole plan
  bool proved = false;
  Money cost;               // after the worth of kept drops
  Money cost_before_drops;  // prices of the sticks used
  Money bound;              // no plan costs less
  std::vector<Stick> sticks;
  std::int64_t sticks_used = 0;
  int setups = 0;         // different patterns: stock and lengths, whatever the labels
  std::int64_t work = 0;  // what the search spent, in units of 200,000 elementary steps
};

struct Progress {
  bool found = false;
  Money cost;
  Money bound;
  std::int64_t work = 0;
};
// Called now and then during `solve`; false cancels.
using OnProgress = std::function<bool(const Progress&)>;

enum class Effort {
  quick,  // a strong plan and a bound in about a millisecond per thousand pieces of few lengths; proof where it falls out
  full,   // search until proved or the work limit is reached
};

struct Options {
  Effort effort = Effort::full;
  std::int64_t work_limit = 20'000;  // in the units of Plan::work; about 2000 units a second on one core of 2020
  OnProgress on_progress = {};
};

Plan solve(const Instance& instance, const Options& options = {});

}  // namespace railwright::cutting
