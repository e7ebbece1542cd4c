// SPDX-License-Identifier: MIT
#include "engine/why/why.h"

#include "engine/why/asked.h"

namespace railwright::why {
namespace {

const Family* const kFamilies[] = {&kTally,  &kPosts, &kBays,    &kRuns,   &kFences, &kRails, &kOpenings, &kMarks, &kChecks,
                                   &kSticks, &kCuts,  &kSpacing, &kOrders, &kPrice,  &kHours, &kLoad,     &kGaps};

// kind/thing/part, where the thing may hold slashes.
bool take_apart(const std::string& name, std::string& kind, std::string& thing, std::string& part) {
  const auto first = name.find('/'), last = name.rfind('/');
  if (first == std::string::npos || first == last) return false;
  kind = name.substr(0, first);
  thing = name.substr(first + 1, last - first - 1);
  part = name.substr(last + 1);
  return true;
}

}  // namespace

Answer answer(const Asked& asked, Value value, std::string formula, std::vector<Input> inputs, std::string source, std::vector<std::string> where,
              std::string unit) {
  Answer made;
  made.figure = asked.figure;
  made.value = std::move(value);
  made.unit = std::move(unit);
  made.formula = std::move(formula);
  made.inputs = std::move(inputs);
  made.source = std::move(source);
  made.where = std::move(where);
  return made;
}

Answer plainly(const Asked& asked, Input given, std::string source, std::vector<std::string> where) {
  const Value value = given.value;
  const std::string name = given.name, unit = given.unit;
  return answer(asked, value, name, {std::move(given)}, std::move(source), std::move(where), unit);
}

const char* kind_name(setout::PostKind kind) {
  static constexpr const char* kNames[] = {"end", "corner", "line", "tee", "cross", "gate", "brace", "fixed"};
  return kNames[static_cast<int>(kind)];
}

int post_named(const Plan& plan, const std::string& name) {
  return index_where(plan.layout.posts, [&](const setout::Post& post) { return post.name == name; });
}
int bay_named(const Plan& plan, const std::string& name) {
  return index_where(plan.layout.bays, [&](const setout::Bay& bay) { return bay.name == name; });
}

Result<Answer> why(const job::Job& job, const Plan& plan, const std::string& figure) {
  std::string kind, thing, part;
  if (take_apart(figure, kind, thing, part)) {
    for (const Family* family : kFamilies) {
      if (kind != family->kind) continue;
      if (auto found = family->answer({job, plan, figure, thing, part})) return std::move(*found);
    }
  }
  return fail("why.no_such_figure", figure, {{"figure", figure}});
}

std::vector<std::string> figures(const job::Job& job, const Plan& plan) {
  std::vector<std::string> names;
  for (const Family* family : kFamilies) {
    family->list(job, plan, [&](const std::string& thing, const std::string& part) { names.push_back(std::string(family->kind) + "/" + thing + "/" + part); });
  }
  return names;
}

}  // namespace railwright::why
