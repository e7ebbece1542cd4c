// SPDX-License-Identifier: MIT
#include "sheets/svg.h"

#include <cmath>

#include "sheets/type.h"

namespace railwright::sheets {
namespace {

std::string attribute(const char* name, const std::string& value) { return std::string(" ") + name + "=\"" + value + "\""; }

std::string stroke(const Pen& p) {
  if (p.width <= 0) return attribute("stroke", "none");
  std::string out = attribute("stroke", p.colour) + attribute("stroke-width", mm_text(p.width));
  if (p.dash) out += attribute("stroke-dasharray", p.dash);
  return out;
}

std::string at(const char* x, const char* y, Spot p) { return attribute(x, mm_text(p.x)) + attribute(y, mm_text(p.y)); }

}  // namespace

std::string mm_text(double value) {
  if (!(value > -1e7 && value < 1e7)) value = 0;
  const long long hundredths = std::llround(value * 100.0);
  const long long size = hundredths < 0 ? -hundredths : hundredths;
  std::string out = (hundredths < 0 ? "-" : "") + std::to_string(size / 100);
  if (size % 100 == 0) return out;
  out += "." + std::to_string(size % 100 / 10);
  if (size % 10 != 0) out += std::to_string(size % 10);
  return out;
}

std::string move_to(Spot p) { return "M" + mm_text(p.x) + " " + mm_text(p.y); }
std::string line_to(Spot p) { return "L" + mm_text(p.x) + " " + mm_text(p.y); }
std::string arc_to(double radius, bool large, bool clockwise, Spot p) {
  const std::string r = mm_text(radius);
  return "A" + r + " " + r + " 0 " + (large ? "1 " : "0 ") + (clockwise ? "1 " : "0 ") + mm_text(p.x) + " " + mm_text(p.y);
}

std::string escape(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;  // control characters are not allowed in XML
    }
  }
  return out;
}

Box text_box(Spot p, std::string_view words, const Type& type, bool turned) {
  const double w = text_width(words, type.size, type.bold);
  const double before = type.anchor == Anchor::start ? 0 : type.anchor == Anchor::middle ? w / 2 : w;
  const double up = type.size * kCapHeight, down = type.size * 0.22;
  if (turned) return {p.x - up, p.y - (w - before), p.x + down, p.y + before};
  return {p.x - before, p.y - up, p.x + (w - before), p.y + down};
}

bool overlap(const Box& a, const Box& b, double slack) { return a.x0 < b.x1 + slack && b.x0 < a.x1 + slack && a.y0 < b.y1 + slack && b.y0 < a.y1 + slack; }

Svg::Svg(double width, double height) : width_(width), height_(height) {}

void Svg::line(Spot a, Spot b, Pen p) { body_ += "<line" + at("x1", "y1", a) + at("x2", "y2", b) + stroke(p) + "/>\n"; }

void Svg::polyline(const std::vector<Spot>& spots, Pen p, const char* fill, bool closed) {
  std::string points;
  for (const Spot& s : spots) points += (points.empty() ? "" : " ") + mm_text(s.x) + "," + mm_text(s.y);
  body_ += std::string(closed ? "<polygon" : "<polyline") + attribute("points", points) + attribute("fill", fill) + stroke(p) + "/>\n";
}

void Svg::rect(Box b, Pen p, const char* fill) {
  body_ += "<rect" + at("x", "y", {b.x0, b.y0}) + at("width", "height", {b.x1 - b.x0, b.y1 - b.y0}) + attribute("fill", fill) + stroke(p) + "/>\n";
}

void Svg::fill_rect(Box b, const char* fill) { rect(b, {0, ink::none}, fill); }

void Svg::circle(Spot centre, double radius, Pen p, const char* fill) {
  body_ += "<circle" + at("cx", "cy", centre) + attribute("r", mm_text(radius)) + attribute("fill", fill) + stroke(p) + "/>\n";
}

void Svg::path(const std::string& d, Pen p, const char* fill) { body_ += "<path" + attribute("d", d) + attribute("fill", fill) + stroke(p) + "/>\n"; }

void Svg::text(Spot p, std::string_view words, Type type, bool turned) {
  if (words.empty()) return;
  body_ += "<text" + at("x", "y", p) + attribute("font-size", mm_text(type.size));
  if (type.bold) body_ += attribute("font-weight", "700");
  if (type.anchor != Anchor::start) body_ += attribute("text-anchor", type.anchor == Anchor::middle ? "middle" : "end");
  if (std::string_view(type.colour) != ink::black) body_ += attribute("fill", type.colour);
  if (turned) body_ += attribute("transform", "rotate(-90 " + mm_text(p.x) + " " + mm_text(p.y) + ")");
  body_ += ">" + escape(words) + "</text>\n";
}

void Svg::clip(Box b) {
  const std::string id = "clip" + std::to_string(++clips_);
  body_ += "<clipPath id=\"" + id + "\"><rect" + at("x", "y", {b.x0, b.y0}) + at("width", "height", {b.x1 - b.x0, b.y1 - b.y0}) +
           "/></clipPath>\n<g clip-path=\"url(#" + id + ")\">\n";
}

void Svg::end_clip() { body_ += "</g>\n"; }

std::string Svg::document() const {
  const std::string w = mm_text(width_), h = mm_text(height_);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + w + "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " + w + " " + h +
         "\" font-family=\"Inter, 'DejaVu Sans', Arial, sans-serif\" fill=\"" + ink::black + "\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n" +
         body_ + "</svg>\n";
}

}  // namespace railwright::sheets
