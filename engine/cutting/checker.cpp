// SPDX-License-Identifier: MIT
#include "engine/cutting/checker.h"

#include <map>
#include <set>

#include "engine/cutting/wide.h"

namespace railwright::cutting {
namespace {

class Checker {
 public:
  Checker(const Instance& instance, const Plan& plan) : instance_(instance), plan_(plan), cut_(instance.pieces().size()), used_(instance.stocks().size()) {}

  std::vector<std::string> run() {
    check_statement();
    if (!plan_.found) {
      if (!plan_.sticks.empty()) fault("sticks_without_plan");
      return faults_;
    }
    for (std::size_t s = 0; s < plan_.sticks.size() && faults_.size() < 20; ++s) check_stick(s);
    if (faults_.empty()) check_totals();
    return faults_;
  }

 private:
  void fault(std::string text) { faults_.push_back(std::move(text)); }

  void check_statement() {
    if (plan_.found && plan_.bound > plan_.cost) fault("bound_above_cost");
    if (plan_.proved != (plan_.status == Status::optimal || plan_.status == Status::infeasible)) fault("proved_and_status");
    if (plan_.status == Status::optimal && (!plan_.found || plan_.bound != plan_.cost)) fault("optimal_with_gap");
    if (plan_.status == Status::infeasible && plan_.found) fault("infeasible_with_plan");
    if (plan_.status == Status::feasible && !plan_.found) fault("feasible_without_plan");
  }

  void check_stick(std::size_t s) {
    const Stick& stick = plan_.sticks[s];
    const std::string where = " stick " + std::to_string(s);
    if (stick.stock < 0 || stick.stock >= static_cast<int>(used_.size())) return fault("no_such_stock" + where);
    if (stick.count < 1 || stick.pieces.empty() || stick.marks.size() != stick.pieces.size()) return fault("malformed" + where);
    const Rules& rules = instance_.rules();
    const Stock& stock = instance_.stocks()[stick.stock];
    // The blade walks along the stick: a crop and its kerf, then each piece, with a kerf before every piece but the first.
    std::int64_t at = rules.crop_start.nm() > 0 ? rules.crop_start.nm() + rules.kerf.nm() : 0;
    const std::int64_t end = stock.length.nm() - (rules.crop_end.nm() > 0 ? rules.crop_end.nm() + rules.kerf.nm() : 0);
    std::multiset<std::int64_t> lengths;
    for (std::size_t i = 0; i < stick.pieces.size(); ++i) {
      const int p = stick.pieces[i];
      if (p < 0 || p >= static_cast<int>(cut_.size())) return fault("no_such_piece" + where);
      if (i > 0) at += rules.kerf.nm();
      at += instance_.pieces()[p].length.nm();
      if (stick.marks[i].nm() != at) fault("mark" + where);
      cut_[p] += stick.count;
      lengths.insert(instance_.pieces()[p].length.nm());
    }
    if (at > end) fault("overfilled" + where);
    check_drop(stick, stock, end - at - rules.kerf.nm(), where);
    used_[stick.stock] += stick.count;
    patterns_.insert({stick.stock, lengths});
  }

  void check_drop(const Stick& stick, const Stock& stock, std::int64_t left, const std::string& where) {
    if (left < 0) left = 0;
    if (stick.drop.nm() != left) fault("drop" + where);
    const Rules& rules = instance_.rules();
    const bool kept = rules.keep_from && left > 0 && left >= rules.keep_from->nm();
    if (stick.kept != kept) fault("kept" + where);
    std::int64_t worth = 0;
    if (kept) {
      worth = static_cast<std::int64_t>(static_cast<Wide>(left) * rules.drop_value.units() / rules.drop_value_per.nm());
      if (worth > stock.price.units()) worth = stock.price.units();
    }
    prices_ += stock.price.units() * stick.count;
    worths_ += worth * stick.count;
    sticks_ += stick.count;
  }

  void check_totals() {
    for (std::size_t p = 0; p < cut_.size(); ++p)
      if (cut_[p] != instance_.pieces()[p].count) fault("piece_count " + std::to_string(p));
    for (std::size_t k = 0; k < used_.size(); ++k) {
      const auto& count = instance_.stocks()[k].count;
      if (count && used_[k] > *count) fault("stock_count " + std::to_string(k));
    }
    if (prices_ != plan_.cost_before_drops.units()) fault("cost_before_drops");
    if (prices_ - worths_ != plan_.cost.units()) fault("cost");
    if (sticks_ != plan_.sticks_used) fault("sticks_used");
    if (static_cast<int>(patterns_.size()) != plan_.setups) fault("setups");
  }

  const Instance& instance_;
  const Plan& plan_;
  std::vector<std::string> faults_;
  std::vector<std::int64_t> cut_;
  std::vector<std::int64_t> used_;
  std::set<std::pair<int, std::multiset<std::int64_t>>> patterns_;
  std::int64_t prices_ = 0;
  std::int64_t worths_ = 0;
  std::int64_t sticks_ = 0;
};

}  // namespace

std::vector<std::string> check_plan(const Instance& instance, const Plan& plan) { return Checker(instance, plan).run(); }

}  // namespace railwright::cutting
