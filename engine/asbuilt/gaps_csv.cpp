// SPDX-License-Identifier: MIT
#include "engine/asbuilt/gaps_csv.h"

#include <array>
#include <string>

namespace railwright::asbuilt {
namespace {

constexpr std::array<std::string_view, 4> kColumns{"bay", "rail", "gap", "way"};
enum Column { bay, rail, gap, way };

struct Cell {
  std::string text;
  int column = 1;  // of its first character, counted from 1
};

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) s.remove_suffix(1);
  return s;
}

std::string lower(std::string_view s) {
  std::string out(s);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}
  ReadGaps read();

 private:
  bool next_line(std::string_view& line);
  bool cells_of(std::string_view line, std::vector<Cell>& cells);
  bool read_header(const std::vector<Cell>& cells);
  void read_line(const std::vector<Cell>& cells);
  void fault(const char* code, int column, Values values = {});
  const Cell& cell(const std::vector<Cell>& cells, Column wanted) const;
  bool read_rail(const Cell& cell, job::MeasuredGap& reading);
  bool read_gap(const Cell& cell, job::MeasuredGap& reading);
  bool read_way(const Cell& cell, job::MeasuredGap& reading);

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 0;
  std::array<int, 4> place_{-1, -1, -1, -1};  // of each column
  Cell none_;
  ReadGaps result_;
};

void Reader::fault(const char* code, int column, Values values) {
  result_.findings.push_back({code, Severity::stop, std::to_string(line_) + ":" + std::to_string(column), std::move(values)});
}

bool Reader::next_line(std::string_view& line) {
  if (at_ >= text_.size()) return false;
  const std::size_t end = text_.find('\n', at_);
  line = text_.substr(at_, end == std::string_view::npos ? end : end - at_);
  at_ = end == std::string_view::npos ? text_.size() : end + 1;
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  ++line_;
  return true;
}

bool Reader::cells_of(std::string_view line, std::vector<Cell>& cells) {
  cells.assign(1, {});
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted && c == '"' && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back().text += line[++i];
    } else if (c == '"' && (quoted || trimmed(cells.back().text).empty())) {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.push_back({{}, static_cast<int>(i) + 2});
    } else {
      cells.back().text += c;
    }
  }
  for (Cell& cell : cells) cell.text = std::string(trimmed(cell.text));
  if (quoted) fault("gaps_csv.quote", cells.back().column);
  return !quoted;
}

bool Reader::read_header(const std::vector<Cell>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    for (std::size_t k = 0; k < kColumns.size(); ++k) {
      if (lower(cells[i].text) == kColumns[k]) place_[k] = static_cast<int>(i);
    }
  }
  for (const Column needed : {bay, rail, gap}) {
    if (place_[needed] >= 0) continue;
    fault("gaps_csv.header", 1, {{"column", std::string(kColumns[needed])}});
    return false;
  }
  return true;
}

const Cell& Reader::cell(const std::vector<Cell>& cells, Column wanted) const {
  const int i = place_[wanted];
  return i >= 0 && i < static_cast<int>(cells.size()) ? cells[i] : none_;
}

bool Reader::read_rail(const Cell& cell, job::MeasuredGap& reading) {
  reading.rail = 0;
  bool whole = !cell.text.empty() && cell.text.size() <= 3;
  for (const char c : cell.text) {
    whole = whole && c >= '0' && c <= '9';
    if (whole) reading.rail = reading.rail * 10 + (c - '0');
  }
  if (whole && reading.rail > 0) return true;
  fault("gaps_csv.rail", cell.column, {{"text", cell.text}});
  return false;
}

bool Reader::read_gap(const Cell& cell, job::MeasuredGap& reading) {
  const auto length = measure::parse_length(cell.text, measure::BareNumber::inches);
  if (length) {
    reading.gap = *length;
    return true;
  }
  fault("gaps_csv.gap", cell.column, {{"text", cell.text}});
  return false;
}

bool Reader::read_way(const Cell& cell, job::MeasuredGap& reading) {
  const std::string word = lower(cell.text);
  if (word.empty() || word == "level" || word == "slope") {
    reading.way = word == "slope" ? job::GapWay::slope : job::GapWay::level;
    return true;
  }
  fault("gaps_csv.way", cell.column, {{"text", cell.text}});
  return false;
}

void Reader::read_line(const std::vector<Cell>& cells) {
  if (cell(cells, gap).text.empty()) return;
  job::MeasuredGap reading;
  reading.bay = cell(cells, bay).text;
  bool good = !reading.bay.empty();
  if (!good) fault("gaps_csv.bay", cell(cells, bay).column);
  good = read_rail(cell(cells, rail), reading) && good;
  good = read_gap(cell(cells, gap), reading) && good;
  good = read_way(cell(cells, way), reading) && good;
  if (good) result_.gaps.push_back(std::move(reading));
}

ReadGaps Reader::read() {
  if (text_.substr(0, 3) == "\xEF\xBB\xBF") text_.remove_prefix(3);
  std::string_view line;
  std::vector<Cell> cells;
  bool header = false;
  while (next_line(line)) {
    if (line.find('\0') != std::string_view::npos) {
      fault("gaps_csv.not_text", 1);
      return std::move(result_);
    }
    if (trimmed(line).empty() || !cells_of(line, cells)) continue;
    if (header) {
      read_line(cells);
    } else {
      header = true;
      if (!read_header(cells)) return std::move(result_);
    }
  }
  if (header || !result_.findings.empty()) return std::move(result_);
  line_ = 1;
  fault("gaps_csv.empty", 1);
  return std::move(result_);
}

}  // namespace

ReadGaps read_gaps(std::string_view text) { return Reader(text).read(); }

}  // namespace railwright::asbuilt
