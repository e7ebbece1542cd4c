// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/cutting/greedy.h"
#include "engine/cutting/layout.h"
#include "engine/cutting/search.h"

namespace railwright::cutting {
namespace {

class Solver {
 public:
  Solver(const Model& model, const Options& options)
      : model_(model), options_(options), budget_(options.work_limit, options_.on_progress) {}

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
    Master root(model_, task);
    for (const Use& use : incumbent_.best.uses) root.seed(use.pattern);
    Master::Limits limits;
    limits.cutoff = incumbent_.cutoff();
    const bool solved = root.solve(limits, budget_);
    raise(root.bound());
    if (!solved || proved() || infeasible()) return;
    for (int variant = 0; variant < 3 && !proved() && !budget_.stopped(); ++variant) Dive{model_, budget_, incumbent_}.run(root, task, variant);
    if (proved() || budget_.stopped() || options_.effort == Effort::quick) return;
    raise(Search(model_, budget_, incumbent_).run(root, bound_));
  }

  void raise(std::int64_t bound) { bound_ = std::max(bound_, std::min(model_.round_up(bound), incumbent_.cutoff())); }
  bool infeasible() const { return !enough_ || (!incumbent_.best.found && bound_ >= incumbent_.ceiling); }
  bool proved() const { return incumbent_.best.found && bound_ >= incumbent_.best.cost; }

  Plan state() {
    Plan plan;
    if (incumbent_.best.found) plan = lay_out(model_, incumbent_.best);
    plan.bound = Money::from_units(incumbent_.best.found ? std::min(bound_, incumbent_.best.cost) : bound_);
    plan.proved = proved() || infeasible();
    plan.status = infeasible() ? Status::infeasible
                  : proved() ? Status::optimal
                  : budget_.cancelled() ? Status::cancelled
                  : plan.found ? Status::feasible
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
