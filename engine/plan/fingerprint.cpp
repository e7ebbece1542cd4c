// SPDX-License-Identifier: MIT
#include "engine/plan/fingerprint.h"

#include <cstdint>

namespace railwright {
namespace {

// FNV-1a, 64 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv): short, and the same on every machine.
class Digest {
 public:
  void add(std::int64_t number) {
    for (int byte = 0; byte < 8; ++byte) step(static_cast<std::uint8_t>(number >> (8 * byte)));
  }
  void add(measure::Length length) { add(length.nm()); }
  void add(const std::string& text) {
    add(static_cast<std::int64_t>(text.size()));
    for (const char letter : text) step(static_cast<std::uint8_t>(letter));
  }
  std::string text() const {
    static constexpr char kDigits[] = "0123456789abcdef";
    std::string shown;
    for (int digit = 11; digit >= 0; --digit) shown += kDigits[(state_ >> (4 * digit)) & 15u];
    return shown;
  }

 private:
  void step(std::uint8_t byte) { state_ = (state_ ^ byte) * 1099511628211ull; }
  std::uint64_t state_ = 14695981039346656037ull;
};

void add_layout(Digest& digest, const setout::Layout& layout) {
  for (const setout::Post& post : layout.posts) {
    digest.add(post.name);
    digest.add(post.pipe);
    for (const setout::OnLeg& on : post.on) {
      digest.add(on.leg);
      digest.add(on.station);
    }
  }
  for (const setout::Bay& bay : layout.bays) {
    digest.add(bay.name);
    digest.add(bay.gap);
  }
}

void add_rails(Digest& digest, const fittings::Assembly& assembly) {
  for (const fittings::Rail& rail : assembly.rails) {
    digest.add(rail.name);
    digest.add(rail.cut);
  }
  for (const fittings::Use& use : assembly.uses) {
    digest.add(use.fitting);
    digest.add(use.height);
  }
}

void add_cuts(Digest& digest, const std::vector<takeoff::PipeCuts>& cuts) {
  for (const takeoff::PipeCuts& pipe : cuts) {
    digest.add(pipe.pipe);
    for (const cutting::Stick& stick : pipe.plan.sticks) {
      digest.add(stick.stock);
      digest.add(stick.count);
      for (const int piece : stick.pieces) digest.add(piece);
    }
  }
}

}  // namespace

std::string fingerprint(const Plan& plan) {
  Digest digest;
  add_layout(digest, plan.layout);
  add_rails(digest, plan.assembly);
  add_cuts(digest, plan.cuts);
  for (const takeoff::OrderLine& line : plan.takeoff.orders) {
    digest.add(line.item);
    digest.add(line.amount.units());
  }
  return digest.text();
}

}  // namespace railwright
