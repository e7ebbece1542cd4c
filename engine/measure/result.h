// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <tl/expected.hpp>

#include "engine/measure/value.h"

namespace railwright {

// Why a call cannot be answered. `code` is a key of the words catalogue, `place` says where in the user's input
// (a JSON pointer, a `line:column`, a column name), `values` fill the sentence's placeholders.
struct Error {
  std::string code;
  std::string place;
  Values values;
};

template <class T>
using Result = tl::expected<T, Error>;

inline tl::unexpected<Error> fail(std::string code, std::string place = {}, Values values = {}) {
  return tl::unexpected<Error>(Error{std::move(code), std::move(place), std::move(values)});
}

}  // namespace railwright
