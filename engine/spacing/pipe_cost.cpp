// SPDX-License-Identifier: MIT
#include "engine/spacing/pipe_cost.h"

#include <algorithm>

namespace railwright::spacing {
namespace {

// With more lengths than this the cutting's program takes long; fractions of an inch are lost below it.
constexpr std::size_t kFewLengths = 60;

}  // namespace

Length grown(const Piece& piece, Length length, Length scatter, const PipeStock& pipe) {
  if (!piece.grows) return length;
  return measure::max(length, measure::min(length + scatter, pipe.longest));
}

Pieces PipeCost::rounded_up(const Pieces& pieces) const {
  const Length width = (pieces.back().first - pieces.front().first) / static_cast<std::int64_t>(kFewLengths) + Length::from_nm(1);
  Pieces few;
  for (auto piece = pieces.rbegin(); piece != pieces.rend(); ++piece) {
    if (!few.empty() && few.back().first - piece->first < width) few.back().second += piece->second;
    else few.push_back(*piece);
  }
  std::reverse(few.begin(), few.end());
  return few;
}

Priced PipeCost::cut(int pipe, const Pieces& pieces) {
  const PipeStock& stock = table_.pipes[static_cast<std::size_t>(pipe)];
  std::vector<cutting::Piece> wanted;
  for (const auto& [length, count] : pieces) wanted.push_back({"", length, count, -1});
  const auto instance = cutting::Instance::build(stock.stocks, std::move(wanted), stock.rules);
  if (!instance) return {{}, {}, false};
  cutting::Options options;
  options.effort = cutting::Effort::quick;
  options.work_limit = limit_;
  const cutting::Plan plan = cutting::solve(*instance, options);
  work_ += plan.work + 1;
  return {plan.cost, plan.bound, plan.found};
}

Priced PipeCost::of_pipe(int pipe, const Pieces& pieces) {
  const auto known = known_.find({pipe, pieces});
  if (known != known_.end()) return known->second;
  Priced priced;
  if (pieces.size() <= kFewLengths) {
    priced = cut(pipe, pieces);
  } else {
    priced = cut(pipe, rounded_up(pieces));
    priced.bound = Money();
  }
  if (grain_ == Grain::exact && pieces.size() > kFewLengths) {
    const Priced exact = cut(pipe, pieces);
    if (exact.found && (!priced.found || exact.cost < priced.cost)) priced.cost = exact.cost;
    priced.bound = exact.bound;
    priced.found = priced.found || exact.found;
  }
  known_[{pipe, pieces}] = priced;
  return priced;
}

Priced PipeCost::of(const std::vector<const Share*>& shares) {
  std::vector<std::map<Length, std::int64_t>> by_pipe(table_.pipes.size());
  Priced sum;
  for (const Share* share : shares) {
    sum.cost += share->fixed;
    for (const Piece& piece : share->pieces) {
      const auto pipe = static_cast<std::size_t>(piece.pipe);
      by_pipe[pipe][grown(piece, piece.length, scatter_, table_.pipes[pipe])] += piece.count;
    }
  }
  sum.bound = sum.cost;
  for (std::size_t p = 0; p < by_pipe.size(); ++p) {
    if (by_pipe[p].empty()) continue;
    const Priced pipe = of_pipe(static_cast<int>(p), {by_pipe[p].begin(), by_pipe[p].end()});
    sum.cost += pipe.cost;
    sum.bound += pipe.bound;
    sum.found = sum.found && pipe.found;
  }
  return sum;
}

}  // namespace railwright::spacing
