// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "engine/cutting/cutting.h"

namespace railwright::cutting {

// Counts the search's elementary steps, stops it at the limit, and calls back now and then. No clock: the same limit
// ends the same search at the same place on every machine.
class Budget {
 public:
  Budget(std::int64_t limit_units, const OnProgress& on_progress) : limit_(limit_units * kUnit), on_progress_(&on_progress) {}

  // False once the search must end.
  bool spend(std::int64_t steps) {
    steps_ += steps;
    if (steps_ >= limit_) stopped_ = true;
    if (steps_ >= next_report_ && *on_progress_) report();
    return !stopped_;
  }
  bool stopped() const { return stopped_; }
  bool cancelled() const { return cancelled_; }
  std::int64_t steps() const { return steps_; }
  std::int64_t units() const { return steps_ / kUnit; }
  std::int64_t left() const { return limit_ > steps_ ? limit_ - steps_ : 0; }

  // What the next call back will tell.
  Progress best;

 private:
  static constexpr std::int64_t kUnit = 200'000;

  void report() {
    next_report_ = steps_ + 10 * kUnit;
    best.work = units();
    if (!(*on_progress_)(best)) stopped_ = cancelled_ = true;
  }

  std::int64_t limit_;
  const OnProgress* on_progress_;
  std::int64_t steps_ = 0;
  std::int64_t next_report_ = 0;
  bool stopped_ = false;
  bool cancelled_ = false;
};

}  // namespace railwright::cutting
