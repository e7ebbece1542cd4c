// SPDX-License-Identifier: MIT
#include "engine/job/from_json.h"

#include <algorithm>

namespace railwright::job {
namespace {

// The whole number in a JSON value; 3.0 counts, 3.5 and what does not fit do not.
template <class Int>
bool whole_number(const Json& json, Int& count) {
  if (!json.is_number()) return false;
  const double value = json.get<double>();
  const bool fits = value >= static_cast<double>(std::numeric_limits<Int>::min()) && value < static_cast<double>(std::numeric_limits<Int>::max());
  if (!fits || value != std::floor(value)) return false;
  count = static_cast<Int>(value);
  return true;
}

}  // namespace

void FromJson::report(const char* code, Values values) {
  constexpr std::size_t kEnough = 10'000;  // no one reads more, and a hostile text could hold millions
  if (findings_.size() >= kEnough) return;
  findings_.push_back({code, Severity::stop, pointer_.text(), std::move(values)});
}

void FromJson::unknown_keys(const Json& json, const std::vector<std::string>& known) {
  for (auto item = json.begin(); item != json.end(); ++item) {
    if (std::find(known.begin(), known.end(), item.key()) != known.end()) continue;
    const Pointer::Step step(pointer_, std::string_view(item.key()).substr(0, 60));
    report("job.unknown_key", {{"key", item.key().substr(0, 60)}, {"nearest", nearest_word(item.key(), known)}});
  }
}

void FromJson::read(const Json& json, std::string& text) {
  if (!json.is_string()) return report("job.not_text");
  json.get_to(text);
}

void FromJson::read(const Json& json, bool& flag) {
  if (!json.is_boolean()) return report("job.not_yes_no");
  flag = json.get<bool>();
}

void FromJson::read(const Json& json, int& count) {
  if (!whole_number(json, count)) report("job.not_whole");
}

void FromJson::read(const Json& json, long& count) {
  if (!whole_number(json, count)) report("job.not_whole");
}

void FromJson::read(const Json& json, double& number) {
  if (!json.is_number()) return report("job.not_number");
  number = json.get<double>();
}

void FromJson::read(const Json& json, float& height) {
  height = std::numeric_limits<float>::quiet_NaN();
  if (json.is_null()) return;
  if (!json.is_number()) return report("job.not_number");
  const double value = json.get<double>();
  if (std::abs(value) > 1e30) return report("job.not_number");  // a cast beyond the range of float is undefined
  height = static_cast<float>(value);
}

void FromJson::read(const Json& json, Length& length) {
  if (json.is_number()) return report("job.needs_unit", {{"text", json.dump().substr(0, 60)}});
  if (!json.is_string()) return report("job.needs_unit", {{"text", std::string(json.type_name())}});
  const auto read = measure::parse_length(json.get_ref<const std::string&>());
  if (read) {
    length = *read;
    return;
  }
  const bool bare = read.error().code == "length.no_unit";
  report(bare ? "job.needs_unit" : read.error().code.c_str(), read.error().values);
}

void FromJson::read(const Json& json, Money& money) {
  if (json.is_number()) {
    money = Money::whole(1).times(json.get<double>());
    return;
  }
  if (!json.is_string()) return report("money.not_an_amount", {{"text", std::string(json.type_name())}});
  const auto read = measure::parse_money(json.get_ref<const std::string&>());
  if (!read) return report(read.error().code.c_str(), read.error().values);
  money = *read;
}

}  // namespace railwright::job
