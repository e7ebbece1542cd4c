// SPDX-License-Identifier: MIT
#include "engine/spacing/search.h"

#include <algorithm>
#include <map>
#include <queue>
#include <tuple>

namespace railwright::spacing {
namespace {

// Work of cutting one choice while searching: many choices are worth more than one cut to the last proof.
constexpr std::int64_t kWorkPerCut = 40;
// Classes of lengths in each pass of the joint program, and its rounds of new patterns.
struct Pass { int classes, rounds; };
constexpr Pass kPasses[] = {{40, 40}, {80, 40}, {160, 60}};

}  // namespace

Search::Search(const Table& table, Length scatter, std::int64_t work_limit)
    : table_(table), limit_(work_limit), pricer_(table, scatter, kWorkPerCut, Grain::coarse), best_(table.runs.size(), 0) {
  for (const auto& run : table.runs) allowed_.emplace_back(run.size(), 1);
  freeze();
}

// A pipe whose pieces are the same whatever is chosen is cut once, which bounds it better than the program does.
void Search::freeze() {
  frozen_.assign(table_.pipes.size(), 1);
  for (const auto& run : table_.runs) {
    if (run.size() < 2) continue;
    for (const Share& share : run) {
      for (const Piece& piece : share.pieces) frozen_[static_cast<std::size_t>(piece.pipe)] = 0;
    }
  }
  PipeCost once(table_, pricer_.scatter(), kWorkPerCut, Grain::exact);
  std::vector<std::map<Length, std::int64_t>> pieces(table_.pipes.size());
  const auto collect = [&](const Share& share) {
    for (const Piece& piece : share.pieces) {
      const auto p = static_cast<std::size_t>(piece.pipe);
      if (frozen_[p] != 0) pieces[p][grown(piece, piece.least, pricer_.scatter(), table_.pipes[p])] += piece.count;
    }
  };
  collect(table_.shared);
  for (const auto& run : table_.runs) collect(run.front());
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    if (!pieces[p].empty()) frozen_bound_ += once.of_pipe(static_cast<int>(p), {pieces[p].begin(), pieces[p].end()}).bound;
  }
}

Priced Search::price(const std::vector<int>& choice) {
  std::vector<const Share*> shares{&table_.shared};
  for (std::size_t r = 0; r < choice.size(); ++r) shares.push_back(&table_.runs[r][static_cast<std::size_t>(choice[r])]);
  return pricer_.of(shares);
}

Money Search::cost_of(const std::vector<int>& choice) {
  return price(choice).cost;
}

bool Search::offer(const std::vector<int>& choice) {
  const Priced priced = price(choice);
  if (!priced.found || priced.cost >= cost_) return false;
  cost_ = priced.cost;
  best_ = choice;
  return true;
}

Money Search::as_money(Wide scaled) const {
  const Wide scale = relaxed_.scale;
  return Money::from_units(static_cast<std::int64_t>(scaled <= 0 ? 0 : (scaled + scale - 1) / scale));
}

std::vector<Wide> Search::smallest() const {
  std::vector<Wide> least;
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    bool any = false;
    least.push_back(0);
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      if (allowed_[r][k] == 0 || (any && relaxed_.least[r][k] >= least.back())) continue;
      least.back() = relaxed_.least[r][k];
      any = true;
    }
  }
  return least;
}

bool Search::relax(int most_classes, int rounds) {
  Joint joint(table_, allowed_, frozen_, pricer_.scatter(), most_classes);
  const cutting::OnProgress nothing;
  cutting::Budget budget(std::max<std::int64_t>(1, limit_ - joint_work_), nothing);
  joint.solve(budget, rounds);
  joint_work_ += budget.units() + 1;
  if (!joint.relaxed().known) return false;
  relaxed_ = joint.relaxed();
  relaxed_.rest += as_scaled(frozen_bound_);
  exact_ = joint.exact_classes();
  const Money bound = as_money(relaxed_.bound(allowed_));
  if (bound > bound_) bound_ = bound;
  return true;
}

void Search::leave_out() {
  const std::vector<Wide> least = smallest();
  const Wide room = as_scaled(cost_) - relaxed_.bound(allowed_);
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      const bool hopeless = relaxed_.least[r][k] - least[r] >= room && static_cast<int>(k) != best_[r];
      if (allowed_[r][k] != 0 && hopeless) allowed_[r][k] = 0;
    }
  }
}

void Search::round_shares() {
  std::vector<int> choice = best_;
  for (std::size_t r = 0; r < choice.size() && r < relaxed_.share.size(); ++r) {
    const std::vector<double>& share = relaxed_.share[r];
    for (std::size_t k = 0; k < share.size(); ++k) {
      if (share[k] > share[static_cast<std::size_t>(choice[r])] + 1e-9) choice[r] = static_cast<int>(k);
    }
  }
  offer(choice);
}

// One run after the other, until none is better off with another count.
void Search::improve() {
  const std::vector<Wide> least = smallest();
  const Wide room = as_scaled(cost_) - relaxed_.bound(allowed_);
  std::vector<std::tuple<Wide, std::size_t, int>> moves;
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      const Wide slack = relaxed_.least[r][k] - least[r];
      if (allowed_[r][k] != 0 && slack < room) moves.emplace_back(slack, r, static_cast<int>(k));
    }
  }
  std::sort(moves.begin(), moves.end());
  for (bool better = true; better;) {
    better = false;
    for (const auto& [slack, r, k] : moves) {
      if (k == best_[r]) continue;
      if (spent()) return;
      std::vector<int> choice = best_;
      choice[r] = k;
      better = offer(choice) || better;
    }
  }
}

// Ascending sums of one number from each list: a state counts the places taken in the lists up to `list`; later lists stand at their first place.
void Search::enumerate() {
  struct List { std::size_t run; std::vector<std::pair<Wide, int>> slack; };
  const std::vector<Wide> least = smallest();
  std::vector<List> lists;
  std::vector<int> first = best_;
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    List list{r, {}};
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      if (allowed_[r][k] != 0) list.slack.emplace_back(relaxed_.least[r][k] - least[r], static_cast<int>(k));
    }
    std::sort(list.slack.begin(), list.slack.end());
    first[r] = list.slack.front().second;
    if (list.slack.size() > 1) lists.push_back(std::move(list));
  }
  std::sort(lists.begin(), lists.end(), [](const List& a, const List& b) { return std::tuple(a.slack[1].first, a.run) < std::tuple(b.slack[1].first, b.run); });
  struct State { Wide sum; std::size_t list; std::vector<int> at; };
  const auto later = [](const State& a, const State& b) { return std::tie(a.sum, a.at) > std::tie(b.sum, b.at); };
  std::priority_queue<State, std::vector<State>, decltype(later)> queue(later);
  const Wide base = relaxed_.bound(allowed_);
  queue.push({base, 0, {}});
  Money floor = cost_;            // nothing cut so far costs less
  while (!queue.empty()) {
    State state = queue.top();
    if (as_money(state.sum) >= cost_ || spent()) break;
    queue.pop();
    std::vector<int> choice = first;
    for (std::size_t i = 0; i < state.at.size(); ++i) choice[lists[i].run] = lists[i].slack[static_cast<std::size_t>(state.at[i])].second;
    const Priced priced = price(choice);
    floor = measure_min(floor, priced.bound);
    if (priced.found && priced.cost < cost_) {
      cost_ = priced.cost;
      best_ = choice;
    }
    const auto step = [&](std::vector<int> at, std::size_t list, int place) {
      if (list >= lists.size() || place >= static_cast<int>(lists[list].slack.size())) return;
      at.resize(list + 1);
      Wide sum = base;
      at[list] = place;
      for (std::size_t i = 0; i < at.size(); ++i) sum += lists[i].slack[static_cast<std::size_t>(at[i])].first;
      queue.push({sum, list, std::move(at)});
    };
    if (state.at.empty()) {
      step({}, 0, 1);
      continue;
    }
    step(state.at, state.list, state.at[state.list] + 1);
    step(state.at, state.list + 1, 1);
    if (state.at[state.list] == 1) {
      std::vector<int> back = state.at;
      back[state.list] = 0;
      step(back, state.list + 1, 1);
    }
  }
  const Money next = queue.empty() ? cost_ : as_money(queue.top().sum);
  const Money proved = measure_min(floor, next);
  if (proved > bound_) bound_ = proved;
}

void Search::run() {
  cost_ = cost_of(best_);
  bound_ = Money();
  if (table_.eight_foot.size() == best_.size()) offer(table_.eight_foot);
  for (const Pass& pass : kPasses) {
    if (!relax(pass.classes, pass.rounds)) return;
    round_shares();
    leave_out();
    if (bound_ >= cost_ || joint_work_ >= limit_ / 2) break;
    if (exact_) break;
  }
  if (bound_ >= cost_) return;
  improve();
  leave_out();
  if (!exact_ && !spent()) relax(kPasses[2].classes, kPasses[2].rounds);
  enumerate();
}

}  // namespace railwright::spacing
