// SPDX-License-Identifier: MIT
#include "engine/setout/divide.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace railwright::setout {
namespace {

// A bay's clear gap is not planned smaller than this: room for two sleeves and a wrench. Common practice, no source.
constexpr Length kLeastGap = Length::inches(6);
// A part between zone edges is tried with this many bays more than its fewest.
constexpr std::int64_t kMoreBays = 2;
// Parts reach over at most this many zone edges: keeps the search linear in the number of zones.
constexpr std::size_t kReach = 8;
// A cap that is short by less than this is worth a note.
constexpr Length kNearlyEnough = Length::inches(1);

Length half(Length diameter) { return diameter / 2; }

// Sum of the clear gaps.
Length clear_sum(const Stretch& s, Length line_diameter, std::int64_t bays) {
  return s.end - s.start - half(s.from_diameter) - half(s.to_diameter) - 2 * half(line_diameter) * (bays - 1);
}

class Divider {
 public:
  Divider(const RunRule& rule, const std::vector<Blocked>& blocked) : rule_(rule), blocked_(blocked) {}

  Division equal(const Stretch& run);
  Division in_order(const Stretch& run);

 private:
  struct Edge {
    std::int64_t bays = 1;
    Length fault;  // a single bay over the cap, or under the least gap, by this much
    Length widest;
  };
  // Cost of reaching a place, in order of weight, and how it was reached.
  struct Reached {
    std::tuple<Length, std::int64_t, std::int64_t, Length> cost;  // faults, bays, parts, widest pitch
    std::size_t before = 0;
    Edge edge;
    bool known = false;
  };

  std::int64_t bays_by_rule(const Stretch& part) const;
  bool clear_of_zones(const Stretch& part, std::int64_t bays) const;
  Stretch part_of(const Stretch& run, Length from, Length to) const;
  std::vector<Length> places(const Stretch& run) const;
  Edge best_edge(const Stretch& part) const;
  std::vector<Reached> cheapest(const Stretch& run, const std::vector<Length>& at) const;
  std::int64_t around_zones(const Stretch& run, Division& division) const;
  void fill(const Stretch& part, std::int64_t bays, std::vector<Length>& line) const;
  int zone_between(Length from, Length to) const;
  void note_one_less(const Stretch& run, std::int64_t bays, Division& division) const;
  std::vector<Length> asked_for(const Stretch& run, Division& division) const;
  void end_with_make_up(const Stretch& run, std::vector<Length>& line) const;
  void out_of_zones(const Stretch& run, Division& division) const;
  std::vector<Length> around_one(Length before, Length after, const Blocked& zone, Division& division) const;

  const RunRule& rule_;
  const std::vector<Blocked>& blocked_;
};

std::int64_t Divider::bays_by_rule(const Stretch& part) const {
  const std::int64_t fewest = fewest_bays(part, rule_.line_diameter, rule_.cap, rule_.most_bays + 1);
  if (rule_.mode != job::SpacingMode::at_pitch || rule_.pitch <= Length()) return fewest;
  const Length length = part.end - part.start;
  if (length / rule_.pitch > static_cast<double>(rule_.most_bays)) return rule_.most_bays + 1;
  const std::int64_t under = std::max<std::int64_t>(1, length.nm() / rule_.pitch.nm());
  const auto off = [&](std::int64_t bays) { return std::fabs((length - rule_.pitch * bays).metres()) / static_cast<double>(bays); };
  const std::int64_t nearest = off(under + 1) < off(under) ? under + 1 : under;
  return fewest == 0 ? 0 : std::max(fewest, nearest);
}

bool Divider::clear_of_zones(const Stretch& part, std::int64_t bays) const {
  auto zone = std::lower_bound(blocked_.begin(), blocked_.end(), part.start, [](const Blocked& b, Length s) { return b.to <= s; });
  for (; zone != blocked_.end() && zone->from < part.end; ++zone) {
    std::int64_t low = 1, high = bays;  // first post beyond the zone's start, `bays` if none
    while (low < high) {
      const std::int64_t k = (low + high) / 2;
      if (equal_station(part, rule_.line_diameter, bays, k) > zone->from)
        high = k;
      else
        low = k + 1;
    }
    if (low < bays && equal_station(part, rule_.line_diameter, bays, low) < zone->to) return false;
  }
  return true;
}

Stretch Divider::part_of(const Stretch& run, Length from, Length to) const {
  return {from, to, from == run.start ? run.from_diameter : rule_.line_diameter, to == run.end ? run.to_diameter : rule_.line_diameter};
}

// The run's ends and the edges of the zones between them that leave room for a bay at the run's ends.
std::vector<Length> Divider::places(const Stretch& run) const {
  std::vector<Length> at{run.start};
  const Length first = run.start + half(run.from_diameter) + half(rule_.line_diameter) + kLeastGap;
  const Length last = run.end - half(run.to_diameter) - half(rule_.line_diameter) - kLeastGap;
  for (const Blocked& zone : blocked_) {
    if (zone.to <= run.start || zone.from >= run.end) continue;
    for (const Length edge : {zone.from, zone.to}) {
      if (edge >= first && edge <= last && edge > at.back()) at.push_back(edge);
    }
  }
  at.push_back(run.end);
  return at;
}

Divider::Edge Divider::best_edge(const Stretch& part) const {
  const std::int64_t fewest = bays_by_rule(part);
  for (std::int64_t bays = fewest; fewest > 0 && bays <= fewest + kMoreBays && bays <= rule_.most_bays; ++bays) {
    const Length sum = clear_sum(part, rule_.line_diameter, bays);
    if (sum < kLeastGap * bays) break;
    if (clear_of_zones(part, bays)) return {bays, Length(), widest_pitch(part, rule_.line_diameter, bays)};
  }
  const Length over = part.end - part.start - rule_.cap, tight = kLeastGap - clear_sum(part, rule_.line_diameter, 1);
  return {1, measure::max(over, tight), part.end - part.start};
}

std::vector<Divider::Reached> Divider::cheapest(const Stretch& run, const std::vector<Length>& at) const {
  std::vector<Reached> reached(at.size());
  reached[0].known = true;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    for (std::size_t j = i + 1; j < at.size() && j <= i + kReach; ++j) {
      const Edge edge = best_edge(part_of(run, at[i], at[j]));
      const auto& [faults, bays, parts, widest] = reached[i].cost;
      const std::tuple cost(faults + edge.fault, bays + edge.bays, parts + 1, measure::max(widest, edge.widest));
      if (reached[j].known && reached[j].cost <= cost) continue;
      reached[j] = {cost, i, edge, true};
    }
  }
  return reached;
}

int Divider::zone_between(Length from, Length to) const {
  int zone = 0;
  Length widest;
  for (const Blocked& b : blocked_) {
    const Length inside = measure::min(to, b.to) - measure::max(from, b.from);
    if (inside <= widest) continue;
    widest = inside;
    zone = b.zone;
  }
  return zone;
}

void Divider::fill(const Stretch& part, std::int64_t bays, std::vector<Length>& line) const {
  for (std::int64_t k = 1; k < bays; ++k) line.push_back(equal_station(part, rule_.line_diameter, bays, k));
}

// Divides at zone edges; returns the number of bays.
std::int64_t Divider::around_zones(const Stretch& run, Division& division) const {
  const std::vector<Length> at = places(run);
  const std::vector<Reached> reached = cheapest(run, at);
  std::vector<std::size_t> path;
  for (std::size_t i = at.size() - 1; i > 0; i = reached[i].before) path.push_back(i);
  std::reverse(path.begin(), path.end());
  std::int64_t bays = 0;
  for (const std::size_t i : path) {
    const Stretch part = part_of(run, at[reached[i].before], at[i]);
    if (reached[i].edge.fault > Length() && part.end - part.start > rule_.cap) {
      division.too_wide.push_back({part.start, part.end, zone_between(part.start, part.end)});
    }
    fill(part, reached[i].edge.bays, division.line);
    bays += reached[i].edge.bays;
    if (i + 1 < at.size()) division.line.push_back(at[i]);
  }
  return bays;
}

// Says so when only the end posts' girth costs the run a bay more than its length would.
void Divider::note_one_less(const Stretch& run, std::int64_t bays, Division& division) const {
  const bool by_length = bays == 1 || rule_.cap * (bays - 1) < run.end - run.start;
  if (by_length || rule_.forced > 0 || rule_.mode == job::SpacingMode::at_pitch) return;
  const Length less = widest_pitch(run, rule_.line_diameter, bays - 1);
  if (less - rule_.cap < kNearlyEnough) division.one_bay_less_cap = less;
}

Division Divider::equal(const Stretch& run) {
  Division division;
  std::int64_t bays = bays_by_rule(run);
  division.cap_too_small = bays == 0;
  division.too_many = bays > rule_.most_bays;
  if (bays == 0 || division.too_many) return division;
  if (rule_.forced > 0) bays = std::max(std::min(rule_.forced, rule_.most_bays), fewest_bays(run, rule_.line_diameter, rule_.cap, rule_.most_bays));
  if (clear_sum(run, rule_.line_diameter, bays) < Length()) bays = bays_by_rule(run);
  if (clear_of_zones(run, bays)) {
    fill(run, bays, division.line);
    note_one_less(run, bays, division);
    return division;
  }
  const std::int64_t parted = around_zones(run, division);
  for (std::int64_t more = bays + 1; more <= std::max(bays, parted) + 1 && more <= rule_.most_bays; ++more) {
    if (clear_sum(run, rule_.line_diameter, more) < kLeastGap * more) break;
    if (!clear_of_zones(run, more)) continue;
    division = {};
    fill(run, more, division.line);
    break;
  }
  return division;
}

// Stations asked for by module, list or panel, up to the run's end.
std::vector<Length> Divider::asked_for(const Stretch& run, Division& division) const {
  std::vector<Length> line;
  const Length cap = rule_.cap;
  if (rule_.panel > Length()) {
    const std::int64_t parts = (rule_.panel.nm() + cap.nm() - 1) / cap.nm();
    division.panel_mismatch = rule_.mode != job::SpacingMode::equal && rule_.pitch > Length() && rule_.panel.nm() % rule_.pitch.nm() != 0;
    for (std::int64_t k = 1;; ++k) {
      const Length at = run.start + rule_.panel * (k / parts) + rule_.panel * (k % parts) / parts;
      if (at >= run.end || k > rule_.most_bays) return line;
      line.push_back(at);
    }
  }
  const bool module = rule_.mode == job::SpacingMode::module || rule_.list.empty();
  Length at = run.start;
  for (std::size_t k = 0; line.size() <= static_cast<std::size_t>(rule_.most_bays); ++k) {
    Length pitch = module ? rule_.pitch : rule_.list[std::min(k, rule_.list.size() - 1)];
    if (pitch > cap) division.pitch_over_cap = true;
    if (pitch <= Length() || pitch > cap) pitch = cap;
    at += pitch;
    if (at >= run.end) break;
    line.push_back(at);
  }
  return line;
}

// A make-up bay too short to bolt is joined to the bay before it, or the two are made alike.
void Divider::end_with_make_up(const Stretch& run, std::vector<Length>& line) const {
  if (line.empty()) return;
  const Length gap = run.end - line.back() - half(run.to_diameter) - half(rule_.line_diameter);
  if (gap >= kLeastGap) return;
  const Length before = line.size() > 1 ? line[line.size() - 2] : run.start;
  line.pop_back();
  if (run.end - before <= rule_.cap) return;
  const Length before_diameter = line.empty() ? run.from_diameter : rule_.line_diameter;
  line.push_back(equal_station({before, run.end, before_diameter, run.to_diameter}, rule_.line_diameter, 2, 1));
}

// The posts that stand about one zone between two posts that stay.
std::vector<Length> Divider::around_one(Length before, Length after, const Blocked& zone, Division& division) const {
  const Length room = 2 * half(rule_.line_diameter) + kLeastGap;
  const bool can_before = zone.from - before >= room, can_after = after - zone.to >= room;
  if (can_before && zone.from - before <= rule_.cap && after - zone.from <= rule_.cap) return {zone.from};
  if (can_after && zone.to - before <= rule_.cap && after - zone.to <= rule_.cap) return {zone.to};
  std::vector<Length> posts;
  if (can_before) posts.push_back(zone.from);
  if (can_after) posts.push_back(zone.to);
  const Length left = can_before ? zone.from : before, right = can_after ? zone.to : after;
  if (right - left > rule_.cap) division.too_wide.push_back({left, right, zone.zone});
  return posts;
}

void Divider::out_of_zones(const Stretch& run, Division& division) const {
  std::vector<Length> moved;
  const std::vector<Length>& asked = division.line;
  for (std::size_t i = 0; i < asked.size();) {
    const Blocked* zone = blocked_at(blocked_, asked[i]);
    if (zone == nullptr) {
      moved.push_back(asked[i++]);
      continue;
    }
    while (i < asked.size() && asked[i] < zone->to) ++i;
    const Length before = moved.empty() ? run.start : moved.back();
    const Length after = i < asked.size() ? asked[i] : run.end;
    for (const Length at : around_one(before, after, *zone, division)) moved.push_back(at);
  }
  division.line = std::move(moved);
}

Division Divider::in_order(const Stretch& run) {
  Division division;
  division.line = asked_for(run, division);
  if (division.line.size() >= static_cast<std::size_t>(rule_.most_bays)) {
    division.line.clear();
    division.too_many = true;
    return division;
  }
  end_with_make_up(run, division.line);
  out_of_zones(run, division);
  return division;
}

}  // namespace

Length equal_station(const Stretch& s, Length line_diameter, std::int64_t bays, std::int64_t k) {
  const std::int64_t sum = clear_sum(s, line_diameter, bays).nm();
  // sum * k / bays without overflow: the quotient times k, plus the remainder's share.
  const Length gaps = Length::from_nm(sum / bays * k + sum % bays * k / bays);
  return s.start + half(s.from_diameter) + gaps + 2 * half(line_diameter) * (k - 1) + half(line_diameter);
}

Length widest_pitch(const Stretch& s, Length line_diameter, std::int64_t bays) {
  if (bays == 1) return s.end - s.start;
  const Length gap = Length::from_nm((clear_sum(s, line_diameter, bays).nm() + bays - 1) / bays);
  const Length end_post = measure::max(half(s.from_diameter), half(s.to_diameter));
  const Length wider = bays > 2 ? measure::max(end_post, half(line_diameter)) : end_post;
  return gap + wider + half(line_diameter);
}

std::int64_t fewest_bays(const Stretch& s, Length line_diameter, Length cap, std::int64_t most) {
  if (s.end - s.start <= cap) return 1;
  if (cap <= Length()) return 0;
  std::int64_t bays = ((s.end - s.start).nm() - 1) / cap.nm() + 1;
  for (; bays < most; ++bays) {
    if (clear_sum(s, line_diameter, bays) <= Length()) return 0;
    if (widest_pitch(s, line_diameter, bays) <= cap) break;
  }
  return bays;
}

Division divide(const Stretch& run, const RunRule& rule, const std::vector<Blocked>& blocked) {
  Division division;
  if (clear_sum(run, rule.line_diameter, 1) < Length()) {
    division.too_short = true;
    return division;
  }
  if (rule.cap <= Length()) {
    division.cap_too_small = true;
    return division;
  }
  Divider divider(rule, blocked);
  const bool in_order = rule.panel > Length() || rule.mode == job::SpacingMode::module || (rule.mode == job::SpacingMode::list && !rule.list.empty());
  return in_order ? divider.in_order(run) : divider.equal(run);
}

}  // namespace railwright::setout
