// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/measure/length.h"
#include "engine/measure/result.h"

// Tables of text with a header (RFC 4180, and what spreadsheets write elsewhere: semicolons or tabs, decimal commas).
namespace railwright::formats {

struct CsvColumn {
  std::string name;                         // lower case, without its unit: "east"
  std::string title;                        // as written
  std::optional<measure::BareNumber> unit;  // from `_ft`, `(m)`, `[in]` ...
};

struct CsvTable {
  std::vector<CsvColumn> columns;
  struct Row {
    std::size_t line = 0;
    std::vector<std::string> cells;
  };                      // as many cells as columns
  std::vector<Row> rows;  // an empty line is a row of empty cells
  bool decimal_comma = false;

  std::optional<std::size_t> find(std::initializer_list<std::string_view> names) const;
};

// Errors: `csv.no_header`, `csv.no_rows`, `csv.open_quote` (place: line), `csv.too_many_cells` (place: line).
Result<CsvTable> read_table(std::string_view text);

// A length in a cell: its own unit, else the column's, else `fallback`; counts in `assumed` when the fallback was needed. Error `csv.length` (place line, column).
struct CellReader {
  const CsvTable& table;
  measure::BareNumber fallback = measure::BareNumber::feet;
  std::size_t assumed = 0;
  bool metric = false, imperial = false;  // units met so far
  std::string mixed = {};                 // place where the second system of units was first met

  bool empty(const CsvTable::Row& row, std::optional<std::size_t> column) const;
  const std::string& text(const CsvTable::Row& row, std::optional<std::size_t> column) const;
  Result<measure::Length> length(const CsvTable::Row& row, std::size_t column);
  // Number without a unit. Error `csv.number`.
  Result<double> number(const CsvTable::Row& row, std::size_t column) const;
  std::string place(const CsvTable::Row& row, std::size_t column) const;

 private:
  void meet(bool in_metres, const CsvTable::Row& row, std::size_t column);
};

}  // namespace railwright::formats
