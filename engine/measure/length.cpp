// SPDX-License-Identifier: MIT
#include "engine/measure/length.h"

#include "engine/measure/round.h"

namespace railwright::measure {

Length Length::from_metres(double metres) { return Length(saturating_round(metres * 1e9, kLargestNm)); }

Length Length::from_inches(double inches) { return Length(saturating_round(inches * static_cast<double>(kNmPerInch), kLargestNm)); }

Length Length::round_down_to(Length step) const { return Length(floor_div(nm_, step.nm_) * step.nm_); }

Length Length::round_up_to(Length step) const { return Length(-floor_div(-nm_, step.nm_) * step.nm_); }

Length Length::round_to(Length step) const {
  const Length below = round_down_to(step);
  const std::int64_t rest = nm_ - below.nm_;
  return rest >= step.nm_ - rest ? Length(below.nm_ + step.nm_) : below;
}

}  // namespace railwright::measure
