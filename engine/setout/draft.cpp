// SPDX-License-Identifier: MIT
#include "engine/setout/draft.h"

#include <algorithm>
#include <cmath>

namespace railwright::setout {
namespace {

// Two arms closer than this leave no room for sleeves, wrench or hoof. Common practice, no source.
constexpr double kTangentThirtyDegrees = 0.57735026918962576;
constexpr std::size_t kMostArmsCompared = 16;
// Set posts stray this many sigma of the setting scatter before anything is said.
constexpr std::int64_t kScatterSigmas = 2;
// Stands in for a pipe that the catalogue does not have; the missing pipe is a finding.
constexpr Length kUnknownDiameter = Length::sixty_fourths(152);

Length usual_stray(const job::Job& job) { return measure::max(job.choices.allowances.scatter * kScatterSigmas, Length::inches(1)); }

Length pipe_diameter(const job::Catalogue& catalogue, const std::string& id) {
  const job::Pipe* pipe = catalogue.pipe(id);
  return pipe == nullptr ? Length() : pipe->diameter;
}

// ASTM F567-07 section 5: hole of 4 post diameters up to 4 in, 3 above.
Length hole_radius_of(const job::Fence& fence, Length diameter) {
  if (fence.setting == job::Setting::driven) return diameter / 2;
  if (fence.hole > Length()) return fence.hole / 2;
  return diameter * (diameter <= Length::inches(4) ? 4 : 3) / 2;
}

PostSize size_of(const Draft& draft, const job::Fence& fence, const std::string& wanted, const PostSize& otherwise) {
  if (wanted.empty()) return otherwise;
  Length diameter = pipe_diameter(draft.catalogue, wanted);
  if (diameter <= Length()) {
    draft.findings.push_back({"setout.no_pipe", Severity::stop, fence.id, {{"pipe", wanted}}});
    diameter = kUnknownDiameter;
  }
  return {wanted, diameter, hole_radius_of(fence, diameter)};
}

FenceSizes sizes_of(const Draft& draft, const job::Fence& fence, Length limit) {
  FenceSizes sizes;
  const std::string& line = fence.line_pipe.empty() ? fence.rail_pipe : fence.line_pipe;
  sizes.line = size_of(draft, fence, line, {"", kUnknownDiameter, hole_radius_of(fence, kUnknownDiameter)});
  sizes.strong = size_of(draft, fence, fence.strong_pipe, sizes.line);
  sizes.gate = size_of(draft, fence, fence.gate_pipe, sizes.strong);
  sizes.cap = limit > Length() ? measure::min(limit, fence.spacing.cap) : fence.spacing.cap;
  return sizes;
}

void find_fences(Draft& draft, const Limits& limits) {
  const auto& fences = draft.job.choices.fences;
  std::map<std::string, int> index;
  for (std::size_t f = 0; f < fences.size(); ++f) {
    index.emplace(fences[f].id, static_cast<int>(f));
    draft.sizes.push_back(sizes_of(draft, fences[f], f < limits.pitch_cap.size() ? limits.pitch_cap[f] : Length()));
  }
  for (std::size_t l = 0; l < draft.job.site.legs.size(); ++l) {
    const job::Leg& leg = draft.job.site.legs[l];
    const auto found = index.find(leg.fence);
    draft.fence_of.push_back(found == index.end() ? -1 : found->second);
    if (found != index.end()) continue;
    draft.findings.push_back({"setout.no_such_fence", Severity::stop, leg.id, {{"fence", leg.fence}}});
    draft.network.legs[l].sound = false;
  }
}

PostKind kind_of(const Node& node) {
  if (node.arms.size() == 1) return PostKind::end;
  if (node.arms.size() == 3) return PostKind::tee;
  if (node.arms.size() > 3) return PostKind::cross;
  const Vec2 in = -node.arms[0].away, out = node.arms[1].away;
  return straight_on(in, out) ? PostKind::fixed : PostKind::corner;
}

void name_sharp_corners(const Draft& draft, const Node& node, const std::string& name) {
  if (node.arms.size() > kMostArmsCompared) return;
  for (std::size_t i = 0; i < node.arms.size(); ++i) {
    for (std::size_t j = i + 1; j < node.arms.size(); ++j) {
      const Vec2 a = node.arms[i].away, b = node.arms[j].away;
      const double along = measure::dot(a, b);
      if (along <= 0 || std::fabs(measure::cross(a, b)) >= kTangentThirtyDegrees * along) continue;
      draft.findings.push_back(
          {"setout.sharp_corner",
           Severity::warning,
           name,
           {{"angle", AngleValue{turn_deg(a, b)}}, {"leg", draft.job.site.legs[node.arms[i].leg].id}, {"other", draft.job.site.legs[node.arms[j].leg].id}}});
    }
  }
}

// Tallest fence of the node's legs, the first where several are as tall.
int tallest_fence(const Draft& draft, const Node& node) {
  int best = -1;
  for (const Arm& arm : node.arms) {
    const int f = draft.fence_of[arm.leg];
    const auto& fences = draft.job.choices.fences;
    if (best < 0 || fences[f].height > fences[best].height || (fences[f].height == fences[best].height && f < best)) best = f;
  }
  return best;
}

DraftPost post_of_node(const Draft& draft, int n) {
  const Node& node = draft.network.nodes[n];
  DraftPost drafted;
  drafted.node = n;
  Post& post = drafted.post;
  post.name = draft.job.site.points[node.point].id;
  post.at = node.at;
  post.kind = kind_of(node);
  post.fence = tallest_fence(draft, node);
  if (post.kind == PostKind::corner) {
    post.deflection_deg = turn_deg(-node.arms[0].away, node.arms[1].away);
  }
  for (const Arm& arm : node.arms) {
    const bool strong = post.kind != PostKind::fixed || braced_at_node(draft, n, arm.leg, arm.ahead);
    const FenceSizes& sizes = sizes_of_leg(draft, arm.leg);
    strengthen(drafted, strong ? sizes.strong : sizes.line);
  }
  name_sharp_corners(draft, node, post.name);
  return drafted;
}

// Gives the nodes' posts to the marks of their legs.
void mark_nodes(Draft& draft, const std::vector<int>& post_of) {
  draft.marks.resize(draft.network.legs.size());
  for (std::size_t l = 0; l < draft.network.legs.size(); ++l) {
    if (!draft.network.legs[l].sound) continue;
    for (const NodeOnLeg& on : draft.network.legs[l].nodes) {
      const int p = post_of[on.node];
      if (p < 0) continue;
      draft.posts[p].post.on.push_back({static_cast<int>(l), on.station});
      draft.marks[l].push_back({on.station, p, on.doubled_after ? Between::nothing : Between::fence, -1});
    }
  }
}

// Arms of legs without a fence are no fence.
void drop_unsound_arms(Draft& draft) {
  for (Node& node : draft.network.nodes) {
    node.arms.erase(std::remove_if(node.arms.begin(), node.arms.end(), [&](const Arm& arm) { return !draft.network.legs[arm.leg].sound; }), node.arms.end());
  }
}

void adopt_node_facts(Draft& draft) {
  for (std::size_t p = 0; p < draft.posts.size(); ++p) {
    const job::SetPost* fact = free_fact(draft, draft.posts[p].post.name);
    if (fact == nullptr) continue;
    for (const OnLeg& on : draft.posts[p].post.on) {
      if (draft.job.site.legs[on.leg].id != fact->leg) continue;
      adopt_fact(draft, static_cast<int>(p), on.leg, *fact);
      break;
    }
  }
}

// The zones with a shape each. A stretch of a leg is the line of that leg between its stations, as far as the leg goes.
std::vector<job::Zone> zones_of(const job::Site& site, const Network& network, Findings& findings) {
  std::vector<job::Zone> zones = site.zones;
  for (job::Zone& zone : zones) {
    const auto leg = std::find_if(site.legs.begin(), site.legs.end(), [&](const job::Leg& one) { return one.id == zone.leg; });
    if (zone.leg.empty() || leg == site.legs.end()) continue;
    const NetworkLeg& line = network.legs[static_cast<std::size_t>(leg - site.legs.begin())];
    if (!line.sound) continue;
    if (zone.from > line.place.length || zone.to < Length()) {
      findings.push_back({"setout.zone_off_leg", Severity::warning, zone.id, {{"leg", zone.leg}, {"length", value_of(line.place.length)}}});
      continue;
    }
    const Length from = measure::max(zone.from, Length()), to = measure::min(zone.to, line.place.length);
    for (const Vec2 at : line.place.pieces_between(from, to)) zone.shape.emplace_back(Length::from_metres(at.x), Length::from_metres(at.y));
  }
  return zones;
}

}  // namespace

const job::Fence& fence_of_leg(const Draft& draft, int leg) { return draft.job.choices.fences[draft.fence_of[leg]]; }

const FenceSizes& sizes_of_leg(const Draft& draft, int leg) { return draft.sizes[draft.fence_of[leg]]; }

Vec2 place_on(const Draft& draft, int leg, Length station, Length offset_right) { return draft.network.legs[leg].place.at(station, offset_right); }

int add_post(Draft& draft, PostKind kind, int leg, Length station, const PostSize& size) {
  DraftPost drafted;
  drafted.post.kind = kind;
  drafted.post.at = place_on(draft, leg, station);
  drafted.post.on.push_back({leg, station});
  drafted.post.fence = draft.fence_of[leg];
  strengthen(drafted, size);
  draft.posts.push_back(std::move(drafted));
  return static_cast<int>(draft.posts.size()) - 1;
}

void strengthen(DraftPost& post, const PostSize& size) {
  if (size.diameter <= post.post.diameter) return;
  post.post.pipe = size.pipe;
  post.post.diameter = size.diameter;
  post.hole_radius = measure::max(post.hole_radius, size.hole_radius);
}

const job::SetPost* free_fact(const Draft& draft, const std::string& name) {
  const auto found = draft.facts.find(name);
  if (found == draft.facts.end() || draft.taken[found->second]) return nullptr;
  return &draft.job.field.posts[found->second];
}

namespace {

// A circle's first post is also its last: of a station and its like a whole round on, the one nearer to where the post was.
Length on_this_round(Length station, Length before, Length round) {
  while (station - before > round / 2) station = station - round;
  while (before - station > round / 2) station = station + round;
  return station;
}

}  // namespace

void adopt_fact(Draft& draft, int post, int leg, const job::SetPost& fact) {
  draft.taken[&fact - draft.job.field.posts.data()] = 1;
  Post& p = draft.posts[post].post;
  p.name = fact.name;
  p.set = true;
  p.at = place_on(draft, leg, fact.station, fact.offset);
  if (fact.diameter) p.diameter = *fact.diameter;
  for (OnLeg& on : p.on) {
    const LegPlace& place = draft.network.legs[on.leg].place;
    const Length before = on.station;
    on.station = on.leg == leg ? fact.station : place.station_of(p.at);
    if (place.closed()) on.station = on_this_round(on.station, before, place.length);
    for (Mark& mark : draft.marks[on.leg]) {
      if (mark.post == post && (!place.closed() || mark.station == before)) mark.station = on.station;
    }
  }
  if (measure::abs(fact.offset) <= usual_stray(draft.job)) return;
  draft.findings.push_back(
      {"setout.set_post_off_line",
       Severity::warning,
       fact.name,
       {{"leg", fact.leg}, {"offset", value_of(measure::abs(fact.offset))}, {"side", std::string(fact.offset < Length() ? "left" : "right")}}});
}

Length set_tolerance(const Draft& draft, const Mark& from, const Mark& to) {
  const bool set = draft.posts[from.post].post.set || draft.posts[to.post].post.set;
  return set ? usual_stray(draft.job) : Length();
}

int stretch_at(const std::vector<Mark>& marks, Length station) {
  const auto after = std::upper_bound(marks.begin(), marks.end(), station, [](Length s, const Mark& m) { return s < m.station; });
  return static_cast<int>(after - marks.begin()) - 1;
}

bool is_pulled(const job::Fence& fence) {
  return fence.kind == job::FenceKind::mesh || fence.kind == job::FenceKind::strained || fence.kind == job::FenceKind::wire;
}

bool braced_at_node(const Draft& draft, int node, int leg, bool ahead) {
  const job::Fence& fence = fence_of_leg(draft, leg);
  if (!is_pulled(fence)) return false;
  const auto& arms = draft.network.nodes[node].arms;
  const auto own = std::find_if(arms.begin(), arms.end(), [&](const Arm& arm) { return arm.leg == leg && arm.ahead == ahead; });
  if (own == arms.end()) return false;
  const Vec2 in = -own->away;
  double least_turn = 360;
  for (const Arm& other : arms) {
    if (other.leg == leg && other.ahead == ahead) continue;
    if (is_pulled(fence_of_leg(draft, other.leg))) {
      least_turn = std::min(least_turn, turn_deg(in, other.away));
    }
  }
  if (least_turn < fence.braces.corner_from_deg) return false;
  const bool turns = arms.size() == 2 && least_turn < 360;
  return turns ? fence.braces.corners : fence.braces.ends;
}

Draft draft_nodes(const job::Job& job, const job::Catalogue& catalogue, const Limits& limits, Findings& findings) {
  Network network = join_legs(job.site, findings);
  std::vector<job::Zone> zones = zones_of(job.site, network, findings);
  NoDig no_dig(zones);
  Draft draft{job, catalogue, findings, std::move(network), std::move(zones), std::move(no_dig), {}, {}, {}, {}, {}, {}};
  find_fences(draft, limits);
  drop_unsound_arms(draft);
  for (std::size_t i = 0; i < job.field.posts.size(); ++i) draft.facts.emplace(job.field.posts[i].name, static_cast<int>(i));
  draft.taken.assign(job.field.posts.size(), 0);
  std::vector<int> post_of(draft.network.nodes.size(), -1);
  for (std::size_t n = 0; n < post_of.size(); ++n) {
    if (draft.network.nodes[n].arms.empty()) continue;
    post_of[n] = static_cast<int>(draft.posts.size());
    draft.posts.push_back(post_of_node(draft, static_cast<int>(n)));
  }
  mark_nodes(draft, post_of);
  adopt_node_facts(draft);
  return draft;
}

}  // namespace railwright::setout
