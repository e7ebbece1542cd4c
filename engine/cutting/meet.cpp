// SPDX-License-Identifier: MIT
#include "engine/cutting/meet.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <unordered_map>

namespace railwright::cutting {
namespace {

constexpr std::size_t kPatterns = 12;  // of a type
constexpr std::size_t kWays = 40;      // of a type
constexpr std::size_t kLabels = 1024;  // of a group of types
constexpr std::int64_t kDecided = 3;   // sticks of a type left to decide
constexpr int kFilterBits = 24;
constexpr int kRounds = 8;
constexpr std::array<std::int64_t, 5> kDistance = {10, 3, 30, 1, 100};  // a stick's distance from the program's solution ranks as this part of a step of cost

}  // namespace

std::size_t Meet::draw(std::size_t below) {
  random_ = random_ * 6364136223846793005ULL + 1442695040888963407ULL;
  return static_cast<std::size_t>((random_ >> 33) % below);
}

Meet::Meet(const Model& model, const Task& task, const Master& root, const Corner& corner, Budget& budget, Incumbent& incumbent)
    : model_(model), task_(task), root_(root), corner_(corner), budget_(budget), incumbent_(incumbent) {
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    draw(2);
    weights_.push_back(random_ * 0x9E3779B97F4A7C15ULL | 1U);
  }
  patterns_.resize(model.types.size());
  for (const Pattern& pattern : corner.patterns()) {
    Remainders::Vector pieces(model.sorts.size(), 0);
    for (const Take& take : pattern.takes) pieces[take.sort] = take.count;
    elements_.push_back(corner.group().element(pieces));
  }
  const auto& patterns = corner.patterns();
  for (std::size_t p = 0; p < patterns.size(); ++p) patterns_[patterns[p].type].push_back(static_cast<int>(p));
  for (auto& list : patterns_) {
    std::stable_sort(list.begin(), list.end(), [&](int a, int b) { return corner.loss(a) < corner.loss(b); });
  }
}

std::uint64_t Meet::key_of(const Pattern& pattern) const {
  std::uint64_t key = 0;
  for (const Take& take : pattern.takes) key += weights_[take.sort] * static_cast<std::uint64_t>(take.count);
  return key;
}

// Of each pattern in use all sticks but one and a part; where many would be left, all but the part.
void Meet::fix() {
  shares_.assign(model_.types.size(), {});
  left_ = task_.limit;
  fixed_.clear();
  wanted_ = 0;
  for (std::size_t s = 0; s < task_.demand.size(); ++s) wanted_ += weights_[s] * static_cast<std::uint64_t>(task_.demand[s]);
  std::vector<double> loose(model_.types.size(), 0.0);
  const std::vector<Share> shares = root_.shares();
  for (const Share& share : shares) loose[share.pattern.type] += std::min(share.x, 1 + share.x - std::floor(share.x + 1e-6));
  for (const Share& share : shares) {
    const int k = share.pattern.type;
    const auto whole = static_cast<std::int64_t>(std::floor(share.x + 1e-6));
    const std::int64_t fixed = std::max<std::int64_t>(0, whole - (loose[k] > static_cast<double>(kDecided) ? 0 : 1));
    if (fixed > 0) {
      fixed_.push_back({share.pattern, fixed});
      left_[k] -= fixed;
      wanted_ -= key_of(share.pattern) * static_cast<std::uint64_t>(fixed);
    }
    for (const int p : patterns_[k])
      if (corner_.patterns()[p].takes == share.pattern.takes) shares_[k].push_back({p, share.x - static_cast<double>(fixed)});
  }
}

void Meet::list_ways(int k, std::int64_t distance_price) {
  std::vector<int> choice(patterns_[k].begin(), patterns_[k].begin() + static_cast<std::ptrdiff_t>(std::min(kPatterns, patterns_[k].size())));
  for (const auto& [p, x] : shares_[k])
    if (std::find(choice.begin(), choice.end(), p) == choice.end()) choice.push_back(p);
  std::vector<double> about(choice.size(), 0.0);
  for (const auto& [p, x] : shares_[k]) about[static_cast<std::size_t>(std::find(choice.begin(), choice.end(), p) - choice.begin())] += x;
  const std::int64_t most = std::min(left_[k], kDecided);
  std::vector<std::int64_t> counts(choice.size(), 0);
  std::vector<Way>& ways = ways_[k];
  ways.clear();
  const auto go = [&](const auto& self, std::size_t c, std::int64_t used, std::int64_t loss) -> void {
    if (c == choice.size()) {
      Way way;
      way.loss = loss + corner_.rent(k) * (left_[k] - used);
      double far = 0;
      for (std::size_t i = 0; i < choice.size(); ++i) {
        far += std::abs(static_cast<double>(counts[i]) - about[i]);
        for (std::int64_t n = 0; n < counts[i]; ++n) way.patterns.push_back(choice[i]), way.key += key_of(corner_.patterns()[choice[i]]);
      }
      double lean = 0;
      for (const int p : way.patterns)
        for (const Take& take : corner_.patterns()[p].takes) lean += tilt_[take.sort] * static_cast<double>(take.count);
      for (const int p : way.patterns) way.element = corner_.group().sum(way.element, elements_[p]);
      way.rank = way.loss + static_cast<std::int64_t>(far * static_cast<double>(distance_price) + lean);
      ways.push_back(std::move(way));
      return;
    }
    for (std::int64_t n = 0; used + n <= most; ++n) {
      counts[c] = n;
      self(self, c + 1, used + n, loss + n * corner_.loss(choice[c]));
    }
    counts[c] = 0;
  };
  go(go, 0, 0, 0);
  std::stable_sort(ways.begin(), ways.end(), [](const Way& a, const Way& b) { return a.rank < b.rank; });
  if (ways.size() > kWays) ways.erase(ways.begin() + kWays, ways.end());
}

// Of labels with the same pieces the one that loses least.
void Meet::drop_equals(std::vector<Label>& labels) {
  constexpr int kBits = 17;
  spots_.assign(std::size_t{1} << kBits, -1);
  std::size_t kept = 0;
  for (std::size_t l = 0; l < labels.size(); ++l) {
    std::size_t at = (labels[l].key * 0x9E3779B97F4A7C15ULL) >> (64 - kBits);
    while (spots_[at] >= 0 && labels[spots_[at]].key != labels[l].key) at = (at + 1) % spots_.size();
    if (spots_[at] < 0) {
      spots_[at] = static_cast<int>(kept);
      labels[kept++] = labels[l];
    } else if (labels[l].loss < labels[spots_[at]].loss) {
      labels[spots_[at]] = labels[l];
    }
  }
  labels.erase(labels.begin() + static_cast<std::ptrdiff_t>(kept), labels.end());
}

// The best by rank, but a quarter of the places goes to the best of other remainders: only sums of the right remainder can be plans.
void Meet::keep_best(std::vector<Label>& labels) {
  const auto better = [](const Label& one, const Label& two) {
    if (one.rank != two.rank) return one.rank < two.rank;
    return one.before != two.before ? one.before < two.before : one.way < two.way;
  };
  drop_equals(labels);
  if (labels.size() > kLabels) {
    std::vector<Label> others;
    std::vector<int> first(static_cast<std::size_t>(corner_.group().order()), -1);
    for (std::size_t l = 0; l < labels.size(); ++l) {
      int& best = first[labels[l].element];
      if (best < 0 || better(labels[l], labels[best])) best = static_cast<int>(l);
    }
    for (const int l : first)
      if (l >= 0) others.push_back(labels[l]);
    std::sort(others.begin(), others.end(), better);
    constexpr std::size_t kFirst = kLabels - kLabels / 4;
    std::nth_element(labels.begin(), labels.begin() + kFirst, labels.end(), better);
    const Label last = *std::max_element(labels.begin(), labels.begin() + kFirst, better);
    labels.erase(labels.begin() + kFirst, labels.end());
    for (std::size_t o = 0; o < others.size() && labels.size() < kLabels; ++o)
      if (better(last, others[o])) labels.push_back(others[o]);
  }
  std::sort(labels.begin(), labels.end(), better);
}

// The best combinations of the types' ways, one type after the other.
Meet::Side Meet::combine(const std::vector<int>& types, std::int64_t most) {
  Side side;
  side.types = types;
  side.labels.emplace_back(1);
  for (const int k : types) {
    std::vector<Label> next;
    const std::vector<Label>& before = side.labels.back();
    for (std::size_t l = 0; l < before.size(); ++l)
      for (std::size_t w = 0; w < ways_[k].size(); ++w) {
        const Way& way = ways_[k][w];
        if (w > 0 && l * w > 2 * kLabels) break;  // so many are better that it is hardly kept
        if (before[l].loss + way.loss > most) continue;
        next.push_back({before[l].loss + way.loss, before[l].rank + way.rank, before[l].key + way.key, corner_.group().sum(before[l].element, way.element),
                        static_cast<int>(l), static_cast<int>(w)});
      }
    if (!budget_.spend(static_cast<std::int64_t>(next.size()) * 30 + corner_.group().order() * 2)) return side;
    keep_best(next);
    side.labels.push_back(std::move(next));
  }
  return side;
}

void Meet::collect(const Side& side, int label, std::vector<Use>& uses) const {
  for (std::size_t i = side.types.size(); i-- > 0;) {
    const Label& here = side.labels[i + 1][label];
    for (const int p : ways_[side.types[i]][here.way].patterns) uses.push_back({corner_.patterns()[p], 1});
    label = here.before;
  }
}

bool Meet::match(const std::vector<Side>& sides) {
  const auto& a = sides[0].labels.back();
  const auto& b = sides[1].labels.back();
  const auto& c = sides[2].labels.back();
  const auto& d = sides[3].labels.back();
  std::int64_t most = corner_.loss_of(incumbent_.best.cost - model_.cost_grid);
  std::vector<std::uint64_t> filter((std::size_t{1} << kFilterBits) / 64, 0);
  const auto spot = [](std::uint64_t key) { return (key * 0x9E3779B97F4A7C15ULL) >> (64 - kFilterBits); };
  for (const Label& one : a)
    for (const Label& two : b) {
      const std::uint64_t at = spot(one.key + two.key);
      filter[at / 64] |= std::uint64_t{1} << at % 64;
    }
  std::unordered_map<std::uint64_t, std::pair<int, int>> partners;  // what is wanted of the first two groups; the cheapest of the last two that want it
  for (std::size_t i = 0; i < c.size(); ++i)
    for (std::size_t j = 0; j < d.size(); ++j) {
      const std::uint64_t key = wanted_ - c[i].key - d[j].key;
      const std::uint64_t at = spot(key);
      if ((filter[at / 64] >> at % 64 & 1U) == 0 || c[i].loss + d[j].loss > most) continue;
      const auto [there, fresh] = partners.insert({key, {static_cast<int>(i), static_cast<int>(j)}});
      if (!fresh && c[i].loss + d[j].loss < c[there->second.first].loss + d[there->second.second].loss)
        there->second = {static_cast<int>(i), static_cast<int>(j)};
    }
  budget_.spend(static_cast<std::int64_t>(a.size() * b.size() * 15 + c.size() * d.size() * 15));
  std::array<int, 4> found{-1, -1, -1, -1};
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t j = 0; j < b.size(); ++j) {
      const auto there = partners.find(a[i].key + b[j].key);
      if (there == partners.end()) continue;
      const auto [p, q] = there->second;
      const std::int64_t loss = a[i].loss + b[j].loss + c[p].loss + d[q].loss;
      if (loss > most) continue;
      most = loss - 1;
      found = {static_cast<int>(i), static_cast<int>(j), p, q};
    }
  if (found[0] < 0) return false;
  std::vector<Use> uses = fixed_;
  for (std::size_t g = 0; g < sides.size(); ++g) collect(sides[g], found[g], uses);
  std::vector<std::int64_t> left = task_.demand;
  for (const Use& use : uses)
    for (const Take& take : use.pattern.takes) left[take.sort] -= take.count * use.count;
  if (!std::all_of(left.begin(), left.end(), [](std::int64_t n) { return n == 0; })) return false;
  return incumbent_.offer(model_, std::move(uses));
}

// Leans the ranks towards combinations whose pieces add up to those wanted on average; returns how far they are off, in standard deviations.
double Meet::center(const std::vector<Side>& sides, double step) {
  std::vector<Moment> whole(task_.demand.size());
  for (const Use& use : fixed_)
    for (const Take& take : use.pattern.takes) whole[take.sort].mean += static_cast<double>(take.count * use.count);
  for (const Side& side : sides) add_moments(side, whole);
  double worst = 0;
  for (std::size_t s = 0; s < whole.size(); ++s) {
    const double off = whole[s].mean - static_cast<double>(task_.demand[s]);
    const double variance = whole[s].variance + 0.1;
    worst = std::max(worst, off * off / variance);
    tilt_[s] += std::clamp(0.04 * off / variance, -0.05, 0.05) * step;
  }
  return worst;
}

void Meet::add_moments(const Side& side, std::vector<Moment>& whole) const {
  const std::size_t all = side.labels.back().size();
  const int ranked = static_cast<int>(all < kLabels ? all : all - all / 4);
  if (ranked == 0) return;                 // nothing is cheap enough
  std::vector<Moment> sums(whole.size());  // of the pieces and of their squares
  for (int last = 0; last < ranked; ++last) {
    std::vector<std::int64_t> pieces(whole.size(), 0);
    int label = last;
    for (std::size_t i = side.types.size(); i-- > 0;) {
      const Label& here = side.labels[i + 1][label];
      for (const int p : ways_[side.types[i]][here.way].patterns)
        for (const Take& take : corner_.patterns()[p].takes) pieces[take.sort] += take.count;
      label = here.before;
    }
    for (std::size_t s = 0; s < pieces.size(); ++s) {
      sums[s].mean += static_cast<double>(pieces[s]);
      sums[s].variance += static_cast<double>(pieces[s] * pieces[s]);
    }
  }
  for (std::size_t s = 0; s < whole.size(); ++s) {
    const double mean = sums[s].mean / ranked;
    whole[s].mean += mean;
    whole[s].variance += sums[s].variance / ranked - mean * mean;
  }
}

void Meet::run(std::int64_t bound, int times) {
  fix();
  ways_.resize(model_.types.size());
  tilt_.assign(task_.demand.size(), 0.0);
  for (int i = 0; i < times && incumbent_.best.cost > bound && !budget_.stopped(); ++i) {
    const std::int64_t cent = corner_.loss_of(incumbent_.best.cost) - corner_.loss_of(incumbent_.best.cost - model_.cost_grid);
    const std::int64_t distance_price = cent / kDistance[static_cast<std::size_t>(i) % kDistance.size()];
    std::vector<int> order;
    for (int k = 0; k < static_cast<int>(model_.types.size()); ++k) {
      list_ways(k, distance_price);
      if (!ways_[k].empty()) order.push_back(k);
    }
    for (std::size_t k = order.size(); k > 1; --k) std::swap(order[k - 1], order[draw(k)]);
    const std::int64_t most = corner_.loss_of(incumbent_.best.cost - model_.cost_grid);
    std::vector<Side> sides;
    std::vector<std::vector<Way>> ways;
    std::vector<double> best_tilt = tilt_;
    double nearest = 1e300;
    for (int round = 0; round < kRounds && nearest > 0.15; ++round) {
      for (const int k : order) list_ways(k, distance_price);
      const std::vector<double> tilt = tilt_;
      std::vector<Side> here;
      for (std::size_t g = 0; g < 4; ++g)
        here.push_back(combine(std::vector<int>(order.begin() + static_cast<std::ptrdiff_t>(order.size() * g / 4),
                                                order.begin() + static_cast<std::ptrdiff_t>(order.size() * (g + 1) / 4)),
                               most));
      if (budget_.stopped()) return;  // not all types were combined
      const double off = center(here, static_cast<double>(cent) / (round + 1));
      if (off < nearest) {
        nearest = off;
        best_tilt = tilt;
        sides = std::move(here);
        ways = ways_;
      }
    }
    ways_ = std::move(ways);
    tilt_ = best_tilt;
    if (!budget_.stopped() && !sides.empty()) match(sides);
  }
}

}  // namespace railwright::cutting
