// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <limits>
#include <type_traits>

#include "engine/job/fields.h"
#include "engine/job/json_tree.h"
#include "engine/job/nearest.h"
#include "engine/job/pointer.h"

// Takes the fields of `fields.h` out of a JSON tree. Only kinds of value are looked at here (text, number, length with a unit); whether
// a value makes sense is for `check.h`.
namespace railwright::job {

class FromJson {
 public:
  explicit FromJson(Findings& findings) : findings_(findings) {}

  template <Described T>
  void read(const Json& json, T& object) {
    if (!json.is_object()) return report("job.not_object");
    std::vector<std::string> known;
    Fields<T>::each([&](const char* key, auto member, Rule rule = {}) {
      known.emplace_back(key);
      const auto found = json.find(key);
      if (found != json.end()) {
        const Pointer::Step step(pointer_, std::string_view(key));
        read(*found, object.*member);
      } else if (rule.required) {
        const Pointer::Step step(pointer_, std::string_view(key));
        report("job.missing_key", {{"key", std::string(key)}});
      }
    });
    unknown_keys(json, known);
  }

  template <class T>
  void read(const Json& json, std::vector<T>& list) {
    if (!json.is_array()) return report("job.not_list");
    list.clear();
    list.reserve(json.size());
    for (std::size_t i = 0; i < json.size(); ++i) {
      const Pointer::Step step(pointer_, i);
      list.emplace_back();
      read(json[i], list.back());
    }
  }

  template <class T>
  void read(const Json& json, std::optional<T>& value) {
    value.reset();
    if (!json.is_null()) read(json, value.emplace());
  }

  template <class E>
  requires std::is_enum_v<E>
  void read(const Json& json, E& choice) {
    std::string word;
    if (!json.is_string()) return report("job.not_text");
    json.get_to(word);
    for (std::size_t i = 0; i < Words<E>::all.size(); ++i) {
      if (word == Words<E>::all[i]) {
        choice = static_cast<E>(i);
        return;
      }
    }
    std::string all;
    for (const std::string_view one : Words<E>::all) all.append(all.empty() ? "" : ", ").append(one);
    report("job.not_a_choice", {{"text", word.substr(0, 60)}, {"choices", all}});
  }

  template <class Tag>
  void read(const Json& json, measure::Quantity<Tag>& quantity) {
    double si = 0;
    read(json, si);
    quantity = measure::Quantity<Tag>::si(si);
  }

  void read(const Json& json, std::string& text);
  void read(const Json& json, bool& flag);
  void read(const Json& json, int& count);
  void read(const Json& json, long& count);
  void read(const Json& json, double& number);
  void read(const Json& json, float& height);  // null: unknown, NaN
  void read(const Json& json, Length& length);
  void read(const Json& json, Money& money);

 private:
  void report(const char* code, Values values = {});
  void unknown_keys(const Json& json, const std::vector<std::string>& known);

  Findings& findings_;
  Pointer pointer_;
};

}  // namespace railwright::job
