// SPDX-License-Identifier: MIT
#include "formats/noted_gates.h"

#include "formats/network.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

NotedGate gate_of(const std::string& part, measure::BareNumber bare) {
  const std::string words = lower(part);
  for (const char* between : {" at ", "@", " a "}) {
    const std::size_t split = words.find(between);
    if (split == std::string::npos) continue;
    const auto place = measure::parse_length(trimmed(words.substr(split + std::string_view(between).size())), bare);
    return {std::string(trimmed(part.substr(0, split))), place ? std::optional(*place) : std::nullopt};
  }
  return {part, {}};
}

}  // namespace

std::vector<NotedGate> noted_gates(const std::string& note, measure::BareNumber bare) {
  std::vector<NotedGate> gates;
  for (std::size_t start = 0; start <= note.size();) {
    const std::size_t end = std::min(note.find(';', start), note.size());
    const std::string part(trimmed(std::string_view(note).substr(start, end - start)));
    if (is_gate(part)) gates.push_back(gate_of(part, bare));
    start = end + 1;
  }
  return gates;
}

}  // namespace railwright::formats
