// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/measure/result.h"

// The bytes of somebody else's file as text we can read.
namespace railwright::formats {

inline constexpr std::size_t kLargestFile = 64u << 20;

// UTF-8 with lines ended by \n. Byte order marks are dropped, UTF-16 of either order is converted, bytes that are no UTF-8 are read as
// Windows-1252, the other encoding of old survey programs.
// Errors: `file.empty`, `file.too_large` (over 64 MB), `file.archive` (a zip such as KMZ: unpack it), `file.binary` (a picture, a PDF, zero bytes).
Result<std::string> readable_text(std::string_view bytes);

// A plain decimal number and nothing else but blanks; a decimal comma where `comma`. No value for NaN, infinities, hex and anything beyond 1e300.
std::optional<double> read_number(std::string_view text, bool comma = false);

std::string_view trimmed(std::string_view text);
std::string lower(std::string_view text);  // ASCII only

// One line without control characters, at most `most` bytes, whole UTF-8 characters.
std::string one_line(std::string_view text, std::size_t most = 200);

}  // namespace railwright::formats
