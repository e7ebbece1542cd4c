// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sheets/page.h"

// A table that is both drawn and written as CSV: each cell has what a person reads and what a spreadsheet adds up.
namespace railwright::sheets {

enum class Align {
  left,
  right,
  tape,
  tick,
  blank
};  // tape: inches above each other, fractions to the right; tick, blank: drawn only;
    // a blank holds what is known already, else room to write

struct Column {
  std::string head;        // words, already spelled
  std::string unit;        // shown once, under the head
  std::string plain_unit;  // for the spreadsheet; empty: as `unit`
  Align align = Align::left;
  double least = 0;  // mm
};

struct Cell {
  std::string text;
  std::string plain;  // for the spreadsheet; empty: as `text`
  bool strong = false;
};

struct Row {
  std::vector<Cell> cells;  // as the columns
  bool heading = false;     // a line across: the first cell's text
  bool begins = true;       // false: goes on with the row before (another rail of the same post)
};

struct Grid {
  std::string id, key;  // key: words "sheet.<key>..."
  std::string title;    // of the table
  std::vector<Column> columns;
  std::vector<Row> rows;
  std::string group_head{};  // name of the spreadsheet's first column, that holds the heading above each row; empty: headings are left out
};

// A column of lengths, with the unit of the job.
Column length_column(const Pack& pack, const std::string& head);
// Columns whose heads are the words `col.<key>`; `tick_column` is for a pencil.
Column length_named(const Pack& pack, const std::string& key);
Column text_column(const Pack& pack, const std::string& key);
Column right_column(const Pack& pack, const std::string& key, const std::string& unit = {});
Column tick_column(const Pack& pack);
Cell length_cell(const Pack& pack, Length l);
Cell money_cell(Money amount);
Cell number_cell(double value, int decimals);  // as many decimals as it needs
Cell fixed_cell(double value, int decimals);   // always that many, so that points stand above each other

Table to_table(const Grid& grid);

// Draws on as many sheets as it takes, head repeated, thin rules between groups of five. Upright when it fits, else wide. `row_height` is the least.
// `before` lines stand above the table on its first sheet, `after` below it on its last.
struct GridLook {
  double row_height = 5.4;
  std::vector<std::string> before, after;
  std::string detail;
};
void draw_grid(Book& book, const Grid& grid, const GridLook& look = {});
// Draws what fits into `box` of a page that exists; gives the first row not drawn and sets `y` to the end of the table.
std::size_t draw_rows(Svg& svg, const Grid& grid, Box box, std::size_t first, double row_height, double& y);

}  // namespace railwright::sheets
