// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace railwright {

namespace measure {
class Length;
class Money;
}  // namespace measure

// One figure of a finding or error, still in its own unit; the face that shows it chooses how it is printed.
//  Lengths are carried as whole nanometres, money as ten-thousandths, angles as degrees, slopes as rise/run, so that this header needs no other.
struct LengthValue {
  std::int64_t nm = 0;
};
struct MoneyValue {
  std::int64_t units = 0;
};
struct AngleValue {
  double degrees = 0;
};
struct SlopeValue {
  double rise_per_run = 0;
};
struct ForceValue {
  double newtons = 0;
};
struct VolumeValue {
  double cubic_metres = 0;
};
using Value = std::variant<std::string, std::int64_t, double, LengthValue, MoneyValue, AngleValue, SlopeValue, ForceValue, VolumeValue>;

// Named figures in the order in which they were given.
using Values = std::vector<std::pair<std::string, Value>>;

}  // namespace railwright
