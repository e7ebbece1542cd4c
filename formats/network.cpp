// SPDX-License-Identifier: MIT
#include "formats/network.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "formats/text.h"

namespace railwright::formats {
namespace {

using measure::Length;

constexpr std::size_t kMostPoints = 200'000;
constexpr std::size_t kMostWork = 200'000'000;   // marks times legs
constexpr double kWidest = 200e3;                // m
constexpr std::size_t kShortName = 12;           // bytes: longer names are notes
constexpr Length kUsualGate = Length::feet(12);  // common practice, no source
constexpr double kGateFromCorner = 0.3;          // m between a gate post and a corner (common practice, no source)

// Places already used, found again within the joining distance by cells of that size.
class Joined {
 public:
  explicit Joined(double reach) : reach_(std::max(reach, 1e-3)) {}

  std::optional<std::size_t> find(Vec2 at) const {
    const Cell cell = cell_of(at);
    std::optional<std::size_t> best;
    double least = reach_ * reach_;
    for (long long dx = -1; dx <= 1; ++dx) {
      for (long long dy = -1; dy <= 1; ++dy) {
        const auto found = cells_.find({cell.first + dx, cell.second + dy});
        if (found == cells_.end()) continue;
        for (const auto& [place, index] : found->second) {
          const double square = dot(place - at, place - at);
          if (square <= least && (square < least || !best)) least = square, best = index;
        }
      }
    }
    return best;
  }
  void add(Vec2 at, std::size_t index) { cells_[cell_of(at)].emplace_back(at, index); }

 private:
  using Cell = std::pair<long long, long long>;
  Cell cell_of(Vec2 at) const { return {static_cast<long long>(std::floor(at.x / reach_)), static_cast<long long>(std::floor(at.y / reach_))}; }
  double reach_;
  std::map<Cell, std::vector<std::pair<Vec2, std::size_t>>> cells_;
};

struct Line {
  std::size_t from = 0, to = 0;
};

class Builder {
 public:
  Builder(const Sketch& sketch, WalkedSite& walked) : sketch_(sketch), walked_(walked), site_(walked.site), joined_(sketch.join) {}

  Result<void> build() {
    for (const Polyline& line : sketch_.lines) add_line(line);
    if (lines_.empty()) return fail("walk.no_line");
    if (places_.size() > kMostPoints) return fail("walk.too_many_points", {}, {{"most", std::int64_t{kMostPoints}}});
    if (sketch_.marks.size() * lines_.size() > kMostWork) return fail("walk.too_many_points", {}, {{"most", std::int64_t{kMostPoints}}});
    if (const auto good = check_width(); !good) return good;
    bring_ends_onto_legs();
    place_points();
    for (const Mark& mark : sketch_.marks) offer_name(mark);
    name_points();
    name_legs();
    for (const Mark& mark : sketch_.marks) place_mark(mark);
    return {};
  }

 private:
  std::size_t add_vertex(const Vertex& vertex) {
    const auto found = joined_.find(vertex.at);
    const std::size_t index = found.value_or(places_.size());
    if (!found) {
      joined_.add(vertex.at, index);
      places_.push_back(vertex.at);
      wanted_.push_back({});
      site_.points.push_back({});
    }
    job::Point& point = site_.points[index];
    if (!point.height && vertex.height) point.height = rounded(*vertex.height);
    if (vertex.error > 0) point.accuracy = Length::from_metres(vertex.error).round_to(Length::mm(10));
    if (wanted_[index].empty()) wanted_[index] = vertex.name;
    if (point.note.empty()) point.note = one_line(vertex.note);
    return index;
  }

  void add_line(const Polyline& line) {
    std::vector<std::size_t> at;
    for (const Vertex& vertex : line.vertices) at.push_back(add_vertex(vertex));
    if (line.closed && at.size() > 2) at.push_back(at.front());
    for (std::size_t i = 1; i < at.size(); ++i) {
      const auto pair = std::minmax(at[i - 1], at[i]);
      if (pair.first == pair.second) continue;
      if (!pairs_.insert(pair).second) {
        ++doubled_;
        continue;
      }
      for (const Polyline::Between& between : line.between) {
        if (between.leg + 1 == i) between_.push_back({lines_.size(), between.station, between.height});
      }
      lines_.push_back({at[i - 1], at[i]});
      site_.legs.push_back({});
      site_.legs.back().fence = line.fence;
    }
  }

  Result<void> check_width() {
    Vec2 low = places_[0], high = low;
    for (const Vec2 place : places_) {
      low = {std::min(low.x, place.x), std::min(low.y, place.y)};
      high = {std::max(high.x, place.x), std::max(high.y, place.y)};
    }
    const double wide = measure::distance(low, high);
    if (wide <= kWidest) return {};
    return fail("walk.too_wide", {}, {{"width", value_of(Length::from_metres(wide))}});
  }

  // Points that only one leg uses and that nearly touch another leg are moved onto it.
  void bring_ends_onto_legs() {
    std::vector<int> uses(places_.size(), 0);
    for (const Line& line : lines_) ++uses[line.from], ++uses[line.to];
    const auto ends = static_cast<std::size_t>(std::count(uses.begin(), uses.end(), 1));
    if (ends * lines_.size() > kMostWork) return;
    for (std::size_t point = 0; point < places_.size(); ++point) {
      if (uses[point] != 1) continue;
      double least = sketch_.join;
      std::optional<Vec2> foot;
      for (const Line& line : lines_) {
        if (line.from == point || line.to == point) continue;
        const Vec2 a = places_[line.from], b = places_[line.to];
        const double t = dot(places_[point] - a, b - a) / dot(b - a, b - a);
        if (!(t > 0 && t < 1)) continue;
        const Vec2 at = a + (b - a) * t;
        if (const double off = measure::distance(at, places_[point]); off <= least) least = off, foot = at;
      }
      if (foot) places_[point] = *foot;
    }
  }

  Length rounded(double metres) const { return Length::from_metres(metres).round_to(sketch_.round); }

  void place_points() {
    for (std::size_t i = 0; i < places_.size(); ++i) {
      site_.points[i].east = rounded(places_[i].x);
      site_.points[i].north = rounded(places_[i].y);
    }
  }

  void name_points() {
    std::set<std::string> taken;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      const std::string name = one_line(wanted_[i], 200);
      job::Point& point = site_.points[i];
      if (!name.empty() && name.size() <= kShortName && taken.insert(name).second)
        point.id = name;
      else if (!name.empty() && point.note.empty())
        point.note = name;
    }
    std::size_t next = 0;
    for (job::Point& point : site_.points) {
      while (point.id.empty()) {
        const std::string name = letter_name(next++);
        if (taken.insert(name).second) point.id = name;
      }
    }
  }

  void name_legs() {
    std::set<std::string> taken;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      job::Leg& leg = site_.legs[i];
      leg.from = site_.points[lines_[i].from].id;
      leg.to = site_.points[lines_[i].to].id;
      const std::string both = leg.from + leg.to;
      const bool plain = leg.from.size() <= 3 && leg.to.size() <= 3 && std::all_of(both.begin(), both.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
      std::string numbered = "L";
      numbered += std::to_string(i + 1);
      leg.id = plain && taken.insert(both).second ? both : numbered;
      taken.insert(leg.id);
    }
    for (const Polyline::Between& between : between_) {
      site_.ground.profile.push_back({site_.legs[between.leg].id, rounded(between.station), rounded(between.height)});
    }
    if (doubled_ > 0) note("walk.doubled_leg", Severity::note, "site", {{"count", static_cast<std::int64_t>(doubled_)}});
  }

  void note(const char* code, Severity severity, const std::string& where, Values values) {
    walked_.findings.push_back({code, severity, where, std::move(values)});
  }

  // The leg nearest to a place, with the station of its foot.
  struct Nearest {
    std::size_t leg = 0;
    double station = 0, length = 0, off = 0;
  };
  Nearest nearest_leg(Vec2 at) const {
    Nearest best;
    best.off = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      const Vec2 a = places_[lines_[i].from], b = places_[lines_[i].to];
      const double length = measure::distance(a, b);
      const double t = std::clamp(dot(at - a, b - a) / dot(b - a, b - a), 0.0, 1.0);
      const double off = measure::on_grid(measure::distance(at, a + (b - a) * t));
      if (off < best.off) best = {i, t * length, length, off};
    }
    return best;
  }

  void place_mark(const Mark& mark) {
    const Nearest nearest = nearest_leg(mark.vertex.at);
    const std::string name = one_line(mark.vertex.name);
    if (nearest.off <= sketch_.reach && (mark.gate || is_gate(name))) return place_gate(mark, nearest, name);
    if (nearest.off <= sketch_.reach && name_point(mark, nearest, name)) return;
    if (mark.vertex.height) {
      site_.ground.spots.push_back({rounded(mark.vertex.at.x), rounded(mark.vertex.at.y), rounded(*mark.vertex.height)});
    } else {
      note("walk.point_unused", Severity::note, name.empty() ? "site" : name, {{"off", value_of(Length::from_metres(nearest.off))}});
    }
  }

  // The end of the leg that a mark stands beside.
  std::optional<std::size_t> corner_beside(const Mark& mark, const Nearest& nearest) const {
    if (nearest.off > sketch_.reach) return std::nullopt;
    const Line& line = lines_[nearest.leg];
    if (measure::distance(places_[line.from], mark.vertex.at) <= sketch_.reach) return line.from;
    if (measure::distance(places_[line.to], mark.vertex.at) <= sketch_.reach) return line.to;
    return std::nullopt;
  }

  void offer_name(const Mark& mark) {
    if (mark.gate || is_gate(mark.vertex.name)) return;
    const auto corner = corner_beside(mark, nearest_leg(mark.vertex.at));
    if (corner && wanted_[*corner].empty()) wanted_[*corner] = mark.vertex.name;
  }

  bool name_point(const Mark& mark, const Nearest& nearest, const std::string& name) {
    const auto corner = corner_beside(mark, nearest);
    if (!corner) return false;
    job::Point& point = site_.points[*corner];
    if (point.note.empty() && point.id != name) point.note = name;
    if (!point.height && mark.vertex.height) point.height = rounded(*mark.vertex.height);
    return true;
  }

  void place_gate(const Mark& mark, const Nearest& nearest, const std::string& name) {
    job::Gate gate;
    gate.id = "G";
    gate.id += std::to_string(site_.gates.size() + 1);
    gate.leg = site_.legs[nearest.leg].id;
    gate.leaf = mark.gate.value_or(gate_width(name).value_or(kUsualGate));
    if (!mark.gate && !gate_width(name)) note("walk.gate_guessed", Severity::note, gate.id, {{"leaf", value_of(gate.leaf)}});
    const double half = gate.leaf.metres() / 2 + kGateFromCorner;
    if (2 * half > nearest.length) {
      return note("walk.gate_does_not_fit", Severity::warning, gate.leg, {{"name", name}, {"leaf", value_of(gate.leaf)}});
    }
    const double station = std::clamp(nearest.station, half, nearest.length - half);
    if (station != nearest.station) note("walk.gate_moved", Severity::note, gate.id, {{"leg", gate.leg}});
    gate.station = rounded(station);
    gate.hinge_clearance = Length::inches(3);  // common practice, no source
    gate.latch_clearance = Length::inches(2);
    site_.gates.push_back(std::move(gate));
  }

  const Sketch& sketch_;
  WalkedSite& walked_;
  job::Site& site_;
  Joined joined_;
  std::vector<Vec2> places_;
  std::vector<std::string> wanted_;  // names asked for
  std::vector<Line> lines_;
  std::set<std::pair<std::size_t, std::size_t>> pairs_;
  std::vector<Polyline::Between> between_;  // `leg`: index in lines_
  std::size_t doubled_ = 0;
};

}  // namespace

Result<void> lay_out(const Sketch& sketch, WalkedSite& walked) { return Builder(sketch, walked).build(); }

std::string letter_name(std::size_t number) {
  std::string name;
  for (++number; number > 0; number = (number - 1) / 26) {
    name.insert(name.begin(), static_cast<char>('A' + (number - 1) % 26));
  }
  return name;
}

bool is_gate(std::string_view name) {
  const std::string word = lower(trimmed(name));
  return word.rfind("gate", 0) == 0 || word.rfind("puerta", 0) == 0;
}

std::optional<Length> gate_width(std::string_view text) {
  const std::size_t digit = text.find_first_of("0123456789");
  if (digit == std::string_view::npos) return std::nullopt;
  const auto width = measure::parse_length(text.substr(digit));
  if (!width || *width < Length::feet(2) || *width > Length::feet(40)) return std::nullopt;
  return *width;
}

}  // namespace railwright::formats
