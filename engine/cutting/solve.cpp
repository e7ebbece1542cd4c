// SPDX-License-Identifier: MIT
#include "engine/cutting/greedy.h"
#include "engine/cutting/layout.h"

namespace railwright::cutting {

Plan solve(const Instance& instance, const Options& options) {
  static_cast<void>(options);
  const Model model(instance);
  bool enough = true;
  const std::int64_t bound = model.sorts.empty() ? 0 : material_bound(model, &enough);
  const Solution solution = model.sorts.empty() ? Solution{true, 0, {}} : greedy(model);
  Plan plan;
  if (solution.found) plan = lay_out(model, solution);
  plan.bound = Money::from_units(bound);
  plan.status = !enough ? Status::infeasible : !plan.found ? Status::unknown : plan.cost == plan.bound ? Status::optimal : Status::feasible;
  plan.proved = plan.status == Status::optimal || plan.status == Status::infeasible;
  return plan;
}

}  // namespace railwright::cutting
