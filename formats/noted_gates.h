// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/measure/length.h"

// Gates written beside a course of a field book.
namespace railwright::formats {

struct NotedGate {
  std::string name;                   // "gate 12 ft"
  std::optional<measure::Length> at;  // of its middle, from the start of the course; none where nothing readable is said
};

// "gate 12 ft at 60 ft; gate 4 ft at 100 ft": one gate a part; "puerta 3.6 m a 20 m" is read too. Parts that name no gate are left out. `bare` reads a place without a unit.
std::vector<NotedGate> noted_gates(const std::string& note, measure::BareNumber bare);

}  // namespace railwright::formats
