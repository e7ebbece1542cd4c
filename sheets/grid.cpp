// SPDX-License-Identifier: MIT
#include "sheets/grid.h"

#include <algorithm>

#include "sheets/type.h"

namespace railwright::sheets {
namespace {

constexpr double kGap = 3.2;  // between columns
constexpr double kHead = 4.6, kLinePitch = 4.5;

bool drawn_only(const Column& c) { return c.align == Align::tick || c.align == Align::blank; }

// `7' 5-1/4"` parts into `7' 5` and `-1/4"`, so that inches stand above inches whatever the fraction.
std::pair<std::string, std::string> at_fraction(const std::string& text) {
  const auto slash = text.find('/');
  if (slash == std::string::npos) {
    const auto cut = text.size() - (!text.empty() && text.back() == '"' ? 1 : 0);
    return {text.substr(0, cut), text.substr(cut)};
  }
  const auto before = text.find_last_of("- ", slash);
  const auto cut = before == std::string::npos || before == 0 ? 0 : before;
  return {text.substr(0, cut), text.substr(cut)};
}

struct Widths {
  std::vector<double> column;    // without the gap
  std::vector<double> fraction;  // of tape columns: room right of the inches
  std::vector<bool> wraps;
  double total = 0, room = 0;
};

double natural_width(const Grid& grid, std::size_t c, double& fraction) {
  const Column& column = grid.columns[c];
  double width = std::max(column.least, text_width(column.unit, kLeastType));
  double whole = 0;
  for (const auto& row : grid.rows) {
    if (row.heading || c >= row.cells.size()) continue;
    const auto& cell = row.cells[c];
    if (column.align == Align::tape) {
      const auto [left, right] = at_fraction(cell.text);
      whole = std::max(whole, text_width(left, kLeastType, cell.strong));
      fraction = std::max(fraction, text_width(right, kLeastType, cell.strong));
    } else {
      width = std::max(width, text_width(cell.text, kLeastType, cell.strong));
    }
  }
  return std::max(width, whole + fraction);
}

// The longest word of a head: a head may wrap, but not inside a word.
double head_width(const std::string& head) {
  double width = 0;
  std::size_t at = 0;
  while (at <= head.size()) {
    const auto blank = std::min(head.find(' ', at), head.size());
    width = std::max(width, text_width(head.substr(at, blank - at), kLeastType, true));
    at = blank + 1;
  }
  return width;
}

// Columns at their natural width; where that is too much, the widest text columns give way, and wrap.
Widths fit(const Grid& grid, double room) {
  Widths w;
  const auto n = grid.columns.size();
  w.wraps.assign(n, false);
  w.fraction.assign(n, 0);
  w.room = room;
  room -= kGap * static_cast<double>(n - 1);
  for (std::size_t c = 0; c < n; ++c) {
    w.column.push_back(std::max(natural_width(grid, c, w.fraction[c]), head_width(grid.columns[c].head)));
    w.total += w.column.back();
  }
  while (w.total > room) {
    std::size_t widest = n;
    for (std::size_t c = 0; c < n; ++c)
      if (grid.columns[c].align == Align::left && (widest == n || w.column[c] > w.column[widest])) widest = c;
    if (widest == n || w.column[widest] < 16) break;
    const double give = std::min(2.0, w.total - room + 0.01);
    w.column[widest] -= give;
    w.total -= give;
    w.wraps[widest] = true;
  }
  // Spare room goes evenly between the columns, but not so far that the eye loses the row.
  const double spare = n > 1 ? std::min(7.0, std::max(0.0, room - w.total) / static_cast<double>(n)) : 0;
  for (auto& width : w.column) width += spare;
  w.total += spare * static_cast<double>(n) + kGap * static_cast<double>(n - 1);
  return w;
}

std::size_t lines_of(const Row& row, const Widths& w) {
  std::size_t lines = 1;
  for (std::size_t c = 0; c < row.cells.size() && c < w.column.size(); ++c)
    if (w.wraps[c] && !row.heading) lines = std::max(lines, wrap(row.cells[c].text, w.column[c], kLeastType, row.cells[c].strong).size());
  return lines;
}

double height_of(const Row& row, const Widths& w, double least) {
  const double lines = static_cast<double>(lines_of(row, w));
  return std::max(row.heading ? 7.4 : least, least + (lines - 1) * kLinePitch);
}

double edge_x(const Column& column, double x, double width) { return column.align == Align::right || column.align == Align::tape ? x + width : x; }

double head_height(const Grid& grid, const Widths& w) {
  std::size_t lines = 1;
  for (std::size_t c = 0; c < grid.columns.size(); ++c) {
    const auto head = wrap(grid.columns[c].head, w.column[c], kLeastType, true).size();
    lines = std::max(lines, head + (grid.columns[c].unit.empty() ? 0 : 1));
  }
  return static_cast<double>(lines) * kHead + 2;
}

// Heads stand on the rule: the last line is the unit where there is one.
void draw_head(Svg& svg, const Grid& grid, const Widths& w, double left, double bottom) {
  double x = left;
  for (std::size_t c = 0; c < grid.columns.size(); ++c) {
    const Column& column = grid.columns[c];
    const bool right = column.align == Align::right || column.align == Align::tape;
    const Anchor anchor = right ? Anchor::end : Anchor::start;
    const double at = edge_x(column, x, w.column[c]);
    double y = bottom - 2;
    if (!column.unit.empty()) {
      svg.text({at, y}, column.unit, {kLeastType, false, anchor, ink::grey});
      y -= kHead;
    }
    const auto lines = wrap(column.head, w.column[c], kLeastType, true);
    for (auto i = lines.size(); i-- > 0; y -= kHead) svg.text({at, y}, lines[i], {kLeastType, true, anchor});
    x += w.column[c] + kGap;
  }
  svg.line({left, bottom}, {left + w.total, bottom}, {pen::ground});
}

void draw_cell(Svg& svg, const Column& column, const Cell& cell, double x, double width, double fraction, bool wraps, double base) {
  const Type type{kLeastType, cell.strong};
  if (column.align == Align::tape) {
    const auto [whole, rest] = at_fraction(cell.text);
    Type left = type;
    left.anchor = Anchor::end;
    svg.text({x + width - fraction, base}, whole, left);
    svg.text({x + width - fraction, base}, rest, type);
  } else if (column.align == Align::right) {
    Type right = type;
    right.anchor = Anchor::end;
    svg.text({x + width, base}, cell.text, right);
  } else if (wraps) {
    draw_lines(svg, {x, base}, wrap(cell.text, width, kLeastType, cell.strong), type, kLinePitch);
  } else {
    svg.text({x, base}, cell.text, type);
  }
}

void draw_row(Svg& svg, const Grid& grid, const Row& row, const Widths& w, double left, double y, double height, double least) {
  const double base = y + least / 2 + 1.3;
  if (row.heading) {
    svg.text({left, y + height - 1.9}, row.cells.empty() ? "" : shorten(row.cells[0].text, w.room, kLeastType, true),
             {kLeastType, true, Anchor::start, ink::primer});
    return;
  }
  double x = left;
  for (std::size_t c = 0; c < grid.columns.size(); ++c) {
    const Column& column = grid.columns[c];
    const double width = w.column[c];
    if (column.align == Align::tick) {
      svg.rect({x, y + least / 2 - 1.7, x + 3.4, y + least / 2 + 1.7}, {pen::thin});
    } else if (column.align == Align::blank) {
      svg.line({x, y + height - 1.2}, {x + width, y + height - 1.2}, {pen::thin, ink::rule});
      if (c < row.cells.size()) svg.text({x + 1, y + height - 2.4}, row.cells[c].text);
    } else if (c < row.cells.size()) {
      draw_cell(svg, column, row.cells[c], x, width, w.fraction[c], w.wraps[c], base);
    }
    x += width + kGap;
  }
}

// A name that is not repeated from row to row is repeated at the top of a sheet.
Row spelled_out(Row row) {
  if (!row.begins)
    for (auto& cell : row.cells)
      if (cell.text.empty()) cell.text = cell.plain;
  return row;
}

}  // namespace

Column length_column(const Pack& pack, const std::string& head) {
  return {head, pack.shown.tape_unit(), pack.shown.plain_unit(), pack.shown.metric() ? Align::right : Align::tape, 0};
}
Cell length_cell(const Pack& pack, Length l) { return {pack.shown.cell(l), pack.shown.plain(l)}; }
Column length_named(const Pack& pack, const std::string& key) { return length_column(pack, pack.say("col." + key)); }

Column text_column(const Pack& pack, const std::string& key) { return {pack.say("col." + key), {}, {}, Align::left, 0}; }

Column right_column(const Pack& pack, const std::string& key, const std::string& unit) { return {pack.say("col." + key), unit, {}, Align::right, 0}; }

Column tick_column(const Pack& pack) { return {pack.say("col.done"), {}, {}, Align::tick, 4}; }

Cell money_cell(Money amount) {
  const std::string digits = decimal_text(amount.round_to_cents());
  return {grouped(digits), digits};
}
Cell fixed_cell(double value, int decimals) {
  const std::string digits = number_text(value, decimals);
  return {grouped(digits), digits};
}
Cell number_cell(double value, int decimals) {
  const std::string digits = number_text(value, decimals, true);
  return {grouped(digits), digits};
}

Table to_table(const Grid& grid) {
  Table table{grid.id, grid.title, {}, {}};
  if (!grid.group_head.empty()) table.columns.push_back(grid.group_head);
  std::string group;
  for (const auto& c : grid.columns) {
    if (drawn_only(c)) continue;
    const std::string& unit = c.plain_unit.empty() ? c.unit : c.plain_unit;
    table.columns.push_back(unit.empty() ? c.head : c.head + " (" + unit + ")");
  }
  for (const auto& row : grid.rows) {
    if (row.heading) {
      group = row.cells.empty() ? std::string() : row.cells[0].plain.empty() ? row.cells[0].text : row.cells[0].plain;
      continue;
    }
    std::vector<std::string> out;
    if (!grid.group_head.empty()) out.push_back(group);
    for (std::size_t c = 0; c < grid.columns.size(); ++c) {
      if (drawn_only(grid.columns[c])) continue;
      const Cell cell = c < row.cells.size() ? row.cells[c] : Cell{};
      out.push_back(cell.plain.empty() ? cell.text : cell.plain);
    }
    table.rows.push_back(out);
  }
  return table;
}

std::size_t draw_rows(Svg& svg, const Grid& grid, Box box, std::size_t first, double row_height, double& y) {
  const Widths w = fit(grid, box.x1 - box.x0);
  y = box.y0 + head_height(grid, w);
  draw_head(svg, grid, w, box.x0, y);
  y += 0.6;
  std::size_t i = first, in_group = 0;
  for (; i < grid.rows.size(); ++i) {
    const Row& row = grid.rows[i];
    const double height = height_of(row, w, row_height);
    // A heading is not left alone at the foot of a sheet.
    const double needed = row.heading && i + 1 < grid.rows.size() ? height + height_of(grid.rows[i + 1], w, row_height) : height;
    if (y + needed > box.y1 && i > first) break;
    if (row.heading) in_group = 0;
    if (in_group >= 5 && row.begins) {
      svg.line({box.x0, y}, {box.x0 + w.total, y}, {pen::hair, ink::rule});
      in_group = 0;
    }
    draw_row(svg, grid, i == first ? spelled_out(row) : row, w, box.x0, y, height, row_height);
    y += height;
    if (!row.heading) ++in_group;
  }
  svg.line({box.x0, y + 0.3}, {box.x0 + w.total, y + 0.3}, {pen::thin});
  y += 0.6;
  return i;
}

void draw_grid(Book& book, const Grid& grid, const GridLook& look) {
  const Box upright = book.box_of(grid.key, Turn::upright);
  const Widths natural = fit(grid, upright.x1 - upright.x0);
  const bool cramped =
      natural.total > upright.x1 - upright.x0 + 0.1 || std::any_of(grid.rows.begin(), grid.rows.end(), [&](const Row& r) { return lines_of(r, natural) > 3; });
  const Turn turn = cramped ? Turn::wide : Turn::upright;
  std::size_t row = 0;
  for (int sheet = 1; sheet == 1 || row < grid.rows.size(); ++sheet) {
    Page& page = book.add(grid.key, sheet == 1 ? grid.id : grid.id + "-" + std::to_string(sheet), turn, look.detail);
    Box box = page.box;
    if (sheet == 1)
      for (const auto& line : look.before) box.y0 = draw_lines(page.svg, {box.x0, box.y0 + 3.4}, wrap(line, box.x1 - box.x0, 3.9), {3.9}, kLine) - 2.4;
    if (sheet == 1 && !look.before.empty()) box.y0 += 2;
    double y = box.y0;
    row = draw_rows(page.svg, grid, box, row, look.row_height, y);
    if (row < grid.rows.size()) continue;
    y += 7.5;
    for (const auto& line : look.after) {
      const auto lines = wrap(line, box.x1 - box.x0, 3.9);
      if (y + kLine * static_cast<double>(lines.size()) > page.box.y1 + 1) {
        Page& next = book.add(grid.key, grid.id + "-" + std::to_string(++sheet), turn, look.detail);
        y = draw_lines(next.svg, {box.x0, next.box.y0 + 4}, lines, {3.9}, kLine);
        continue;
      }
      y = draw_lines(book.last().svg, {box.x0, y}, lines, {3.9}, kLine) + 0.8;
    }
  }
}

}  // namespace railwright::sheets
