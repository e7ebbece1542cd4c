// SPDX-License-Identifier: MIT
#include "engine/job/check.h"

#include <algorithm>
#include <cmath>

#include "engine/job/nearest.h"

namespace railwright::job {
namespace {

constexpr std::size_t kLongestId = 64, kLongestText = 10'000;

bool has_control_character(const std::string& text, const char* allowed) {
  return std::any_of(text.begin(), text.end(), [allowed](char c) {
    const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    return control && std::string_view(allowed).find(c) == std::string_view::npos;
  });
}

// Characters of UTF-8 text, as the schema counts them.
std::size_t letters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

Rule or_else(const Rule& rule, const Rule& fallback) { return rule.bounded ? rule : fallback; }

Value length_value(double nm) { return LengthValue{static_cast<std::int64_t>(nm)}; }

}  // namespace

void Checker::report(const char* code, Values values) { findings_.push_back({code, Severity::stop, pointer_.text(), std::move(values)}); }

void Checker::check(const std::string& text, const Rule& rule) {
  if (rule.names != Kind::none) return check_id(text, rule);
  if (letters(text) > kLongestText) {
    return report("job.text_too_long", {{"most", std::int64_t{kLongestText}}});
  }
  if (has_control_character(text, "\n\t\r")) return report("job.control_character");
  if (text.empty()) {
    if (rule.required) report("job.empty_text");
    return;
  }
  if (rule.refers != Kind::none) references_.push_back({rule.refers, text, pointer_.text()});
}

void Checker::check_id(const std::string& id, const Rule& rule) {
  if (id.empty()) return report("job.empty_text");
  const bool blank_ends = id.front() == ' ' || id.back() == ' ';
  if (letters(id) > kLongestId || blank_ends || has_control_character(id, "")) {
    return report("job.bad_id", {{"id", id.substr(0, 200)}, {"most", std::int64_t{kLongestId}}});
  }
  const auto [first, fresh] = ids_.try_emplace({rule.names, id}, pointer_.text());
  if (!fresh) report("job.duplicate_id", {{"id", id}, {"first", first->second}});
}

void Checker::check_count(long count, const Rule& rule) {
  const Rule limits = or_else(rule, kAmount);
  const auto value = static_cast<double>(count);
  if (value >= limits.least && value <= limits.most) return;
  report("job.count_out_of_range",
         {{"value", std::int64_t{count}}, {"least", static_cast<std::int64_t>(limits.least)}, {"most", static_cast<std::int64_t>(limits.most)}});
}

void Checker::check(double number, const Rule& rule) {
  const Rule limits = or_else(rule, kAmount);
  if (number >= limits.least && number <= limits.most) return;  // false for NaN
  report("job.out_of_range", {{"value", number}, {"least", limits.least}, {"most", limits.most}});
}

void Checker::check(float height, const Rule& rule) {
  if (!std::isnan(height)) check(static_cast<double>(height), rule);
}

void Checker::check(Length length, const Rule& rule) {
  const Rule limits = or_else(rule, kSize);
  const auto nm = static_cast<double>(length.nm());
  if (nm >= limits.least && nm <= limits.most) return;
  report("job.length_out_of_range", {{"value", value_of(length)}, {"least", length_value(limits.least)}, {"most", length_value(limits.most)}});
}

void Checker::check(Money money, const Rule& rule) {
  const Rule limits = or_else(rule, kAmount);
  if (money.value() >= limits.least && money.value() <= limits.most) return;
  report("job.money_out_of_range", {{"value", value_of(money)},
                                    {"least", value_of(Money::whole(static_cast<std::int64_t>(limits.least)))},
                                    {"most", value_of(Money::whole(static_cast<std::int64_t>(limits.most)))}});
}

void Checker::know(Kind kind, const std::string& id) { ids_.try_emplace({kind, id}, std::string()); }

void Checker::resolve(const std::vector<Kind>& kinds) {
  for (const Reference& reference : references_) {
    if (std::find(kinds.begin(), kinds.end(), reference.kind) == kinds.end()) continue;
    if (ids_.count({reference.kind, reference.id}) > 0) continue;
    std::vector<std::string> known;
    for (auto id = ids_.lower_bound({reference.kind, {}}); id != ids_.end() && id->first.first == reference.kind; ++id) {
      known.push_back(id->first.second);
    }
    Values values{{"id", reference.id.substr(0, 60)}};
    if (!known.empty()) values.emplace_back("nearest", nearest_word(reference.id, known));
    findings_.push_back({known.empty() ? "job.none_of_kind" : "job.no_such_id", Severity::stop, reference.where, std::move(values)});
  }
}

}  // namespace railwright::job
