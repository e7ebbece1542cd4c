// SPDX-License-Identifier: MIT
#include "sheets/site_plan.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "sheets/type.h"
#include "sheets/zones.h"

// Outline: the scale follows from the extent. Where neighbouring posts come closer than a name needs, the first sheet is an overview with the fixed posts,
// and windows at a larger scale follow, only where posts stand.
namespace railwright::sheets {
namespace {

using setout::BayKind;
using setout::PostKind;

constexpr double kEveryNamePitch = 5.6;  // mm between posts from which every one can be named
constexpr double kFoot = 16;             // below the drawing: scale bar and legend
constexpr int kMostWindows = 60;
constexpr std::size_t kMostParts = 4;  // of a run that are written out one by one

bool is_line_post(const setout::Post& p) { return p.kind == PostKind::line; }

Spot outward(const View& view, const Extent& e, setout::Vec2 p) {
  const Spot d = view.towards(p.x - (e.west + e.east) / 2, p.y - (e.south + e.north) / 2);
  const double n = std::sqrt(d.x * d.x + d.y * d.y);
  return n < 1e-6 ? Spot{0, -1} : Spot{d.x / n, d.y / n};
}

// A leaf drawn standing open at a right angle, and the quarter circle its end sweeps.
void draw_leaf(Svg& svg, const View& view, Labels& labels, setout::Vec2 hinge, setout::Vec2 closed, setout::Vec2 open) {
  const auto reach = [&](setout::Vec2 d) { return view.at(hinge.x + d.x, hinge.y + d.y); };
  const Spot h = view.at(hinge), shut = reach(closed), wide = reach(open);
  const double radius = view.scale.paper(std::sqrt(closed.x * closed.x + closed.y * closed.y));
  const bool clockwise = (shut.x - h.x) * (wide.y - h.y) - (shut.y - h.y) * (wide.x - h.x) > 0;
  svg.path(move_to(shut) + arc_to(radius, false, clockwise, wide), {pen::hair, ink::grey, "1.2 0.9"});
  svg.line(h, wide, {pen::heavy, ink::primer});
  labels.keep_clear(h, wide);
  const Spot mid{h.x + (shut.x - h.x + wide.x - h.x) * 0.7071, h.y + (shut.y - h.y + wide.y - h.y) * 0.7071};
  labels.keep_clear(shut, mid);
  labels.keep_clear(mid, wide);
}

const job::Gate* gate_of(const Pack& pack, const std::string& id) {
  for (const auto& g : pack.job.site.gates)
    if (g.id == id) return &g;
  return nullptr;
}

void draw_gate(Svg& svg, const Pack& pack, const View& view, Labels& labels, const setout::Bay& bay) {
  const auto* gate = gate_of(pack, bay.gate);
  if (!gate) return;
  for (const auto& leaf : setout::leaves_of(pack.plan.layout, *gate, bay))
    draw_leaf(svg, view, labels, pack.plan.layout.posts[static_cast<std::size_t>(leaf.hinge)].at, leaf.closed, leaf.open);
}

void draw_post(Svg& svg, const View& view, const setout::Post& post) {
  const double least = is_line_post(post) ? 0.65 : 1.0;
  const double radius = std::max(least, view.scale.paper(post.diameter.metres() / 2));
  svg.circle(view.at(post.at), radius, {pen::thin}, post.set ? ink::black : "#ffffff");
}

void draw_fence(Svg& svg, const Pack& pack, const View& view, Labels& labels) {
  const auto& layout = pack.plan.layout;
  for (const auto& bay : layout.bays) {
    const Spot a = view.at(layout.posts[static_cast<std::size_t>(bay.from)].at), b = view.at(layout.posts[static_cast<std::size_t>(bay.to)].at);
    labels.keep_clear(a, b);
    if (bay.kind == BayKind::gate) continue;
    svg.line(a, b, {bay.kind == BayKind::brace ? pen::heavy : pen::ground});
  }
  for (const auto& bay : layout.bays)
    if (bay.kind == BayKind::gate) draw_gate(svg, pack, view, labels, bay);
  for (const auto& post : layout.posts) {
    draw_post(svg, view, post);
    const Spot at = view.at(post.at);
    labels.keep_clear(Box{at.x - 1, at.y - 1, at.x + 1, at.y + 1});
  }
}

bool inside(const Box& box, Spot p) { return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1; }

std::vector<std::string> name_posts(Svg& svg, const Pack& pack, const View& view, Naming naming, Labels& labels) {
  const Extent extent = extent_of(pack);
  std::vector<std::string> nameless;
  for (const bool fixed : {true, false}) {
    if (!fixed && naming != Naming::all) break;
    for (const auto& post : pack.plan.layout.posts) {
      const Spot at = view.at(post.at);
      if (is_line_post(post) == fixed || !inside(view.box, at)) continue;
      const Type type{kLeastType, fixed, Anchor::start, ink::black};
      if (!labels.draw(svg, at, shorten_name(post.name, 30, kLeastType, fixed), type, outward(view, extent, post.at))) nameless.push_back(post.name);
    }
  }
  return nameless;
}

// What a tape shows of a run's pitches, bays in a row that show the same taken together: "1 × 7' 6", 10 × 7' 5", 1 × 7' 6"".
std::vector<std::pair<int, std::string>> pitches_of(const Pack& pack, const setout::Run& run) {
  std::vector<std::pair<int, std::string>> parts;
  for (int b = run.first_bay; b < run.first_bay + run.bay_count; ++b) {
    const std::string pitch = pack.shown.tape(pack.plan.layout.bays[static_cast<std::size_t>(b)].pitch);
    if (parts.empty() || parts.back().second != pitch) parts.emplace_back(0, pitch);
    ++parts.back().first;
  }
  return parts;
}

// The words for a run, longest first: every pitch in its place, the least and the largest, the name alone.
std::vector<std::string> words_for_run(const Pack& pack, const setout::Run& run) {
  const std::string name = shorten_name(run.name, 40, kLeastType), bays = std::to_string(run.bay_count);
  const auto parts = pitches_of(pack, run);
  if (parts.size() == 1) return {pack.say("plan.run", {{"run", name}, {"bays", bays}, {"pitch", parts.front().second}}), name};
  std::vector<std::string> words;
  if (parts.size() <= kMostParts) {
    std::string list;
    for (const auto& [count, pitch] : parts)
      list += (list.empty() ? "" : ", ") + pack.say("plan.run_part", {{"bays", std::to_string(count)}, {"pitch", pitch}});
    words.push_back(pack.say("plan.run_parts", {{"run", name}, {"parts", list}}));
  }
  Length least, largest;
  for (int b = run.first_bay; b < run.first_bay + run.bay_count; ++b) {
    const Length pitch = pack.plan.layout.bays[static_cast<std::size_t>(b)].pitch;
    least = b == run.first_bay ? pitch : std::min(least, pitch);
    largest = std::max(largest, pitch);
  }
  words.push_back(pack.say("plan.run_mixed", {{"run", name}, {"bays", bays}, {"least", pack.shown.tape(least)}, {"largest", pack.shown.tape(largest)}}));
  words.push_back(name);
  return words;
}

// The words along each run, the longest that find room.
void name_runs(Svg& svg, const Pack& pack, const View& view, Labels& labels) {
  const auto& layout = pack.plan.layout;
  const Extent extent = extent_of(pack);
  for (const auto& run : layout.runs) {
    if (run.bay_count < 1) continue;
    const auto& bay = layout.bays[static_cast<std::size_t>(run.first_bay + run.bay_count / 2)];
    const setout::Vec2 a = layout.posts[static_cast<std::size_t>(bay.from)].at, b = layout.posts[static_cast<std::size_t>(bay.to)].at;
    const Spot middle = view.at((a.x + b.x) / 2, (a.y + b.y) / 2);
    if (!inside(view.box, middle)) continue;
    const Spot out = outward(view, extent, {(a.x + b.x) / 2, (a.y + b.y) / 2});
    const Type type{kLeastType, false, Anchor::start, ink::primer};
    for (const std::string& words : words_for_run(pack, run)) {
      if (labels.draw(svg, middle, words, type, {-out.x, -out.y})) break;
    }
  }
}

void name_gates(Svg& svg, const Pack& pack, const View& view, Labels& labels) {
  const Extent extent = extent_of(pack);
  for (const auto& bay : pack.plan.layout.bays) {
    const auto* gate = bay.kind == BayKind::gate ? gate_of(pack, bay.gate) : nullptr;
    if (!gate) continue;
    const auto& p = pack.plan.layout.posts[static_cast<std::size_t>(bay.from)].at;
    const auto& q = pack.plan.layout.posts[static_cast<std::size_t>(bay.to)].at;
    const setout::Vec2 middle{(p.x + q.x) / 2, (p.y + q.y) / 2};
    if (!inside(view.box, view.at(middle))) continue;
    const std::string key = gate->hinge == job::LeafEnd::both ? "plan.gate_pair" : "plan.gate";
    const std::string words = pack.say(key, {{"gate", shorten_name(gate->id, 40, kLeastType)}, {"leaf", pack.shown.tape(gate->leaf)}});
    labels.draw(svg, view.at(middle), words, {kLeastType, true, Anchor::start, ink::primer}, outward(view, extent, middle));
  }
}

// Scale bar, north and what the marks mean, below the drawing.
void draw_foot(Page& page, const Pack& pack, const View& view) {
  const double y = page.box.y1 - 5.5;
  draw_scale_bar(page.svg, {page.box.x0 + 2, y - 1.5}, view.scale, 62);
  double x = page.box.x0 + 92;
  const auto entry = [&](const std::string& key) {
    const std::string words = pack.say(key);
    page.svg.text({x + 8, y}, words);
    x += 8 + text_width(words, kLeastType) + 5;
  };
  page.svg.circle({x + 4, y - 1.2}, 1, {pen::thin}, "#ffffff");
  entry("plan.planned_post");
  page.svg.circle({x + 4, y - 1.2}, 1, {pen::thin}, ink::black);
  entry("plan.set_post");
  if (!pack.job.site.zones.empty()) {
    page.svg.line({x, y - 1.2}, {x + 6, y - 1.2}, {1.1, ink::black});
    page.svg.line({x, y - 1.2}, {x + 6, y - 1.2}, {0.75, zone_colour(pack.job.site.zones.front().kind)});
    entry("plan.no_dig");
  }
}

struct Window {
  double west, south, east, north;
};

// Windows over the extent that hold at least one post, row by row from the north.
std::vector<Window> windows(const Pack& pack, const Extent& e, double width, double height) {
  const int columns = std::max(1, static_cast<int>(std::ceil((e.east - e.west) / width - 1e-6)));
  const int rows = std::max(1, static_cast<int>(std::ceil((e.north - e.south) / height - 1e-6)));
  std::set<std::pair<int, int>> used;
  for (const auto& post : pack.plan.layout.posts) {
    const int c = std::clamp(static_cast<int>((post.at.x - e.west) / width), 0, columns - 1);
    const int r = std::clamp(static_cast<int>((e.north - post.at.y) / height), 0, rows - 1);
    used.insert({r, c});
  }
  std::vector<Window> out;
  for (const auto& [r, c] : used) out.push_back({e.west + c * width, e.north - (r + 1) * height, e.west + (c + 1) * width, e.north - r * height});
  return out;
}

Length least_pitch(const Pack& pack) {
  Length least;
  for (const auto& bay : pack.plan.layout.bays)
    if (bay.kind != BayKind::gate && bay.pitch > Length() && (least == Length() || bay.pitch < least)) least = bay.pitch;
  return least == Length() ? Length::feet(8) : least;
}

Box drawing_box(const Page& page) { return {page.box.x0 + 3, page.box.y0 + 4, page.box.x1 - 3, page.box.y1 - kFoot}; }

// The first corner of the frame, clockwise from the top right, that no fence crosses.
Spot north_spot(const Pack& pack, const View& view, const Box& frame) {
  const double right = view.turned ? 14 : 7, top = view.turned ? 6 : 14, left = view.turned ? 8 : 7, bottom = 8;
  const Spot corners[] = {
      {frame.x1 - right, frame.y0 + top}, {frame.x1 - right, frame.y1 - bottom}, {frame.x0 + left, frame.y1 - bottom}, {frame.x0 + left, frame.y0 + top}};
  const auto& layout = pack.plan.layout;
  for (const Spot& corner : corners) {
    const Box box{corner.x - 9, corner.y - 13, corner.x + 13, corner.y + 8};
    const bool free = std::none_of(layout.bays.begin(), layout.bays.end(), [&](const setout::Bay& bay) {
      return crosses(view.at(layout.posts[static_cast<std::size_t>(bay.from)].at), view.at(layout.posts[static_cast<std::size_t>(bay.to)].at), box);
    });
    if (free) return corner;
  }
  return corners[0];
}

void draw_page(Page& page, const Pack& pack, View view, Naming naming, const std::vector<Window>& parts) {
  const Box frame{page.box.x0, page.box.y0, page.box.x1, page.box.y1 - kFoot + 2};
  Labels labels(frame);
  labels.keep_clear(draw_north(page.svg, north_spot(pack, view, frame), view.turned));
  page.svg.clip(frame);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Spot a = view.at(parts[i].west, parts[i].north), b = view.at(parts[i].east, parts[i].south);
    const Box box{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
    page.svg.rect(box, {pen::hair, ink::rule, "4 1.5 0.6 1.5"});
    const std::string number = std::to_string(i + 1);
    const Spot at{box.x0 + 1.5, box.y0 + 4.5};
    if (text_width(number, 4.6, true) + 3 > box.x1 - box.x0 || !inside(frame, at)) continue;
    page.svg.text(at, number, {4.6, true, Anchor::start, ink::grey});
    labels.keep_clear(text_box(at, number, {4.6, true}));
  }
  auto nameless = draw_site(page.svg, pack, view, naming, labels);
  page.svg.end_clip();
  draw_foot(page, pack, view);
  page.scale = scale_text(pack, view.scale);
  if (nameless.empty()) return;
  std::string list;
  for (const auto& n : nameless) list += (list.empty() ? "" : ", ") + n;
  page.svg.text({page.box.x0 + 92, page.box.y1 - 0.2}, shorten(pack.say("plan.nameless", {{"posts", list}}), page.box.x1 - page.box.x0 - 92, kLeastType));
}

}  // namespace

Extent extent_of(const Pack& pack) {
  Extent e;
  bool first = true;
  for (const auto& post : pack.plan.layout.posts) {
    e.west = first ? post.at.x : std::min(e.west, post.at.x);
    e.east = first ? post.at.x : std::max(e.east, post.at.x);
    e.south = first ? post.at.y : std::min(e.south, post.at.y);
    e.north = first ? post.at.y : std::max(e.north, post.at.y);
    first = false;
  }
  return e;
}

std::vector<std::string> draw_site(Svg& svg, const Pack& pack, const View& view, Naming naming, Labels& labels) {
  draw_zones(svg, pack, view, labels);
  draw_fence(svg, pack, view, labels);
  if (naming == Naming::none) return {};
  name_gates(svg, pack, view, labels);
  auto nameless = name_posts(svg, pack, view, naming, labels);
  if (naming != Naming::sketch) name_runs(svg, pack, view, labels);
  name_zones(svg, pack, view, labels);
  return nameless;
}

void draw_site_plan(Book& book, const Pack& pack) {
  if (pack.plan.layout.posts.empty()) return;
  const Extent e = extent_of(pack);
  Page& page = book.add("site_plan", "site-plan", Turn::wide);
  Box room = drawing_box(page);
  // Room round the fence for its names.
  const Box inner{room.x0 + 16, room.y0 + 9, room.x1 - 16, room.y1 - 9};
  View view = fit_view(pack, e.west, e.south, e.east, e.north, inner);
  const double pitch = least_pitch(pack).metres();
  if (view.scale.paper(pitch) >= kEveryNamePitch) return draw_page(page, pack, view, Naming::all, {});

  const Scale detail = [&] {
    Scale s = fitting_scale(pack, pitch, 1000);
    const auto next = [&](double n) { return fitting_scale(pack, n * 1.001, 1000); };
    for (Scale t = s; t.paper(pitch) >= kEveryNamePitch; t = next(t.n)) s = t;
    return s;
  }();
  const double width = (inner.x1 - inner.x0) * detail.n / 1000, height = (inner.y1 - inner.y0) * detail.n / 1000;
  auto parts = windows(pack, e, width, height);
  if (static_cast<int>(parts.size()) > kMostWindows) parts.clear();
  draw_page(page, pack, view, Naming::fixed, parts);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    Page& part = book.add("site_plan", "site-plan-" + number, Turn::wide, pack.say("plan.part", {{"k", number}, {"n", std::to_string(parts.size())}}));
    const Box box = drawing_box(part);
    draw_page(part, pack, {detail, parts[i].west, parts[i].south, parts[i].east, parts[i].north, box, false}, Naming::all, {});
  }
}

}  // namespace railwright::sheets
