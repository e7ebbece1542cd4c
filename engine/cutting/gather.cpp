// SPDX-License-Identifier: MIT
#include "engine/cutting/gather.h"

#include <algorithm>
#include <utility>

namespace railwright::cutting {
namespace {

constexpr int kMostInParts = 10;     // pieces of a filling that take part in exchanges
constexpr int kLook = 200;           // fillings looked at for one exchange
constexpr std::int64_t kAlike = 12;  // sticks cut alike that take part; what more of them there are stays as it is

// Takes the pieces named by the mask out of `from`.
std::vector<int> pick(std::vector<int>& from, std::uint32_t mask) {
  std::vector<int> picked, rest;
  for (std::size_t i = 0; i < from.size(); ++i) (i < 32 && (mask >> i & 1U) != 0 ? picked : rest).push_back(from[i]);
  from = std::move(rest);
  return picked;
}

void put(std::vector<int>& into, const std::vector<int>& pieces) {
  into.insert(into.end(), pieces.begin(), pieces.end());
  std::sort(into.begin(), into.end());
}

}  // namespace

std::size_t Gather::draw(std::uint64_t below) {
  random_ = random_ * 6364136223846793005ULL + 1442695040888963407ULL;
  return static_cast<std::size_t>((random_ >> 33) % below);
}

// The plan's fillings on as many sticks of each type as wanted; those with the most waste go where there are too many.
void Gather::lay_out(std::vector<std::int64_t> sticks, const std::vector<Use>& plan) {
  std::vector<std::pair<std::int64_t, const Use*>> order;
  for (const Use& use : plan) order.push_back({model_.types[use.pattern.type].capacity - model_.used(use.pattern), &use});
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [waste, use] : order) {
    const std::int64_t stay = std::min(use->count, sticks[use->pattern.type]);
    sticks[use->pattern.type] -= stay;
    Filling filling{use->pattern.type, waste, {}, {}, -1};
    for (const Take& take : use->pattern.takes) {
      filling.pieces.insert(filling.pieces.end(), static_cast<std::size_t>(take.count), take.sort);
      aside_.insert(aside_.end(), static_cast<std::size_t>(take.count * (use->count - stay)), take.sort);
    }
    fillings_.insert(fillings_.end(), static_cast<std::size_t>(std::min(stay, kAlike)), filling);
    if (stay > kAlike) untouched_.push_back({use->pattern, stay - kAlike});
  }
  for (int k = 0; k < static_cast<int>(sticks.size()); ++k)
    for (std::int64_t i = 0; i < sticks[k]; ++i) fillings_.push_back({k, model_.types[k].capacity, {}, {}, -1});
  std::sort(aside_.begin(), aside_.end());
  fill_empty();
  for (std::size_t f = fillings_.size(); f > 1; --f) std::swap(fillings_[f - 1], fillings_[draw(f)]);
  for (int f = 0; f < static_cast<int>(fillings_.size()); ++f) changed(f);
}

void Gather::fill_empty() {
  for (Filling& filling : fillings_) {
    if (!filling.pieces.empty()) continue;
    std::vector<int> rest;
    for (const int s : aside_) {
      if (model_.sorts[s].size > filling.waste) {
        rest.push_back(s);
        continue;
      }
      filling.waste -= model_.sorts[s].size;
      filling.pieces.push_back(s);
    }
    aside_ = std::move(rest);
  }
}

// Every choice of up to two pieces, of up to three where there are few; equal ones once.
void Gather::list_parts(Filling& filling) const {
  filling.parts.assign(1, {});
  const int n = std::min(kMostInParts, static_cast<int>(filling.pieces.size()));
  const auto size = [&](int i) { return model_.sorts[filling.pieces[i]].size; };
  const auto repeats = [&](int i, int after) { return i > after && filling.pieces[i] == filling.pieces[i - 1]; };
  for (int i = 0; i < n; ++i) {
    if (repeats(i, 0)) continue;
    filling.parts.push_back({size(i), 1U << i});
    for (int j = i + 1; j < n; ++j) {
      if (repeats(j, i + 1)) continue;
      filling.parts.push_back({size(i) + size(j), 1U << i | 1U << j});
      for (int k = j + 1; k < n && n <= 5; ++k)
        if (!repeats(k, j + 1)) filling.parts.push_back({size(i) + size(j) + size(k), 1U << i | 1U << j | 1U << k});
    }
  }
  std::sort(filling.parts.begin(), filling.parts.end(), [](const Part& a, const Part& b) { return a.sum != b.sum ? a.sum < b.sum : a.mask < b.mask; });
}

void Gather::changed(int f) {
  Filling& filling = fillings_[f];
  list_parts(filling);
  if (filling.waste > 0 && filling.spot < 0) {
    filling.spot = static_cast<int>(wasteful_.size());
    wasteful_.push_back(f);
  } else if (filling.waste == 0 && filling.spot >= 0) {
    wasteful_[filling.spot] = wasteful_.back();
    fillings_[wasteful_.back()].spot = filling.spot;
    wasteful_.pop_back();
    filling.spot = -1;
  }
}

// The exchange that moves the most waste, up to `most`, from one filling to the other.
Gather::Move Gather::best_move(const Filling& from, const Filling& to, std::int64_t most) {
  Move best;
  std::size_t b = 0;
  looked_ += static_cast<std::int64_t>(from.parts.size() + to.parts.size());
  for (const Part& a : from.parts) {
    while (b + 1 < to.parts.size() && to.parts[b + 1].sum <= a.sum + most) ++b;
    const std::int64_t shift = to.parts[b].sum - a.sum;
    if (shift <= best.shift) continue;
    best = {shift, a.mask, to.parts[b].mask};
    if (shift == most) break;
  }
  return best;
}

void Gather::exchange(int a, int b, const Move& move) {
  const std::vector<int> given = pick(fillings_[a].pieces, move.from);
  const std::vector<int> got = pick(fillings_[b].pieces, move.to);
  put(fillings_[a].pieces, got);
  put(fillings_[b].pieces, given);
  fillings_[a].waste -= move.shift;
  fillings_[b].waste += move.shift;
  changed(a);
  changed(b);
}

// Moves waste to a filling that has some, so that the greater of the two grows.
bool Gather::merge(int f) {
  const std::size_t n = wasteful_.size();
  const std::size_t start = draw(n);
  for (std::size_t i = 0; i < std::min<std::size_t>(n, kLook); ++i) {
    const int other = wasteful_[(start + i) % n];
    if (other == f) continue;
    const std::int64_t mine = fillings_[f].waste;
    const std::int64_t theirs = fillings_[other].waste;
    const Move move = best_move(fillings_[f], fillings_[other], mine);
    if (move.shift == 0 || move.shift <= mine - theirs) continue;
    exchange(f, other, move);
    take_in(other);
    return true;
  }
  return false;
}

// Moves all waste, or failing that most, to a filling that may have none.
bool Gather::wander(int f) {
  const std::size_t n = fillings_.size();
  const std::size_t start = draw(n);
  const std::int64_t waste = fillings_[f].waste;
  int second = -1;
  Move most;
  for (std::size_t i = 0; i < std::min<std::size_t>(n, kLook); ++i) {
    const int other = static_cast<int>((start + i) % n);
    if (other == f) continue;
    const Move move = best_move(fillings_[f], fillings_[other], waste);
    if (move.shift > most.shift) {
      most = move;
      second = other;
    }
    if (most.shift == waste) break;
  }
  if (second < 0 || (most.shift < waste && draw(8) != 0)) return false;
  exchange(f, second, most);
  take_in(second);
  return true;
}

bool Gather::take_in(int f) {
  for (std::size_t i = 0; i < aside_.size(); ++i) {
    if (i > 0 && aside_[i] == aside_[i - 1]) continue;
    const std::int64_t size = model_.sorts[aside_[i]].size;
    if (size > fillings_[f].waste) continue;
    fillings_[f].waste -= size;
    put(fillings_[f].pieces, {aside_[i]});
    aside_.erase(aside_.begin() + static_cast<std::ptrdiff_t>(i));
    changed(f);
    return true;
  }
  return trade_in(f);
}

// Exchanges a piece that was laid aside for shorter ones.
bool Gather::trade_in(int f) {
  Filling& filling = fillings_[f];
  for (std::size_t i = 0; i < aside_.size(); ++i) {
    if (i > 0 && aside_[i] == aside_[i - 1]) continue;
    const std::int64_t size = model_.sorts[aside_[i]].size;
    looked_ += static_cast<std::int64_t>(filling.parts.size());
    for (const Part& part : filling.parts) {
      const std::int64_t shift = size - part.sum;
      if (part.mask == 0 || shift <= 0 || shift > filling.waste || (part.mask & (part.mask - 1)) != 0) continue;
      const std::vector<int> given = pick(filling.pieces, part.mask);
      put(filling.pieces, {aside_[i]});
      aside_.erase(aside_.begin() + static_cast<std::ptrdiff_t>(i));
      put(aside_, given);
      filling.waste -= shift;
      changed(f);
      return true;
    }
  }
  return false;
}

bool Gather::step() {
  if (wasteful_.empty()) return false;
  const int f = wasteful_[draw(wasteful_.size())];
  return take_in(f) || merge(f) || wander(f);
}

bool Gather::run(const std::vector<std::int64_t>& sticks, std::int64_t steps, std::vector<Use>& plan) {
  lay_out(sticks, plan);
  budget_.spend(400 * static_cast<std::int64_t>(fillings_.size()));
  for (std::int64_t i = 0; i < steps && !aside_.empty(); ++i) {
    step();
    if (!budget_.spend(2 * std::exchange(looked_, 0) + 200)) break;
  }
  if (!aside_.empty()) return false;
  plan = result();
  return true;
}

std::vector<Use> Gather::result() const {
  std::vector<Use> uses = untouched_;
  for (const Filling& filling : fillings_) {
    if (filling.pieces.empty()) continue;
    Pattern pattern{filling.type, {}};
    for (const int s : filling.pieces) {
      if (pattern.takes.empty() || pattern.takes.back().sort != s) pattern.takes.push_back({s, 0});
      ++pattern.takes.back().count;
    }
    uses.push_back({std::move(pattern), 1});
  }
  return uses;
}

}  // namespace railwright::cutting
