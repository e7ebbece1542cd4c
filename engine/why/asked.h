// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/why/why.h"

// What the families of figures share.
namespace railwright::why {

using measure::Length;
using measure::Money;

// A question: the plan, and the parts of the figure's name.
struct Asked {
  const job::Job& job;
  const Plan& plan;
  std::string figure, thing, part;

  const setout::Post& post(int index) const { return plan.layout.posts[static_cast<std::size_t>(index)]; }
  const setout::Bay& bay(int index) const { return plan.layout.bays[static_cast<std::size_t>(index)]; }
  const job::Fence* fence(int index) const {
    const auto k = static_cast<std::size_t>(index);
    return index >= 0 && k < job.choices.fences.size() ? &job.choices.fences[k] : nullptr;
  }
};

using Listed = std::function<void(const std::string& thing, const std::string& part)>;

struct Family {
  const char* kind;
  std::optional<Answer> (*answer)(const Asked& asked);
  void (*list)(const job::Job& job, const Plan& plan, const Listed& add);
};

extern const Family kTally, kPosts, kBays, kRuns, kFences, kRails, kOpenings, kMarks, kChecks, kSticks, kCuts, kSpacing, kOrders, kPrice, kHours, kLoad, kGaps;

inline Input input(std::string name, Value value, std::string unit = {}) { return {std::move(name), std::move(value), std::move(unit), {}, {}, 1}; }
inline Input input(std::string name, Length length) { return input(std::move(name), value_of(length)); }
inline Input input(std::string name, Money amount) { return input(std::move(name), value_of(amount)); }
inline Input input(std::string name, measure::Force force) { return input(std::move(name), Value(ForceValue{force.si()})); }
inline Input count(std::string name, std::int64_t number) { return input(std::move(name), Value(number)); }
inline Input number(std::string name, double value, std::string unit = {}) { return input(std::move(name), Value(value), std::move(unit)); }

// The same, with the figure that it is and may be asked for.
template <class... Given>
Input figure(std::string name_of_figure, Given&&... given) {
  Input made = input(std::forward<Given>(given)...);
  made.figure = std::move(name_of_figure);
  return made;
}

// One share of a sum.
inline Input each(std::string of, Value value, double times = 1, std::string unit = {}, std::string figure = {}) {
  return {"each", std::move(value), std::move(unit), std::move(figure), std::move(of), times};
}

Answer answer(const Asked& asked, Value value, std::string formula, std::vector<Input> inputs, std::string source, std::vector<std::string> where = {},
              std::string unit = {});

// Figures that were given, counted or found: the formula is the name of what was given.
Answer plainly(const Asked& asked, Input given, std::string source, std::vector<std::string> where = {});

// What a post is called among its like: "line", "corner", ...
const char* kind_name(setout::PostKind kind);

template <class Range, class Same>
int index_where(const Range& range, const Same& same) {
  int index = 0;
  for (const auto& item : range) {
    if (same(item)) return index;
    ++index;
  }
  return -1;
}
int post_named(const Plan& plan, const std::string& name);
int bay_named(const Plan& plan, const std::string& name);

}  // namespace railwright::why
