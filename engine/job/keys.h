// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace railwright::job {

// One key of the document, as `fields.h` lists it; for the schema, forms and tests.
struct Key {
  std::string path;  // "/site/points/*/east"; * stands for each item of a list
  std::string type;  // object, list, id, text, flag, count, number, length, money, choice
  bool required = false;
  bool nullable = false;  // null is the same as leaving it out
  bool bounded = false;   // counts, numbers and money: as stored; lengths: nanometres
  double least = 0, most = 0;
  std::vector<std::string> choices;
  std::string fallback;  // the default as JSON text; empty for objects, lists and required keys
};

// Every key below the job, parents before children, in writing order. Items of a list stand as one key that ends in `/*`.
std::vector<Key> document_keys();

}  // namespace railwright::job
