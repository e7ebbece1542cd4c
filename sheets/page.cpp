// SPDX-License-Identifier: MIT
#include "sheets/page.h"

#include <algorithm>

#include "sheets/type.h"

namespace railwright::sheets {
namespace {

constexpr double kBinding = 20, kMargin = 10, kStrip = 16.5, kTitle = 6.6, kBody = 3.9;

Spot paper_size(Paper paper, Turn turn) {
  const Spot upright = paper == Paper::letter ? Spot{215.9, 279.4} : Spot{210, 297};
  return turn == Turn::upright ? upright : Spot{upright.y, upright.x};
}

// A warning triangle of the height of two lines.
void draw_triangle(Svg& svg, Spot top_left) {
  const double x = top_left.x, y = top_left.y;
  svg.polyline({{x, y + 6}, {x + 3.5, y}, {x + 7, y + 6}}, {pen::ground, ink::primer}, ink::none, true);
  svg.line({x + 3.5, y + 2.1}, {x + 3.5, y + 3.9}, {pen::ground, ink::primer});
  svg.circle({x + 3.5, y + 5.05}, 0.35, {0, ink::none}, ink::primer);
}

}  // namespace

double draw_lines(Svg& svg, Spot at, const std::vector<std::string>& lines, Type type, double pitch) {
  if (pitch <= 0) pitch = type.size * 1.32;
  for (const auto& line : lines) {
    svg.text(at, line, type);
    at.y += pitch;
  }
  return at.y;
}

Box Book::edge_of(Turn turn) const {
  const Spot size = paper_size(pack_.paper, turn);
  // The pack is bound along the long edge: left on an upright sheet, above on a wide one.
  if (turn == Turn::upright) return {kBinding, kMargin, size.x - kMargin, size.y - kMargin};
  return {kMargin, kBinding, size.x - kMargin, size.y - kMargin};
}

std::vector<std::string> Book::subtitle(const std::string& key, double width) const {
  const std::string name = "sheet." + key + ".say";
  return pack_.words.has(name) ? wrap(pack_.say(name), width, kBody) : std::vector<std::string>{};
}

std::vector<std::string> Book::caution(const std::string& key, double width) const {
  // Where nothing is marked as no-dig, no hatched band is spoken of.
  const std::string without = "sheet." + key + ".caution_without_zones";
  const std::string name = pack_.plan.layout.zones.empty() && pack_.words.has(without) ? without : "sheet." + key + ".caution";
  return pack_.words.has(name) ? wrap(pack_.say(name), width - 13, kLeastType) : std::vector<std::string>{};
}

Box Book::box_of(const std::string& key, Turn turn) const {
  Box box = edge_of(turn);
  const double width = box.x1 - box.x0;
  box.y0 += 8 + 5.2 * static_cast<double>(subtitle(key, width).size()) + 2.5;
  const auto lines = caution(key, width).size();
  box.y1 -= kStrip + (lines ? std::max(9.0, 4.6 * static_cast<double>(lines) + 3) + 2 : 0);
  return box;
}

void Book::draw_head(Page& page, const std::string& key, Box edge) {
  const double width = edge.x1 - edge.x0;
  double room = width;
  if (pack_.job.invented) {
    const std::string mark = pack_.say("strip.invented");
    const double w = text_width(mark, kLeastType, true) + 5;
    page.svg.rect({edge.x1 - w, edge.y0, edge.x1, edge.y0 + 6.2}, {pen::rail, ink::primer});
    page.svg.text({edge.x1 - w / 2, edge.y0 + 4.35}, mark, {kLeastType, true, Anchor::middle, ink::primer});
    room -= w + 4;
  }
  page.svg.text({edge.x0, edge.y0 + 5.2}, shorten(page.title, room, kTitle, true), {kTitle, true});
  draw_lines(page.svg, {edge.x0, edge.y0 + 11.3}, subtitle(key, width), {kBody, false, Anchor::start, ink::grey}, 5.2);

  const auto lines = caution(key, width);
  if (lines.empty()) return;
  const double height = std::max(9.0, 4.6 * static_cast<double>(lines.size()) + 3);
  const double top = edge.y1 - kStrip - height;
  page.svg.fill_rect({edge.x0, top, edge.x1, top + height}, ink::pale);
  draw_triangle(page.svg, {edge.x0 + 2, top + height / 2 - 3.1});
  const double first = top + height / 2 - 4.6 * static_cast<double>(lines.size() - 1) / 2 + 1.25;
  draw_lines(page.svg, {edge.x0 + 11.5, first}, lines, {}, 4.6);
}

Page& Book::add(const std::string& key, const std::string& id, Turn turn, const std::string& detail) {
  const Spot size = paper_size(pack_.paper, turn);
  std::string title = pack_.say("sheet." + key + ".title");
  if (!detail.empty()) title += ", " + detail;
  pages_.push_back({Svg(size.x, size.y), box_of(key, turn), id, title, {}});
  turns_.push_back(turn);
  draw_head(pages_.back(), key, edge_of(turn));
  return pages_.back();
}

void Book::draw_strip(const Page& page, Svg& svg, std::size_t number) const {
  const Box edge = edge_of(turns_[number - 1]);
  const double top = edge.y1 - kStrip + 3.5, width = edge.x1 - edge.x0;
  svg.line({edge.x0, top}, {edge.x1, top}, {pen::heavy});
  const std::string place = pack_.say("strip.sheet", {{"k", std::to_string(number)}, {"n", std::to_string(pages_.size())}});
  const double place_width = text_width(place, kLeastType, true);
  const double rest = width - place_width - 8;
  const double name_room = rest * 0.55;
  const std::string name = shorten(pack_.job.name, name_room, kLeastType, true);
  svg.text({edge.x0, top + 4.6}, name, {kLeastType, true});
  const double at = edge.x0 + std::min(text_width(name, kLeastType, true), name_room) + 4;
  svg.text({at, top + 4.6}, shorten(page.title, edge.x1 - place_width - 4 - at, kLeastType));
  svg.text({edge.x1, top + 4.6}, place, {kLeastType, true, Anchor::end});

  std::string facts = pack_.job.date.empty() ? pack_.say("strip.no_date") : pack_.say("strip.date", {{"date", shorten(pack_.job.date, 40, kLeastType)}});
  facts += "  ·  " + pack_.say(pack_.shown.metric() ? "strip.metric" : "strip.feet");
  facts += "  ·  " + (page.scale.empty() ? pack_.say("strip.no_scale") : page.scale);
  const std::string print = pack_.say("strip.plan", {{"plan", pack_.plan.fingerprint.empty() ? "–" : pack_.plan.fingerprint}});
  svg.text({edge.x0, top + 9}, shorten(facts, width - text_width(print, kLeastType) - 4, kLeastType), {kLeastType, false, Anchor::start, ink::grey});
  svg.text({edge.x1, top + 9}, print, {kLeastType, false, Anchor::end, ink::grey});
  svg.text({edge.x0, top + 13}, shorten(pack_.say("strip.advice"), width, kLeastType), {kLeastType, false, Anchor::start, ink::grey});
}

std::vector<Sheet> Book::finish() {
  std::vector<Sheet> sheets;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    draw_strip(pages_[i], pages_[i].svg, i + 1);
    sheets.push_back({pages_[i].id, pages_[i].title, pages_[i].svg.document()});
  }
  return sheets;
}

}  // namespace railwright::sheets
