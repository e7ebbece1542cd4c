// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <variant>

#include "engine/setout/layout.h"
#include "tests/setout/site_drawing.h"

// Set out over the test catalogue, and what the tests look up in the outcome.
namespace railwright::setout {

struct Planned {
  Layout layout;
  Findings findings;
};

inline Planned plan(const job::Job& job, const Limits& limits = {}) {
  Planned p;
  p.layout = set_out(job, drawn::catalogue(), limits, {}, p.findings);
  return p;
}

inline int count_of(const Findings& findings, const std::string& code) {
  return static_cast<int>(std::count_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; }));
}

inline const Finding* finding(const Findings& findings, const std::string& code) {
  const auto found = std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
  return found == findings.end() ? nullptr : &*found;
}

inline bool has(const Findings& findings, const std::string& code) { return finding(findings, code) != nullptr; }

inline const Post* post(const Layout& layout, const std::string& name) {
  const auto found = std::find_if(layout.posts.begin(), layout.posts.end(), [&](const Post& p) { return p.name == name; });
  return found == layout.posts.end() ? nullptr : &*found;
}

inline Length length_in(const Finding& f, const std::string& key) {
  for (const auto& [name, value] : f.values) {
    if (name == key) return Length::from_nm(std::get<LengthValue>(value).nm);
  }
  ADD_FAILURE() << "no " << key;
  return {};
}

}  // namespace railwright::setout
