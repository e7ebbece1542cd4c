// SPDX-License-Identifier: MIT
#include <algorithm>
#include <iterator>

#include "engine/setout/draft.h"

// Posts that the user fixed (grade breaks, panel joints) and posts already in the ground. Both are gathered per leg and merged
// into the marks at once, so that thousands of set posts cost no more than a sort.
namespace railwright::setout {
namespace {

bool by_station(const Mark& a, const Mark& b) { return a.station != b.station ? a.station < b.station : a.post < b.post; }

void merge_marks(std::vector<Mark>& marks, std::vector<Mark> added) {
  std::sort(added.begin(), added.end(), by_station);
  std::vector<Mark> merged;
  merged.reserve(marks.size() + added.size());
  std::merge(marks.begin(), marks.end(), added.begin(), added.end(), std::back_inserter(merged), by_station);
  marks = std::move(merged);
}

// The mark within reach of a station, the nearer one; -1: none.
int mark_near(const std::vector<Mark>& marks, Length station, Length reach) {
  const int before = stretch_at(marks, station);
  int best = -1;
  for (const int m : {before, before + 1}) {
    if (m < 0 || m >= static_cast<int>(marks.size())) continue;
    const Length off = measure::abs(marks[m].station - station);
    if (off <= reach && (best < 0 || off < measure::abs(marks[best].station - station))) best = m;
  }
  return best;
}

void place_fixed_on(Draft& draft, int leg) {
  const job::Leg& asked = draft.job.site.legs[leg];
  std::vector<Mark> added;
  for (const Length station : asked.fixed) {
    const auto& marks = draft.marks[leg];
    const Length length = draft.network.legs[leg].place.length;
    if (station < Length() || station > length) {
      draft.findings.push_back({"setout.fixed_outside", Severity::stop, asked.id, {{"station", value_of(station)}, {"length", value_of(length)}}});
      continue;
    }
    if (mark_near(marks, station, draft.job.site.snap) >= 0) continue;
    const int stretch = stretch_at(marks, station);
    if (stretch < 0 || stretch + 1 >= static_cast<int>(marks.size())) continue;
    if (marks[stretch].after == Between::gate) {
      const std::string& gate = draft.job.site.gates[marks[stretch].gate].id;
      draft.findings.push_back({"setout.fixed_in_gate", Severity::stop, asked.id, {{"station", value_of(station)}, {"gate", gate}}});
    } else if (marks[stretch].after == Between::fence) {
      added.push_back({station, add_post(draft, PostKind::fixed, leg, station, sizes_of_leg(draft, leg).line), Between::fence, -1});
    }
  }
  merge_marks(draft.marks[leg], std::move(added));
}

// A set post beside a planned fixed post is that post.
bool stands_for_mark(Draft& draft, int leg, const job::SetPost& fact) {
  const int near = mark_near(draft.marks[leg], fact.station, draft.job.site.snap);
  if (near < 0 || draft.posts[draft.marks[leg][near].post].post.set) return false;
  adopt_fact(draft, draft.marks[leg][near].post, leg, fact);
  return true;
}

void place_fact(Draft& draft, int leg, const job::SetPost& fact, std::vector<Mark>& added) {
  const auto& marks = draft.marks[leg];
  const int stretch = stretch_at(marks, fact.station);
  if (stretch < 0 || stretch + 1 >= static_cast<int>(marks.size())) {
    draft.findings.push_back({"setout.set_post_outside", Severity::stop, fact.name, {{"leg", fact.leg}, {"station", value_of(fact.station)}}});
    return;
  }
  if (marks[stretch].after == Between::gate) {
    draft.findings.push_back({"setout.set_post_in_gate", Severity::stop, fact.name, {{"gate", draft.job.site.gates[marks[stretch].gate].id}}});
    return;
  }
  if (marks[stretch].after != Between::fence) {
    draft.findings.push_back({"setout.set_post_doubled", Severity::stop, fact.name, {{"leg", fact.leg}, {"station", value_of(fact.station)}}});
    return;
  }
  const int post = add_post(draft, PostKind::fixed, leg, fact.station, sizes_of_leg(draft, leg).line);
  adopt_fact(draft, post, leg, fact);
  added.push_back({fact.station, post, Between::fence, -1});
}

void place_facts_on(Draft& draft, int leg, const std::vector<int>& facts) {
  std::vector<Mark> added;
  for (const int f : facts) {
    const job::SetPost& fact = draft.job.field.posts[f];
    if (draft.taken[f] || stands_for_mark(draft, leg, fact)) continue;
    place_fact(draft, leg, fact, added);
  }
  std::sort(draft.marks[leg].begin(), draft.marks[leg].end(), by_station);
  merge_marks(draft.marks[leg], std::move(added));
}

// A set post far from the stake of its name was meant for another place, or its station was misread.
void name_moved(Draft& draft) {
  if (draft.job.field.posts.empty()) return;
  std::map<std::string, const job::IssuedPost*> issued;
  for (const job::IssuedPost& post : draft.job.issued.posts) issued.emplace(post.name, &post);
  for (const job::SetPost& fact : draft.job.field.posts) {
    const auto stake = issued.find(fact.name);
    if (stake == issued.end() || stake->second->leg != fact.leg) continue;
    const Length off = measure::abs(fact.station - stake->second->station);
    if (off <= draft.job.site.snap) continue;
    draft.findings.push_back({"setout.set_post_moved",
                              Severity::warning,
                              fact.name,
                              {{"leg", fact.leg}, {"off", value_of(off)}, {"stake", value_of(stake->second->station)}, {"station", value_of(fact.station)}}});
  }
}

// The hole is dug; what lies there should be looked at.
void name_set_in_zone(Draft& draft, const Post& post) {
  const int zone = draft.no_dig.zone_at(post.at, post.diameter / 2);
  if (zone < 0) return;
  draft.findings.push_back({"setout.set_post_in_zone", Severity::warning, post.name, {{"zone", draft.job.site.zones[zone].id}}});
}

// The least shift one way (+1, -1) that takes both posts of a gate out of every zone: out of one after the other until neither is inside.
Length shift_clear(const std::vector<Blocked>& blocked, Length from, Length to, int way) {
  Length shift;
  for (bool inside = true; inside;) {
    inside = false;
    for (const Length station : {from + shift, to + shift}) {
      const Blocked* zone = blocked_at(blocked, station);
      if (zone == nullptr) continue;
      shift += way > 0 ? zone->to - station : zone->from - station;
      inside = true;
      break;
    }
  }
  return shift;
}

// A gate moves as a whole: names those whose holes would touch a zone, with the least moves that clear both. Gives the posts that were looked at.
std::vector<char> check_gate_holes(Draft& draft) {
  std::vector<char> seen(draft.posts.size(), 0);
  for (std::size_t l = 0; l < draft.marks.size(); ++l) {
    const auto& marks = draft.marks[l];
    for (std::size_t m = 0; m + 1 < marks.size(); ++m) {
      if (marks[m].after != Between::gate) continue;
      const DraftPost& a = draft.posts[marks[m].post];
      const DraftPost& b = draft.posts[marks[m + 1].post];
      if (a.node >= 0 || b.node >= 0 || a.post.set || b.post.set) continue;
      seen[marks[m].post] = seen[marks[m + 1].post] = 1;
      const Length radius = measure::max(a.hole_radius, b.hole_radius);
      int zone = draft.no_dig.zone_at(a.post.at, radius);
      if (zone < 0) zone = draft.no_dig.zone_at(b.post.at, radius);
      if (zone < 0) continue;
      const auto blocked = draft.no_dig.along(draft.network.legs[l].place, radius);
      const Length back = -shift_clear(blocked, marks[m].station, marks[m + 1].station, -1);
      const Length ahead = shift_clear(blocked, marks[m].station, marks[m + 1].station, 1);
      draft.findings.push_back(
          {"setout.no_dig_gate",
           Severity::stop,
           draft.job.site.gates[marks[m].gate].id,
           {{"zone", draft.job.site.zones[zone].id}, {"leg", draft.job.site.legs[l].id}, {"back", value_of(back)}, {"ahead", value_of(ahead)}}});
    }
  }
  return seen;
}

}  // namespace

void place_fixed_stations(Draft& draft) {
  for (std::size_t l = 0; l < draft.marks.size(); ++l) {
    if (draft.network.legs[l].sound) place_fixed_on(draft, static_cast<int>(l));
  }
}

void place_set_posts(Draft& draft) {
  std::map<std::string, int> leg_of;
  const auto& legs = draft.job.site.legs;
  for (std::size_t l = 0; l < legs.size(); ++l) leg_of.emplace(legs[l].id, static_cast<int>(l));
  std::vector<std::vector<int>> facts(legs.size());
  for (std::size_t f = 0; f < draft.job.field.posts.size(); ++f) {
    const job::SetPost& fact = draft.job.field.posts[f];
    const auto leg = leg_of.find(fact.leg);
    if (leg == leg_of.end()) {
      draft.findings.push_back({"setout.no_such_leg", Severity::stop, fact.name, {{"leg", fact.leg}}});
    } else if (draft.network.legs[leg->second].sound) {
      facts[leg->second].push_back(static_cast<int>(f));
    }
  }
  for (std::size_t l = 0; l < legs.size(); ++l) {
    if (draft.network.legs[l].sound) place_facts_on(draft, static_cast<int>(l), facts[l]);
  }
  name_moved(draft);
}

void check_holes(Draft& draft) {
  if (draft.no_dig.empty()) return;
  const std::vector<char> named = check_gate_holes(draft);
  for (std::size_t p = 0; p < draft.posts.size(); ++p) {
    const DraftPost& drafted = draft.posts[p];
    const Post& post = drafted.post;
    if (post.set) name_set_in_zone(draft, post);
    if (named[p] || post.set || post.on.empty()) continue;
    const int zone = draft.no_dig.zone_at(post.at, drafted.hole_radius);
    if (zone < 0) continue;
    const OnLeg& on = post.on.front();
    const auto blocked = draft.no_dig.along(draft.network.legs[on.leg].place, drafted.hole_radius);
    const Blocked* stretch = blocked_at(blocked, on.station);
    const Length back = stretch == nullptr ? Length() : on.station - stretch->from;
    const Length ahead = stretch == nullptr ? Length() : stretch->to - on.station;
    const std::string& leg = draft.job.site.legs[on.leg].id;
    draft.findings.push_back(
        {"setout.no_dig_fixed",
         Severity::stop,
         post.name.empty() ? leg : post.name,
         {{"zone", draft.job.site.zones[zone].id}, {"leg", leg}, {"station", value_of(on.station)}, {"back", value_of(back)}, {"ahead", value_of(ahead)}}});
  }
}

}  // namespace railwright::setout
