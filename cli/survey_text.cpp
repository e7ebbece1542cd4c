// SPDX-License-Identifier: MIT
#include "cli/survey_text.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/bearing.h"
#include "engine/measure/quantity.h"
#include "sheets/shown.h"

namespace railwright::cli {
namespace {

using formats::LevelNotes;
using formats::TraverseReport;
using sheets::number_text;

constexpr double kSquareFeetOfAcre = 43'560;
constexpr double kFoot = measure::kMetrePerFoot;

// A table whose columns line up: the first on the left, the others on the right.
class Table {
 public:
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  std::string text() const {
    std::vector<std::size_t> widths(rows_.front().size());
    for (const auto& row : rows_)
      for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], characters(row[i]));
    std::string out;
    for (const auto& row : rows_) {
      out += "  " + row[0] + std::string(widths[0] - characters(row[0]), ' ');
      for (std::size_t i = 1; i < row.size(); ++i) out += "  " + std::string(widths[i] - characters(row[i]), ' ') + row[i];
      out += "\n";
    }
    return out;
  }

 private:
  // Continuation bytes of UTF-8 do not count.
  static std::size_t characters(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
  }
  std::vector<std::vector<std::string>> rows_;
};

class Printer {
 public:
  Printer(const sheets::Words& words, job::UnitSystem units) : words_(words), metric_(units == job::UnitSystem::metric) {}

  std::string traverse(const TraverseReport& t) const {
    std::string out = fill("traverse", {{"courses", std::to_string(t.notes.courses.size())}, {"perimeter", length(t.closure.perimeter) + " " + unit()}}) + "\n";
    out += courses(t).text();
    if (t.closed && t.closure.ratio > 0)
      out += fill("misses", {{"linear", length(t.closure.linear)},
                             {"latitude", length(t.closure.latitude)},
                             {"departure", length(t.closure.departure)},
                             {"ratio", sheets::grouped(number_text(std::floor(t.closure.ratio), 0))}}) +
             "\n";
    else if (t.closed)
      out += say("exact") + "\n";
    static constexpr const char* kHow[] = {"none", "compass", "least-squares"};
    if (t.closed) out += say(std::string("adjusted_by.") + kHow[static_cast<int>(t.adjustment)]) + "\n";
    out += points(t).text();
    if (t.closed) out += area(t.area_m2) + "\n";
    return out;
  }

  std::string levels(const LevelNotes& notes) const {
    const ground::Levelled& l = notes.levels;
    std::string out = fill("levels", {{"setups", std::to_string(l.setups)},
                                      {"backsights", length(l.backsights)},
                                      {"foresights", length(l.foresights)},
                                      {"difference", length(l.backsights - l.foresights)}}) +
                      "\n";
    Table table;
    table.add({say("point"), say("instrument"), say("raw"), say("height")});
    for (const ground::LevelledPoint& point : l.points)
      table.add({point.point.empty() ? "-" : point.point, point.instrument ? length(*point.instrument) : "", length(point.raw), length(point.height)});
    out += table.text();
    if (l.closed)
      out += fill("misclosure", {{"misclosure", length(l.misclosure)}, {"allowed", length(3 * l.allowed)}, {"setups", std::to_string(l.setups)}}) + "\n";
    return out;
  }

  std::string unit_line() const { return fill("unit", {{"unit", unit()}}) + "\n"; }

 private:
  std::string say(const std::string& key) const { return words_.text("survey." + key); }
  std::string fill(const std::string& key, const std::map<std::string, std::string>& values) const { return words_.fill("survey." + key, values); }
  std::string unit() const { return metric_ ? "m" : "ft"; }
  // Millimetres, or thousandths of a foot: a tenth of what a tape reads.
  std::string length(double metres) const { return number_text(metric_ ? metres : metres / kFoot, 3); }

  Table courses(const TraverseReport& t) const {
    const bool heated = std::any_of(t.notes.courses.begin(), t.notes.courses.end(), [](const formats::NotedCourse& noted) { return noted.temperature != 0; });
    const auto row = [&](std::vector<std::string> cells) {
      constexpr std::ptrdiff_t kTemperature = 3;  // no column of zeros where no temperature was noted
      if (!heated) cells.erase(cells.begin() + kTemperature);
      return cells;
    };
    Table table;
    table.add(row({say("course"), say("bearing"), say("taped"), say("temperature"), say("slope"), say("level"), say("latitude"), say("departure"),
                   say("adjusted"), say("bearing")}));
    for (std::size_t i = 0; i < t.notes.courses.size(); ++i) {
      const formats::NotedCourse& noted = t.notes.courses[i];
      const ground::AdjustedCourse &raw = t.raw.courses[i], &adjusted = t.adjusted.courses[i];
      table.add(
          row({formats::course_name(t.notes, i), ground::bearing_text(noted.azimuth_deg), length(noted.taped), length(noted.temperature), length(noted.slope),
               length(noted.level), length(raw.latitude), length(raw.departure), length(adjusted.distance), ground::bearing_text(adjusted.azimuth_deg)}));
    }
    return table;
  }

  Table points(const TraverseReport& t) const {
    Table table;
    table.add({say("point"), say("east"), say("north")});
    const std::size_t count = t.adjusted.points.size() - (t.closed ? 1 : 0);
    for (std::size_t i = 0; i < count; ++i) table.add({formats::point_name(t.notes, i), length(t.adjusted.points[i].x), length(t.adjusted.points[i].y)});
    return table;
  }

  std::string area(double m2) const {
    if (metric_) return fill("area_metres", {{"square_metres", sheets::grouped(number_text(m2, 1))}, {"hectares", number_text(m2 / 10'000, 4)}});
    const double square_feet = m2 / (kFoot * kFoot);
    return fill("area_feet", {{"square_feet", sheets::grouped(number_text(square_feet, 1))}, {"acres", number_text(square_feet / kSquareFeetOfAcre, 4)}});
  }

  const sheets::Words& words_;
  bool metric_;
};

}  // namespace

std::string survey_text(const formats::SurveyReport& report, const sheets::Words& words, job::UnitSystem units) {
  const Printer printer(words, units);
  std::string out;
  if (report.traverse) out += printer.traverse(*report.traverse);
  if (report.levels) out += printer.levels(*report.levels);
  return out + printer.unit_line();
}

measure::LengthFormat survey_lengths(job::UnitSystem units) {
  measure::LengthFormat format;
  if (units == job::UnitSystem::metric) format.style = measure::LengthStyle::metres;
  return format;
}

}  // namespace railwright::cli
