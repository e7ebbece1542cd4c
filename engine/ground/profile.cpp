// SPDX-License-Identifier: MIT
#include "engine/ground/profile.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "engine/ground/curve.h"
#include "engine/ground/grid.h"
#include "engine/ground/nearby.h"

// How the profiles are made
//  1. Every point of the walk gets one height: its levelled height, else its own, else from the spots near it, else from the leg it
//     lies on, else from the grid.
//  2. Every leg gets knots of its best source between its ends: levelled heights, spots beside it, or grid samples.
//  3. Grid and spot knots are shifted by a straight line so that they meet the heights of the ends; points lying on the leg
//     (tees) become knots, so that the legs that meet there agree.
namespace railwright::ground {
namespace {

constexpr double kPiece = 1;  // m: a curve is sampled by pieces of about this length
constexpr int kFewestPieces = 16, kMostPieces = 2000;
constexpr double kSameStation = 1e-3;  // m: knots nearer than this are one
constexpr double kSpotReach = 30;      // m: spots this near a leg shape its profile (common practice, no source)
constexpr std::size_t kSpotNeighbours = 8;
constexpr double kSpotFar = 100;             // m: spots farther than this say nothing about a point
constexpr double kDisagree = 0.03;           // m: two levelled heights of one point may differ by this
constexpr double kCliffSlope = 1.0;          // rise per run of 45 degrees
constexpr double kCliffRise = 0.5;           // m
constexpr double kBesideCliff = 0.3;         // m: room for a post above and below a cliff (common practice, no source)
constexpr double kLevelledAccuracy = 0.003;  // m, of an ordinary builder's level (common practice, no source)

using Knots = std::vector<ProfilePoint>;

// One leg with everything known about it.
struct Line {
  bool sound = false;            // both points exist and differ
  std::size_t from = 0, to = 0;  // indices of points
  Vec2 a, b;
  double length = 0;
  std::optional<measure::Arc> arc;
  Knots levelled;
  std::vector<std::pair<double, std::size_t>> tees;  // station, point that lies on the leg
};

// The line as straight pieces: of a curve short enough to miss it by far less than heights change.
struct Piece {
  Vec2 a, b;
  double start = 0, length = 0;
};

std::vector<Piece> pieces_of(const Line& line) {
  if (!line.arc) return {{line.a, line.b, 0, line.length}};
  const int count = std::clamp(static_cast<int>(std::ceil(line.length / kPiece)), kFewestPieces, kMostPieces);
  std::vector<Piece> pieces;
  for (int i = 0; i < count; ++i) {
    const double from = line.length * i / count, to = line.length * (i + 1) / count;
    pieces.push_back({line.arc->at(from), line.arc->at(to), from, to - from});
  }
  return pieces;
}

struct Terrain {
  const job::Site& site;
  std::vector<Vec2> places;                    // of points
  std::vector<std::optional<double>> heights;  // of points
  std::vector<Line> lines;
  Nearby points, spots;
  std::vector<double> spot_heights;
  bool grid = false;
};

std::vector<Vec2> point_places(const job::Site& site) {
  std::vector<Vec2> places;
  places.reserve(site.points.size());
  for (const job::Point& point : site.points) places.push_back(measure::in_metres(point.east, point.north));
  return places;
}

std::vector<Vec2> spot_places(const job::Site& site) {
  std::vector<Vec2> places;
  places.reserve(site.ground.spots.size());
  for (const job::SpotHeight& spot : site.ground.spots) {
    places.push_back(measure::in_metres(spot.east, spot.north));
  }
  return places;
}

// Sorted, with the later of two knots at one station left out.
void tidy(Knots& knots) {
  std::stable_sort(knots.begin(), knots.end(), [](const ProfilePoint& a, const ProfilePoint& b) { return a.station < b.station; });
  const auto same = [](const ProfilePoint& a, const ProfilePoint& b) { return b.station - a.station < kSameStation; };
  knots.erase(std::unique(knots.begin(), knots.end(), same), knots.end());
}

// Two levelled heights at one station, too far apart to be one reading twice, are the foot and the head of a step: the later one written is moved on a
// little, so that the step stays in the profile and is told as a cliff.
void part_steps(Line& line) {
  std::stable_sort(line.levelled.begin(), line.levelled.end(), [](const ProfilePoint& a, const ProfilePoint& b) { return a.station < b.station; });
  for (std::size_t i = 1; i < line.levelled.size(); ++i) {
    const ProfilePoint& foot = line.levelled[i - 1];
    ProfilePoint& head = line.levelled[i];
    const bool inside = foot.station + 2 * kSameStation < line.length;
    if (inside && head.station - foot.station < kSameStation && std::abs(head.height - foot.height) > kDisagree) head.station = foot.station + 2 * kSameStation;
  }
}

void add_levelled(const job::Site& site, std::vector<Line>& lines) {
  std::map<std::string, std::size_t> leg_of;
  for (std::size_t i = 0; i < site.legs.size(); ++i) leg_of.emplace(site.legs[i].id, i);
  for (const job::ProfileHeight& height : site.ground.profile) {
    const auto found = leg_of.find(height.leg);
    if (found == leg_of.end()) continue;
    Line& line = lines[found->second];
    const double station = height.station.metres();
    if (!line.sound || station < -kSameStation || station > line.length + kSameStation) continue;
    line.levelled.push_back({std::clamp(station, 0.0, line.length), height.height.metres()});
  }
  for (Line& line : lines) {
    part_steps(line);
    tidy(line.levelled);
  }
}

// A point whose foot on the leg is within `snap` and clear of the leg's ends lies on it.
void add_tees(Terrain& terrain) {
  const double snap = terrain.site.snap.metres();
  for (Line& line : terrain.lines) {
    if (!line.sound) continue;
    for (const Piece& piece : pieces_of(line)) {
      for (const std::size_t point : terrain.points.along(piece.a, piece.b, snap)) {
        const double station = piece.start + share_along(piece.a, piece.b, terrain.places[point]) * piece.length;
        const bool at_end = station <= snap || station >= line.length - snap;
        if (!at_end && point != line.from && point != line.to) line.tees.emplace_back(station, point);
      }
    }
    std::sort(line.tees.begin(), line.tees.end());
    if (!line.arc) continue;
    // A point near the joint of two pieces is seen from both.
    std::set<std::size_t> seen;
    line.tees.erase(std::remove_if(line.tees.begin(), line.tees.end(), [&](const auto& tee) { return !seen.insert(tee.second).second; }), line.tees.end());
  }
}

Terrain survey(const job::Site& site) {
  Terrain terrain{site, point_places(site), {}, {}, Nearby(point_places(site)), Nearby(spot_places(site)), {}, false};
  for (const job::SpotHeight& spot : site.ground.spots) terrain.spot_heights.push_back(spot.height.metres());
  terrain.heights.resize(site.points.size());
  terrain.grid = site.ground.grid && usable(*site.ground.grid);
  std::map<std::string, std::size_t> point_of;
  for (std::size_t i = 0; i < site.points.size(); ++i) point_of.emplace(site.points[i].id, i);
  for (const job::Leg& leg : site.legs) {
    Line line;
    const auto from = point_of.find(leg.from), to = point_of.find(leg.to);
    if (from != point_of.end() && to != point_of.end()) {
      line.from = from->second;
      line.to = to->second;
      line.a = terrain.places[line.from];
      line.b = terrain.places[line.to];
      line.length = measure::distance(line.a, line.b);
      if (leg.arc) line.arc = curve_of(*leg.arc, line.a, line.b, line.from == line.to, site.snap.metres()).arc;
      if (line.arc) line.length = line.arc->length();
      line.sound = line.length > kSameStation;
    }
    terrain.lines.push_back(std::move(line));
  }
  add_levelled(site, terrain.lines);
  add_tees(terrain);
  return terrain;
}

double height_on(const Knots& knots, double station) {
  const auto after = std::upper_bound(knots.begin(), knots.end(), station, [](double s, const ProfilePoint& p) { return s < p.station; });
  if (after == knots.begin()) return knots.front().height;
  if (after == knots.end()) return knots.back().height;
  const ProfilePoint &p = *(after - 1), &q = *after;
  return p.height + (q.height - p.height) * ((station - p.station) / (q.station - p.station));
}

// Shepard's inverse-distance weighting with the square of the distance (D. Shepard, 1968, doi 10.1145/800186.810616) over the
// nearest places; exact at a place, nothing where none is within `far`.
std::optional<double> weighted(const Nearby& places, const std::vector<double>& heights, Vec2 at, double far) {
  double sum = 0, weights = 0;
  for (const Nearby::Neighbour& place : places.nearest(at, kSpotNeighbours)) {
    if (place.squared > far * far) break;
    if (place.squared < kSameStation * kSameStation) return heights[place.index];
    sum += heights[place.index] / place.squared;
    weights += 1 / place.squared;
  }
  if (weights == 0) return std::nullopt;
  return sum / weights;
}

std::optional<double> from_spots(const Terrain& terrain, Vec2 place) { return weighted(terrain.spots, terrain.spot_heights, place, kSpotFar); }

// Levelled heights at the ends of legs bind the points there; the first leg of the site that has one is believed.
void heights_from_levels(Terrain& terrain, Findings& findings) {
  for (std::size_t i = 0; i < terrain.lines.size(); ++i) {
    const Line& line = terrain.lines[i];
    if (line.levelled.empty()) continue;
    const auto take = [&](std::size_t point, const ProfilePoint& knot, double station) {
      if (std::abs(knot.station - station) > kSameStation) return;
      auto& height = terrain.heights[point];
      if (!height)
        height = knot.height;
      else if (std::abs(*height - knot.height) > kDisagree) {
        findings.push_back({"ground.disagree",
                            Severity::warning,
                            terrain.site.points[point].id,
                            {{"leg", terrain.site.legs[i].id},
                             {"first", value_of(measure::Length::from_metres(*height))},
                             {"second", value_of(measure::Length::from_metres(knot.height))}}});
      }
    };
    take(line.from, line.levelled.front(), 0);
    take(line.to, line.levelled.back(), line.length);
  }
}

// What is left takes its height from what is known: a tee from the ends of its leg, any other point from the points nearest to it.
void fill_unknown(Terrain& terrain) {
  for (const Line& line : terrain.lines) {
    if (!line.sound || !terrain.heights[line.from] || !terrain.heights[line.to]) continue;
    const double from = *terrain.heights[line.from], to = *terrain.heights[line.to];
    for (const auto& [station, point] : line.tees) {
      if (!terrain.heights[point]) terrain.heights[point] = from + (to - from) * (station / line.length);
    }
  }
  std::vector<Vec2> places;
  std::vector<double> heights;
  for (std::size_t i = 0; i < terrain.heights.size(); ++i) {
    if (!terrain.heights[i]) continue;
    places.push_back(terrain.places[i]);
    heights.push_back(*terrain.heights[i]);
  }
  if (heights.empty() || heights.size() == terrain.heights.size()) return;
  const Nearby known(std::move(places));
  const double anywhere = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < terrain.heights.size(); ++i) {
    if (!terrain.heights[i]) terrain.heights[i] = weighted(known, heights, terrain.places[i], anywhere);
  }
}

void heights_of_points(Terrain& terrain, Findings& findings) {
  heights_from_levels(terrain, findings);
  for (std::size_t i = 0; i < terrain.heights.size(); ++i) {
    auto& height = terrain.heights[i];
    const auto& own = terrain.site.points[i].height;
    if (!height && own) height = own->metres();
    if (!height) height = from_spots(terrain, terrain.places[i]);
  }
  // A tee without a height of its own stands on the levelled leg it meets; the end of a partly levelled leg takes the nearest level.
  for (const Line& line : terrain.lines) {
    if (line.levelled.empty()) continue;
    for (const auto& [station, point] : line.tees) {
      if (!terrain.heights[point]) terrain.heights[point] = height_on(line.levelled, station);
    }
    if (!terrain.heights[line.from]) terrain.heights[line.from] = line.levelled.front().height;
    if (!terrain.heights[line.to]) terrain.heights[line.to] = line.levelled.back().height;
  }
  for (std::size_t i = 0; i < terrain.heights.size() && terrain.grid; ++i) {
    if (!terrain.heights[i]) terrain.heights[i] = height_near(*terrain.site.ground.grid, terrain.places[i]);
  }
  fill_unknown(terrain);
}

// Grid samples shifted by a straight line, so that they meet the surveyed heights of the ends that they reach.
void fit_to_ends(Knots& knots, double from, double to, double length) {
  if (knots.empty()) return;
  const bool reaches_from = knots.front().station <= kSameStation;
  const bool reaches_to = knots.back().station >= length - kSameStation;
  const double last_gap = to - knots.back().height;
  const double first = reaches_from ? from - knots.front().height : (reaches_to ? last_gap : 0);
  const double last = reaches_to ? last_gap : first;
  for (ProfilePoint& knot : knots) knot.height += first + (last - first) * (knot.station / length);
}

Knots knots_from_spots(const Terrain& terrain, const Line& line) {
  Knots knots;
  for (const Piece& piece : pieces_of(line)) {
    for (const std::size_t spot : terrain.spots.along(piece.a, piece.b, kSpotReach)) {
      const Vec2 place = measure::in_metres(terrain.site.ground.spots[spot].east, terrain.site.ground.spots[spot].north);
      const double share = share_along(piece.a, piece.b, place);
      // A foot at the end of a piece of a curve belongs to no piece or to its neighbour.
      if (line.arc && (share <= 0 || share >= 1)) continue;
      if (const auto height = from_spots(terrain, piece.a + (piece.b - piece.a) * share)) {
        knots.push_back({piece.start + share * piece.length, *height});
      }
    }
  }
  tidy(knots);
  return knots;
}

Knots knots_from_grid(const Terrain& terrain, const Line& line) {
  Knots knots;
  for (const Piece& piece : pieces_of(line)) {
    const double level = measure::distance(piece.a, piece.b);
    for (ProfilePoint knot : sample(*terrain.site.ground.grid, piece.a, piece.b)) {
      if (line.arc && level > 0) knot.station = piece.start + knot.station / level * piece.length;
      knots.push_back(knot);
    }
  }
  if (line.arc) tidy(knots);
  return knots;
}

// The ends and tees join the knots with the heights that other legs see there.
void bind(const Terrain& terrain, const Line& line, Knots& knots) {
  Knots fixed;
  const auto fix = [&](std::size_t point, double station) {
    if (const auto& height = terrain.heights[point]) fixed.push_back({station, *height});
  };
  fix(line.from, 0);
  for (const auto& [station, point] : line.tees) fix(point, station);
  fix(line.to, line.length);
  fixed.insert(fixed.end(), knots.begin(), knots.end());  // fixed knots first: they win a shared station
  tidy(fixed);
  knots = std::move(fixed);
}

Profile level_profile(const Line& line, double height) {
  Profile profile;
  profile.points = {{0, height}};
  if (line.sound) profile.points.push_back({line.length, height});
  return profile;
}

// The last knot stands at the leg's length exactly, even when one lay a fraction of a millimetre before it.
Profile finish(const Line& line, Knots knots, Source source) {
  if (knots.empty()) return level_profile(line, 0);
  if (knots.front().station > 0) knots.insert(knots.begin(), {0, knots.front().height});
  knots.front().station = 0;
  if (line.length - knots.back().station < kSameStation && knots.size() > 1)
    knots.back().station = line.length;
  else if (knots.back().station < line.length)
    knots.push_back({line.length, knots.back().height});
  Profile profile;
  profile.points = std::move(knots);
  profile.source = source;
  return profile;
}

void tell_outside(const Terrain& terrain, std::size_t leg, const Knots& samples, Findings& findings) {
  const Line& line = terrain.lines[leg];
  const bool all = !samples.empty() && samples.front().station <= kSameStation && samples.back().station >= line.length - kSameStation;
  if (all) return;
  const double first = samples.empty() ? 0 : samples.front().station;
  const double last = samples.empty() ? 0 : samples.back().station;
  findings.push_back({"ground.outside_grid",
                      Severity::warning,
                      terrain.site.legs[leg].id,
                      {{"from", value_of(measure::Length::from_metres(first))}, {"to", value_of(measure::Length::from_metres(last))}}});
}

Profile profile_of(const Terrain& terrain, std::size_t leg, Findings& findings) {
  const Line& line = terrain.lines[leg];
  if (!line.sound) return level_profile(line, 0);
  Knots knots = line.levelled;
  Source source = Source::levelled;
  if (knots.empty() && !terrain.spots.empty()) {
    knots = knots_from_spots(terrain, line);
    source = Source::spots;
  }
  if (knots.empty() && terrain.grid) {
    knots = knots_from_grid(terrain, line);
    tell_outside(terrain, leg, knots, findings);
    const auto &from = terrain.heights[line.from], &to = terrain.heights[line.to];
    if (from && to) fit_to_ends(knots, *from, *to, line.length);
    source = Source::grid;
  }
  if (knots.empty()) source = Source::spots;  // the points' own heights are all there is
  bind(terrain, line, knots);
  return knots.empty() ? level_profile(line, 0) : finish(line, std::move(knots), source);
}

double accuracy_of(const job::Ground& ground, Source source) {
  if (ground.accuracy > measure::Length()) return ground.accuracy.metres();
  if (source == Source::levelled) return kLevelledAccuracy;
  // A grid whose accuracy nobody has stated is trusted to a tenth of its cell (common practice, no source).
  return source == Source::grid && ground.grid ? ground.grid->cell.metres() / 10 : 0;
}

void tell_cliff(const Profile& profile, const std::string& leg, Findings& findings) {
  double steepest = 0;
  std::size_t at = 0;
  for (std::size_t i = 1; i < profile.points.size(); ++i) {
    const ProfilePoint &p = profile.points[i - 1], &q = profile.points[i];
    const double rise = std::abs(q.height - p.height), slope = rise / (q.station - p.station);
    if (rise >= kCliffRise && slope >= kCliffSlope && slope > steepest) {
      steepest = slope;
      at = i;
    }
  }
  if (at == 0) return;
  const ProfilePoint &p = profile.points[at - 1], &q = profile.points[at];
  findings.push_back({"ground.cliff",
                      Severity::warning,
                      leg,
                      {{"station", value_of(measure::Length::from_metres(p.station))},
                       {"to", value_of(measure::Length::from_metres(q.station))},
                       {"rise", value_of(measure::Length::from_metres(q.height - p.height))},
                       {"slope", SlopeValue{(q.height - p.height) / (q.station - p.station)}},
                       {"before", value_of(measure::Length::from_metres(std::max(0.0, p.station - kBesideCliff)))},
                       {"after", value_of(measure::Length::from_metres(std::min(profile.points.back().station, q.station + kBesideCliff)))}}});
}

}  // namespace

double Profile::height_at(double station) const { return points.empty() ? 0 : height_on(points, station); }

std::vector<Profile> profiles(const job::Site& site, Findings& findings, measure::Length clearance_accuracy) {
  Terrain terrain = survey(site);
  heights_of_points(terrain, findings);
  std::vector<Profile> all;
  all.reserve(site.legs.size());
  bool any = false;
  double worst = 0;
  for (std::size_t leg = 0; leg < site.legs.size(); ++leg) {
    Profile profile = profile_of(terrain, leg, findings);
    profile.accuracy = accuracy_of(site.ground, profile.source);
    tell_cliff(profile, site.legs[leg].id, findings);
    any = any || profile.source != Source::none;
    worst = std::max(worst, profile.accuracy);
    all.push_back(std::move(profile));
  }
  if (!any) findings.push_back({"ground.none", Severity::note, "site", {}});
  if (worst > clearance_accuracy.metres()) {
    findings.push_back(
        {"ground.coarse", Severity::warning, "site", {{"accuracy", value_of(measure::Length::from_metres(worst))}, {"needed", value_of(clearance_accuracy)}}});
  }
  return all;
}

}  // namespace railwright::ground
