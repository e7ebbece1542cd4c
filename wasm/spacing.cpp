// SPDX-License-Identifier: MIT
#include "wasm/spacing.h"

#include <algorithm>

#include "engine/measure/money.h"

namespace railwright::wasm {
namespace {

using Json = nlohmann::ordered_json;
using measure::Money;

// Steps that spend no work of the search (layouts of the job) end a slice all the same, or the page would wait for all of them.
constexpr int kMostSteps = 400;

Json amount(const std::optional<Money>& money) { return money ? Json(money->units()) : Json(); }

std::optional<Money> amount_of(const Json& choice, const char* key) {
  const auto found = choice.find(key);
  if (found == choice.end() || !found->is_number_integer()) return std::nullopt;
  return Money::from_units(found->get<std::int64_t>());
}

}  // namespace

Json choice_json(const spacing::Choice& choice) {
  Json looks = Json::array();
  for (const spacing::Looks& one : choice.looks) looks.push_back({one.fence, one.limit, one.shown});
  return {{"bays", choice.bays},
          {"cost", amount(choice.cost)},
          {"plain", amount(choice.plain)},
          {"bound", amount(choice.bound)},
          {"eight_foot", amount(choice.eight_foot)},
          {"at_zero", amount(choice.at_zero)},
          {"at_double", amount(choice.at_double)},
          {"proved", choice.proved},
          {"finished", choice.finished},
          {"free_runs", choice.free_runs},
          {"work", choice.work},
          {"without_limit", amount(choice.without_limit)},
          {"looks", std::move(looks)}};
}

std::optional<spacing::Choice> choice_of(const Json& text) {
  if (!text.is_object() || !text.contains("bays") || !text["bays"].is_array()) return std::nullopt;
  spacing::Choice choice;
  choice.bays = text["bays"].get<std::vector<int>>();
  choice.cost = amount_of(text, "cost").value_or(Money());
  choice.plain = amount_of(text, "plain").value_or(Money());
  choice.bound = amount_of(text, "bound").value_or(Money());
  choice.eight_foot = amount_of(text, "eight_foot").value_or(Money());
  choice.at_zero = amount_of(text, "at_zero");
  choice.at_double = amount_of(text, "at_double");
  choice.without_limit = amount_of(text, "without_limit");
  for (const Json& one : text.value("looks", Json::array())) choice.looks.push_back({one.at(0).get<int>(), one.at(1).get<int>(), one.at(2).get<int>()});
  choice.proved = text.value("proved", false);
  choice.finished = text.value("finished", false);
  choice.free_runs = text.value("free_runs", 0);
  choice.work = text.value("work", std::int64_t{0});
  return choice;
}

Json SpacingSearch::start(const job::Job& job, const job::Catalogue& shipped, Effort effort) {
  chooser_ = spacing_chooser(job, shipped, effort);
  return {{"wanted", chooser_ != nullptr}};
}

Json SpacingSearch::step(std::int64_t work, bool take) {
  if (chooser_ == nullptr) return {{"known", false}, {"done", true}};
  const std::int64_t until = chooser_->progress().work + std::max<std::int64_t>(work, 1);
  bool more = true;
  for (int steps = 0; steps < kMostSteps && more && chooser_->progress().work < until; ++steps) {
    const bool before = chooser_->progress().known;
    more = chooser_->step();
    if (!before) break;  // one layout of the job, or the start of the search
  }
  const spacing::Progress progress = chooser_->progress();
  Json shown = {{"known", progress.known}};
  if (progress.known) {
    shown["cost"] = measure::decimal_text(progress.cost);
    shown["bound"] = measure::decimal_text(progress.bound);
  }
  shown["work"] = progress.work;
  shown["limit"] = progress.limit;
  shown["done"] = progress.done;
  if (take || progress.done) shown["choice"] = choice_json(chooser_->choice());
  return shown;
}

}  // namespace railwright::wasm
