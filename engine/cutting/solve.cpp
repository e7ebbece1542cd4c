// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/cutting/coarse.h"
#include "engine/cutting/corner.h"
#include "engine/cutting/fill.h"
#include "engine/cutting/gather.h"
#include "engine/cutting/greedy.h"
#include "engine/cutting/layout.h"
#include "engine/cutting/meet.h"
#include "engine/cutting/numbers.h"
#include "engine/cutting/search.h"
#include "engine/cutting/staged.h"
#include "engine/cutting/tidy.h"

namespace railwright::cutting {
namespace {

constexpr std::size_t kMostRows = 1500;  // of a linear program
constexpr std::size_t kMostPolished = 20'000;
constexpr std::size_t kManySorts = 150;
constexpr std::size_t kManyTypes = 12;
constexpr std::size_t kFewSorts = 16;
constexpr std::int64_t kGathered = 60'000;   // exchanges
constexpr std::int64_t kTidied = 5'000'000;  // steps
constexpr std::int64_t kQuickWork = 300;

class Solver {
 public:
  Solver(const Model& model, const Options& options)
      : model_(model),
        options_(options),
        budget_(options.effort == Effort::quick ? std::min(kQuickWork, options.work_limit) : options.work_limit, options_.on_progress) {}

  Plan run() {
    if (model_.sorts.empty()) {
      incumbent_.best.found = true;
    } else {
      search();
    }
    return state();
  }

 private:
  void search() {
    const Task task = whole_task(model_);
    bound_ = material_bound(model_, &enough_);
    if (!enough_) return;
    incumbent_.ceiling = 1;
    for (const Type& type : model_.types) incumbent_.ceiling += type.price * type.limit;
    incumbent_.best = greedy(model_, task);
    if (proved()) return;
    const Start start = coarse_start(model_, task, budget_);
    if (start.plan.found) incumbent_.offer(model_, start.plan.uses);
    raise(start.bound);
    if (proved()) return;
    if (start.plan.found && options_.effort == Effort::full && model_.sorts.size() <= kMostPolished) improve(task, start.prices);
    if (proved() || budget_.stopped() || model_.sorts.size() > kMostRows) return;
    Master root(model_, task);
    if (!start.prices.empty()) root.start_from(start.prices);
    for (const Use& use : start.plan.uses) root.seed(use.pattern);
    for (const Use& use : incumbent_.best.uses) root.seed(use.pattern);
    Master::Limits limits;
    limits.cutoff = incumbent_.cutoff();
    const bool solved = root.solve(limits, budget_);
    raise(root.bound());
    if (!solved || proved() || infeasible()) return;
    const bool count = options_.effort == Effort::full && !model_.values_drops && incumbent_.best.found;
    if (count) {
      round_by_numbers(task, root);
    } else {
      round(task, root, 0, 3);
    }
    if (proved() || budget_.stopped() || options_.effort == Effort::quick || count) return;
    raise(Search(model_, budget_, incumbent_).run(root, bound_));
  }

  void round(const Task& task, const Master& root, int from, int to) {
    for (int variant = from; variant < to && !proved() && !budget_.stopped(); ++variant) Dive{model_, budget_, incumbent_}.run(root, task, variant);
  }

  // Where there are many types the group's paths find more than rounding does; where there are few, rounding and numbers of sticks are quicker.
  void round_by_numbers(const Task& task, const Master& root) {
    const bool many = model_.types.size() > kManyTypes;
    if (!many) round(task, root, 0, 1);
    if (proved() || budget_.stopped()) return;
    Numbers numbers(model_, task, root, budget_, incumbent_);
    if (!many) {
      count_sticks(numbers, 500);
      if (!proved()) raise(numbers.sharpen(bound_, 40));
      count_sticks(numbers, 2000);
    }
    if (proved() || budget_.stopped()) return;
    Corner corner(model_, task, root.last_prices(), budget_, incumbent_);
    raise(corner.bound());
    if (!proved()) corner.try_paths(500);
    raise(corner.bound());
    if (many && !proved()) round(task, root, 0, 1);
    if (proved() || budget_.stopped()) return;
    const bool meets = many && corner.known() && model_.sorts.size() <= kFewSorts;
    Meet meet(model_, task, root, corner, budget_, incumbent_);
    if (meets) meet.run(bound_, 6);
    if (many && !proved()) try_all(task, root);
    if (many) {
      count_sticks(numbers, 500);
      if (!proved()) raise(numbers.sharpen(bound_, 40));
      count_sticks(numbers, 2000);
    }
    count_sticks(numbers, 8000);
    if (meets && !proved()) meet.run(bound_, 20);
    if (!proved()) numbers.vary(bound_, 4000, 200);
    raise(numbers.raised(bound_));
    round(task, root, 1, 3);
    if (proved() || budget_.stopped()) return;
    Search search(model_, budget_, incumbent_);
    const auto open = numbers.open(bound_);
    raise(open.empty() ? search.run(root, bound_) : search.run(root, bound_, open));
  }

  // Few lengths of few pieces: every plan, cell by cell.
  void try_all(const Task& task, const Master& root) {
    if (Staged staged(model_, task, root.prices(), budget_, incumbent_); staged.run()) raise(incumbent_.cutoff());
  }

  void count_sticks(Numbers& numbers, std::int64_t steps) {
    raise(numbers.raised(bound_));
    if (!proved()) numbers.try_each(bound_, steps);
    raise(numbers.raised(bound_));
  }

  void improve(const Task& task, const std::vector<double>& prices) {
    for (const std::size_t groups : {200U, 450U}) {
      if (proved() || budget_.stopped() || model_.sorts.size() < groups) break;
      if (Solution plan = coarse_plan(model_, task, prices, groups, budget_); plan.found) incumbent_.offer(model_, std::move(plan.uses));
      gather();
    }
    if (model_.types.size() > 1 && !proved() && incumbent_.best.found) {
      Numbers numbers(model_, task, prices, budget_, incumbent_);
      raise(numbers.raised(bound_));
      for (const std::int64_t steps : {500, 4000}) numbers.try_each(bound_, steps);
      raise(numbers.raised(bound_));
    }
    if (proved()) return;
    if (model_.types.size() > 1 || model_.sorts.size() < kManySorts) polish(prices);
  }

  // One stick less, again and again, where all sticks are alike.
  void gather() {
    if (model_.types.size() > 1 || !incumbent_.best.found) return;
    for (std::uint64_t seed = 1; !proved() && !budget_.stopped(); ++seed) {
      std::int64_t sticks = 0;
      for (const Use& use : incumbent_.best.uses) sticks += use.count;
      std::vector<Use> plan = incumbent_.best.uses;
      if (!Gather(model_, budget_, seed).run({sticks - 1}, kGathered, plan) || !incumbent_.offer(model_, std::move(plan))) return;
    }
  }

  // Cuts most sticks by the prices, which loses next to nothing, and the rest with care: its program is small.
  void polish(const std::vector<double>& prices) {
    for (const Peel how : {Peel{0.3, 0.05, 0.001}, Peel{0.4, 0.02, 0.02}, Peel{0.3, 0.02, 0.05}}) {
      if (proved() || budget_.stopped()) return;
      Task rest = whole_task(model_);
      Dive dive{model_, budget_, incumbent_};
      dive.gap = 1e-4;
      dive.before =
          peel_by_prices(model_, rest, prices, {how.leave * std::min(1.0, 450 / static_cast<double>(model_.pieces())), how.by_length, how.loose}, budget_);
      if (done(rest)) continue;
      Master master(model_, rest);
      master.start_from(prices);
      const Solution filled = fill_by_prices(model_, rest, prices, budget_, how.loose);
      for (const Use& use : filled.uses) master.seed(use.pattern);
      master.solve({incumbent_.cutoff() - total_cost(model_, dive.before), 1e-4}, budget_);
      if (!budget_.stopped()) dive.run(master, rest, 0);
    }
  }

  void raise(std::int64_t bound) { bound_ = std::max(bound_, std::min(model_.round_up(bound), incumbent_.cutoff())); }
  bool infeasible() const { return !enough_ || (!incumbent_.best.found && bound_ >= incumbent_.ceiling); }
  bool proved() const { return incumbent_.best.found && bound_ >= incumbent_.best.cost; }

  Plan state() {
    Plan plan;
    if (options_.effort == Effort::full) tidy(model_, incumbent_.best.uses, kTidied);
    if (incumbent_.best.found) plan = lay_out(model_, incumbent_.best);
    plan.bound = Money::from_units(incumbent_.best.found ? std::min(bound_, incumbent_.best.cost) : bound_);
    plan.proved = proved() || infeasible();
    plan.status = infeasible()          ? Status::infeasible
                  : proved()            ? Status::optimal
                  : budget_.cancelled() ? Status::cancelled
                  : plan.found          ? Status::feasible
                                        : Status::unknown;
    plan.work = budget_.units();
    return plan;
  }

  const Model& model_;
  const Options& options_;
  Budget budget_;
  Incumbent incumbent_;
  std::int64_t bound_ = 0;
  bool enough_ = true;
};

}  // namespace

Plan solve(const Instance& instance, const Options& options) {
  const Model model(instance);
  return Solver(model, options).run();
}

}  // namespace railwright::cutting
