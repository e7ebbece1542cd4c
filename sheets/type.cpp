// SPDX-License-Identifier: MIT
#include "sheets/type.h"

#include <algorithm>
#include <cstddef>

namespace railwright::sheets {
namespace {

struct Advance {
  int code, regular, bold;
};
constexpr Advance kAdvances[] = {
#include "sheets/font_widths.inc"
};
constexpr int kWidestDigit = 660, kWidestBoldDigit = 700, kUnknown = 1000;

// Bytes of the character that starts at `i`; 1 for a stray byte, so that any text comes to an end.
std::size_t character_bytes(std::string_view text, std::size_t i) {
  const auto lead = static_cast<unsigned char>(text[i]);
  const std::size_t n = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
  return std::min(n, text.size() - i);
}

int code_point(std::string_view c) {
  if (c.size() == 1) return static_cast<unsigned char>(c[0]);
  int code = static_cast<unsigned char>(c[0]) & (0x7F >> c.size());
  for (std::size_t i = 1; i < c.size(); ++i) code = code << 6 | (static_cast<unsigned char>(c[i]) & 0x3F);
  return code;
}

int advance(int code, bool bold) {
  if (code >= '0' && code <= '9') return bold ? kWidestBoldDigit : kWidestDigit;
  const auto* end = std::end(kAdvances);
  const auto* found = std::lower_bound(std::begin(kAdvances), end, code, [](const Advance& a, int c) { return a.code < c; });
  if (found == end || found->code != code) return kUnknown;
  return bold ? found->bold : found->regular;
}

// Breaks one word that is wider than a line; gives the pieces, the last of which may still take more words.
std::vector<std::string> break_word(std::string_view word, double width, double size, bool bold) {
  std::vector<std::string> parts(1);
  for (std::size_t i = 0; i < word.size();) {
    const auto n = character_bytes(word, i);
    const std::string longer = parts.back() + std::string(word.substr(i, n));
    if (!parts.back().empty() && text_width(longer, size, bold) > width) {
      parts.emplace_back(word.substr(i, n));
    } else {
      parts.back() = longer;
    }
    i += n;
  }
  return parts;
}

}  // namespace

double text_width(std::string_view text, double size, bool bold) {
  long sum = 0;
  for (std::size_t i = 0; i < text.size();) {
    const auto n = character_bytes(text, i);
    sum += advance(code_point(text.substr(i, n)), bold);
    i += n;
  }
  return static_cast<double>(sum) * size / 1000.0;
}

std::vector<std::string> wrap(std::string_view text, double width, double size, bool bold) {
  std::vector<std::string> lines(1);
  std::size_t at = 0;
  while (at < text.size()) {
    const auto blank = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, blank - at);
    at = blank + 1;
    if (word.empty()) continue;
    const std::string longer = lines.back().empty() ? std::string(word) : lines.back() + " " + std::string(word);
    if (text_width(longer, size, bold) <= width) {
      lines.back() = longer;
      continue;
    }
    auto parts = break_word(word, width, size, bold);
    if (lines.back().empty()) lines.pop_back();
    lines.insert(lines.end(), parts.begin(), parts.end());
  }
  return lines;
}

std::string shorten(std::string_view text, double width, double size, bool bold) {
  if (text_width(text, size, bold) <= width) return std::string(text);
  std::string kept;
  for (std::size_t i = 0; i < text.size();) {
    const auto n = character_bytes(text, i);
    const std::string longer = kept + std::string(text.substr(i, n));
    if (text_width(longer + "…", size, bold) > width) break;
    kept = longer;
    i += n;
  }
  while (!kept.empty() && kept.back() == ' ') kept.pop_back();
  return kept + "…";
}

std::string shorten_name(std::string_view name, double width, double size, bool bold) {
  if (text_width(name, size, bold) <= width) return std::string(name);
  std::vector<std::string> characters;
  for (std::size_t i = 0; i < name.size();) {
    const auto n = character_bytes(name, i);
    characters.emplace_back(name.substr(i, n));
    i += n;
  }
  // One character from the front for two from the end, as long as there is room.
  std::string front, back;
  for (std::size_t head = 0, tail = characters.size(); head < tail;) {
    const bool from_end = back.empty() || head * 2 >= characters.size() - tail;
    const std::string more = from_end ? front + "…" + characters[tail - 1] + back : front + characters[head] + "…" + back;
    if (text_width(more, size, bold) > width) break;
    if (from_end)
      back = characters[--tail] + back;
    else
      front += characters[head++];
  }
  return front + "…" + back;
}

}  // namespace railwright::sheets
