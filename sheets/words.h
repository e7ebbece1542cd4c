// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/measure/result.h"

// Everything that a person reads, in one language. The catalogue is JSON of nested objects whose leaves are sentences; a key is the path with dots:
// {"findings": {"setout.no_dig": "..."}} is found as "findings.setout.no_dig". Placeholders stand in braces: "Set post {post}."
namespace railwright::sheets {

class Words {
 public:
  // Errors: `words.not_json` (nothing else is known), `words.not_text` (a leaf that is not a string; place the key).
  static Result<Words> parse(std::string_view json);
  // Lays `other` over this one.
  void add(const Words& other);

  bool has(const std::string& key) const { return texts_.count(key) != 0; }
  // The sentence, or the key itself in square brackets, so that a missing one is seen and not lost.
  std::string text(const std::string& key) const;
  // With its placeholders filled; one without a value stays in braces.
  std::string fill(const std::string& key, const std::map<std::string, std::string>& values) const;
  const std::map<std::string, std::string>& all() const { return texts_; }

 private:
  std::map<std::string, std::string> texts_;
};

// The sentence of a finding with its figures in the given style. {where} is the place. A code without a sentence gives code, place and figures.
std::string finding_text(const Words& words, const Finding& finding, const measure::LengthFormat& lengths = {});
// The same for what may be done about a finding.
std::string remedy_text(const Words& words, const std::string& code, const Values& values, const measure::LengthFormat& lengths = {});
// The same for an error of a reader.
std::string error_text(const Words& words, const Error& error, const measure::LengthFormat& lengths = {});

// How the job's lengths are shown: feet and inches to 1/16 in, or millimetres.
measure::LengthFormat length_format(job::UnitSystem units);

}  // namespace railwright::sheets
