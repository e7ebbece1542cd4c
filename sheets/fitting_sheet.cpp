// SPDX-License-Identifier: MIT
#include "sheets/fitting_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "sheets/grids.h"
#include "sheets/labels.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

constexpr double kSketch = 40, kCardGap = 5;

struct Direction {
  Spot toward;
  std::string far;
};  // unit, on the paper with north up

struct Card {
  std::vector<std::string> posts;
  std::vector<Direction> directions;
  std::vector<std::string> lines;  // parts, bottom up
};

Spot toward(const Plan& plan, int post, const fittings::RailEnd& end) {
  const auto& bay = plan.layout.bays[static_cast<std::size_t>(end.bay)];
  const auto& a = plan.layout.posts[static_cast<std::size_t>(post)].at;
  const auto& b = plan.layout.posts[static_cast<std::size_t>(end.at_from ? bay.to : bay.from)].at;
  const double dx = b.x - a.x, dy = b.y - a.y, n = std::sqrt(dx * dx + dy * dy);
  if (n < 1e-9) return {1, 0};
  // To a thousandth, so that equal directions are equal.
  return {std::round(dx / n * 1000) / 1000, -std::round(dy / n * 1000) / 1000};
}

// "rails 1, 2 and 3" for consecutive uses of one part in the same directions.
struct PartLine {
  std::string part, faces, numbers;
  int count = 0;
};

std::vector<PartLine> part_lines(const Pack& pack, std::size_t first, std::size_t end) {
  std::vector<PartLine> lines;
  for (std::size_t u = first; u < end; ++u) {
    const auto& use = pack.plan.assembly.uses[u];
    const std::string part = item_word(pack, pack.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id);
    std::string faces, numbers;
    for (std::size_t i = 0; i < use.serves.size(); ++i) {
      const auto& e = use.serves[i];
      const std::string n = e.number == 0 ? pack.say("rail.brace") : std::to_string(e.number);
      if (numbers.find(n) == std::string::npos) numbers += (numbers.empty() ? "" : "+") + n;
      faces += (i ? pack.say("fitting.and") : "") + far_post(pack.plan, e);
    }
    if (!lines.empty() && lines.back().part == part && lines.back().faces == faces) {
      lines.back().numbers += ", " + numbers;
      ++lines.back().count;
    } else {
      lines.push_back({part, faces, numbers, 1});
    }
  }
  return lines;
}

std::vector<Direction> directions_of(const Plan& plan, std::size_t first, std::size_t end) {
  std::vector<Direction> out;
  for (std::size_t u = first; u < end; ++u)
    for (const auto& e : plan.assembly.uses[u].serves) {
      const Direction d{toward(plan, plan.assembly.uses[u].post, e), far_post(plan, e)};
      const bool known = std::any_of(out.begin(), out.end(), [&](const Direction& o) { return o.far == d.far; });
      if (!known) out.push_back(d);
    }
  return out;
}

// Cards in the order of the posts. Only line posts share one, and then their neighbours are not named but pointed at.
std::vector<Card> cards_of(const Pack& pack) {
  std::vector<Card> cards;
  std::map<std::string, std::size_t> shared;
  const auto& uses = pack.plan.assembly.uses;
  for (std::size_t first = 0; first < uses.size();) {
    std::size_t end = first;
    while (end < uses.size() && uses[end].post == uses[first].post) ++end;
    const auto& post = pack.plan.layout.posts[static_cast<std::size_t>(uses[first].post)];
    auto directions = directions_of(pack.plan, first, end);
    const auto parts = part_lines(pack, first, end);
    const bool line = post.kind == setout::PostKind::line && directions.size() == 2;
    std::vector<std::string> lines;
    std::string signature = std::to_string(post.on.empty() ? -1 : post.on[0].leg);
    for (const auto& d : directions) signature += "|" + mm_text(d.toward.x * 100) + "," + mm_text(d.toward.y * 100);
    for (const auto& p : parts) {
      const std::string key = line ? "fitting.line_through" : "fitting.line";
      const std::string faces = line ? "" : p.faces;
      lines.push_back(pack.say(key, {{"count", std::to_string(p.count)}, {"part", p.part}, {"rails", p.numbers}, {"faces", faces}}));
      signature += "|" + lines.back();
    }
    if (line)
      for (auto& d : directions) d.far = pack.say("fitting.next_post");
    const auto found = line ? shared.find(signature) : shared.end();
    if (found != shared.end()) {
      cards[found->second].posts.push_back(post.name);
    } else {
      if (line) shared[signature] = cards.size();
      cards.push_back({{post.name}, directions, lines});
    }
    first = end;
  }
  return cards;
}

// Ring, stubs and bars; names at the bars' ends where they fit.
void draw_sketch(Svg& svg, const Card& card, Box box) {
  const Spot c{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  const auto from = [&](Spot d, double along, double across) { return Spot{c.x + d.x * along - d.y * across, c.y + d.y * along + d.x * across}; };
  Labels labels(box);
  labels.keep_clear(Box{c.x - 4.6, c.y - 4.6, c.x + 4.6, c.y + 4.6});
  for (const auto& dir : card.directions) {
    const Spot d = dir.toward;
    svg.polyline({from(d, 6.2, -1.1), from(d, 11, -1.1), from(d, 11, 1.1), from(d, 6.2, 1.1)}, {pen::rail}, "#ffffff", true);
    svg.line(from(d, 3.6, 0), from(d, 7.6, 0), {pen::heavy, ink::primer});
    svg.line(from(d, 4.9, -1.5), from(d, 4.9, 1.5), {pen::heavy, ink::primer});
    for (const double side : {-1.3, 0.0, 1.3}) labels.keep_clear(from(d, 4, side), from(d, 11, side));
  }
  svg.circle(c, 3.6, {pen::rail, ink::primer});
  svg.circle(c, 2.9, {pen::ground}, "#ffffff");
  for (const auto& dir : card.directions) labels.draw(svg, from(dir.toward, 11, 0), shorten_name(dir.far, 17, kLeastType), {}, dir.toward);
}

std::string post_list(const Pack& pack, const Card& card) {
  std::string names;
  for (const auto& n : card.posts) names += (names.empty() ? "" : ", ") + n;
  return card.posts.size() > 1 ? pack.say("fitting.posts", {{"n", std::to_string(card.posts.size())}, {"posts", names}}) : names;
}

double draw_card_text(Svg* svg, const Pack& pack, const Card& card, Spot at, double width) {
  double y = at.y;
  const auto put = [&](const std::string& words, Type type) {
    const auto lines = wrap(words, width, type.size, type.bold);
    if (svg) draw_lines(*svg, {at.x, y}, lines, type, 4.7);
    y += 4.7 * static_cast<double>(lines.size());
  };
  put(post_list(pack, card), {kLeastType, true});
  y += 0.6;
  for (const auto& line : card.lines) put(line, {});
  return y - at.y;
}

}  // namespace

void draw_fitting_sheets(Book& book, const Pack& pack) {
  const auto cards = cards_of(pack);
  if (cards.empty()) return;
  const Box room = book.box_of("fittings", Turn::upright);
  const double column = (room.x1 - room.x0 - kCardGap) / 2, text = column - kSketch - 3;
  int sheet = 0;
  Page* page = nullptr;
  double y = 0;
  for (std::size_t i = 0; i < cards.size();) {
    // A card with a long list of posts takes the whole width; two short ones share a row.
    const bool wide = draw_card_text(nullptr, pack, cards[i], {}, text) > kSketch;
    const double width = wide ? 2 * column + kCardGap - kSketch - 3 : text;
    const std::size_t n = wide || i + 1 >= cards.size() || draw_card_text(nullptr, pack, cards[i + 1], {}, text) > kSketch ? 1 : 2;
    double height = 37;
    for (std::size_t k = 0; k < n; ++k) height = std::max(height, draw_card_text(nullptr, pack, cards[i + k], {}, width) + 5);
    if (!page || y + height > page->box.y1) {
      ++sheet;
      page = &book.add("fittings", sheet == 1 ? "fittings" : "fittings-" + std::to_string(sheet), Turn::upright);
      y = page->box.y0;
    }
    page->svg.line({page->box.x0, y}, {page->box.x1, y}, {pen::hair, ink::rule});
    for (std::size_t k = 0; k < n; ++k) {
      const double x = page->box.x0 + static_cast<double>(k) * (column + kCardGap);
      draw_sketch(page->svg, cards[i + k], {x, y + 1.2, x + kSketch, y + 35.8});
      draw_card_text(&page->svg, pack, cards[i + k], {x + kSketch + 2, y + 6}, width);
    }
    y += height;
    i += n;
  }
}

}  // namespace railwright::sheets
