// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <map>
#include <optional>

#include "formats/text.h"
#include "formats/walk.h"

// ESRI ASCII raster: "key value" lines, then heights from the north-west corner, row by row.
namespace railwright::formats {
namespace {

using measure::Length;

constexpr double kMostCells = 16e6;
constexpr double kMissing = -9999;  // where the header names no other

std::string_view next_word(std::string_view text, std::size_t& at) {
  constexpr std::string_view kBlanks = " \t\n";
  at = text.find_first_not_of(kBlanks, at);
  if (at == std::string_view::npos) return {};
  std::size_t end = text.find_first_of(kBlanks, at);
  if (end == std::string_view::npos) end = text.size();
  const std::string_view word = text.substr(at, end - at);
  at = end;
  return word;
}

struct Header {
  std::map<std::string, double> values;
  std::size_t end = 0;
  std::optional<double> find(const char* key) const {
    const auto found = values.find(key);
    return found == values.end() ? std::nullopt : std::optional<double>(found->second);
  }
};

tl::unexpected<Error> bad_header(const std::string& key) { return fail("grid.header", {}, {{"key", key}}); }

Result<Header> header_of(std::string_view text) {
  Header header;
  for (std::size_t at = 0;;) {
    std::size_t ahead = at;
    const std::string key = lower(next_word(text, ahead));
    if (key.empty() || !(key[0] >= 'a' && key[0] <= 'z') || key == "nan") break;
    const auto value = read_number(next_word(text, ahead));
    if (!value) {
      // Some programs write "NODATA_value NaN".
      if (key != "nodata_value") return bad_header(one_line(key, 40));
      header.values[key] = std::numeric_limits<double>::quiet_NaN();
    } else {
      header.values[key] = *value;
    }
    at = header.end = ahead;
  }
  return header;
}

bool whole(double value) { return value >= 1 && value <= 100'000 && value == std::floor(value); }

// Centre of the south-west cell from either way of giving the corner.
std::optional<double> centre(const Header& header, const char* corner, const char* middle, double cell) {
  if (const auto at = header.find(middle)) return at;
  if (const auto at = header.find(corner)) return *at + cell / 2;
  return std::nullopt;
}

Result<void> read_heights(std::string_view text, const Header& header, double unit_m, job::GroundGrid& grid) {
  const double missing = header.find("nodata_value").value_or(kMissing);
  const auto columns = static_cast<std::size_t>(grid.columns), rows = static_cast<std::size_t>(grid.rows);
  grid.heights_m.assign(columns * rows, std::numeric_limits<float>::quiet_NaN());
  std::size_t at = header.end, count = 0;
  for (; count < columns * rows; ++count) {
    const std::string_view word = next_word(text, at);
    if (word.empty()) break;
    const auto height = read_number(word);
    if (!height) {
      if (lower(word) == "nan") continue;
      return fail("grid.bad_number", std::to_string(count + 1), {{"text", one_line(word, 40)}});
    }
    if (*height == missing) continue;
    if (!(std::abs(*height * unit_m) < 1e5)) return fail("grid.bad_number", std::to_string(count + 1), {{"text", one_line(word, 40)}});
    grid.heights_m[(rows - 1 - count / columns) * columns + count % columns] = static_cast<float>(*height * unit_m);
  }
  if (count == columns * rows && next_word(text, at).empty()) return {};
  return fail("grid.count", {}, {{"needed", static_cast<std::int64_t>(columns * rows)}, {"found", static_cast<std::int64_t>(count)}});
}

}  // namespace

Result<job::GroundGrid> read_grid(std::string_view bytes, Length false_east, Length false_north, Length unit) {
  const auto text = readable_text(bytes);
  if (!text) return tl::unexpected(text.error());
  const auto header = header_of(*text);
  if (!header) return tl::unexpected(header.error());
  const auto columns = header->find("ncols"), rows = header->find("nrows"), cell = header->find("cellsize");
  if (!columns || !whole(*columns)) return bad_header("ncols");
  if (!rows || !whole(*rows)) return bad_header("nrows");
  if (!cell || !(*cell > 0) || !(*cell < 1e5)) return bad_header("cellsize");
  if (*columns * *rows > kMostCells) return fail("grid.size", {}, {{"most", static_cast<std::int64_t>(kMostCells)}});
  if (*cell < 0.01) return fail("grid.degrees", {}, {{"cell", *cell}});
  const auto west = centre(*header, "xllcorner", "xllcenter", *cell), south = centre(*header, "yllcorner", "yllcenter", *cell);
  if (!west || !(std::abs(*west) < 1e9)) return bad_header("xllcorner");
  if (!south || !(std::abs(*south) < 1e9)) return bad_header("yllcorner");
  const double unit_m = unit.metres();
  job::GroundGrid grid;
  grid.columns = static_cast<int>(*columns);
  grid.rows = static_cast<int>(*rows);
  grid.cell = Length::from_metres(*cell * unit_m);
  grid.west = Length::from_metres(*west * unit_m) - false_east;
  grid.south = Length::from_metres(*south * unit_m) - false_north;
  if (const auto good = read_heights(*text, *header, unit_m, grid); !good) return tl::unexpected(good.error());
  return grid;
}

}  // namespace railwright::formats
