// SPDX-License-Identifier: MIT
#pragma once

#include "engine/job/fields.h"

namespace railwright::job {

// Equality of any part of the document, field by field; two unknown heights (NaN) are the same.
template <class T>
bool same(const T& a, const T& b) {
  if constexpr (std::is_same_v<T, float>) {
    return a == b || (a != a && b != b);
  } else {
    return a == b;
  }
}

template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b);
template <class T>
bool same(const std::vector<T>& a, const std::vector<T>& b);

template <Described T>
bool same(const T& a, const T& b) {
  bool equal = true;
  Fields<T>::each([&](const char*, auto member, Rule = {}) { equal = equal && same(a.*member, b.*member); });
  return equal;
}

template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b) {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

template <class T>
bool same(const std::vector<T>& a, const std::vector<T>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (!same(a[i], b[i])) return false;
  }
  return true;
}

}  // namespace railwright::job
