// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "engine/setout/draft.h"

// Gates: an opening between the faces of two gate posts. A gate whose post would stand within `snap` of a post already there hangs on that post.
namespace railwright::setout {
namespace {

Length half(Length diameter) { return diameter / 2; }

struct Opening {
  int gate = 0;  // index into Site::gates
  Length width;
  std::array<std::string, 2> names;   // of the posts at the leg's from side and to side
  std::array<Length, 2> at;           // their middles
  std::array<int, 2> shared{-1, -1};  // marks that already stand there
};

std::array<std::string, 2> post_names(const job::Gate& gate) {
  switch (gate.hinge) {
    case job::LeafEnd::from:
      return {gate.id + "h", gate.id + "l"};
    case job::LeafEnd::to:
      return {gate.id + "l", gate.id + "h"};
    case job::LeafEnd::both:
      break;
  }
  return {gate.id + "h1", gate.id + "h2"};
}

Length diameter_at(const Draft& draft, const Opening& opening, int leg, int side) {
  const job::SetPost* fact = free_fact(draft, opening.names[side]);
  if (fact != nullptr && fact->diameter) return *fact->diameter;
  return sizes_of_leg(draft, leg).gate.diameter;
}

bool fact_on_leg(const Draft& draft, int leg, const std::string& name, Length& station) {
  const job::SetPost* fact = free_fact(draft, name);
  if (fact == nullptr || fact->leg != draft.job.site.legs[leg].id) return false;
  station = fact->station;
  return true;
}

// Middles of both posts: about the wanted station, or from posts that are already set.
Opening opening_of(const Draft& draft, int leg, int g) {
  const job::Gate& gate = draft.job.site.gates[g];
  Opening opening;
  opening.gate = g;
  opening.width = opening_width(gate);
  opening.names = post_names(gate);
  const Length d0 = diameter_at(draft, opening, leg, 0), d1 = diameter_at(draft, opening, leg, 1);
  const LegPlace& place = draft.network.legs[leg].place;
  const Length apart = place.apart_by(half(d0) + opening.width + half(d1));
  opening.at[0] = gate.station - opening.width / 2 - half(d0);
  if (place.arc) opening.at[0] = gate.station - apart / 2;
  opening.at[1] = opening.at[0] + apart;
  Length first, second;
  const bool has_first = fact_on_leg(draft, leg, opening.names[0], first);
  const bool has_second = fact_on_leg(draft, leg, opening.names[1], second);
  if (has_first) opening.at = {first, has_second ? second : first + apart};
  if (has_second && !has_first) opening.at = {second - apart, second};
  return opening;
}

// Hangs the gate on the post beside it where one stands within reach.
void share_posts(const Draft& draft, int leg, int mark, Opening& opening) {
  const auto& marks = draft.marks[leg];
  const Length snap = draft.job.site.snap;
  const LegPlace& place = draft.network.legs[leg].place;
  const Length own = half(sizes_of_leg(draft, leg).gate.diameter);
  const auto bearing = [&](const Mark& m) { return measure::max(half(draft.posts[m.post].post.diameter), own); };
  Length station;
  const bool fixed = fact_on_leg(draft, leg, opening.names[0], station) || fact_on_leg(draft, leg, opening.names[1], station);
  if (measure::abs(opening.at[0] - marks[mark].station) <= snap) {
    opening.shared[0] = mark;
    opening.at[0] = marks[mark].station;
    if (!fixed) opening.at[1] = opening.at[0] + place.apart_by(bearing(marks[mark]) + opening.width + own);
  }
  if (measure::abs(opening.at[1] - marks[mark + 1].station) <= snap) {
    opening.shared[1] = mark + 1;
    opening.at[1] = marks[mark + 1].station;
    const Length other = opening.shared[0] >= 0 ? bearing(marks[mark]) : own;
    if (!fixed && opening.shared[0] < 0) opening.at[0] = opening.at[1] - place.apart_by(bearing(marks[mark + 1]) + opening.width + other);
  }
}

void name_fault(Draft& draft, int leg, const Opening& opening, const char* code, const Values& values) {
  Values all{{"leg", draft.job.site.legs[leg].id}, {"opening", value_of(opening.width)}};
  all.insert(all.end(), values.begin(), values.end());
  draft.findings.push_back({code, Severity::stop, draft.job.site.gates[opening.gate].id, all});
}

// True when the opening and its posts fit between the two marks; names the fault otherwise.
bool fits(Draft& draft, int leg, int mark, const Opening& opening) {
  const auto& marks = draft.marks[leg];
  const Mark& before = marks[mark];
  const Mark& after = marks[mark + 1];
  const Post& left = draft.posts[before.post].post;
  const Post& right = draft.posts[after.post].post;
  const Length own = half(sizes_of_leg(draft, leg).gate.diameter);
  const Length short_left = opening.shared[0] >= 0 ? Length() : before.station + half(left.diameter) + own - opening.at[0];
  const Length short_right = opening.shared[1] >= 0 ? Length() : opening.at[1] + own + half(right.diameter) - after.station;
  if (short_left <= Length() && short_right <= Length()) return true;
  const Length room = after.station - half(right.diameter) - before.station - half(left.diameter);
  const bool neighbour_is_gate = (short_left > Length() && !left.gate.empty()) || (short_right > Length() && !right.gate.empty());
  if (opening.width > room) {
    name_fault(draft, leg, opening, "setout.gate_too_wide", {{"room", value_of(room)}});
  } else if (neighbour_is_gate) {
    name_fault(draft, leg, opening, "setout.gates_overlap",
               {{"other", short_left > Length() ? left.gate : right.gate}, {"by", value_of(measure::max(short_left, short_right))}});
  } else {
    name_fault(draft, leg, opening, "setout.gate_on_corner",
               {{"post", short_left > Length() ? left.name : right.name}, {"by", value_of(measure::max(short_left, short_right))}});
  }
  return false;
}

int gate_post(Draft& draft, int leg, const Opening& opening, int side) {
  const std::string& gate = draft.job.site.gates[opening.gate].id;
  const PostSize& size = sizes_of_leg(draft, leg).gate;
  int p = 0;
  if (opening.shared[side] >= 0) {
    p = draft.marks[leg][opening.shared[side]].post;
    if (!draft.posts[p].post.set) strengthen(draft.posts[p], size);
    if (draft.posts[p].post.kind == PostKind::fixed) draft.posts[p].post.kind = PostKind::gate;
    if (draft.posts[p].post.gate.empty()) draft.posts[p].post.gate = gate;
    return p;
  }
  p = add_post(draft, PostKind::gate, leg, opening.at[side], size);
  draft.posts[p].post.name = opening.names[side];
  draft.posts[p].post.gate = gate;
  const job::SetPost* fact = free_fact(draft, opening.names[side]);
  if (fact != nullptr && fact->leg == draft.job.site.legs[leg].id) adopt_fact(draft, p, leg, *fact);
  return p;
}

void insert_opening(Draft& draft, int leg, int mark, const Opening& opening) {
  const int left = gate_post(draft, leg, opening, 0), right = gate_post(draft, leg, opening, 1);
  auto& marks = draft.marks[leg];
  const Between after = marks[mark].after;
  if (opening.shared[1] < 0) marks.insert(marks.begin() + mark + 1, {opening.at[1], right, after, -1});
  if (opening.shared[0] < 0) {
    marks.insert(marks.begin() + mark + 1, {opening.at[0], left, Between::gate, opening.gate});
  } else {
    marks[mark].after = Between::gate;
    marks[mark].gate = opening.gate;
  }
}

void place_gate(Draft& draft, int leg, int g) {
  const job::Gate& gate = draft.job.site.gates[g];
  Opening opening = opening_of(draft, leg, g);
  const auto& marks = draft.marks[leg];
  const int mark = stretch_at(marks, gate.station);
  if (mark < 0 || mark + 1 >= static_cast<int>(marks.size())) {
    name_fault(draft, leg, opening, "setout.gate_outside", {{"length", value_of(draft.network.legs[leg].place.length)}});
    return;
  }
  if (marks[mark].after == Between::gate) {
    const std::string& other = draft.job.site.gates[marks[mark].gate].id;
    const Length by = marks[mark + 1].station - opening.at[0] + half(sizes_of_leg(draft, leg).gate.diameter);
    name_fault(draft, leg, opening, "setout.gates_overlap", {{"other", other}, {"by", value_of(by)}});
    return;
  }
  if (marks[mark].after == Between::nothing) return;
  share_posts(draft, leg, mark, opening);
  if (fits(draft, leg, mark, opening)) insert_opening(draft, leg, mark, opening);
}

}  // namespace

Length opening_width(const job::Gate& gate) {
  const std::int64_t leaves = gate.hinge == job::LeafEnd::both ? 2 : 1;
  return (gate.leaf + gate.hinge_clearance) * leaves + gate.latch_clearance;
}

void place_gates(Draft& draft) {
  const auto& gates = draft.job.site.gates;
  std::map<std::string, int> leg_of;
  for (std::size_t l = 0; l < draft.job.site.legs.size(); ++l) leg_of.emplace(draft.job.site.legs[l].id, static_cast<int>(l));
  std::vector<std::pair<int, int>> order;  // leg, gate
  for (std::size_t g = 0; g < gates.size(); ++g) {
    const auto leg = leg_of.find(gates[g].leg);
    if (leg == leg_of.end()) {
      draft.findings.push_back({"setout.no_such_leg", Severity::stop, gates[g].id, {{"leg", gates[g].leg}}});
    } else if (draft.network.legs[leg->second].sound) {
      order.emplace_back(leg->second, static_cast<int>(g));
    }
  }
  std::sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
    if (a.first != b.first) return a.first < b.first;
    if (gates[a.second].station != gates[b.second].station) return gates[a.second].station < gates[b.second].station;
    return a.second < b.second;
  });
  for (const auto& [leg, gate] : order) place_gate(draft, leg, gate);
}

}  // namespace railwright::setout
