// SPDX-License-Identifier: MIT
#pragma once

#include <type_traits>

#include "engine/job/fields.h"
#include "engine/job/json_tree.h"
#include "engine/job/same.h"

// Puts the fields of `fields.h` into a JSON tree, in their order; what equals the default is left out unless the key is required.
namespace railwright::job {

Json to_json(const std::string& text);
Json to_json(bool flag);
Json to_json(int count);
Json to_json(long count);
Json to_json(double number);
Json to_json(float height);
Json to_json(Length length);
Json to_json(Money money);

template <class Tag>
Json to_json(measure::Quantity<Tag> quantity) {
  return to_json(quantity.si());
}

template <class E>
requires std::is_enum_v<E> Json to_json(E choice) { return std::string(Words<E>::all[static_cast<std::size_t>(choice)]); }

template <class T>
Json to_json(const std::vector<T>& list);
template <class T>
Json to_json(const std::optional<T>& value);

template <Described T>
Json to_json(const T& object) {
  Json json = Json::object();
  const T fresh{};
  Fields<T>::each([&](const char* key, auto member, Rule rule = {}) {
    if (!rule.required && same(object.*member, fresh.*member)) return;
    json[key] = to_json(object.*member);
  });
  return json;
}

template <class T>
Json to_json(const std::optional<T>& value) {
  return value ? to_json(*value) : Json();
}

template <class T>
Json to_json(const std::vector<T>& list) {
  Json json = Json::array();
  for (const T& item : list) json.push_back(to_json(item));
  return json;
}

}  // namespace railwright::job
