// SPDX-License-Identifier: MIT
#include "sheets/zones.h"

#include <algorithm>
#include <cmath>

namespace railwright::sheets {
namespace {

constexpr double kHatch = 2.2;         // mm between strokes
constexpr double kMostStrokes = 4000;  // of one edge, for a line that runs far off the sheet

std::vector<Spot> on_paper(const job::Zone& zone, const View& view) {
  std::vector<Spot> spots;
  for (const auto& [east, north] : zone.shape) spots.push_back(view.at(east.metres(), north.metres()));
  if (zone.area && spots.size() > 2) spots.push_back(spots.front());
  return spots;
}

// The band `reach` each side of a line: dashed edges and slanting strokes, as one path each.
void draw_band(Svg& svg, Spot a, Spot b, double reach) {
  const double dx = b.x - a.x, dy = b.y - a.y, length = std::sqrt(dx * dx + dy * dy);
  if (length < 0.01 || reach < 0.2) return;
  const Spot u{dx / length, dy / length}, n{-u.y * reach, u.x * reach};
  for (const double side : {-1.0, 1.0}) svg.line({a.x + n.x * side, a.y + n.y * side}, {b.x + n.x * side, b.y + n.y * side}, {pen::hair, ink::grey, "1.6 1.2"});
  std::string strokes;
  const double lean = std::min(reach, 3.0);
  const int count = static_cast<int>(std::min(kMostStrokes, (length - lean) / kHatch));
  for (int i = 0; i <= count; ++i) {
    const double s = kHatch * i + lean / 2;
    const Spot m{a.x + u.x * s, a.y + u.y * s};
    strokes += move_to({m.x - u.x * lean / 2 - n.x, m.y - u.y * lean / 2 - n.y}) + line_to({m.x + u.x * lean / 2 + n.x, m.y + u.y * lean / 2 + n.y});
  }
  if (!strokes.empty()) svg.path(strokes, {pen::hair, ink::rule});
}

// Words on hatching are hard to read: lines across the band, closer than a letter is high, keep names out of it.
void keep_band_clear(Labels& labels, Spot a, Spot b, double reach) {
  const double dx = b.x - a.x, dy = b.y - a.y, length = std::sqrt(dx * dx + dy * dy);
  if (length < 0.01 || reach < 0.2) return;
  const int lines = std::clamp(static_cast<int>(std::ceil(reach / 2)), 1, 40);
  for (int k = -lines; k <= lines; ++k) {
    const Spot n{-dy / length * reach * k / lines, dx / length * reach * k / lines};
    labels.keep_clear({a.x + n.x, a.y + n.y}, {b.x + n.x, b.y + n.y});
  }
}

}  // namespace

const char* zone_colour(job::ZoneKind kind) {
  switch (kind) {
    case job::ZoneKind::power:
      return "#d3202a";
    case job::ZoneKind::gas:
      return "#f2c200";
    case job::ZoneKind::communication:
      return "#f07d00";
    case job::ZoneKind::water:
      return "#1463b8";
    case job::ZoneKind::sewer:
      return "#1f8a3b";
    case job::ZoneKind::irrigation:
      return "#7b3fa0";
    case job::ZoneKind::survey:
      return "#e0559a";
    default:
      return "#777777";
  }
}

std::string zone_word(const Pack& pack, job::ZoneKind kind) {
  static constexpr const char* kNames[] = {"power",  "gas",  "communication", "water",   "sewer", "irrigation",
                                           "survey", "rock", "roots",         "culvert", "wet",   "other"};
  return pack.say(std::string("zone.") + kNames[static_cast<int>(kind)]);
}

// An id that says what the zone is stands alone: "water line", not "water line water line".
std::string zone_name(const Pack& pack, const job::Zone& zone) {
  const auto lower = [](std::string text) {
    for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
  };
  const std::string word = zone_word(pack, zone.kind), id = lower(zone.id);
  return id.find(lower(word)) != std::string::npos ? zone.id : word + " " + zone.id;
}

void draw_zones(Svg& svg, const Pack& pack, const View& view, Labels& labels) {
  for (const auto& zone : pack.plan.layout.zones) {
    const auto spots = on_paper(zone, view);
    const double reach = view.scale.paper(zone.tolerance.metres());
    if (spots.size() == 1) {
      svg.circle(spots[0], std::max(1.2, reach), {pen::hair, ink::grey, "1.6 1.2"});
      svg.circle(spots[0], 0.9, {pen::hair}, zone_colour(zone.kind));
    }
    for (std::size_t i = 1; i < spots.size(); ++i) draw_band(svg, spots[i - 1], spots[i], reach);
    // A dark casing under the colour keeps the line readable in grey.
    if (spots.size() > 1) {
      svg.polyline(spots, {1.1, ink::black});
      svg.polyline(spots, {0.75, zone_colour(zone.kind)});
    }
    for (std::size_t i = 1; i < spots.size(); ++i) {
      labels.keep_clear(spots[i - 1], spots[i]);
      keep_band_clear(labels, spots[i - 1], spots[i], reach);
    }
  }
}

void name_zones(Svg& svg, const Pack& pack, const View& view, Labels& labels) {
  for (const auto& zone : pack.plan.layout.zones) {
    const auto spots = on_paper(zone, view);
    if (spots.empty()) continue;
    std::string words = zone_name(pack, zone);
    if (zone.tolerance > Length()) words += pack.say("zone.tolerance", {{"length", pack.shown.tape(zone.tolerance)}});
    // Along the line from its middle, so that a crossing full of post names still leaves a place.
    bool done = false;
    for (const double share : {0.5, 0.25, 0.75, 0.1, 0.9}) {
      const double at = share * static_cast<double>(spots.size() - 1);
      const auto i = std::min(static_cast<std::size_t>(at), spots.size() > 1 ? spots.size() - 2 : 0);
      const double part = at - static_cast<double>(i);
      const Spot a = spots[i], b = spots[std::min(i + 1, spots.size() - 1)];
      done = done || labels.draw(svg, {a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part}, words, {kLeastType, true}, {1, -0.3});
    }
  }
}

}  // namespace railwright::sheets
