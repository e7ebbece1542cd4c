// SPDX-License-Identifier: MIT
#include "engine/spacing/search.h"

#include <algorithm>
#include <iterator>
#include <map>

namespace railwright::spacing {
namespace {

// Work of cutting one choice while searching: many choices are worth more than one cut to the last proof.
constexpr std::int64_t kWorkPerCut = 40;
// Classes of lengths in each pass of the joint program, and its rounds of new patterns.
struct Pass {
  int classes, rounds;
};
constexpr Pass kPasses[] = {{40, 40}, {80, 40}, {160, 60}};
constexpr std::size_t kLast = std::size(kPasses) - 1;

// By run, over what is allowed.
std::vector<Wide> smallest(const Relaxed& relaxed, const Allowed& allowed) {
  std::vector<Wide> least;
  for (std::size_t r = 0; r < allowed.size(); ++r) {
    bool any = false;
    least.push_back(0);
    for (std::size_t k = 0; k < allowed[r].size(); ++k) {
      if (allowed[r][k] == 0 || (any && relaxed.least[r][k] >= least.back())) continue;
      least.back() = relaxed.least[r][k];
      any = true;
    }
  }
  return least;
}

}  // namespace

Search::Search(const Table& table, Length scatter, std::int64_t work_limit, Allowed allowed)
    : table_(table),
      limit_(work_limit),
      pricer_(table, scatter, kWorkPerCut, Grain::up),
      floor_(table, scatter, kWorkPerCut, Grain::down),
      allowed_(std::move(allowed)) {
  if (allowed_.empty()) {
    for (const auto& run : table.runs) allowed_.emplace_back(run.size(), 1);
  }
  for (const auto& run : allowed_) best_.push_back(static_cast<int>(std::find(run.begin(), run.end(), 1) - run.begin()));
}

bool Search::step() {
  switch (stage_) {
    case Stage::start:
      start();
      break;
    case Stage::relax:
    case Stage::refine:
      if (!round()) end_pass();
      break;
    case Stage::improve:
      improve();
      break;
    case Stage::enumerate:
      enumerate();
      break;
    case Stage::done:
      break;
  }
  return stage_ != Stage::done;
}

void Search::start() {
  freeze();
  const Priced first = price(best_);
  cost_ = first.cost;
  found_ = first.found;
  bool eight = table_.eight_foot.size() == best_.size();
  for (std::size_t r = 0; eight && r < best_.size(); ++r) eight = allowed_[r][static_cast<std::size_t>(table_.eight_foot[r])] != 0;
  if (eight) offer(table_.eight_foot);
  stage_ = Stage::relax;
  begin_pass();
}

// A pipe whose pieces are the same whatever is chosen is cut once, which bounds it better than the program does.
void Search::freeze() {
  frozen_.assign(table_.pipes.size(), 1);
  for (const auto& run : table_.runs) {
    if (run.size() < 2) continue;
    for (const Share& share : run) {
      for (const Bill* bill : {&share.seen, &share.least}) {
        for (const Piece& piece : bill->pieces) frozen_[static_cast<std::size_t>(piece.pipe)] = 0;
      }
    }
  }
  PipeCost once(table_, pricer_.scatter(), kWorkPerCut, Grain::exact);
  std::vector<std::map<Length, std::int64_t>> pieces(table_.pipes.size());
  const auto collect = [&](const Bill& bill) {
    for (const Piece& piece : bill.pieces) {
      const auto p = static_cast<std::size_t>(piece.pipe);
      if (frozen_[p] != 0) pieces[p][grown(piece, pricer_.scatter(), table_.pipes[p])] += piece.count;
    }
  };
  collect(table_.shared.least);
  for (const auto& run : table_.runs) collect(run.front().least);
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    if (!pieces[p].empty()) frozen_bound_ += once.of_pipe(static_cast<int>(p), {pieces[p].begin(), pieces[p].end()}).bound;
  }
}

Priced Search::price(const std::vector<int>& choice) {
  std::vector<const Bill*> bills{&table_.shared.seen};
  for (std::size_t r = 0; r < choice.size(); ++r) bills.push_back(&table_.runs[r][static_cast<std::size_t>(choice[r])].seen);
  return pricer_.of(bills);
}

Money Search::least(const std::vector<int>& choice) {
  std::vector<const Bill*> bills{&table_.shared.least};
  for (std::size_t r = 0; r < choice.size(); ++r) bills.push_back(&table_.runs[r][static_cast<std::size_t>(choice[r])].least);
  return floor_.of(bills).bound;
}

bool Search::offer(const std::vector<int>& choice) {
  const Priced priced = price(choice);
  if (!priced.found || (found_ && priced.cost >= cost_)) return false;
  found_ = true;
  cost_ = priced.cost;
  best_ = choice;
  return true;
}

Money Search::as_money(Wide scaled) const {
  const Wide scale = relaxed_.scale;
  return Money::from_units(static_cast<std::int64_t>(scaled <= 0 ? 0 : (scaled + scale - 1) / scale));
}

void Search::begin_pass() {
  joint_ = std::make_unique<Joint>(table_, allowed_, frozen_, pricer_.scatter(), kPasses[pass_].classes);
  budget_.emplace(std::max<std::int64_t>(1, limit_ - joint_work_), nothing_);
  rounds_ = 0;
}

bool Search::round() {
  const bool more = joint_->round(*budget_);
  return ++rounds_ < kPasses[pass_].rounds && more;
}

void Search::end_pass() {
  joint_->take_shares();
  joint_work_ += budget_->units() + 1;
  const bool known = joint_->relaxed().known;
  if (known) {
    relaxed_ = joint_->relaxed();
    relaxed_.rest += as_scaled(frozen_bound_);
    if (!first_.known) first_ = relaxed_;
    exact_ = joint_->exact_classes();
    bound_ = std::max(bound_, as_money(relaxed_.bound(allowed_)));
  }
  joint_.reset();
  if (!known) {
    stage_ = Stage::done;
    return;
  }
  if (stage_ == Stage::refine) return begin_enumeration();
  round_shares();
  leave_out();
  const bool last = pass_ == kLast || bound_ >= cost_ || joint_work_ >= limit_ / 2 || exact_;
  if (last) return after_passes();
  ++pass_;
  begin_pass();
}

void Search::after_passes() {
  stage_ = Stage::done;
  if (bound_ >= cost_) return;
  stage_ = Stage::improve;
  list_moves();
}

void Search::leave_out() {
  const std::vector<Wide> least = smallest(relaxed_, allowed_);
  const Wide room = as_scaled(cost_) - relaxed_.bound(allowed_);
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      const bool hopeless = relaxed_.least[r][k] - least[r] >= room && static_cast<int>(k) != best_[r];
      if (found_ && allowed_[r][k] != 0 && hopeless) allowed_[r][k] = 0;
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

void Search::list_moves() {
  const std::vector<Wide> least = smallest(relaxed_, allowed_);
  const Wide room = as_scaled(cost_) - relaxed_.bound(allowed_);
  moves_.clear();
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      const Wide slack = relaxed_.least[r][k] - least[r];
      if (allowed_[r][k] != 0 && (!found_ || slack < room)) moves_.emplace_back(slack, r, static_cast<int>(k));
    }
  }
  std::sort(moves_.begin(), moves_.end());
  move_ = 0;
  better_ = false;
}

// One run after the other tries another count, until none is better off with one.
void Search::improve() {
  while (move_ < moves_.size() && std::get<2>(moves_[move_]) == best_[std::get<1>(moves_[move_])]) ++move_;
  if (move_ == moves_.size() && better_) {
    move_ = 0;
    better_ = false;
    return;
  }
  if (move_ < moves_.size() && !spent()) {
    const auto& [slack, r, k] = moves_[move_++];
    std::vector<int> choice = best_;
    choice[r] = k;
    better_ = offer(choice) || better_;
    return;
  }
  leave_out();
  if (exact_ || spent()) return begin_enumeration();
  stage_ = Stage::refine;
  pass_ = kLast;
  begin_pass();
}

void Search::begin_enumeration() {
  const std::vector<Wide> least = smallest(relaxed_, allowed_);
  std::vector<Enumeration::List> lists;
  for (std::size_t r = 0; r < allowed_.size(); ++r) {
    lists.push_back({r, {}});
    for (std::size_t k = 0; k < allowed_[r].size(); ++k) {
      if (allowed_[r][k] != 0) lists.back().items.emplace_back(relaxed_.least[r][k], static_cast<int>(k));
    }
  }
  enumeration_ = std::make_unique<Enumeration>(std::move(lists));
  enumerated_ = cost_;
  stage_ = Stage::enumerate;
}

void Search::finish(Money proved) {
  bound_ = std::max(bound_, std::min(enumerated_, proved));
  enumeration_.reset();
  stage_ = Stage::done;
}

void Search::enumerate() {
  if (enumeration_->done()) return finish(cost_);
  const Money next = as_money(relaxed_.bound(allowed_) + enumeration_->sum());
  if ((found_ && next >= cost_) || spent()) return finish(next);
  std::vector<int> choice = best_;
  enumeration_->next(choice);
  // The program's bound holds for the choice too, and may be the better one.
  const Money floor = std::max(next, least(choice));
  enumerated_ = std::min(enumerated_, floor);
  if (!found_ || floor < cost_) offer(choice);
}

}  // namespace railwright::spacing
