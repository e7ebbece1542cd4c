// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/job.h"
#include "engine/measure/money.h"

// What one more of each thing costs, from the price book and the hour rows.
namespace railwright::spacing {

using measure::Length;
using measure::Money;

// All figures are linear: the last bag, box and day begun are not rounded up.
class Tariff {
 public:
  // `concrete_per_m3`: as the buying list buys it for this job.
  Tariff(const job::Job& job, const job::Catalogue& catalogue, Money concrete_per_m3);

  // A post of a fence with this concrete and outside diameter: concrete, cap, ties, hours.
  Money post(int fence, Length diameter, double concrete_m3) const;
  Money fitting(int index) const { return fittings_[static_cast<std::size_t>(index)]; }
  Money rail() const { return minutes("measure", "rail") + minutes("rail", "rail"); }
  Money cut() const { return minutes("cut", "cut"); }
  Money bay(int fence) const;

 private:
  Money minutes(const std::string& operation, const std::string& unit) const;
  Money supply(const std::string& kind, Length width) const;
  Money price_of_fitting(const job::Fitting& fitting) const;

  const job::Job& job_;
  const job::Catalogue& catalogue_;
  Money concrete_per_m3_;
  double per_minute_ = 0;        // money per minute of one person, set-up and travel shared out
  std::vector<Money> fittings_;  // with bolts, nuts and the minute of fixing
};

}  // namespace railwright::spacing
