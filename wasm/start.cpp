// SPDX-License-Identifier: MIT
#include "wasm/start.h"

#include "engine/measure/length.h"
#include "formats/walk.h"

namespace railwright::wasm {
namespace {

using Json = nlohmann::ordered_json;
using measure::BareNumber;
using measure::Length;

Result<std::optional<Length>> length_of(const Json& choices, const char* key, BareNumber bare) {
  const std::string text = choices.value(key, std::string());
  if (text.empty()) return std::optional<Length>();
  const auto length = measure::parse_length(text, bare);
  if (!length) return tl::unexpected(length.error());
  return std::optional<Length>(*length);
}

Result<std::optional<job::FenceKind>> kind_of(const Json& choices) {
  static constexpr const char* kKinds[] = {"rails", "mesh", "panels", "strained", "wire"};
  const std::string text = choices.value("kind", std::string());
  if (text.empty()) return std::optional<job::FenceKind>();
  for (int i = 0; i < 5; ++i) {
    if (text == kKinds[i]) return std::optional<job::FenceKind>(static_cast<job::FenceKind>(i));
  }
  return fail("start.kind", "kind", {{"text", text}});
}

Result<formats::StartChoices> choices_of(const Json& choices) {
  formats::StartChoices chosen;
  const bool metric = choices.value("units", std::string()) == "metric";
  if (metric) chosen.units = job::UnitSystem::metric;
  const auto height = length_of(choices, "height", metric ? BareNumber::metres : BareNumber::inches);
  const auto pitch = length_of(choices, "pitch", metric ? BareNumber::metres : BareNumber::feet);
  const auto kind = kind_of(choices);
  if (!height) return tl::unexpected(height.error());
  if (!pitch) return tl::unexpected(pitch.error());
  if (!kind) return tl::unexpected(kind.error());
  chosen.height = *height;
  chosen.pitch = *pitch;
  chosen.kind = *kind;
  chosen.name = choices.value("name", std::string());
  chosen.animal = choices.value("animal", chosen.animal);
  chosen.pipe = choices.value("pipe", chosen.pipe);
  if (choices.contains("rails") && choices["rails"].is_number_integer()) chosen.rails = choices["rails"].get<int>();
  return chosen;
}

}  // namespace

Result<formats::StartedJob> start(const Json& request, const job::Catalogue& catalogue) {
  const auto choices = choices_of(request.value("choices", Json::object()));
  if (!choices) return tl::unexpected(choices.error());
  std::optional<formats::WalkedSite> walk;
  if (request.contains("walk")) {
    formats::WalkOptions options;
    if (choices->units == job::UnitSystem::metric) options.unit = BareNumber::metres;
    auto read = formats::read_walk(request["walk"].get<std::string>(), options);
    if (!read) return tl::unexpected(read.error());
    walk = std::move(*read);
  }
  std::optional<job::GroundGrid> grid;
  if (request.contains("grid")) {
    auto read = formats::read_grid(request["grid"].get<std::string>());
    if (!read) return tl::unexpected(read.error());
    grid = std::move(*read);
  }
  return formats::start_job(*choices, catalogue, walk ? &*walk : nullptr, grid ? &*grid : nullptr);
}

}  // namespace railwright::wasm
