// SPDX-License-Identifier: MIT
#include "engine/cutting/task.h"

#include <algorithm>

namespace railwright::cutting {

Task whole_task(const Model& model) {
  Task task;
  for (const Sort& sort : model.sorts) task.demand.push_back(sort.demand);
  for (const Type& type : model.types) task.limit.push_back(type.limit);
  return task;
}

void take_out(const Pattern& pattern, std::int64_t times, Task& task) {
  for (const Take& take : pattern.takes) task.demand[take.sort] -= take.count * times;
  task.limit[pattern.type] -= times;
}

std::int64_t uses_left(const Pattern& pattern, const Task& task) {
  std::int64_t times = task.limit[pattern.type];
  for (const Take& take : pattern.takes) times = std::min(times, task.demand[take.sort] / take.count);
  return times;
}

bool done(const Task& task) {
  return std::all_of(task.demand.begin(), task.demand.end(), [](std::int64_t d) { return d == 0; });
}

}  // namespace railwright::cutting
