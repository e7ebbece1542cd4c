// SPDX-License-Identifier: MIT
#include "engine/spacing/looks.h"

#include <algorithm>

namespace railwright::spacing {
namespace {

constexpr std::int64_t kMostSteps = 100'000'000;  // elements looked at in all
constexpr std::size_t kMostPairs = 4096;          // kept; more are seldom searched
constexpr std::size_t kMostStarts = 2500;         // with more, pairs are too many to look at all

bool in_window(const Window& window, Length alike, Length look) { return look >= window.start && look <= window.start + alike; }

}  // namespace

std::vector<LookRule> look_rules(const job::Job& job) {
  std::vector<LookRule> rules;
  for (std::size_t f = 0; f < job.choices.fences.size(); ++f) {
    const job::Spacing& spacing = job.choices.fences[f].spacing;
    if (spacing.mode == job::SpacingMode::best && spacing.looks > 0) rules.push_back({static_cast<int>(f), spacing.looks, spacing.alike});
  }
  return rules;
}

int looks_shown(const Table& table, const LookRule& rule, const std::vector<int>& choice) {
  std::vector<Length> looks;
  for (std::size_t r = 0; r < choice.size(); ++r) {
    if (table.fence[r] != rule.fence) continue;
    const std::vector<Length>& own = table.runs[r][static_cast<std::size_t>(choice[r])].looks;
    looks.insert(looks.end(), own.begin(), own.end());
  }
  std::sort(looks.begin(), looks.end());
  int count = 0;
  for (std::size_t i = 0; i < looks.size();) {
    const Length end = looks[i] + rule.alike;
    ++count;
    while (i < looks.size() && looks[i] <= end) ++i;
  }
  return count;
}

Allowed held_by(const Table& table, const std::vector<LookRule>& rules, const std::vector<Window>& windows) {
  Allowed allowed;
  for (std::size_t r = 0; r < table.runs.size(); ++r) {
    allowed.emplace_back();
    for (const Share& share : table.runs[r]) {
      const bool held = std::all_of(share.looks.begin(), share.looks.end(), [&](Length look) {
        const auto rule = std::find_if(rules.begin(), rules.end(), [&](const LookRule& one) { return one.fence == table.fence[r]; });
        return rule == rules.end() || std::any_of(windows.begin(), windows.end(),
                                                  [&](const Window& w) { return rules[w.rule].fence == rule->fence && in_window(w, rule->alike, look); });
      });
      allowed.back().push_back(held ? 1 : 0);
    }
  }
  return allowed;
}

LookSets::LookSets(const Table& table, std::vector<LookRule> rules, const std::vector<std::vector<Wide>>& least)
    : table_(table), rules_(std::move(rules)), least_(least), starts_(rules_.size()) {
  for (std::size_t r = 0; r < table.runs.size(); ++r) {
    const auto rule = std::find_if(rules_.begin(), rules_.end(), [&](const LookRule& one) { return one.fence == table.fence[r]; });
    steps_ += static_cast<std::int64_t>(table.runs[r].size());
    rule_of_.push_back(rule == rules_.end() ? -1 : static_cast<int>(rule - rules_.begin()));
    if (rule == rules_.end()) continue;
    std::vector<Length>& starts = starts_[static_cast<std::size_t>(rule_of_.back())];
    for (const Share& share : table.runs[r]) starts.insert(starts.end(), share.looks.begin(), share.looks.end());
  }
  for (std::vector<Length>& starts : starts_) {
    std::sort(starts.begin(), starts.end());
    starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
  }
  plain_.assign(table.runs.size(), 1);
  by_window_.resize(table.runs.size());
  for (std::size_t r = 0; r < table.runs.size(); ++r) tabulate(r);
  in_pairs_ = pairs_suffice();
  if (in_pairs_)
    list_pairs();
  else
    push({0, {}, std::vector<char>(table.runs.size(), 0), 0});
}

// One rule of two windows, and no count that only two windows together hold.
bool LookSets::pairs_suffice() const {
  if (rules_.size() != 1 || rules_[0].limit != 2 || starts_[0].empty() || starts_[0].size() > kMostStarts) return false;
  return std::all_of(plain_.begin(), plain_.end(), [](char plain) { return plain != 0; });
}

// What the runs come to at least with two windows; none: some run has nothing to take.
std::optional<Wide> LookSets::pair_sum(const std::vector<std::size_t>& runs, std::size_t one, std::size_t other) const {
  Wide sum = 0;
  for (const std::size_t r : runs) {
    const std::vector<Value>& by = by_window_[r];
    bool covered = false;
    Wide least = 0;
    for (const Value* value : {&by[one], &by[other], &by.back()}) {
      if (!value->covered || (covered && value->least >= least)) continue;
      covered = true;
      least = value->least;
    }
    if (!covered) return std::nullopt;
    sum += least;
  }
  return sum;
}

// The most dearly kept leaves when there are too many.
void LookSets::keep_pair(const Pair& pair) {
  if (pairs_.size() == kMostPairs && !(pair < pairs_.front())) {
    beyond_pairs_ = more_pairs_ ? std::min(beyond_pairs_, pair.bound) : pair.bound;
    more_pairs_ = true;
    return;
  }
  pairs_.push_back(pair);
  std::push_heap(pairs_.begin(), pairs_.end());
  if (pairs_.size() <= kMostPairs) return;
  std::pop_heap(pairs_.begin(), pairs_.end());
  beyond_pairs_ = more_pairs_ ? std::min(beyond_pairs_, pairs_.back().bound) : pairs_.back().bound;
  more_pairs_ = true;
  pairs_.pop_back();
}

void LookSets::list_pairs() {
  std::vector<std::size_t> runs;
  Wide others = 0;
  for (std::size_t r = 0; r < table_.runs.size(); ++r) {
    if (rule_of_[r] >= 0)
      runs.push_back(r);
    else
      others += any_[r];
  }
  // Runs with few counts first: what they cannot take ends a pair soonest.
  std::stable_sort(runs.begin(), runs.end(), [&](std::size_t a, std::size_t b) { return table_.runs[a].size() < table_.runs[b].size(); });
  for (std::size_t one = 0; one < starts_[0].size(); ++one) {
    for (std::size_t other = one; other < starts_[0].size(); ++other) {
      if (const auto sum = pair_sum(runs, one, other)) keep_pair({*sum + others, one, other});
    }
  }
  std::sort_heap(pairs_.begin(), pairs_.end());
  nodes_ = static_cast<std::int64_t>(starts_[0].size());
}

std::optional<std::vector<Window>> LookSets::next_pair() {
  if (next_pair_ == pairs_.size()) return std::nullopt;
  const Pair& pair = pairs_[next_pair_++];
  return std::vector<Window>{{0, starts_[0][pair.one], pair.one}, {0, starts_[0][pair.other], pair.other}};
}

void LookSets::tabulate(std::size_t r) {
  any_.push_back(least_[r].empty() ? Wide{} : *std::min_element(least_[r].begin(), least_[r].end()));
  if (rule_of_[r] < 0) return;
  const auto rule = static_cast<std::size_t>(rule_of_[r]);
  const std::vector<Length>& starts = starts_[rule];
  by_window_[r].resize(starts.size() + 1);
  for (std::size_t k = 0; k < table_.runs[r].size(); ++k) {
    const std::vector<Length>& looks = table_.runs[r][k].looks;
    const auto take = [&](Value& value) {
      value.least = value.covered ? std::min(value.least, least_[r][k]) : least_[r][k];
      value.covered = true;
    };
    if (looks.empty()) {
      take(by_window_[r].back());
      continue;
    }
    const auto [least, most] = std::minmax_element(looks.begin(), looks.end());
    if (*most > *least) plain_[r] = 0;  // two windows may hold them together
    const auto from = std::lower_bound(starts.begin(), starts.end(), *most - rules_[rule].alike), to = std::upper_bound(starts.begin(), starts.end(), *least);
    for (auto at = from; at < to; ++at) take(by_window_[r][static_cast<std::size_t>(at - starts.begin())]);
  }
}

bool LookSets::held(const Share& share, std::size_t rule, const std::vector<Window>& windows) const {
  return std::all_of(share.looks.begin(), share.looks.end(), [&](Length look) {
    return std::any_of(windows.begin(), windows.end(), [&](const Window& w) { return w.rule == rule && in_window(w, rules_[rule].alike, look); });
  });
}

LookSets::Value LookSets::value(const Node& node, std::size_t r) const {
  Value value;
  const auto rule = static_cast<std::size_t>(std::max(0, rule_of_[r]));
  int windows = 0;
  for (const Window& w : node.windows) windows += w.rule == rule ? 1 : 0;
  value.open = rule_of_[r] >= 0 && node.settled[r] == 0 && windows < rules_[rule].limit;
  value.any = any_[r];
  if (rule_of_[r] < 0) {
    value.covered = true;
    value.least = any_[r];
    return value;
  }
  const auto take = [&](Wide least) {
    value.least = value.covered ? std::min(value.least, least) : least;
    value.covered = true;
  };
  if (by_window_[r].back().covered) take(by_window_[r].back().least);
  for (const Window& w : node.windows) {
    if (w.rule == rule && by_window_[r][w.index].covered) take(by_window_[r][w.index].least);
  }
  if (plain_[r] != 0 || windows < 2) return value;
  for (std::size_t k = 0; k < table_.runs[r].size(); ++k) {  // held by two windows together
    if (value.covered && least_[r][k] >= value.least) continue;
    if (held(table_.runs[r][k], rule, node.windows)) take(least_[r][k]);
  }
  return value;
}

// False where a run has nothing left to take.
bool LookSets::push(Node node) {
  node.bound = 0;
  for (std::size_t r = 0; r < table_.runs.size(); ++r) {
    const Value v = value(node, r);
    if (!v.open && !v.covered) return false;
    node.bound += v.open ? v.any : v.least;
  }
  node.number = ++nodes_;
  queue_.push(std::move(node));
  return true;
}

void LookSets::branch(const Node& node, std::size_t r) {
  const auto rule = static_cast<std::size_t>(rule_of_[r]);
  const Value own = value(node, r);
  if (own.covered) {
    Node settled = node;
    settled.settled[r] = 1;
    push(std::move(settled));
  }
  std::vector<Length> starts;
  for (std::size_t k = 0; k < table_.runs[r].size(); ++k) {
    const Share& share = table_.runs[r][k];
    if (held(share, rule, node.windows) || (own.covered && least_[r][k] >= own.least)) continue;
    for (const Length look : share.looks) {
      const auto from = std::lower_bound(starts_[rule].begin(), starts_[rule].end(), look - rules_[rule].alike);
      const auto to = std::upper_bound(starts_[rule].begin(), starts_[rule].end(), look);
      starts.insert(starts.end(), from, to);
    }
  }
  std::sort(starts.begin(), starts.end());
  starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
  for (const Length start : starts) {
    Node child = node;
    const auto index = std::lower_bound(starts_[rule].begin(), starts_[rule].end(), start) - starts_[rule].begin();
    child.windows.push_back({rule, start, static_cast<std::size_t>(index)});
    push(std::move(child));
  }
}

std::optional<std::vector<Window>> LookSets::next() {
  if (in_pairs_) return next_pair();
  while (!queue_.empty() && nodes_ * steps_ < kMostSteps) {
    const Node node = queue_.top();
    // The run that has most to lose; a run that nothing is allowed yet loses all.
    std::size_t worst = table_.runs.size();
    Wide loss = 0;
    bool bare = false;
    for (std::size_t r = 0; r < table_.runs.size(); ++r) {
      const Value v = value(node, r);
      if (!v.open || (v.covered && v.least == v.any)) continue;
      const Wide lost = v.covered ? v.least - v.any : 0;
      if (worst < table_.runs.size() && (bare || (v.covered && lost <= loss))) continue;
      worst = r;
      loss = lost;
      bare = !v.covered;
    }
    queue_.pop();
    if (worst == table_.runs.size()) {
      given_ = true;
      return node.windows;
    }
    branch(node, worst);
  }
  if (given_ || queue_.empty()) return std::nullopt;
  given_ = true;
  return one_by_one();
}

// One window after the other, each where the fewest runs are left with nothing and the others come to least. None where some run is left so to the end.
std::optional<std::vector<Window>> LookSets::one_by_one() const {
  Node node{0, {}, std::vector<char>(table_.runs.size(), 0), 0};
  std::pair<int, Wide> reached{static_cast<int>(table_.runs.size()), 0};
  for (std::size_t rule = 0; rule < rules_.size(); ++rule) {
    for (int w = 0; w < rules_[rule].limit && w < static_cast<int>(starts_[rule].size()); ++w) {
      std::optional<std::pair<int, Wide>> best;
      std::size_t at = 0;
      node.windows.push_back({rule, {}, 0});
      for (std::size_t i = 0; i < starts_[rule].size(); ++i) {
        node.windows.back() = {rule, starts_[rule][i], i};
        std::pair<int, Wide> left{0, 0};
        for (std::size_t r = 0; r < table_.runs.size(); ++r) {
          const Value v = value(node, r);
          left.first += v.covered ? 0 : 1;
          left.second += v.covered ? v.least : 0;
        }
        if (best && *best <= left) continue;
        best = left;
        at = i;
      }
      node.windows.back() = {rule, starts_[rule][at], at};
      const bool better = *best < reached;
      if (best) reached = *best;
      if (!better && reached.first == 0) break;  // nothing more to gain
    }
  }
  if (reached.first > 0) return std::nullopt;
  return node.windows;
}

}  // namespace railwright::spacing
