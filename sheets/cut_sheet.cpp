// SPDX-License-Identifier: MIT
#include "sheets/cut_sheet.h"

#include <algorithm>
#include <map>

#include "sheets/grids.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

using takeoff::PieceKind;
using takeoff::PipeCuts;

constexpr double kLeft = 17, kRight = 44, kBar = 10.5, kMarks = 6.2, kNames = 5.2, kBlockGap = 4.5;

// Sticks of one stock with the same lengths in the same order.
struct Pattern {
  const cutting::Stick* stick = nullptr;
  std::int64_t count = 0;
  std::vector<std::string> names;  // of the pieces, one entry a stick
  std::size_t ready = 0;           // pieces from its start that may be cut to this length
};

std::vector<Pattern> patterns_of(const Pack& pack, const PipeCuts& pipe) {
  std::vector<Pattern> out;
  std::map<std::vector<std::int64_t>, std::size_t> seen;
  for (const auto& stick : pipe.plan.sticks) {
    std::vector<std::int64_t> key{stick.stock, stick.drop.nm()};
    const std::size_t ready = ready_pieces(pack, pipe, stick);
    std::string names;
    for (const int piece : stick.pieces) {
      key.push_back(pipe.instance.pieces()[static_cast<std::size_t>(piece)].length.nm());
      names += (names.empty() ? "" : "  ·  ") + pipe.instance.pieces()[static_cast<std::size_t>(piece)].label;
    }
    key.push_back(static_cast<std::int64_t>(ready));
    const auto [found, fresh] = seen.insert({key, out.size()});
    if (fresh) out.push_back({&stick, 0, {}, ready});
    auto& pattern = out[found->second];
    pattern.count += stick.count;
    pattern.names.push_back((stick.count > 1 ? std::to_string(stick.count) + " × " : "") + names);
  }
  return out;
}

// Where each piece lies on the stick, from the start of the bar.
struct Lying {
  double x0, x1;
  const cutting::Piece* piece;
  Length mark;
};
using Lie = std::vector<Lying>;
Lie lay_out(const PipeCuts& pipe, const cutting::Stick& stick, double left, double along) {
  Lie out;
  for (std::size_t i = 0; i < stick.pieces.size() && i < stick.marks.size(); ++i) {
    const auto& piece = pipe.instance.pieces()[static_cast<std::size_t>(stick.pieces[i])];
    const double x1 = left + stick.marks[i].metres() * along, x0 = left + (stick.marks[i] - piece.length).metres() * along;
    out.push_back({x0, std::max(x0 + 0.2, x1 - 0.35), &piece, stick.marks[i]});
  }
  return out;
}

void draw_hatched(Svg& svg, Box b) {
  svg.rect(b, {pen::hair, ink::grey});
  std::string strokes;
  for (double x = b.x0; x < b.x1; x += 2) {
    const double reach = std::min(b.y1 - b.y0, b.x1 - x);
    strokes += move_to({x, b.y0 + (b.y1 - b.y0)}) + line_to({x + reach, b.y1 - reach});
  }
  if (!strokes.empty()) svg.path(strokes, {pen::hair, ink::rule});
}

void draw_pieces(Svg& svg, const Pack& pack, const Pattern& pattern, const Lie& pieces, double top) {
  for (const auto& p : pieces) {
    svg.rect({p.x0, top, p.x1, top + kBar}, {pen::rail}, "#ffffff");
    const double room = p.x1 - p.x0 - 1.4, middle = (p.x0 + p.x1) / 2;
    const std::string length = pack.shown.tape(pack.shown.cut(p.piece->length));
    if (pattern.count == 1 && text_width(p.piece->label, kLeastType, true) <= room) {
      svg.text({middle, top + 4.4}, p.piece->label, {kLeastType, true, Anchor::middle});
      if (text_width(length, kLeastType) <= room) svg.text({middle, top + 8.9}, length, {kLeastType, false, Anchor::middle});
    } else if (text_width(length, kLeastType) <= room) {
      svg.text({middle, top + kBar / 2 + 1.3}, length, {kLeastType, false, Anchor::middle});
    }
  }
}

// Running marks under the far end of each piece; where two would touch, the later one drops to a second line.
void draw_marks(Svg& svg, const Pack& pack, const Lie& pieces, double bottom, double right) {
  double free_upper = -1, free_lower = -1;
  for (const auto& p : pieces) {
    const std::string mark = pack.shown.tape(p.mark);
    const double w = text_width(mark, kLeastType, true), x0 = std::min(p.x1 - w / 2, right - w);
    const bool lower = x0 < free_upper + 1.5;
    if (lower && x0 < free_lower + 1.5) continue;  // still in the table of cuts
    (lower ? free_lower : free_upper) = x0 + w;
    svg.line({p.x1, bottom}, {p.x1, bottom + (lower ? 5.2 : 1.2)}, {pen::thin, ink::primer});
    svg.text({x0, bottom + (lower ? 9.1 : 4.6)}, mark, {kLeastType, true, Anchor::start, ink::primer});
  }
}

bool marks_need_two_lines(const Pack& pack, const Lie& pieces) {
  double free = -1;
  for (const auto& p : pieces) {
    const double w = text_width(pack.shown.tape(p.mark), kLeastType, true);
    if (p.x1 - w / 2 < free + 1.5) return true;
    free = p.x1 + w / 2;
  }
  return false;
}

// The pieces that carry marks: those from the start of the stick that may be cut.
Lie marked(Lie pieces, const Pattern& pattern) {
  pieces.resize(std::min(pieces.size(), pattern.ready));
  return pieces;
}

double marks_height(const Pack& pack, const Lie& pieces) { return pieces.empty() ? 0 : kMarks + (marks_need_two_lines(pack, pieces) ? 4.5 : 0); }

// The names of the pieces of each stick, in columns, with a square to tick.
struct NameColumns {
  int columns = 1;
  double width = 0;
  double height = 0;
};
NameColumns name_columns(const Pattern& pattern, double room) {
  double widest = 0;
  for (const auto& n : pattern.names) widest = std::max(widest, text_width(n, kLeastType));
  NameColumns c;
  c.width = std::min(room, widest + 12);
  c.columns = std::max(1, static_cast<int>(room / c.width));
  if (pattern.count > 1) {
    const auto n = static_cast<int>(pattern.names.size());
    c.height = kNames * ((n + c.columns - 1) / c.columns);
  }
  return c;
}

double block_height(const Pack& pack, const PipeCuts& pipe, const Pattern& pattern, double along, double room) {
  double height = kBar + kBlockGap + name_columns(pattern, room).height;
  return height + marks_height(pack, marked(lay_out(pipe, *pattern.stick, 0, along), pattern));
}

// "2-3/8 x 21 ft" says its length already; other names are led by it.
std::string stick_word(const Pack& pack, const PipeCuts& pipe, std::size_t s) {
  const auto& stock = pipe.instance.stocks()[s];
  const std::string name = item_word(pack, stock.name), end = measure::exact_text(stock.length);
  const bool told = name.size() > end.size() && name.compare(name.size() - end.size(), end.size(), end) == 0;
  return told ? name : pack.shown.tape(stock.length) + " " + name;
}

void draw_right_notes(Svg& svg, const Pack& pack, const PipeCuts& pipe, const Pattern& pattern, double x, double top, double room) {
  const auto& stick = *pattern.stick;
  const auto s = static_cast<std::size_t>(stick.stock);
  svg.text({x, top + 4.4}, shorten(stick_word(pack, pipe, s), room, kLeastType));
  std::string words = pack.say("cuts.drop", {{"length", pack.shown.tape(stick.drop)}, {"fate", pack.say(stick.kept ? "cuts.kept" : "cuts.waste")}});
  if (s < pipe.stocks.size() && pipe.stocks[s].cut_first > Length())
    words = pack.say("cuts.crop_first", {{"length", pack.shown.tape(pipe.stocks[s].cut_first)}}) + "; " + words;
  svg.text({x, top + 8.9}, shorten(words, room, kLeastType), {kLeastType, false, Anchor::start, ink::grey});
}

void draw_pattern(Svg& svg, const Pack& pack, const PipeCuts& pipe, const Pattern& pattern, Box at, double along) {
  const auto& stick = *pattern.stick;
  const auto& stock = pipe.instance.stocks()[static_cast<std::size_t>(stick.stock)];
  const double left = at.x0 + kLeft, end = left + stock.length.metres() * along;
  svg.text({at.x0, at.y0 + kBar / 2 + 1.8}, std::to_string(pattern.count) + " ×", {5.2, true});
  const auto pieces = lay_out(pipe, stick, left, along);
  svg.rect({left, at.y0, end, at.y0 + kBar}, {pen::hair, ink::grey});
  const double used = pieces.empty() ? left : pieces.back().x1 + 0.35;
  if (end - used > 0.6) draw_hatched(svg, {used, at.y0, end, at.y0 + kBar});
  draw_pieces(svg, pack, pattern, pieces, at.y0);
  draw_right_notes(svg, pack, pipe, pattern, at.x1 - kRight + 3, at.y0, kRight - 3);
  double y = at.y0 + kBar;
  const Lie ready = marked(pieces, pattern);
  draw_marks(svg, pack, ready, y, at.x1 - kRight);
  y += marks_height(pack, ready);
  if (pattern.count == 1) return;
  const double room = at.x1 - left;
  const NameColumns c = name_columns(pattern, room);
  for (std::size_t i = 0; i < pattern.names.size(); ++i) {
    const int column = static_cast<int>(i) % c.columns, line = static_cast<int>(i) / c.columns;
    const double x = left + column * c.width, base = y + kNames * (line + 1) - 0.8;
    svg.rect({x, base - 2.9, x + 3, base + 0.1}, {pen::thin});
    svg.text({x + 4.6, base}, shorten(pattern.names[i], c.width - 5.5, kLeastType));
  }
}

std::string pipe_heading(const Pack& pack, const PipeCuts& pipe) {
  return pack.say("cuts.pipe",
                  {{"pipe", item_word(pack, pipe.pipe)}, {"sticks", std::to_string(pipe.plan.sticks_used)}, {"setups", std::to_string(pipe.plan.setups)}});
}

std::string state_key(const Pack& pack) {
  bool any = false, all = true;
  for (const auto& pipe : pack.plan.cuts)
    for (std::size_t p = 0; p < pipe.pieces.size(); ++p) {
      const bool final = piece_final(pack, pipe, static_cast<int>(p));
      any = any || (final && pipe.pieces[p].kind != PieceKind::post);
      all = all && final;
    }
  return all ? "cuts.for_cutting" : any ? "cuts.partly" : "cuts.for_buying";
}

}  // namespace

CutTotals cut_totals(const Plan& plan) {
  CutTotals t;
  for (const auto& pipe : plan.cuts) {
    t.cost += pipe.plan.cost;
    t.bound += pipe.plan.bound;
    t.sticks += pipe.plan.sticks_used;
    t.proved = t.proved && pipe.plan.proved;
    for (const auto& stick : pipe.plan.sticks)
      if (static_cast<std::size_t>(stick.stock) < pipe.stocks.size()) t.priced = t.priced && pipe.stocks[static_cast<std::size_t>(stick.stock)].priced;
  }
  return t;
}

std::string bound_sentence(const Pack& pack, const CutTotals& t) {
  if (!t.priced) return pack.say("cuts.no_price");
  if (t.proved) return pack.say("cuts.proved", {{"cost", pack.shown.money(t.cost)}});
  return pack.say("cuts.bound", {{"cost", pack.shown.money(t.cost)}, {"bound", pack.shown.money(t.bound)}, {"gap", pack.shown.money(t.cost - t.bound)}});
}

void draw_cut_sheets(Book& book, const Pack& pack) {
  if (pack.plan.cuts.empty()) return;
  const CutTotals totals = cut_totals(pack.plan);
  int sheet = 1;
  Page* page = &book.add("cuts", "cuts", Turn::wide);
  double y = page->box.y0 + 5;
  const double width = page->box.x1 - page->box.x0;
  y = draw_lines(page->svg, {page->box.x0, y}, wrap(pack.say(state_key(pack)), width, 4.4, true), {4.4, true, Anchor::start, ink::primer}, 5.8);
  y = draw_lines(page->svg, {page->box.x0, y}, wrap(bound_sentence(pack, totals), width, 3.9), {3.9}, kLine) + 2;
  const auto next_page = [&] {
    page = &book.add("cuts", "cuts-" + std::to_string(++sheet), Turn::wide);
    y = page->box.y0 + 4;
  };
  for (const auto& pipe : pack.plan.cuts) {
    const auto patterns = patterns_of(pack, pipe);
    if (patterns.empty()) continue;
    double longest = 0;
    for (const auto& p : patterns) longest = std::max(longest, pipe.instance.stocks()[static_cast<std::size_t>(p.stick->stock)].length.metres());
    const double along = (width - kLeft - kRight) / std::max(0.1, longest);
    bool headed = false;
    for (const auto& pattern : patterns) {
      // The names of very many equal sticks are spread over blocks that fit a sheet.
      Pattern part = pattern;
      std::size_t from = 0;
      while (from < pattern.names.size()) {
        const double room = page->box.y1 - page->box.y0 - 30;
        const auto columns = static_cast<std::size_t>(name_columns(pattern, width - kLeft).columns);
        const std::size_t most = std::max<std::size_t>(1, static_cast<std::size_t>((room - 40) / kNames)) * columns;
        const std::size_t to = std::min(pattern.names.size(), from + most);
        part.names.assign(pattern.names.begin() + static_cast<std::ptrdiff_t>(from), pattern.names.begin() + static_cast<std::ptrdiff_t>(to));
        if (pattern.names.size() > most) part.count = static_cast<std::int64_t>(part.names.size());
        const double height = block_height(pack, pipe, part, along, width - kLeft) + (headed ? 0 : 7);
        if (y + height > page->box.y1) next_page();
        if (!headed || y < page->box.y0 + 6) {
          page->svg.text({page->box.x0, y + 2}, shorten(pipe_heading(pack, pipe), width, 4.2, true), {4.2, true});
          y += 6;
          headed = true;
        }
        draw_pattern(page->svg, pack, pipe, part, {page->box.x0, y, page->box.x1, y}, along);
        y += block_height(pack, pipe, part, along, width - kLeft);
        from = to;
      }
    }
    y += 2;
  }
}

}  // namespace railwright::sheets
