// SPDX-License-Identifier: MIT
#include "engine/spacing/pipe_cost.h"

#include <algorithm>

namespace railwright::spacing {
namespace {

// With more lengths than this the cutting's program takes long; fractions of an inch are lost below it.
constexpr std::size_t kFewLengths = 60;
// So few pieces are cut to the proof: a stick too many would weigh.
constexpr std::int64_t kFewPieces = 100;

}  // namespace

Length grown(const Piece& piece, Length scatter, const PipeStock& pipe) {
  if (!piece.grows) return piece.length;
  return measure::max(piece.length, measure::min(piece.length + scatter, pipe.longest));
}

Pieces PipeCost::rounded_up(const Pieces& pieces) const {
  const Length width = (pieces.back().first - pieces.front().first) / static_cast<std::int64_t>(kFewLengths) + Length::from_nm(1);
  Pieces few;
  for (auto piece = pieces.rbegin(); piece != pieces.rend(); ++piece) {
    if (!few.empty() && few.back().first - piece->first < width)
      few.back().second += piece->second;
    else
      few.push_back(*piece);
  }
  std::reverse(few.begin(), few.end());
  return few;
}

Pieces PipeCost::rounded_down(const Pieces& pieces) const {
  const Length width = (pieces.back().first - pieces.front().first) / static_cast<std::int64_t>(kFewLengths) + Length::from_nm(1);
  Pieces few;
  for (const auto& piece : pieces) {
    if (!few.empty() && piece.first - few.back().first < width)
      few.back().second += piece.second;
    else
      few.push_back(piece);
  }
  return few;
}

Priced PipeCost::cut(int pipe, const Pieces& pieces) {
  const PipeStock& stock = table_.pipes[static_cast<std::size_t>(pipe)];
  std::vector<cutting::Piece> wanted;
  for (const auto& [length, count] : pieces) wanted.push_back({"", length, count, -1});
  const auto instance = cutting::Instance::build(stock.stocks, std::move(wanted), stock.rules);
  if (!instance) return {{}, {}, false};
  std::int64_t count = 0;
  for (const auto& piece : pieces) count += piece.second;
  cutting::Options options;
  options.effort = count <= kFewPieces ? cutting::Effort::full : cutting::Effort::quick;
  options.work_limit = limit_;
  const cutting::Plan plan = cutting::solve(*instance, options);
  work_ += plan.work + 1;
  return {plan.cost, plan.bound, plan.found};
}

Priced PipeCost::of_pipe(int pipe, const Pieces& pieces) {
  const auto known = known_.find({pipe, pieces});
  if (known != known_.end()) return known->second;
  const bool many = pieces.size() > kFewLengths;
  Priced priced;
  if (!many) {
    priced = cut(pipe, pieces);
  } else if (grain_ == Grain::down) {
    priced = cut(pipe, rounded_down(pieces));
  } else {
    priced = cut(pipe, rounded_up(pieces));
    priced.bound = Money();
  }
  if (grain_ == Grain::exact && many) {
    const Priced exact = cut(pipe, pieces);
    if (exact.found && (!priced.found || exact.cost < priced.cost)) priced.cost = exact.cost;
    priced.bound = exact.bound;
    priced.found = priced.found || exact.found;
  }
  known_[{pipe, pieces}] = priced;
  return priced;
}

Priced PipeCost::of(const std::vector<const Bill*>& bills) {
  std::vector<std::map<Length, std::int64_t>> by_pipe(table_.pipes.size());
  Priced sum;
  for (const Bill* bill : bills) {
    sum.cost += bill->fixed;
    for (const Piece& piece : bill->pieces) {
      const auto pipe = static_cast<std::size_t>(piece.pipe);
      by_pipe[pipe][grown(piece, scatter_, table_.pipes[pipe])] += piece.count;
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
