// SPDX-License-Identifier: MIT
#include "cli/cut.h"

#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>

#include "cli/console.h"
#include "cli/cut_drawing.h"
#include "cli/cut_report.h"
#include "cli/files.h"
#include "engine/cutting/cutting.h"
#include "formats/csv.h"

namespace railwright::cli {
namespace {

using cutting::Instance;
using cutting::Plan;
using measure::BareNumber;
using measure::Length;
using measure::Money;

constexpr const char* kHelp =
    "usage: railwright cut PIECES.csv STICKS.csv [--kerf 1/8in] [--crop 0] [--keep-from LENGTH] "
    "[--drop-value PRICE]\n"
    "                      [--time 10s] [--language en|es] [--json] [--svg FILE]\n\n"
    "Cuts the pieces from the sticks at the least cost and says how near to the best possible that "
    "is.\n"
    "PIECES.csv: label,length,count. STICKS.csv: name,length,price,count (count empty: as many as "
    "wanted).\n"
    "Lengths carry a unit or are in inches. --crop is cut off both ends of every stick. Drops of "
    "--keep-from and longer are kept\n"
    "and are worth --drop-value a foot. Ctrl-C ends the search with the best plan so far.\n"
    "exit code: 0 a plan, 1 the sticks do not suffice or no plan was found in the time, 2 bad "
    "input\n\n"
    "example: railwright cut examples/cutting/pieces.csv examples/cutting/sticks.csv --kerf "
    "1/8in\n";

volatile std::sig_atomic_t interrupted = 0;
void on_interrupt(int) { interrupted = 1; }

double now() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

Result<std::int64_t> read_count(formats::CellReader& cells, const formats::CsvTable::Row& row, std::size_t column) {
  const auto number = cells.number(row, column);
  if (!number) return tl::unexpected<Error>(number.error());
  const auto whole = static_cast<std::int64_t>(std::min(std::max(*number, -1.0), 2e9));
  if (static_cast<double>(whole) != *number) return fail("cutting.count", cells.place(row, column), {{"text", cells.text(row, column)}});
  return whole;
}

bool blank(const formats::CsvTable::Row& row) {
  for (const std::string& cell : row.cells)
    if (!cell.empty()) return false;
  return true;
}

Result<std::vector<cutting::Piece>> read_pieces(const formats::CsvTable& table) {
  const auto label = table.find({"label", "name"});
  const auto length = table.find({"length"});
  const auto count = table.find({"count"});
  if (!length) return fail("cutting.column", "line 1", {{"column", std::string("length")}});
  formats::CellReader cells{table, BareNumber::inches};
  std::vector<cutting::Piece> pieces;
  for (const auto& row : table.rows) {
    if (blank(row)) continue;
    cutting::Piece piece;
    if (label) piece.label = cells.text(row, label);
    const auto read = cells.length(row, *length);
    if (!read) return tl::unexpected<Error>(read.error());
    piece.length = *read;
    if (!cells.empty(row, count)) {
      const auto times = read_count(cells, row, *count);
      if (!times) return tl::unexpected<Error>(times.error());
      piece.count = *times;
    }
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

Result<std::vector<cutting::Stock>> read_stocks(const formats::CsvTable& table) {
  const auto name = table.find({"name", "label"});
  const auto length = table.find({"length"});
  const auto price = table.find({"price"});
  const auto count = table.find({"count"});
  if (!length) return fail("cutting.column", "line 1", {{"column", std::string("length")}});
  formats::CellReader cells{table, BareNumber::inches};
  std::vector<cutting::Stock> stocks;
  for (const auto& row : table.rows) {
    if (blank(row)) continue;
    cutting::Stock stock;
    if (name) stock.name = cells.text(row, name);
    const auto read = cells.length(row, *length);
    if (!read) return tl::unexpected<Error>(read.error());
    stock.length = *read;
    stock.price = Money::whole(1);
    if (!cells.empty(row, price)) {
      const auto amount = measure::parse_money(cells.text(row, price));
      if (!amount) return fail(amount.error().code, cells.place(row, *price), amount.error().values);
      stock.price = *amount;
    }
    if (!cells.empty(row, count)) {
      const auto times = read_count(cells, row, *count);
      if (!times) return tl::unexpected<Error>(times.error());
      stock.count = *times;
    }
    stocks.push_back(std::move(stock));
  }
  return stocks;
}

template <class T>
Result<T> read_csv(const std::string& path, Result<T> (*read)(const formats::CsvTable&)) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected<Error>(text.error());
  const auto table = formats::read_table(*text);
  auto rows = table ? read(*table) : Result<T>(tl::unexpected<Error>(table.error()));
  if (rows) return rows;
  Error error = rows.error();
  error.place = path + (error.place.empty() ? "" : ": " + error.place);
  return tl::unexpected<Error>(error);
}

struct Wish {
  cutting::Rules rules;
  double seconds = 10;
  std::string language = "en";
};

Result<Wish> read_wish(const Arguments& arguments) {
  Wish wish;
  wish.rules.kerf = Length::from_nm(Length::kNmPerInch / 8);
  const auto take = [&](const char* option, auto&& set) -> Result<bool> {
    if (!arguments.has(option)) return true;
    const auto length = measure::parse_length(arguments.get(option), BareNumber::inches);
    if (!length) return fail(length.error().code, option, length.error().values);
    set(*length);
    return true;
  };
  if (auto ok = take("--kerf", [&](Length l) { wish.rules.kerf = l; }); !ok) return tl::unexpected<Error>(ok.error());
  if (auto ok = take("--crop", [&](Length l) { wish.rules.crop_start = wish.rules.crop_end = l; }); !ok) return tl::unexpected<Error>(ok.error());
  if (auto ok = take("--keep-from", [&](Length l) { wish.rules.keep_from = l; }); !ok) return tl::unexpected<Error>(ok.error());
  if (arguments.has("--drop-value")) {
    const auto value = measure::parse_money(arguments.get("--drop-value"));
    if (!value) return fail(value.error().code, "--drop-value", value.error().values);
    wish.rules.drop_value = *value;
  }
  if (arguments.has("--time")) {
    char* end = nullptr;
    const std::string text = arguments.get("--time");
    wish.seconds = std::strtod(text.c_str(), &end);
    const std::string unit = end;
    if (end == text.c_str() || (!unit.empty() && unit != "s") || !(wish.seconds > 0) || wish.seconds > 1e6)
      return fail("cutting.time", "--time", {{"text", text}});
  }
  if (arguments.has("--language")) wish.language = arguments.get("--language");
  if (!speaks(wish.language)) return fail("command.value", "--language", {{"word", std::string("--language")}, {"text", wish.language}});
  return wish;
}

Plan search(const Instance& instance, const Wish& wish) {
  const double start = now();
  const bool shows = isatty(STDERR_FILENO) != 0;
  double shown = start;
  cutting::Options options;
  options.work_limit = 1'000'000'000;  // the clock ends the search
  options.on_progress = [&](const cutting::Progress& progress) {
    const double at = now();
    if (shows && at - shown > 0.2) {
      shown = at;
      std::fprintf(stderr, "\r%s   ", cut_progress(progress, at - start, words(wish.language)).c_str());
    }
    return interrupted == 0 && at - start < wish.seconds;
  };
  const auto before = std::signal(SIGINT, on_interrupt);
  Plan plan = cutting::solve(instance, options);
  std::signal(SIGINT, before);
  if (shows && shown > start) std::fputs("\r                                                            \r", stderr);
  return plan;
}

}  // namespace

int run_cut(int argc, char** argv) {
  const auto arguments =
      parse_arguments(argc, argv, {"--kerf", "--crop", "--keep-from", "--drop-value", "--time", "--svg", "--language"}, {"--json", "--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help") || arguments->positional.size() != 2) {
    std::fputs(kHelp, arguments->has("--help") ? stdout : stderr);
    return arguments->has("--help") ? kSound : kBadInput;
  }
  const auto wish = read_wish(*arguments);
  if (!wish) return complain(wish.error());
  auto pieces = read_csv<std::vector<cutting::Piece>>(arguments->positional[0], read_pieces);
  if (!pieces) return complain(pieces.error());
  auto stocks = read_csv<std::vector<cutting::Stock>>(arguments->positional[1], read_stocks);
  if (!stocks) return complain(stocks.error());
  const auto instance = Instance::build(std::move(*stocks), std::move(*pieces), wish->rules);
  if (!instance) return complain(instance.error());
  const double start = now();
  const Plan plan = search(*instance, *wish);
  if (arguments->has("--svg") && plan.found) {
    if (const auto written = write_file(arguments->get("--svg"), draw_sticks(*instance, plan, words(wish->language))); !written)
      return complain(written.error());
  }
  const std::string report = arguments->has("--json") ? cut_json(*instance, plan, now() - start) : cut_text(*instance, plan, words(wish->language));
  std::fputs(report.c_str(), stdout);
  return plan.found ? kSound : kStopped;
}

}  // namespace railwright::cli
