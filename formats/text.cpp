// SPDX-License-Identifier: MIT
#include "formats/text.h"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace railwright::formats {
namespace {

void put_utf8(std::string& out, std::uint32_t code) {
  const auto byte = [&](std::uint32_t value) { out += static_cast<char>(value); };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0 | code >> 6), byte(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    byte(0xE0 | code >> 12), byte(0x80 | (code >> 6 & 0x3F)), byte(0x80 | (code & 0x3F));
  } else {
    byte(0xF0 | code >> 18), byte(0x80 | (code >> 12 & 0x3F)), byte(0x80 | (code >> 6 & 0x3F)), byte(0x80 | (code & 0x3F));
  }
}

// Surrogates that stand alone become the replacement character.
std::string from_utf16(std::string_view bytes, bool big_endian) {
  std::string out;
  const auto unit = [&](std::size_t i) {
    const std::uint32_t a = static_cast<unsigned char>(bytes[i]), b = static_cast<unsigned char>(bytes[i + 1]);
    return big_endian ? a << 8 | b : b << 8 | a;
  };
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    std::uint32_t code = unit(i);
    if (code >= 0xD800 && code < 0xDC00 && i + 3 < bytes.size()) {
      const std::uint32_t low = unit(i + 2);
      if (low >= 0xDC00 && low < 0xE000) {
        code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
        i += 2;
      }
    }
    put_utf8(out, code >= 0xD800 && code < 0xE000 ? 0xFFFD : code);
  }
  return out;
}

// Bytes 80..9F of Windows-1252 that are typographic marks; the rest stand for themselves.
std::uint32_t windows_1252(unsigned char byte) {
  static constexpr std::uint16_t kMarks[32] = {0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
                                               0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD, 0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
                                               0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};
  return byte >= 0x80 && byte < 0xA0 ? kMarks[byte - 0x80] : byte;
}

// Length of the UTF-8 character at i, 0 when it is none (overlong forms and surrogates are none).
std::size_t utf8_length(std::string_view text, std::size_t i) {
  const auto at = [&](std::size_t k) { return k < text.size() ? static_cast<unsigned char>(text[k]) : 0u; };
  const unsigned lead = at(i);
  if (lead < 0x80) return 1;
  const auto trail = [&](std::size_t k) { return (at(i + k) & 0xC0) == 0x80; };
  if (lead >= 0xC2 && lead < 0xE0) return trail(1) ? 2 : 0;
  if (lead >= 0xE0 && lead < 0xF0) {
    const bool fits = lead == 0xE0 ? at(i + 1) >= 0xA0 : (lead != 0xED || at(i + 1) < 0xA0);
    return trail(1) && trail(2) && fits ? 3 : 0;
  }
  if (lead >= 0xF0 && lead < 0xF5) {
    const bool fits = lead == 0xF0 ? at(i + 1) >= 0x90 : (lead != 0xF4 || at(i + 1) < 0x90);
    return trail(1) && trail(2) && trail(3) && fits ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text, i);
    if (length == 0) return false;
    i += length;
  }
  return true;
}

std::string from_windows_1252(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) put_utf8(out, windows_1252(static_cast<unsigned char>(c)));
  return out;
}

std::string with_plain_lines(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r')
      out += text[i];
    else if (i + 1 >= text.size() || text[i + 1] != '\n')
      out += '\n';
  }
  return out;
}

bool starts(std::string_view bytes, std::string_view mark) { return bytes.substr(0, mark.size()) == mark; }

// UTF-16 without a mark: the first character of every format we read is ASCII, so one byte of the first pair is zero.
int utf16_order(std::string_view bytes) {
  if (starts(bytes, "\xFF\xFE")) return -2;
  if (starts(bytes, "\xFE\xFF")) return 2;
  if (bytes.size() < 4 || bytes.size() % 2 != 0) return 0;
  if (bytes[0] != 0 && bytes[1] == 0 && bytes[3] == 0) return -1;
  return bytes[0] == 0 && bytes[1] != 0 && bytes[2] == 0 ? 1 : 0;
}

}  // namespace

Result<std::string> readable_text(std::string_view bytes) {
  if (bytes.size() > kLargestFile) return fail("file.too_large");
  if (starts(bytes, "PK\x03\x04")) return fail("file.archive");
  std::string text;
  if (const int order = utf16_order(bytes); order != 0) {
    text = from_utf16(bytes.substr(std::abs(order) == 2 ? 2 : 0), order > 0);
  } else {
    if (starts(bytes, "\xEF\xBB\xBF")) bytes.remove_prefix(3);
    text = is_utf8(bytes) ? std::string(bytes) : from_windows_1252(bytes);
  }
  // Pictures, PDFs and programs hold zero bytes or start with a mark; text never does.
  if (text.find('\0') != std::string::npos || starts(text, "%PDF")) return fail("file.binary");
  text = with_plain_lines(text);
  if (trimmed(text).empty()) return fail("file.empty");
  return text;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\n\r\f\v";
  const std::size_t first = text.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

std::optional<double> read_number(std::string_view text, bool comma) {
  text = trimmed(text);
  if (!text.empty() && text[0] == '+') text.remove_prefix(1);
  std::string with_point;
  if (comma && text.find(',') != std::string_view::npos) {
    with_point = text;
    for (char& c : with_point) c = c == ',' ? '.' : c;
    text = with_point;
  }
  double value = 0;
  const auto end = text.data() + text.size();
  const auto result = fast_float::from_chars(text.data(), end, value);
  if (text.empty() || result.ec != std::errc() || result.ptr != end || !(std::abs(value) < 1e300)) return std::nullopt;
  return value;
}

std::string one_line(std::string_view text, std::size_t most) {
  std::string out;
  text = trimmed(text);
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = std::max<std::size_t>(utf8_length(text, i), 1);
    if (out.size() + length > most) break;
    const auto c = static_cast<unsigned char>(text[i]);
    if (c < 0x20 || c == 0x7F)
      out += ' ';
    else
      out += text.substr(i, length);
    i += length;
  }
  return std::string(trimmed(out));
}

}  // namespace railwright::formats
