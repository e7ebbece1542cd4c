// SPDX-License-Identifier: MIT
#include "engine/spacing/joint.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "engine/spacing/pipe_cost.h"

namespace railwright::spacing {

// The program's part of one pipe.
struct Joint::Pipe {
  std::vector<Length> reps;        // shortest of each class, ascending
  std::vector<std::int64_t> most;  // of each class that any choice may want
  std::unique_ptr<cutting::Instance> instance;
  std::unique_ptr<cutting::Model> model;
  std::unique_ptr<cutting::Knapsack> knapsack;
  std::vector<int> sort_of;             // by class
  std::vector<int> sort_row, type_row;  // -1: none
  std::set<std::vector<std::int64_t>> seen;

  int class_of(Length length) const { return static_cast<int>(std::upper_bound(reps.begin(), reps.end(), length) - reps.begin()) - 1; }
};

Wide Relaxed::bound(const std::vector<std::vector<char>>& allowed) const {
  Wide sum = rest;
  for (std::size_t r = 0; r < least.size(); ++r) {
    bool any = false;
    Wide smallest = 0;
    for (std::size_t k = 0; k < least[r].size(); ++k) {
      if (allowed[r][k] == 0 || (any && least[r][k] >= smallest)) continue;
      smallest = least[r][k];
      any = true;
    }
    sum += smallest;
  }
  return sum;
}

Joint::~Joint() = default;

Joint::Joint(const Table& table, const std::vector<std::vector<char>>& allowed, const std::vector<char>& frozen, Length scatter, int most_classes)
    : table_(table), allowed_(allowed), frozen_(frozen), scatter_(scatter) {
  make_classes(most_classes);
  make_rows();
  add_choices();
  seed_patterns();
}

void Joint::make_classes(int most_classes) {
  std::vector<std::set<Length>> lengths(table_.pipes.size());
  const auto collect = [&](const Share& share) {
    for (const Piece& piece : share.least.pieces) {
      const auto p = static_cast<std::size_t>(piece.pipe);
      if (frozen_[p] == 0) lengths[p].insert(grown(piece, scatter_, table_.pipes[p]));
    }
  };
  collect(table_.shared);
  for (std::size_t r = 0; r < table_.runs.size(); ++r) {
    for (std::size_t k = 0; k < table_.runs[r].size(); ++k) {
      if (allowed_[r][k] != 0) collect(table_.runs[r][k]);
    }
  }
  for (std::size_t p = 0; p < lengths.size(); ++p) {
    pipes_.push_back(std::make_unique<Pipe>());
    if (lengths[p].empty()) continue;
    const Length span = *lengths[p].rbegin() - *lengths[p].begin();
    const bool all = static_cast<int>(lengths[p].size()) <= most_classes;
    exact_ = exact_ && all;
    const Length width = all ? Length::from_nm(1) : span / most_classes + Length::from_nm(1);
    for (const Length length : lengths[p]) {
      std::vector<Length>& reps = pipes_[p]->reps;
      if (reps.empty() || length - reps.back() >= width) reps.push_back(length);
    }
    pipes_[p]->most.resize(pipes_[p]->reps.size());
  }
  base_ = counts_of(table_.shared);
  for (std::size_t r = 0; r < table_.runs.size(); ++r) {
    counts_.emplace_back();
    for (const Share& share : table_.runs[r]) {
      const bool in = allowed_[r][counts_.back().size()] != 0;
      counts_.back().push_back(in ? counts_of(share) : std::vector<Count>());
    }
  }
}

std::vector<Joint::Count> Joint::counts_of(const Share& share) const {
  std::vector<Count> counts;
  for (const Piece& piece : share.least.pieces) {
    const auto p = static_cast<std::size_t>(piece.pipe);
    if (frozen_[p] != 0) continue;
    const int cls = pipes_[p]->class_of(grown(piece, scatter_, table_.pipes[p]));
    const auto same = std::find_if(counts.begin(), counts.end(), [&](const Count& c) { return c.pipe == piece.pipe && c.cls == cls; });
    if (same != counts.end())
      same->n += piece.count;
    else
      counts.push_back({piece.pipe, cls, piece.count});
  }
  return counts;
}

// How many of each class any choice may want, and what a run comes to at most, a piece taken for one unit of money.
void Joint::find_most() {
  for (const Count& c : base_) pipes_[static_cast<std::size_t>(c.pipe)]->most[static_cast<std::size_t>(c.cls)] += c.n;
  for (std::size_t r = 0; r < counts_.size(); ++r) {
    std::map<std::pair<int, int>, std::int64_t> most;
    for (std::size_t k = 0; k < counts_[r].size(); ++k) {
      double pieces = 0;
      for (const Count& c : counts_[r][k]) {
        std::int64_t& m = most[{c.pipe, c.cls}];
        m = std::max(m, c.n);
        pieces += static_cast<double>(c.n);
      }
      dearest_run_ = std::max(dearest_run_, table_.runs[r][k].least.fixed.value() + pieces);
    }
    for (const auto& [place, n] : most) pipes_[static_cast<std::size_t>(place.first)]->most[static_cast<std::size_t>(place.second)] += n;
  }
}

// False where the pieces of a pipe are no cutting problem.
bool Joint::make_models() {
  double dearest = 1;
  for (std::size_t p = 0; p < pipes_.size(); ++p) {
    Pipe& pipe = *pipes_[p];
    if (pipe.reps.empty()) continue;
    std::vector<cutting::Piece> pieces;
    for (std::size_t l = 0; l < pipe.reps.size(); ++l) pieces.push_back({"", pipe.reps[l], pipe.most[l], -1});
    auto built = cutting::Instance::build(table_.pipes[p].stocks, std::move(pieces), table_.pipes[p].rules);
    if (!built) return false;
    pipe.instance = std::make_unique<cutting::Instance>(std::move(*built));
    pipe.model = std::make_unique<cutting::Model>(*pipe.instance);
    std::vector<std::int64_t> demand;
    for (const cutting::Sort& sort : pipe.model->sorts) demand.push_back(sort.demand);
    pipe.knapsack = std::make_unique<cutting::Knapsack>(*pipe.model, std::move(demand));
    pipe.sort_of = pipe.model->sort_of_piece;
    for (const cutting::Type& type : pipe.model->types) dearest = std::max(dearest, static_cast<double>(type.price));
  }
  unit_ = dearest;
  return true;
}

void Joint::add_pipe_rows(int p, std::vector<cutting::Simplex::Row>& rows) {
  Pipe& pipe = *pipes_[static_cast<std::size_t>(p)];
  if (pipe.model == nullptr) return;
  std::vector<double> base(pipe.model->sorts.size());
  for (const Count& c : base_) {
    if (c.pipe == p) base[static_cast<std::size_t>(pipe.sort_of[static_cast<std::size_t>(c.cls)])] += static_cast<double>(c.n);
  }
  for (const double b : base) {
    pipe.sort_row.push_back(static_cast<int>(rows.size()));
    rows.push_back({b, true, 4});
  }
  for (const cutting::Type& type : pipe.model->types) {
    pipe.type_row.push_back(type.counted ? static_cast<int>(rows.size()) : -1);
    if (type.counted) rows.push_back({static_cast<double>(type.limit), false, 0});
  }
}

// Without models there is no program, and `relaxed_` stays unknown.
void Joint::make_rows() {
  find_most();
  if (!make_models()) return;
  const double penalty = 4 + 4 * dearest_run_ * Money::kUnits / unit_;
  std::vector<cutting::Simplex::Row> rows;
  for (std::size_t p = 0; p < pipes_.size(); ++p) add_pipe_rows(static_cast<int>(p), rows);
  for (std::size_t r = 0; r < counts_.size(); ++r) {
    run_row_.push_back(static_cast<int>(rows.size()));
    rows.push_back({1, true, penalty});
  }
  simplex_ = std::make_unique<cutting::Simplex>(rows);
}

void Joint::add_choices() {
  if (simplex_ == nullptr) return;
  for (std::size_t r = 0; r < counts_.size(); ++r) {
    column_.emplace_back();
    for (std::size_t k = 0; k < counts_[r].size(); ++k) {
      if (allowed_[r][k] == 0) {
        column_.back().push_back(-1);
        continue;
      }
      std::vector<cutting::Simplex::Entry> entries;
      for (const Count& c : counts_[r][k]) {
        const Pipe& pipe = *pipes_[static_cast<std::size_t>(c.pipe)];
        entries.push_back({pipe.sort_row[static_cast<std::size_t>(pipe.sort_of[static_cast<std::size_t>(c.cls)])], -static_cast<double>(c.n)});
      }
      entries.push_back({run_row_[r], 1.0});
      const double cost = static_cast<double>(table_.runs[r][k].least.fixed.units()) / unit_;
      column_.back().push_back(simplex_->add_column(cost, entries));
    }
  }
}

void Joint::seed_patterns() {
  for (std::size_t p = 0; p < pipes_.size(); ++p) {
    const Pipe& pipe = *pipes_[p];
    if (pipe.model == nullptr || simplex_ == nullptr) continue;
    for (int t = 0; t < static_cast<int>(pipe.model->types.size()); ++t) {
      for (int s = 0; s < static_cast<int>(pipe.model->sorts.size()); ++s) {
        const cutting::Sort& sort = pipe.model->sorts[static_cast<std::size_t>(s)];
        const std::int64_t count = std::min(sort.demand, pipe.model->types[static_cast<std::size_t>(t)].capacity / sort.size);
        if (count > 0) add_pattern(static_cast<int>(p), {t, {{s, count}}});
      }
    }
  }
}

bool Joint::add_pattern(int p, const cutting::Pattern& pattern) {
  Pipe& pipe = *pipes_[static_cast<std::size_t>(p)];
  std::vector<std::int64_t> key{pattern.type};
  std::vector<cutting::Simplex::Entry> entries;
  for (const cutting::Take& take : pattern.takes) {
    key.push_back(take.sort);
    key.push_back(take.count);
    entries.push_back({pipe.sort_row[static_cast<std::size_t>(take.sort)], static_cast<double>(take.count)});
  }
  if (!pipe.seen.insert(std::move(key)).second) return false;
  const int row = pipe.type_row[static_cast<std::size_t>(pattern.type)];
  if (row >= 0) entries.push_back({row, 1.0});
  simplex_->add_column(static_cast<double>(pipe.model->cost(pattern)) / unit_, entries);
  return true;
}

namespace {

constexpr double kWholeLimit = 0x1p51;

// Prices of one pipe from the program's, in whole numbers.
cutting::Quote quote_of(const std::vector<double>& duals, const std::vector<int>& sort_row, const std::vector<int>& type_row, double unit, double scale) {
  cutting::Quote quote;
  quote.scale = scale;
  for (const int row : sort_row) quote.value.push_back(std::clamp(std::floor(duals[static_cast<std::size_t>(row)] * unit * scale), 0.0, kWholeLimit / 1024));
  for (const int row : type_row) {
    quote.extra.push_back(row < 0 ? 0.0 : std::clamp(std::floor(duals[static_cast<std::size_t>(row)] * unit * scale), -kWholeLimit, 0.0));
  }
  return quote;
}

}  // namespace

// Asks every pipe's knapsack for patterns that gain, and takes the bound at these prices: they are shrunk until none of a stock without count gains.
bool Joint::ask(cutting::Budget& budget) {
  const auto scale = static_cast<double>(scale_);
  std::vector<std::vector<double>> values(pipes_.size());
  Wide charge = 0;
  bool added = false;
  for (std::size_t p = 0; p < pipes_.size(); ++p) {
    Pipe& pipe = *pipes_[p];
    if (pipe.model == nullptr) continue;
    cutting::Quote quote = quote_of(simplex_->duals(), pipe.sort_row, pipe.type_row, unit_, scale);
    const cutting::Offers offers = pipe.knapsack->price(quote, std::max(12, static_cast<int>(pipe.sort_row.size()) / 2), budget);
    double shrink = 1;
    for (std::size_t t = 0; t < pipe.model->types.size(); ++t) {
      const cutting::Type& type = pipe.model->types[t];
      const double gain = std::max(0.0, offers.best[t] - quote.extra[t]);
      if (gain <= 0) continue;
      // value <= scale * cost + gain and cost >= the cost of the emptiest pattern: value times this is at most scale * cost.
      const auto least = static_cast<double>(pipe.model->cost(static_cast<int>(t), pipe.model->sorts.back().size)) * scale;
      if (!type.counted && least > 0)
        shrink = std::min(shrink, least / (least + gain));
      else
        charge += static_cast<Wide>(std::ceil(std::min(gain, 0x1p60))) * type.limit;
    }
    for (const double v : quote.value) values[p].push_back(shrink < 1 ? std::floor(v * shrink * (1 - 1e-12)) : v);
    for (const cutting::Offer& offer : offers.patterns) {
      if (offer.gain > 1e-8 * unit_ * scale) added = add_pattern(static_cast<int>(p), offer.pattern) || added;
    }
  }
  take_bound(values, charge);
  return added;
}

void Joint::take_bound(const std::vector<std::vector<double>>& values, Wide charge) {
  const auto worth = [&](const std::vector<Count>& counts) {
    Wide sum = 0;
    for (const Count& c : counts) {
      const auto p = static_cast<std::size_t>(c.pipe);
      const auto sort = static_cast<std::size_t>(pipes_[p]->sort_of[static_cast<std::size_t>(c.cls)]);
      sum += static_cast<Wide>(static_cast<std::int64_t>(values[p][sort])) * c.n;
    }
    return sum;
  };
  Relaxed next;
  next.known = true;
  next.scale = scale_;
  next.rest = static_cast<Wide>(table_.shared.least.fixed.units()) * scale_ + worth(base_) - charge;
  for (std::size_t r = 0; r < counts_.size(); ++r) {
    next.least.emplace_back();
    for (std::size_t k = 0; k < counts_[r].size(); ++k) {
      const bool in = allowed_[r][k] != 0;
      next.least.back().push_back(in ? static_cast<Wide>(table_.runs[r][k].least.fixed.units()) * scale_ + worth(counts_[r][k]) : 0);
    }
  }
  const Wide bound = next.bound(allowed_);
  if (relaxed_.known && bound <= best_) return;
  best_ = bound;
  relaxed_ = std::move(next);
}

void Joint::take_shares() {
  if (simplex_ == nullptr) return;
  const std::vector<double> values = simplex_->values();
  relaxed_.share.clear();
  for (const std::vector<int>& columns : column_) {
    relaxed_.share.emplace_back();
    for (const int column : columns) relaxed_.share.back().push_back(column < 0 ? 0.0 : values[static_cast<std::size_t>(column)]);
  }
}

bool Joint::round(cutting::Budget& budget) {
  if (simplex_ == nullptr || budget.stopped()) return false;
  const bool optimal = simplex_->optimise(budget);
  const bool added = ask(budget);
  const double value = simplex_->objective() * unit_ + static_cast<double>(table_.shared.least.fixed.units());
  const double bound = static_cast<double>(best_) / static_cast<double>(scale_);
  return optimal && added && value - bound > 2e-5 * value;
}

}  // namespace railwright::spacing
