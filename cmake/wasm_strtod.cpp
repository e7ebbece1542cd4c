// SPDX-License-Identifier: MIT
// The strtod of the WebAssembly C library works in long double, which wasm32 computes in software; reading JSON spends
// most of its time there. Every WebAssembly program is linked with --wrap=strtod, so that plain decimal numbers are
// read by fast_float here. Whatever is not plain (hexadecimal, inf, nan, a result at the edge of the range, where
// errno must be set) goes to the C library as before. Both are correctly rounded, so the value is the same.
#include <cmath>
#include <limits>

#include "fast_float/fast_float.h"

extern "C" double __real_strtod(const char* text, char** end);

namespace {

const char* skip_spaces_and_plus(const char* text) {
  while (*text == ' ' || (*text >= '\t' && *text <= '\r')) ++text;
  return *text == '+' && text[1] != '-' ? text + 1 : text;
}

const char* end_of_number_characters(const char* text) {
  while ((*text >= '0' && *text <= '9') || *text == '.' || *text == '-' || *text == '+' || *text == 'e' || *text == 'E') {
    ++text;
  }
  return text;
}

bool is_hexadecimal(const char* text) {
  if (*text == '-') ++text;
  return text[0] == '0' && (text[1] == 'x' || text[1] == 'X');
}

}  // namespace

extern "C" double __wrap_strtod(const char* text, char** end) {
  const char* first = skip_spaces_and_plus(text);
  if (is_hexadecimal(first)) return __real_strtod(text, end);
  double value = 0;
  const auto read = fast_float::from_chars(first, end_of_number_characters(first), value);
  // A zero may be an underflow; the rest of the range below normal numbers and above it is the C library's too.
  if (read.ec != std::errc() || !std::isnormal(value)) return __real_strtod(text, end);
  if (end != nullptr) *end = const_cast<char*>(read.ptr);
  return value;
}
