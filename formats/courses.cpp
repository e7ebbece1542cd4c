// SPDX-License-Identifier: MIT
#include "formats/courses.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/bearing.h"
#include "engine/ground/tape.h"
#include "engine/ground/trig.h"
#include "formats/text.h"

namespace railwright::formats {
namespace {

using Column = std::optional<std::size_t>;
using measure::BareNumber;

constexpr double kSteepest = 1.7320508075688772;  // rise per run of 60 degrees
constexpr double kCold = -60, kHot = 160;         // degrees Fahrenheit

// Where the figures of a table of courses stand.
struct Columns {
  Column bearing, turn, slope_distance, distance, grade, rise, temperature, from, to, note;
};

bool starts_with(const std::string& name, std::string_view word) { return name.rfind(word, 0) == 0; }

Column starting(const CsvTable& table, std::initializer_list<std::string_view> words) {
  for (const std::string_view word : words) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (starts_with(table.columns[i].name, word)) return i;
    }
  }
  return std::nullopt;
}

// A column called `slope` beside one called `distance` tells how steep it is; alone, or with a unit of length, it is the distance itself.
Columns columns_of(const CsvTable& t) {
  Columns c;
  c.bearing = t.find({"bearing", "azimuth", "direction", "brg", "az"});
  c.turn = t.find({"deflection", "turn", "angle", "angle right"});
  c.slope_distance = t.find({"slope distance", "slope", "tape", "taped"});
  c.distance = t.find({"level distance", "horizontal distance", "horizontal", "distance", "length", "level"});
  c.grade = starting(t, {"grade", "gradient", "inclination", "vertical angle"});
  for (std::size_t i = 0; i < t.columns.size() && !c.grade; ++i) {
    const std::string& name = t.columns[i].name;
    const bool distance = starts_with(name, "slope distance") || t.columns[i].unit || (name == "slope" && !c.distance);
    if (starts_with(name, "slope") && !distance) c.grade = i;
  }
  if (c.grade == c.slope_distance) c.slope_distance = t.find({"slope distance", "tape", "taped"});
  c.rise = t.find({"rise", "dz"});
  c.temperature = starting(t, {"temperature", "temp"});
  c.from = t.find({"from", "at"});
  c.to = t.find({"to", "point", "name"});
  c.note = t.find({"note", "code", "description", "desc", "feature", "remark"});
  return c;
}

bool blank(const CsvTable::Row& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return cell.empty(); });
}

class Reader {
 public:
  Reader(const CsvTable& table, CellReader& cells, Findings& findings) : table_(table), cells_(cells), findings_(findings), columns_(columns_of(table)) {}

  Result<CourseNotes> run() {
    CourseNotes notes;
    for (const CsvTable::Row& row : table_.rows) {
      if (blank(row)) continue;
      NotedCourse course;
      if (const auto good = read(row, course); !good) return tl::unexpected(good.error());
      if (const auto good = chain(row, notes, course); !good) return tl::unexpected(good.error());
      notes.courses.push_back(std::move(course));
    }
    if (notes.courses.empty()) return fail("walk.no_line");
    const std::string& start = notes.courses.front().from;
    notes.named_loop = notes.courses.size() > 2 && !start.empty() && start == notes.courses.back().to;
    tell();
    return notes;
  }

 private:
  Result<void> read(const CsvTable::Row& row, NotedCourse& course) {
    const auto toward = direction(row);
    if (!toward) return tl::unexpected(toward.error());
    direction_ = course.azimuth_deg = *toward;
    course.from = cells_.text(row, columns_.from);
    course.to = cells_.text(row, columns_.to);
    course.note = cells_.text(row, columns_.note);
    return lengths(row, course);
  }

  // The row's own bearing, or the last direction and a turn.
  Result<double> direction(const CsvTable::Row& row) const {
    const bool has_bearing = !cells_.empty(row, columns_.bearing) || !columns_.turn;
    const Column column = has_bearing ? columns_.bearing : columns_.turn;
    auto degrees = has_bearing                 ? ground::parse_azimuth(cells_.text(row, column))
                   : cells_.empty(row, column) ? Result<double>(0.0)
                                               : ground::parse_deflection(cells_.text(row, column));
    if (!degrees) return placed(degrees.error(), row, column);
    return has_bearing ? *degrees : direction_ + *degrees;
  }

  Result<void> lengths(const CsvTable::Row& row, NotedCourse& course) {
    const bool sloping = !cells_.empty(row, columns_.slope_distance) || !columns_.distance;
    const Column column = sloping ? columns_.slope_distance : columns_.distance;
    const auto taped = cells_.length(row, *column);
    if (!taped) return tl::unexpected(taped.error());
    course.taped = taped->metres();
    if (const auto good = temperature(row, course); !good) return good;
    const double along = course.taped + course.temperature;
    if (!cells_.empty(row, columns_.grade)) {
      const auto grade = slope(row);
      if (!grade) return tl::unexpected(grade.error());
      course.level = along / std::sqrt(1 + *grade * *grade);
      course.rise = course.level * *grade;
    } else {
      course.level = along;
      if (!cells_.empty(row, columns_.rise)) {
        const auto rise = cells_.length(row, *columns_.rise);
        if (!rise) return tl::unexpected(rise.error());
        course.rise = rise->metres();
      }
      if (sloping) {
        const auto level = ground::level_from_slope(along, course.rise);
        if (!level) return placed(level.error(), row, column);
        course.level = *level;
      }
    }
    course.slope = course.level - along;
    return {};
  }

  Result<void> temperature(const CsvTable::Row& row, NotedCourse& course) {
    const Column column = columns_.temperature;
    if (cells_.empty(row, column)) return {};
    const std::string cell = lower(cells_.text(row, column));
    const std::string unit = unit_letters(cell, table_.columns[*column].name);
    const auto number = read_number(cell.substr(0, cell.find_first_not_of("0123456789.,+- ")), table_.decimal_comma);
    bool celsius = unit.find('c') != std::string::npos;
    if (unit.empty()) {
      celsius = cells_.metric;
      temperature_assumed_ = celsius ? "C" : "F";
    }
    const double degrees = number ? (celsius ? *number * 1.8 + 32 : *number) : kHot + 1;
    if (!number || degrees < kCold || degrees > kHot) return placed({"survey.temperature", {}, {{"text", one_line(cell, 40)}}}, row, column);
    course.temperature = ground::correct({}, {{{course.taped, true}}, degrees, {}}).temperature;
    return {};
  }

  // c or f: of the cell, else of the column's title behind its first word.
  static std::string unit_letters(const std::string& cell, const std::string& title) {
    std::string letters;
    const std::size_t word = title.find_first_of(" ([");
    for (const std::string& text : {cell, word == std::string::npos ? std::string() : title.substr(word)}) {
      for (const char c : text) {
        if (letters.empty() && (c == 'c' || c == 'f')) letters = c;
      }
    }
    return letters;
  }

  // Rise per run.
  Result<double> slope(const CsvTable::Row& row) {
    const Column column = columns_.grade;
    const std::string cell = lower(cells_.text(row, column)), title = table_.columns[*column].name;
    const auto bad = [&] { return placed({"survey.slope", {}, {{"text", one_line(cell, 40)}}}, row, column); };
    const auto number_of = [&](std::string_view text) { return read_number(trimmed(text), table_.decimal_comma); };
    double grade = 0;
    if (const std::size_t colon = cell.find(':'); colon != std::string::npos) {
      const auto rise = number_of(std::string_view(cell).substr(0, colon)), run = number_of(std::string_view(cell).substr(colon + 1));
      if (!rise || !run || !(*run > 0)) return bad();
      grade = *rise / *run;
    } else {
      const std::size_t end = cell.find_first_not_of("0123456789.,+- ");
      const auto number = number_of(std::string_view(cell).substr(0, end));
      if (!number || std::abs(*number) > 1000) return bad();
      const std::string unit = end == std::string::npos ? std::string() : cell.substr(end);
      const bool percent =
          unit.find('%') != std::string::npos || (unit.empty() && (title.find('%') != std::string::npos || title.find("percent") != std::string::npos));
      const bool degrees = !percent && (!unit.empty() || title.find("deg") != std::string::npos || title.find("angle") != std::string::npos ||
                                        title.find("\xC2\xB0") != std::string::npos);
      if (!percent && !degrees) slope_assumed_ = true;
      if (degrees && std::abs(*number) > 60) return bad();
      const ground::SineCosine angle = ground::sine_cosine(degrees ? *number : 0);
      grade = degrees ? angle.sine / angle.cosine : *number / 100;
    }
    if (!(std::abs(grade) <= kSteepest + 1e-9)) return bad();
    return grade;
  }

  // A row goes on where the row before ended.
  Result<void> chain(const CsvTable::Row& row, const CourseNotes& notes, const NotedCourse& course) const {
    if (notes.courses.empty() || course.from.empty()) return {};
    const std::string& expected = notes.courses.back().to;
    if (expected.empty() || expected == course.from) return {};
    return fail("survey.chain", cells_.place(row, *columns_.from), {{"from", course.from}, {"expected", expected}});
  }

  void tell() {
    if (!cells_.mixed.empty()) findings_.push_back({"survey.mixed_units", Severity::warning, cells_.mixed, {}});
    if (slope_assumed_) findings_.push_back({"survey.slope_assumed", Severity::note, "site", {}});
    if (!temperature_assumed_.empty()) findings_.push_back({"survey.temperature_assumed", Severity::note, "site", {{"unit", temperature_assumed_}}});
  }

  tl::unexpected<Error> placed(Error error, const CsvTable::Row& row, Column column) const {
    error.place = cells_.place(row, column.value_or(0));
    return tl::unexpected(std::move(error));
  }

  const CsvTable& table_;
  CellReader& cells_;
  Findings& findings_;
  Columns columns_;
  double direction_ = 0;
  bool slope_assumed_ = false;
  std::string temperature_assumed_;
};

}  // namespace

std::vector<ground::Course> CourseNotes::level() const {
  std::vector<ground::Course> all;
  for (const NotedCourse& course : courses) all.push_back({course.azimuth_deg, course.level, course.from, course.to});
  return all;
}

Result<CourseNotes> read_courses(const CsvTable& table, CellReader& cells, Findings& findings) { return Reader(table, cells, findings).run(); }

bool has_courses(const CsvTable& table) {
  const Columns columns = columns_of(table);
  return (columns.bearing || columns.turn) && (columns.slope_distance || columns.distance);
}

void tell_crossings(const CourseNotes& notes, const std::vector<measure::Vec2>& points, bool closed, Findings& findings) {
  std::vector<measure::Vec2> corners = points;
  if (closed && corners.size() > 1) corners.pop_back();
  for (const auto& [one, other] : ground::crossings(corners, closed)) {
    findings.push_back({"survey.crossing_legs", Severity::warning, course_name(notes, one), {{"other", course_name(notes, other)}}});
  }
}

std::string course_name(const CourseNotes& notes, std::size_t index) {
  const NotedCourse& course = notes.courses[index];
  const std::string from = !course.from.empty() ? course.from : index > 0 ? notes.courses[index - 1].to : std::string();
  return from.empty() || course.to.empty() ? std::to_string(index + 1) : from + "-" + course.to;
}

std::string point_name(const CourseNotes& notes, std::size_t index) {
  std::string name = index > 0 ? notes.courses[index - 1].to : std::string();
  if (name.empty() && index < notes.courses.size()) name = notes.courses[index].from;
  return name.empty() ? std::to_string(index + 1) : name;
}

}  // namespace railwright::formats
