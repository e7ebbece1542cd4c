// SPDX-License-Identifier: MIT
#include "cli/cut_drawing.h"

#include <algorithm>

#include "fmt/format.h"

namespace railwright::cli {
namespace {

using measure::Length;

constexpr double kLeft = 40;
constexpr double kWidth = 1000;
constexpr double kRow = 46;
constexpr double kBar = 20;

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string rectangle(double x, double y, double width, const char* kind) {
  return fmt::format("<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.0f}\" class=\"{}\"/>\n", x, y, width, kBar, kind);
}

std::string words_at(double x, double y, const char* kind, const std::string& text) {
  return fmt::format("<text x=\"{:.2f}\" y=\"{:.2f}\" class=\"{}\">{}</text>\n", x, y, kind, escaped(text));
}

std::string draw_stick(const cutting::Instance& instance, const cutting::Stick& stick, double y, double scale, const sheets::Words& words) {
  const cutting::Stock& stock = instance.stocks()[static_cast<std::size_t>(stick.stock)];
  std::string out = words_at(kLeft, y - 4, "name", fmt::format("{} × {} ({})", stick.count, stock.name, measure::format_length(stock.length)));
  out += rectangle(kLeft, y, stock.length.metres() * scale, "stick");
  for (std::size_t i = 0; i < stick.pieces.size(); ++i) {
    const cutting::Piece& piece = instance.pieces()[static_cast<std::size_t>(stick.pieces[i])];
    const double end = kLeft + stick.marks[i].metres() * scale;
    const double width = piece.length.metres() * scale;
    out += rectangle(end - width, y, width, "piece");
    out += words_at(end - width + 3, y + 13, "label", piece.label);
    out += words_at(end - 2, y + kBar + 10, "mark", measure::format_length(stick.marks[i]));
  }
  if (stick.kept) {
    const double end = kLeft + (stick.marks.back() + instance.rules().kerf).metres() * scale;
    out += rectangle(end, y, stick.drop.metres() * scale, "kept");
    out += words_at(end + 3, y + 13, "label", words.fill("cut.kept", {{"drop", measure::format_length(stick.drop)}}));
  }
  return out;
}

}  // namespace

std::string draw_sticks(const cutting::Instance& instance, const cutting::Plan& plan, const sheets::Words& words) {
  Length longest = Length::mm(1);
  for (const cutting::Stick& stick : plan.sticks) longest = measure::max(longest, instance.stocks()[static_cast<std::size_t>(stick.stock)].length);
  const double scale = kWidth / longest.metres();
  const double height = kRow * static_cast<double>(plan.sticks.size()) + 30;
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" "
      "font-family=\"Inter, DejaVu Sans, sans-serif\">\n"
      "<style>.stick{{fill:#fff;stroke:#000}}.piece{{fill:#d9d9d9;stroke:#000;stroke-width:.7}}."
      "kept{{fill:#f2f2f2;stroke:#000;"
      "stroke-dasharray:4 "
      "2}}.name{{font-size:10px;font-weight:bold}}.label{{font-size:9px}}.mark{{font-size:8px;text-"
      "anchor:end}}</style>\n",
      kWidth + 2 * kLeft, height);
  double y = 24;
  for (const cutting::Stick& stick : plan.sticks) {
    out += draw_stick(instance, stick, y, scale, words);
    y += kRow;
  }
  return out + "</svg>\n";
}

}  // namespace railwright::cli
