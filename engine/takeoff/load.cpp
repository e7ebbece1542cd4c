// SPDX-License-Identifier: MIT
#include "engine/takeoff/load.h"

#include <cmath>

#include "engine/strength/haulage.h"

namespace railwright::takeoff {

namespace {

Length longest_stick(const std::vector<PipeCuts>& cuts) {
  Length longest;
  for (const PipeCuts& pipe : cuts) {
    for (const cutting::Stick& stick : pipe.plan.sticks) {
      const StockSource& source = pipe.stocks[static_cast<std::size_t>(stick.stock)];
      if (source.kind != StockKind::held) longest = measure::max(longest, source.nominal);
    }
  }
  return longest;
}

}  // namespace

Load load_of(const job::Job& job, const std::vector<OrderLine>& orders, const std::vector<PipeCuts>& cuts, Findings& findings) {
  Load load;
  for (const OrderLine& line : orders) load.mass_kg += line.mass_kg;
  load.longest = longest_stick(cuts);
  if (!(load.mass_kg > 0)) return load;
  const job::Trailer& trailer = job.choices.trailer;
  if (!(trailer.payload_kg > 0)) {
    findings.push_back({"takeoff.overloaded", Severity::warning, "/choices/trailer/payload_kg", {}});
    return load;
  }
  const double trips = std::ceil(load.mass_kg / trailer.payload_kg - 1e-9);
  load.trips = static_cast<int>(std::min(trips, 1e9));
  const measure::Mass bundle = measure::Mass::si(load.mass_kg / load.trips);
  load.tie_downs = strength::tie_downs(load.longest, bundle, false);
  const Length beyond = load.longest - trailer.bed;
  load.overhang = strength::needs_flags(beyond);
  if (load.overhang) {
    findings.push_back({"takeoff.overhang", Severity::warning, "/choices/trailer", {{"longest", value_of(load.longest)}, {"beyond", value_of(beyond)}}});
  }
  return load;
}

}  // namespace railwright::takeoff
