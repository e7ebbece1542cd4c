// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

// How wide a line of text is, so that labels can be placed before anything is drawn.
namespace railwright::sheets {

// Millimetres that `text` (UTF-8) takes at a font size in mm, never less than Inter draws: digits count as the widest digit, kerning is
// ignored, a character outside the table counts as one em. Widths are integer sums, so the answer is the same everywhere.
double text_width(std::string_view text, double size, bool bold = false);

// Breaks a text into lines no wider than `width`, at blanks; a longer word is broken between characters. At least one line.
std::vector<std::string> wrap(std::string_view text, double width, double size, bool bold = false);

// The text itself, or its beginning with an ellipsis when it is wider than `width`.
std::string shorten(std::string_view text, double width, double size, bool bold = false);

// A name cut in its middle, because names that belong together differ at their ends: "North…AB12".
std::string shorten_name(std::string_view name, double width, double size, bool bold = false);

}  // namespace railwright::sheets
