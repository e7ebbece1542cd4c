// SPDX-License-Identifier: MIT
#include <algorithm>
#include <utility>

#include "engine/setout/divide.h"
#include "engine/setout/draft.h"
#include "engine/setout/layout.h"
#include "engine/setout/names.h"

// Outline
//  1. draft_nodes: legs joined, a post at every node;
//  2. gates, fixed stations, set posts and braces add their fixed posts;
//  3. leg by leg the stretches between fixed posts become runs: line posts by rule, or where they were issued;
//  4. posts and bays are named leg by leg.
namespace railwright::setout {
namespace {

constexpr std::int64_t kMostPosts = 200'000;
// Issued posts of a run are kept while every bay keeps this clear gap.
constexpr Length kLeastGap = Length::inches(6);
// Kept stakes whose clear gaps differ by more than this are named.
constexpr Length kUneven = Length::inches(2);
// A gate's opening may be this much under or over what its leaf needs.
constexpr Length kOpeningUnder = Length::sixty_fourths(8), kOpeningOver = Length::inches(1);

Length half(Length diameter) { return diameter / 2; }

// About how many bays there will be, so that the lists need not grow on the way.
std::size_t about_bays(const Draft& draft) {
  double bays = 0;
  for (std::size_t l = 0; l < draft.marks.size(); ++l) {
    if (!draft.network.legs[l].sound) continue;
    const double cap = std::max(0.3, sizes_of_leg(draft, static_cast<int>(l)).cap.metres());
    bays += draft.network.legs[l].place.length.metres() / cap + static_cast<double>(draft.marks[l].size() + 1);
  }
  return static_cast<std::size_t>(std::min(bays * 1.1, static_cast<double>(kMostPosts)));
}

class Assembler {
 public:
  Assembler(Draft& draft, const Limits& limits, Namer& namer, Layout& layout)
      : draft_(draft), limits_(limits), namer_(namer), layout_(layout), placed_(draft.posts.size(), -1) {}
  void assemble_leg(int leg);
  // Names runs and fixed posts, also in the findings about them.
  void finish_names();
  std::vector<int> posts_of_nodes() const;

 private:
  int place(int drafted);
  void add_bay(int leg, BayKind kind, int run, int from, int to, Length start, Length end);
  void add_gate(int leg, const Mark& from, const Mark& to);
  void add_run(int leg, const Mark& from, const Mark& to);
  std::vector<Length> line_stations(int leg, const Mark& from, const Mark& to);
  RunRule rule_of(int leg, const Mark& from, const Mark& to) const;
  void follow_arc(int leg, RunRule& rule) const;
  void check_sides(int leg);
  bool keeps_issued(const Stretch& run, const RunRule& rule, const std::vector<Length>& issued) const;
  std::vector<Length> issued_or(int leg, const Stretch& run, const RunRule& rule, std::vector<Length> planned);
  void name_faults(int leg, const Stretch& run, const RunRule& rule, const Division& division);
  void name_too_wide(int leg, const Stretch& run, const RunRule& rule, const TooWide& wide);
  void name_uneven(const Stretch& run, const RunRule& rule, const std::vector<Length>& line);
  void report(const char* code, Severity severity, Values values) {
    about_run_.emplace_back(draft_.findings.size(), layout_.runs.size());
    draft_.findings.push_back({code, severity, {}, std::move(values)});
  }

  Draft& draft_;
  const Limits& limits_;
  Namer& namer_;
  Layout& layout_;
  std::vector<int> placed_;                                     // index in the layout per drafted post
  std::vector<Blocked> blocked_;                                // of line posts on the current leg
  std::vector<std::pair<std::size_t, std::size_t>> about_run_;  // finding, run: runs get names at the end
};

int Assembler::place(int drafted) {
  if (placed_[drafted] >= 0) return placed_[drafted];
  placed_[drafted] = static_cast<int>(layout_.posts.size());
  layout_.posts.push_back(draft_.posts[drafted].post);
  return placed_[drafted];
}

void Assembler::add_bay(int leg, BayKind kind, int run, int from, int to, Length start, Length end) {
  Bay bay;
  bay.kind = kind;
  bay.leg = leg;
  bay.run = run;
  bay.from = from;
  bay.to = to;
  bay.start = start;
  bay.end = end;
  bay.pitch = draft_.network.legs[leg].place.chord_of(end - start);
  bay.gap = bay.pitch - half(layout_.posts[from].diameter) - half(layout_.posts[to].diameter);
  bay.fence = draft_.fence_of[leg];
  layout_.bays.push_back(std::move(bay));
}

void Assembler::add_gate(int leg, const Mark& from, const Mark& to) {
  const job::Gate& gate = draft_.job.site.gates[from.gate];
  add_bay(leg, BayKind::gate, -1, place(from.post), place(to.post), from.station, to.station);
  Bay& bay = layout_.bays.back();
  bay.gate = gate.id;
  const Length needed = opening_width(gate);
  if (bay.gap >= needed - kOpeningUnder && bay.gap <= needed + kOpeningOver) return;
  draft_.findings.push_back({"setout.gate_opening", Severity::warning, gate.id, {{"needed", value_of(needed)}, {"opening", value_of(bay.gap)}}});
}

RunRule Assembler::rule_of(int leg, const Mark& from, const Mark& to) const {
  const job::Fence& fence = fence_of_leg(draft_, leg);
  const FenceSizes& sizes = sizes_of_leg(draft_, leg);
  RunRule rule;
  rule.line_diameter = sizes.line.diameter;
  rule.cap = sizes.cap > Length() ? sizes.cap + set_tolerance(draft_, from, to) : sizes.cap;
  rule.mode = fence.spacing.mode;
  rule.pitch = fence.spacing.pitch;
  rule.list = fence.spacing.list;
  rule.panel = fence.spacing.panel;
  if (fence.kind == job::FenceKind::panels && rule.panel <= Length()) {
    const job::Supply* panel = draft_.catalogue.supply(fence.infill.supply);
    if (panel != nullptr) rule.panel = panel->length;
  }
  if (draft_.network.legs[leg].place.arc) follow_arc(leg, rule);
  const std::size_t run = layout_.runs.size();
  if (rule.mode == job::SpacingMode::best && run < limits_.forced_bays.size()) rule.forced = limits_.forced_bays[run];
  rule.most_bays = std::max<std::int64_t>(1, kMostPosts - static_cast<std::int64_t>(layout_.posts.size()));
  return rule;
}

// Equal chords are equal arcs: every length of the rule is turned into the arc that its chord spans. A cap of so many sides is the smaller one.
void Assembler::follow_arc(int leg, RunRule& rule) const {
  const LegPlace& place = draft_.network.legs[leg].place;
  rule.cap = place.apart_by(rule.cap);
  rule.pitch = place.apart_by(rule.pitch);
  for (Length& pitch : rule.list) pitch = place.apart_by(pitch);
  if (rule.panel > Length()) {
    const std::int64_t parts = std::max<std::int64_t>(1, (rule.panel.nm() - 1) / std::max<std::int64_t>(1, rule.cap.nm()) + 1);
    rule.panel = place.apart_by(rule.panel / parts) * parts;
  }
  const int sides = draft_.job.site.legs[leg].arc->sides;
  if (sides > 0) rule.cap = measure::min(rule.cap, Length::from_nm((place.length.nm() + sides - 1) / sides));
}

bool Assembler::keeps_issued(const Stretch& run, const RunRule& rule, const std::vector<Length>& issued) const {
  Length before = run.start, before_half = half(run.from_diameter);
  for (std::size_t i = 0; i <= issued.size(); ++i) {
    const bool last = i == issued.size();
    const Length at = last ? run.end : issued[i];
    const Length at_half = half(last ? run.to_diameter : rule.line_diameter);
    if (at - before > rule.cap || at - before - before_half - at_half < kLeastGap) return false;
    if (!last && blocked_at(blocked_, at) != nullptr) return false;
    before = at;
    before_half = at_half;
  }
  return true;
}

void Assembler::name_uneven(const Stretch& run, const RunRule& rule, const std::vector<Length>& line) {
  Length narrowest = Length::from_nm(Length::kLargestNm), widest;
  Length before = run.start + half(run.from_diameter);
  for (std::size_t i = 0; i <= line.size(); ++i) {
    const bool last = i == line.size();
    const Length gap = last ? run.end - half(run.to_diameter) - before : line[i] - half(rule.line_diameter) - before;
    narrowest = measure::min(narrowest, gap);
    widest = measure::max(widest, gap);
    if (!last) before = line[i] + half(rule.line_diameter);
  }
  if (widest - narrowest <= kUneven) return;
  report("setout.issued_kept", Severity::note, {{"narrowest", value_of(narrowest)}, {"widest", value_of(widest)}});
}

// Stakes already issued stay where they are as long as they are as many as the rule wants and keep its limits.
std::vector<Length> Assembler::issued_or(int leg, const Stretch& run, const RunRule& rule, std::vector<Length> planned) {
  std::vector<Length> issued = namer_.issued_between(draft_.job.site.legs[leg].id, run.start, run.end);
  if (issued.empty()) return planned;
  if (issued.size() == planned.size() && keeps_issued(run, rule, issued)) {
    const bool equal = rule.mode == job::SpacingMode::equal || rule.mode == job::SpacingMode::best;
    if (equal && rule.panel <= Length()) name_uneven(run, rule, issued);
    return issued;
  }
  report("setout.issued_moved", Severity::warning, {{"count", static_cast<std::int64_t>(issued.size())}});
  return planned;
}

void Assembler::name_faults(int leg, const Stretch& run, const RunRule& rule, const Division& division) {
  const LegPlace& place = draft_.network.legs[leg].place;
  const Length length = run.end - run.start;
  const auto cap = value_of(place.chord_of(rule.cap));
  if (division.too_short) report("setout.run_too_short", Severity::stop, {{"length", value_of(length)}});
  if (division.too_many) report("setout.too_many_posts", Severity::stop, {{"most", kMostPosts}});
  if (division.cap_too_small) report("setout.cap_too_small", Severity::stop, {{"cap", cap}});
  if (division.pitch_over_cap) report("setout.pitch_over_cap", Severity::warning, {{"cap", cap}});
  if (division.panel_mismatch) {
    report("setout.panel_mismatch", Severity::warning, {{"pitch", value_of(place.chord_of(rule.pitch))}, {"panel", value_of(rule.panel)}});
  }
  if (division.one_bay_less_cap > Length()) {
    report("setout.one_bay_less", Severity::note, {{"cap", cap}, {"pitch", value_of(place.chord_of(division.one_bay_less_cap))}});
  }
  for (const TooWide& wide : division.too_wide) name_too_wide(leg, run, rule, wide);
}

// Says which pitch would span the zones, and where a fixed post only has to come nearer to them, which one and by how much.
void Assembler::name_too_wide(int leg, const Stretch& run, const RunRule& rule, const TooWide& wide) {
  const LegPlace& place = draft_.network.legs[leg].place;
  std::string zones;
  for (const int zone : draft_.no_dig.zones_between(place, sizes_of_leg(draft_, leg).line.hole_radius, wide.from, wide.to)) {
    zones += (zones.empty() ? "" : ", ") + draft_.job.site.zones[zone].id;
  }
  const Length over = wide.to - wide.from - rule.cap;
  const Blocked* first = blocked_after(blocked_, wide.from);
  const Blocked* last = first;
  for (const Blocked& b : blocked_) {
    if (b.from < wide.to && b.to > wide.from) last = &b;
  }
  Values values{{"zone", zones},
                {"from", value_of(wide.from)},
                {"to", value_of(wide.to)},
                {"pitch", value_of(place.chord_of(wide.to - wide.from))},
                {"cap", value_of(place.chord_of(rule.cap))}};
  const bool start = wide.from == run.start && first != nullptr && first->from - run.start >= over;
  const bool end = wide.to == run.end && last != nullptr && run.end - last->to >= over;
  if (start || end) values.emplace_back("by", value_of(over));
  report(start ? "setout.no_dig_first" : end ? "setout.no_dig_last" : "setout.no_dig", Severity::stop, std::move(values));
}

std::vector<Length> Assembler::line_stations(int leg, const Mark& from, const Mark& to) {
  const Post& a = draft_.posts[from.post].post;
  const Post& b = draft_.posts[to.post].post;
  const RunRule rule = rule_of(leg, from, to);
  const LegPlace& place = draft_.network.legs[leg].place;
  Stretch run{from.station, to.station, a.diameter, b.diameter};
  if (place.arc) run.from_diameter = run.to_diameter = rule.line_diameter;  // equal chords, whatever the end posts
  Division division = divide(run, rule, blocked_);
  name_faults(leg, run, rule, division);
  return issued_or(leg, run, rule, std::move(division.line));
}

void Assembler::add_run(int leg, const Mark& from, const Mark& to) {
  const bool brace = from.after == Between::brace;
  std::vector<Length> line;
  if (!brace) line = line_stations(leg, from, to);
  Run run;
  run.leg = leg;
  run.fence = draft_.fence_of[leg];
  run.start = from.station;
  run.end = to.station;
  run.from = place(from.post);
  run.first_bay = static_cast<int>(layout_.bays.size());
  run.bay_count = static_cast<int>(line.size()) + 1;
  const int index = static_cast<int>(layout_.runs.size());
  const PostSize& size = sizes_of_leg(draft_, leg).line;
  int before = run.from;
  Length start_of_bay = from.station;
  for (const Length station : line) {
    Post post;
    post.at = place_on(draft_, leg, station);
    post.on.push_back({leg, station});
    post.pipe = size.pipe;
    post.diameter = size.diameter;
    post.fence = run.fence;
    const int here = static_cast<int>(layout_.posts.size());
    layout_.posts.push_back(std::move(post));
    add_bay(leg, BayKind::fence, index, before, here, start_of_bay, station);
    before = here;
    start_of_bay = station;
  }
  run.to = place(to.post);
  add_bay(leg, brace ? BayKind::brace : BayKind::fence, index, before, run.to, start_of_bay, to.station);
  layout_.runs.push_back(std::move(run));
}

// So many sides cannot be had where one would pass the cap.
void Assembler::check_sides(int leg) {
  const auto& arc = draft_.job.site.legs[leg].arc;
  const LegPlace& place = draft_.network.legs[leg].place;
  if (!arc || !place.arc || arc->sides == 0) return;
  const Length side = place.chord_of(place.length / arc->sides), cap = sizes_of_leg(draft_, leg).cap;
  if (side <= cap || cap <= Length()) return;
  const std::int64_t needed = (place.length.nm() - 1) / std::max<std::int64_t>(1, place.apart_by(cap).nm()) + 1;
  draft_.findings.push_back({"setout.arc_sides",
                             Severity::warning,
                             draft_.job.site.legs[leg].id,
                             {{"sides", std::int64_t{arc->sides}}, {"side", value_of(side)}, {"cap", value_of(cap)}, {"needed", needed}}});
}

void Assembler::assemble_leg(int leg) {
  check_sides(leg);
  const std::vector<Mark>& marks = draft_.marks[leg];
  const std::string& id = draft_.job.site.legs[leg].id;
  const std::size_t first_post = layout_.posts.size(), first_bay = layout_.bays.size();
  if (!marks.empty() && !draft_.no_dig.empty()) {
    blocked_ = draft_.no_dig.along(draft_.network.legs[leg].place, sizes_of_leg(draft_, leg).line.hole_radius);
  }
  for (std::size_t m = 0; m < marks.size(); ++m) {
    place(marks[m].post);
    if (m + 1 == marks.size() || marks[m].after == Between::nothing) continue;
    if (marks[m].after == Between::gate)
      add_gate(leg, marks[m], marks[m + 1]);
    else
      add_run(leg, marks[m], marks[m + 1]);
  }
  namer_.name_posts(id, first_post, layout_.posts);
  namer_.name_bays(id, first_bay, layout_.bays, layout_.posts);
}

void Assembler::finish_names() {
  for (Run& run : layout_.runs) run.name = layout_.posts[run.from].name + "-" + layout_.posts[run.to].name;
  for (const auto& [finding, run] : about_run_) draft_.findings[finding].where = layout_.runs[run].name;
  for (std::size_t p = 0; p < placed_.size(); ++p) {
    if (placed_[p] >= 0) draft_.posts[p].post.name = layout_.posts[placed_[p]].name;
  }
}

std::vector<int> Assembler::posts_of_nodes() const {
  std::vector<int> post_of(draft_.network.nodes.size(), -1);
  for (std::size_t p = 0; p < placed_.size(); ++p) {
    if (draft_.posts[p].node >= 0) post_of[draft_.posts[p].node] = placed_[p];
  }
  return post_of;
}

// How far the rails turn at the posts of curves.
void turn_posts(Layout& layout) {
  std::vector<std::vector<Vec2>> away(layout.posts.size());  // of the bays that meet there
  std::vector<char> curved(layout.posts.size(), 0);
  for (const Bay& bay : layout.bays) {
    const Vec2 along = direction_of(layout, bay);
    away[bay.from].push_back(along);
    away[bay.to].push_back(-along);
    if (layout.legs[bay.leg].arc) curved[bay.from] = curved[bay.to] = 1;
  }
  for (std::size_t p = 0; p < away.size(); ++p) {
    if (curved[p] && away[p].size() == 2) layout.posts[p].deflection_deg = turn_deg(-away[p][0], away[p][1]);
  }
}

void finish(const Draft& draft, const Namer& namer, Layout& layout) {
  const auto& legs = draft.job.site.legs;
  if (draft.job.issued.posts.empty()) layout.new_posts.reserve(layout.posts.size());
  if (draft.job.issued.bays.empty()) layout.new_bays.reserve(layout.bays.size());
  for (Post& post : layout.posts) {
    const OnLeg& on = post.on.front();
    const bool known = static_cast<std::size_t>(on.leg) < layout.profiles.size() && !layout.profiles[on.leg].points.empty();
    if (known) post.ground = layout.profiles[on.leg].height_at(on.station.metres());
    if (!namer.post_issued(post.name)) layout.new_posts.push_back({post.name, legs[on.leg].id, on.station, false});
  }
  for (const Bay& bay : layout.bays) {
    if (namer.bay_issued(bay.name)) continue;
    layout.new_bays.push_back({bay.name, layout.posts[bay.from].name, layout.posts[bay.to].name, false});
  }
}

}  // namespace

Layout set_out(const job::Job& job, const job::Catalogue& catalogue, const Limits& limits, std::vector<ground::Profile> profiles, Findings& findings) {
  Draft draft = draft_nodes(job, catalogue, limits, findings);
  place_gates(draft);
  place_fixed_stations(draft);
  place_set_posts(draft);
  place_braces(draft);
  Layout layout;
  layout.profiles = std::move(profiles);
  for (const NetworkLeg& leg : draft.network.legs) layout.legs.push_back(leg.place);
  layout.zones = draft.zones;
  Namer namer(job);
  const std::size_t bays = about_bays(draft);
  layout.posts.reserve(bays);
  layout.bays.reserve(bays);
  Assembler assembler(draft, limits, namer, layout);
  for (std::size_t l = 0; l < draft.network.legs.size(); ++l) {
    if (draft.network.legs[l].sound) assembler.assemble_leg(static_cast<int>(l));
  }
  assembler.finish_names();
  check_holes(draft);
  check_swings(draft, layout);
  check_zones(draft);
  const bool curves = std::any_of(layout.legs.begin(), layout.legs.end(), [](const LegPlace& leg) { return leg.arc.has_value(); });
  if (curves) turn_posts(layout);
  prove_corners(draft, assembler.posts_of_nodes(), layout);
  finish(draft, namer, layout);
  return layout;
}

}  // namespace railwright::setout
