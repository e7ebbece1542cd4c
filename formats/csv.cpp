// SPDX-License-Identifier: MIT
#include "formats/csv.h"

#include <algorithm>

#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::BareNumber;

constexpr std::size_t kMostColumns = 200;

// The character that parts most of the first line outside quotes.
char delimiter_of(std::string_view text) {
  std::size_t counts[3] = {0, 0, 0};
  constexpr std::string_view kDelimiters = ",;\t";
  bool quoted = false;
  for (const char c : text.substr(0, text.find('\n'))) {
    if (c == '"') quoted = !quoted;
    const std::size_t at = kDelimiters.find(c);
    if (!quoted && at != std::string_view::npos) ++counts[at];
  }
  const auto most = std::max_element(counts, counts + 3);
  return kDelimiters[static_cast<std::size_t>(most - counts)];
}

struct Split {
  std::vector<std::string> cells;
  std::size_t next = 0;
  bool open = false;
  std::size_t lines = 1;
};

// Cells of the record at `start`; a quoted cell may hold delimiters, doubled quotes and line ends.
Split split_record(std::string_view text, std::size_t start, char delimiter) {
  Split split;
  std::string cell;
  bool quoted = false;
  std::size_t i = start;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"')
        cell += c, split.lines += c == '\n';
      else if (i + 1 < text.size() && text[i + 1] == '"')
        cell += text[i++];
      else
        quoted = false;
    } else if (c == '"' && trimmed(cell).empty()) {
      cell.clear();
      quoted = true;
    } else if (c == delimiter) {
      split.cells.push_back(one_line(cell, 500));
      cell.clear();
    } else if (c == '\n') {
      break;
    } else {
      cell += c;
    }
  }
  split.cells.push_back(one_line(cell, 500));
  split.open = quoted;
  split.next = i + 1;
  return split;
}

std::optional<BareNumber> unit_of(std::string_view word) {
  if (word == "ft" || word == "feet" || word == "foot" || word == "'") return BareNumber::feet;
  if (word == "in" || word == "inch" || word == "inches" || word == "\"") return BareNumber::inches;
  if (word == "m" || word == "metre" || word == "metres" || word == "meter" || word == "meters") return BareNumber::metres;
  if (word == "mm" || word == "millimetres" || word == "millimeters") return BareNumber::millimetres;
  return std::nullopt;
}

// "Easting (m)" -> easting, metres; "east_ft" -> east, feet; "Slope Distance" -> slope distance.
CsvColumn column_of(const std::string& title) {
  CsvColumn column{lower(title), title, {}};
  std::string& name = column.name;
  std::replace(name.begin(), name.end(), '_', ' ');
  const auto cut = [&](std::size_t at, std::string_view word) {
    const auto unit = unit_of(trimmed(word));
    if (!unit) return;
    column.unit = unit;
    name.resize(at);
  };
  const std::size_t open = name.find_first_of("([");
  if (open != std::string::npos) {
    const std::size_t close = name.find_first_of(")]", open);
    if (close != std::string::npos) cut(open, std::string(name, open + 1, close - open - 1));
  } else if (const std::size_t blank = name.rfind(' '); blank != std::string::npos) {
    cut(blank, std::string(name, blank + 1));
  }
  name = std::string(trimmed(name));
  return column;
}

const std::string kNothing;

// A length's own unit is metric when it ends in m, mm, cm or km; feet, inches, primes and miles are not.
bool metric_text(std::string_view cell) {
  const std::string word = lower(trimmed(cell));
  const std::size_t letter = word.find_first_not_of("0123456789.,-+ /");
  if (letter == std::string::npos) return false;
  const std::string_view unit = std::string_view(word).substr(letter);
  return unit.rfind("mi", 0) != 0 && (unit[0] == 'm' || unit[0] == 'c' || unit[0] == 'k');
}

}  // namespace

std::optional<std::size_t> CsvTable::find(std::initializer_list<std::string_view> names) const {
  for (const std::string_view name : names) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      if (columns[i].name == name) return i;
    }
  }
  return std::nullopt;
}

Result<CsvTable> read_table(std::string_view text) {
  // Leading lines without a single cell of text are skipped.
  std::size_t start = 0, line = 1;
  while (start < text.size() && trimmed(text.substr(start, text.find('\n', start) - start)).empty()) {
    start = text.find('\n', start) + 1;
    ++line;
    if (start == 0) return fail("csv.no_header");
  }
  const char delimiter = delimiter_of(text.substr(start));
  CsvTable table;
  table.decimal_comma = delimiter != ',';
  for (bool header = true; start < text.size(); header = false) {
    Split split = split_record(text, start, delimiter);
    if (split.open) return fail("csv.open_quote", std::to_string(line));
    if (split.cells.size() > kMostColumns) return fail("csv.too_many_cells", std::to_string(line), {{"most", std::int64_t{kMostColumns}}});
    if (header) {
      for (const std::string& title : split.cells) table.columns.push_back(column_of(title));
    } else if (split.cells[0].empty() || split.cells[0][0] != '#') {
      // Delimiters behind the last column are what spreadsheets leave; text there is a fault.
      for (std::size_t i = table.columns.size(); i < split.cells.size(); ++i) {
        if (!split.cells[i].empty()) return fail("csv.too_many_cells", std::to_string(line), {{"most", static_cast<std::int64_t>(table.columns.size())}});
      }
      split.cells.resize(table.columns.size());
      table.rows.push_back({line, std::move(split.cells)});
    }
    start = split.next;
    line += split.lines;
  }
  if (table.columns.size() < 2) return fail("csv.no_header");
  if (table.rows.empty()) return fail("csv.no_rows");
  return table;
}

bool CellReader::empty(const CsvTable::Row& row, std::optional<std::size_t> column) const { return text(row, column).empty(); }

const std::string& CellReader::text(const CsvTable::Row& row, std::optional<std::size_t> column) const { return column ? row.cells[*column] : kNothing; }

std::string CellReader::place(const CsvTable::Row& row, std::size_t column) const { return std::to_string(row.line) + ", " + table.columns[column].title; }

Result<measure::Length> CellReader::length(const CsvTable::Row& row, std::size_t column) {
  const std::string& cell = row.cells[column];
  const auto unit = table.columns[column].unit;
  if (const auto number = read_number(cell, table.decimal_comma)) {
    if (!unit) ++assumed;
    const BareNumber bare = unit.value_or(fallback);
    meet(bare == BareNumber::metres || bare == BareNumber::millimetres, row, column);
    const double factor = bare == BareNumber::metres ? 1.0 : bare == BareNumber::millimetres ? 0.001 : bare == BareNumber::inches ? 0.0254 : 0.3048;
    const double metres = *number * factor;
    if (metres > -1e9 && metres < 1e9) return measure::Length::from_metres(metres);
  } else if (const auto length = measure::parse_length(cell, unit.value_or(BareNumber::refuse))) {
    meet(metric_text(cell), row, column);
    return *length;
  }
  return fail("csv.length", place(row, column), {{"text", one_line(cell, 60)}});
}

void CellReader::meet(bool in_metres, const CsvTable::Row& row, std::size_t column) {
  const bool other = in_metres ? imperial : metric;
  if (other && mixed.empty()) mixed = place(row, column);
  (in_metres ? metric : imperial) = true;
}

Result<double> CellReader::number(const CsvTable::Row& row, std::size_t column) const {
  if (const auto number = read_number(row.cells[column], table.decimal_comma)) return *number;
  return fail("csv.number", place(row, column), {{"text", one_line(row.cells[column], 60)}});
}

}  // namespace railwright::formats
