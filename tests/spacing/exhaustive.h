// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "engine/asbuilt/gaps.h"
#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/setout/layout.h"
#include "engine/spacing/tariff.h"
#include "engine/takeoff/pipe_cuts.h"
#include "engine/takeoff/remaining.h"
#include "engine/takeoff/takeoff.h"

// The cheapest spacing of a small job by planning every vector of bay counts and cutting each one in every way. It shares no code with the search: layouts, heights,
// parts and pieces come from the rooms below spacing, prices of single things from the tariff, and the adding up and the cutting are done here.
namespace railwright::testing {

using measure::Length;
using measure::Money;

// Least cost of cutting all pieces, by every pattern of every stick. None: the sticks do not suffice, or there are too many ways to try.
class EveryCut {
 public:
  EveryCut(const cutting::Instance& instance, std::map<Length, std::int64_t> pieces, std::size_t most_states) : instance_(instance), most_(most_states) {
    for (const auto& [length, count] : pieces) {
      lengths_.push_back(length);
      State::value_type n = static_cast<int>(count);
      wanted_.push_back(n);
    }
    for (const cutting::Stock& stock : instance.stocks()) {
      wanted_.push_back(stock.count ? static_cast<int>(*stock.count) : -1);
    }
  }

  bool gave_up() const { return gave_up_; }
  std::optional<Money> least() { return least(wanted_); }

 private:
  using State = std::vector<int>;  // pieces left by length, then sticks left by stock (-1: any number)

  std::optional<Money> least(const State& state) {
    int longest = -1;
    for (std::size_t l = 0; l < lengths_.size(); ++l) {
      if (state[l] > 0) longest = static_cast<int>(l);
    }
    if (longest < 0) return Money();
    const auto known = known_.find(state);
    if (known != known_.end()) return known->second;
    if (known_.size() >= most_) {
      gave_up_ = true;
      return std::nullopt;
    }
    best_.push_back(std::nullopt);
    for (std::size_t s = 0; s < instance_.stocks().size(); ++s) {
      const Length usable = instance_.usable(instance_.stocks()[s]);
      State rest = state;
      int& sticks = rest[lengths_.size() + s];
      if (sticks == 0 || lengths_[static_cast<std::size_t>(longest)] > usable) continue;
      if (sticks > 0) --sticks;
      --rest[static_cast<std::size_t>(longest)];
      fill(s, longest, usable - lengths_[static_cast<std::size_t>(longest)], rest);
    }
    const std::optional<Money> best = best_.back();
    best_.pop_back();
    known_[state] = best;
    return best;
  }

  // The stick has `left` to spare; more pieces no longer than `from` go on it, or none.
  void fill(std::size_t stock, int from, Length left, State& rest) {
    const cutting::Stock& stick = instance_.stocks()[stock];
    const Length drop = measure::max(Length(), left - instance_.rules().kerf);
    if (const auto others = least(rest)) {
      const Money cost = stick.price - instance_.worth(stick, drop) + *others;
      if (!best_.back() || cost < *best_.back()) best_.back() = cost;
    }
    for (int l = from; l >= 0; --l) {
      const Length piece = lengths_[static_cast<std::size_t>(l)];
      if (rest[static_cast<std::size_t>(l)] == 0 || piece + instance_.rules().kerf > left) continue;
      --rest[static_cast<std::size_t>(l)];
      fill(stock, l, left - instance_.rules().kerf - piece, rest);
      ++rest[static_cast<std::size_t>(l)];
    }
  }

  const cutting::Instance& instance_;
  std::size_t most_;
  std::vector<Length> lengths_;
  State wanted_;
  std::map<State, std::optional<Money>> known_;
  std::vector<std::optional<Money>> best_;  // of the states that are being filled
  bool gave_up_ = false;
};

class Exhaustive {
 public:
  Exhaustive(const job::Job& job, const job::Catalogue& catalogue, setout::Limits limits, std::vector<ground::Profile> profiles, int most_more,
             std::size_t most_states = 3000)
      : job_(job), catalogue_(catalogue), limits_(std::move(limits)), profiles_(std::move(profiles)), most_more_(most_more), most_states_(most_states) {}

  struct Answer {
    std::optional<Money> best;
    bool gave_up = false;
    int vectors = 0;
    std::vector<int> bays;
  };

  // `concrete_per_m3`: the tariff's price of concrete, the same for every vector.
  Answer search(Money concrete_per_m3) {
    Answer answer;
    const Counted plain = count({}, concrete_per_m3);
    if (plain.gave_up) return {std::nullopt, true, 0, {}};
    const std::vector<std::vector<int>> offered = counts_offered(plain, concrete_per_m3);
    std::vector<std::size_t> at(offered.size(), 0);
    while (true) {
      std::vector<int> bays;
      for (std::size_t r = 0; r < at.size(); ++r) bays.push_back(offered[r][at[r]]);
      const Counted counted = count(bays, concrete_per_m3);
      answer.gave_up = answer.gave_up || counted.gave_up;
      ++answer.vectors;
      if (counted.cost && no_worse(counted, plain) && (!answer.best || *counted.cost < *answer.best)) {
        answer.best = counted.cost;
        answer.bays = bays;
      }
      std::size_t r = 0;
      while (r < at.size() && ++at[r] == offered[r].size()) at[r++] = 0;
      if (r == at.size()) return answer;
    }
  }

 private:
  struct Counted {
    std::optional<Money> cost;
    bool gave_up = false;
    std::vector<int> faults;  // by run, the last of what no run owns
    std::vector<setout::Run> runs;
    std::vector<int> bays;
  };

  static bool no_worse(const Counted& a, const Counted& b) {
    for (std::size_t r = 0; r < a.faults.size() && r < b.faults.size(); ++r) {
      if (a.faults[r] > b.faults[r]) return false;
    }
    return true;
  }

  // As spacing.h has it: the fewest to twice as many, without the counts that bring a fault when every run has as many more.
  std::vector<std::vector<int>> counts_offered(const Counted& plain, Money concrete) {
    std::vector<std::vector<int>> offered;
    std::vector<int> most;
    for (const setout::Run& run : plain.runs) {
      const job::Fence& fence = job_.choices.fences[static_cast<std::size_t>(run.fence)];
      const bool free = fence.spacing.mode == job::SpacingMode::best && fence.spacing.panel.nm() == 0 && !brace_run(run);
      offered.push_back({run.bay_count});
      most.push_back(free ? std::min(2 * run.bay_count, run.bay_count + most_more_) : run.bay_count);
    }
    for (int more = 1; more <= most_more_; ++more) {
      std::vector<int> bays;
      for (std::size_t r = 0; r < offered.size(); ++r) bays.push_back(std::min(offered[r].front() + more, most[r]));
      const Counted column = count(bays, concrete);
      for (std::size_t r = 0; r < offered.size(); ++r) {
        if (column.bays[r] > offered[r].back() && column.faults[r] <= plain.faults[r]) offered[r].push_back(column.bays[r]);
      }
    }
    return offered;
  }

  bool brace_run(const setout::Run& run) const { return brace_.count(run.name) != 0; }

  Counted count(const std::vector<int>& bays, Money concrete) {
    setout::Limits limits = limits_;
    limits.forced_bays = bays;
    Findings findings, unused;
    const setout::Layout layout = setout::set_out(job_, catalogue_, limits, profiles_, findings);
    const grade::Heights heights = grade::rail_heights(job_, catalogue_, layout, {}, findings);
    const asbuilt::AsBuilt built = asbuilt::take_in_gaps(job_, layout, heights, unused);
    const fittings::Assembly assembly = fittings::assemble(job_, catalogue_, layout, heights, built.readings, findings);
    const auto posts = takeoff::size_posts(job_, catalogue_, layout, heights, assembly, findings);
    const auto cuts = takeoff::gather_pieces(job_, catalogue_, layout, assembly, posts, findings);
    for (const setout::Run& run : layout.runs) {
      if (layout.bays[static_cast<std::size_t>(run.first_bay)].kind == setout::BayKind::brace) brace_.insert(run.name);
    }
    Counted counted;
    counted.runs = layout.runs;
    for (const setout::Run& run : layout.runs) counted.bays.push_back(run.bay_count);
    const std::map<std::string, std::size_t> owner = owners(layout);
    counted.faults.assign(layout.runs.size() + 1, 0);
    for (const Finding& f : findings) {
      const auto found = owner.find(f.where.substr(0, f.where.find('/')));
      if (f.severity != Severity::note && found != owner.end()) counted.faults[found->second] += f.severity == Severity::stop ? 1000 : 1;
    }
    Money sum = all_but_pipe(layout, assembly, posts, concrete);
    for (const takeoff::PipeCuts& pipe : cuts) {
      std::map<Length, std::int64_t> pieces;
      for (std::size_t k = 0; k < pipe.pieces.size(); ++k) {
        sum += spacing::Tariff(job_, catalogue_, concrete).cut();
        ++pieces[allowed_for(pipe, k, assembly, layout, owner, counted)];
      }
      EveryCut every(pipe.instance, pieces, most_states_);
      const auto cost = every.least();
      counted.gave_up = counted.gave_up || every.gave_up();
      if (!cost || counted.gave_up) return counted;
      sum += *cost;
    }
    counted.cost = sum;
    return counted;
  }

  // The length that a piece is counted with: a rail whose gap is still to be measured may come out longer.
  Length allowed_for(const takeoff::PipeCuts& pipe, std::size_t k, const fittings::Assembly& assembly, const setout::Layout& layout,
                     const std::map<std::string, std::size_t>& owner, Counted& counted) const {
    const Length length = pipe.instance.pieces()[k].length;
    if (pipe.pieces[k].kind == takeoff::PieceKind::post) return length;
    const fittings::Rail& rail = assembly.rails[static_cast<std::size_t>(pipe.pieces[k].index)];
    if (rail.measured || job_.choices.cutting.order != job::WorkOrder::posts_first) return length;
    Length longest;
    for (const cutting::Stock& stock : pipe.instance.stocks()) longest = measure::max(longest, pipe.instance.usable(stock));
    const Length longer = length + job_.choices.allowances.scatter;
    if (longer <= longest) return longer;
    ++counted.faults[owner.at(layout.bays[static_cast<std::size_t>(rail.bay)].name)];
    return measure::max(length, longest);
  }

  static std::map<std::string, std::size_t> owners(const setout::Layout& layout) {
    std::map<std::string, std::size_t> owner;
    for (const setout::Post& post : layout.posts) owner[post.name] = layout.runs.size();
    for (std::size_t r = 0; r < layout.runs.size(); ++r) owner[layout.runs[r].name] = r;
    for (const setout::Bay& bay : layout.bays) owner[bay.name] = bay.run >= 0 ? static_cast<std::size_t>(bay.run) : layout.runs.size();
    for (const setout::Run& run : layout.runs) {
      for (int b = run.first_bay + 1; b < run.first_bay + run.bay_count; ++b) {
        const setout::Bay& bay = layout.bays[static_cast<std::size_t>(b)];
        owner[layout.posts[static_cast<std::size_t>(bay.from)].name] = static_cast<std::size_t>(bay.run);
      }
    }
    return owner;
  }

  Money all_but_pipe(const setout::Layout& layout, const fittings::Assembly& assembly, const std::vector<takeoff::PostSize>& posts, Money concrete) const {
    const spacing::Tariff tariff(job_, catalogue_, concrete);
    const takeoff::Remaining remaining(job_, layout);
    Money sum;
    for (std::size_t p = 0; p < posts.size(); ++p) {
      if (remaining.post(static_cast<int>(p))) sum += tariff.post(layout.posts[p].fence, layout.posts[p].diameter, posts[p].concrete_m3);
    }
    for (const fittings::Use& use : assembly.uses) {
      if (remaining.use(use)) sum += tariff.fitting(use.fitting);
    }
    for (std::size_t b = 0; b < layout.bays.size(); ++b) {
      if (layout.bays[b].kind != setout::BayKind::gate && remaining.bay(static_cast<int>(b))) sum += tariff.bay(layout.bays[b].fence);
    }
    for (const fittings::Rail& rail : assembly.rails) {
      if (remaining.bay(rail.bay)) sum += tariff.rail();
    }
    return sum;
  }

  const job::Job& job_;
  const job::Catalogue& catalogue_;
  setout::Limits limits_;
  std::vector<ground::Profile> profiles_;
  int most_more_;
  std::size_t most_states_;  // of one cutting: beyond it the job is given up
  std::set<std::string> brace_;
};

}  // namespace railwright::testing
