// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

// Writes one SVG document in millimetres. Coordinates are rounded to 0.01 mm and printed without a locale, so the bytes are the same everywhere.
// Only attributes are used, no style sheet: the page can put the document inline, and every SVG library draws it alike.
namespace railwright::sheets {

struct Spot {
  double x = 0, y = 0;
};  // on the paper: mm from the top left corner
struct Box {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};

namespace ink {
inline constexpr const char* black = "#141414";
inline constexpr const char* grey = "#555555";    // words of second rank: 7.5:1 on white
inline constexpr const char* rule = "#8c8c8c";    // thin rules: 3.4:1 on white
inline constexpr const char* pale = "#e9e7e3";    // a ground that prints as the lightest grey
inline constexpr const char* primer = "#7d3022";  // the one accent: oxide primer, 9:1 on white
inline constexpr const char* none = "none";
}  // namespace ink

// Line widths step by 1.4, as in technical drawing (series recalled from ISO 128, not seen).
namespace pen {
inline constexpr double hair = 0.18, thin = 0.25, rail = 0.35, ground = 0.5, heavy = 0.7;
}

struct Pen {
  double width = pen::thin;
  const char* colour = ink::black;
  const char* dash = nullptr;  // as in stroke-dasharray
};

enum class Anchor { start, middle, end };

// Inter's capitals are 0.727 of the font size: 3.45 gives letters of 2.5 mm, the least on any sheet.
inline constexpr double kLeastType = 3.45;
inline constexpr double kCapHeight = 0.727;

struct Type {
  double size = kLeastType;
  bool bold = false;
  Anchor anchor = Anchor::start;
  const char* colour = ink::black;
};

class Svg {
 public:
  Svg(double width, double height);

  void line(Spot a, Spot b, Pen p = {});
  void polyline(const std::vector<Spot>& spots, Pen p = {}, const char* fill = ink::none, bool closed = false);
  void rect(Box b, Pen p = {}, const char* fill = ink::none);
  void fill_rect(Box b, const char* fill);
  void circle(Spot centre, double radius, Pen p = {}, const char* fill = ink::none);
  void path(const std::string& d, Pen p = {}, const char* fill = ink::none);
  // `at` is the base line; turned: read from below upwards, from the right.
  void text(Spot at, std::string_view words, Type type = {}, bool turned = false);
  // Everything until `end_clip` is cut off at the box.
  void clip(Box b);
  void end_clip();

  double width() const { return width_; }
  double height() const { return height_; }
  std::string document() const;

 private:
  double width_, height_;
  int clips_ = 0;
  std::string body_;
};

// A coordinate or length as text: at most two decimals, no trailing zeros, never "-0".
std::string mm_text(double value);
// "M x y" and friends for building paths.
std::string move_to(Spot p);
std::string line_to(Spot p);
std::string arc_to(double radius, bool large, bool clockwise, Spot p);

std::string escape(std::string_view text);
// The box that a text takes, used by label search and tests: cap height above the base line, a quarter below.
Box text_box(Spot at, std::string_view words, const Type& type, bool turned = false);
bool overlap(const Box& a, const Box& b, double slack = 0);

}  // namespace railwright::sheets
