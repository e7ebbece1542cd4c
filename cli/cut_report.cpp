// SPDX-License-Identifier: MIT
#include "cli/cut_report.h"

#include <algorithm>

#include "fmt/format.h"
#include "nlohmann/json.hpp"

namespace railwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using cutting::Instance;
using cutting::Plan;
using cutting::Stick;
using measure::Length;
using sheets::Words;

constexpr int kWidestLabel = 40;  // a longer label pushes its own line only

double mm(Length length) { return static_cast<double>(length.nm()) / 1e6; }

const cutting::Stock& stock_of(const Instance& instance, const Stick& stick) { return instance.stocks()[static_cast<std::size_t>(stick.stock)]; }
const cutting::Piece& piece_of(const Instance& instance, int piece) { return instance.pieces()[static_cast<std::size_t>(piece)]; }

Json stick_json(const Instance& instance, const Stick& stick) {
  const cutting::Stock& stock = stock_of(instance, stick);
  Json pieces = Json::array();
  for (const int piece : stick.pieces) pieces.push_back(piece_of(instance, piece).label);
  Json marks = Json::array();
  for (const Length mark : stick.marks) marks.push_back(mm(mark));
  return {{"name", stock.name},        {"count", stick.count},   {"length", mm(stock.length)}, {"pieces", std::move(pieces)},
          {"marks", std::move(marks)}, {"drop", mm(stick.drop)}, {"kept", stick.kept}};
}

const char* status_text(cutting::Status status) {
  switch (status) {
    case cutting::Status::optimal:
      return "optimal";
    case cutting::Status::feasible:
      return "feasible";
    case cutting::Status::infeasible:
      return "infeasible";
    case cutting::Status::unknown:
      return "unknown";
    case cutting::Status::cancelled:
      return "cancelled";
  }
  return "unknown";
}

// In characters, as UTF-8 counts them.
int width_of(const std::string& text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(const std::string& text, int width) { return text + std::string(static_cast<std::size_t>(std::max(0, width - width_of(text))), ' '); }

int widest_label(const Instance& instance) {
  int widest = 8;
  for (const cutting::Piece& piece : instance.pieces()) widest = std::max(widest, width_of(piece.label));
  return std::min(widest, kWidestLabel);
}

std::string summary(const Plan& plan, const Words& words) {
  const auto line = [&](const char* key, std::map<std::string, std::string> values) { return words.fill(key, values) + "\n"; };
  std::string out = line("cut.summary", {{"sticks", fmt::format("{}", plan.sticks_used)}, {"setups", fmt::format("{}", plan.setups)}});
  out += line("cut.cost", {{"cost", decimal_text(plan.cost)}});
  if (plan.cost != plan.cost_before_drops) out += line("cut.before_drops", {{"cost", decimal_text(plan.cost_before_drops)}});
  return out + (plan.proved ? line("cut.proved", {}) : line("cut.gap", {{"gap", decimal_text(plan.cost - plan.bound)}}));
}

std::string stick_text(const Instance& instance, const Stick& stick, int label_width, const Words& words) {
  const cutting::Stock& stock = stock_of(instance, stick);
  std::string out = fmt::format("\n{} × {}, {}\n", stick.count, stock.name, format_length(stock.length));
  for (std::size_t i = 0; i < stick.pieces.size(); ++i) {
    const cutting::Piece& piece = piece_of(instance, stick.pieces[i]);
    out += fmt::format("  {}  {}  {}\n", padded(piece.label, label_width), padded(format_length(piece.length), 16),
                       words.fill("cut.mark", {{"mark", format_length(stick.marks[i])}}));
  }
  // Scrap is what falls short of a length worth keeping; where none is given, who cuts decides.
  const char* drop = stick.kept ? "cut.drop_kept" : instance.rules().keep_from ? "cut.drop_scrap" : "cut.drop";
  if (stick.drop.nm() > 0) out += "  " + words.fill(drop, {{"drop", format_length(stick.drop)}}) + "\n";
  return out;
}

}  // namespace

std::string cut_text(const Instance& instance, const Plan& plan, const Words& words) {
  if (!plan.found) return words.text(plan.status == cutting::Status::infeasible ? "cut.too_few" : "cut.no_plan") + "\n";
  const int label_width = widest_label(instance);
  std::string out = summary(plan, words);
  for (const Stick& stick : plan.sticks) out += stick_text(instance, stick, label_width, words);
  return out;
}

std::string cut_json(const Instance& instance, const Plan& plan, double seconds) {
  Json sticks = Json::array();
  for (const Stick& stick : plan.sticks) sticks.push_back(stick_json(instance, stick));
  const Json json = {{"status", status_text(plan.status)},
                     {"cost", plan.found ? Json(decimal_text(plan.cost)) : Json()},
                     {"cost_before_drops", plan.found ? Json(decimal_text(plan.cost_before_drops)) : Json()},
                     {"bound", decimal_text(plan.bound)},
                     {"proved", plan.proved},
                     {"sticks_used", plan.sticks_used},
                     {"setups", plan.setups},
                     {"seconds", seconds},
                     {"sticks", std::move(sticks)}};
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string cut_progress(const cutting::Progress& progress, double seconds, const Words& words) {
  return words.fill("cut.progress", {{"seconds", fmt::format("{:.1f}", seconds)},
                                     {"cost", progress.found ? decimal_text(progress.cost) : words.text("cut.none")},
                                     {"bound", decimal_text(progress.bound)}});
}

}  // namespace railwright::cli
