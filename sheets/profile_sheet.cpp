// SPDX-License-Identifier: MIT
#include "sheets/profile_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "engine/takeoff/orders.h"
#include "sheets/scale.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

using setout::BayKind;

constexpr double kGutter = 33;                // left of the drawing: names of the band's rows, heights of the axis
constexpr double kRow = 22.5, kPostRow = 14;  // feet and inches to a sixteenth take 21 mm
constexpr double kFigurePitch = 5.0;          // mm between posts from which turned figures fit
constexpr double kExaggerations[] = {10, 8, 5, 4, 3, 2, 1};

struct OnThisLeg {
  int post = 0;
  double station = 0;
};

// A stretch of a leg on one sheet.
struct Stretch {
  int leg = 0;
  double from = 0, to = 0;   // stations, m
  double low = 0, high = 0;  // heights, m
  Box box;                   // of the drawing itself
  double along = 1, up = 1;  // mm per metre

  double x(double station) const { return box.x0 + (station - from) * along; }
  double y(double height) const { return box.y1 - (height - low) * up; }
  bool shows(double station) const { return station >= from - 1e-6 && station <= to + 1e-6; }
};

std::vector<OnThisLeg> posts_of(const Plan& plan, int leg) {
  std::vector<OnThisLeg> out;
  for (std::size_t i = 0; i < plan.layout.posts.size(); ++i)
    for (const auto& on : plan.layout.posts[i].on)
      if (on.leg == leg) out.push_back({static_cast<int>(i), on.station.metres()});
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.station < b.station; });
  return out;
}

double ground_at(const Plan& plan, int leg, double station) {
  const auto i = static_cast<std::size_t>(leg);
  return i < plan.layout.profiles.size() && !plan.layout.profiles[i].points.empty() ? plan.layout.profiles[i].height_at(station) : 0;
}

// The ground line of a stretch: its ends and every point between.
std::vector<Spot> ground_line(const Plan& plan, const Stretch& s) {
  std::vector<Spot> line{{s.x(s.from), s.y(ground_at(plan, s.leg, s.from))}};
  const auto i = static_cast<std::size_t>(s.leg);
  if (i < plan.layout.profiles.size())
    for (const auto& p : plan.layout.profiles[i].points)
      if (p.station > s.from && p.station < s.to) line.push_back({s.x(p.station), s.y(p.height)});
  line.push_back({s.x(s.to), s.y(ground_at(plan, s.leg, s.to))});
  return line;
}

const job::Fence* fence_of(const Pack& pack, int fence) {
  const auto i = static_cast<std::size_t>(fence);
  return i < pack.job.choices.fences.size() ? &pack.job.choices.fences[i] : nullptr;
}

// Lowest post foot and highest post top of a leg's stretch.
void find_heights(const Pack& pack, Stretch& s) {
  bool first = true;
  const auto take = [&](double low, double high) {
    s.low = first ? low : std::min(s.low, low);
    s.high = first ? high : std::max(s.high, high);
    first = false;
  };
  for (const auto& on : posts_of(pack.plan, s.leg)) {
    if (!s.shows(on.station)) continue;
    const auto i = static_cast<std::size_t>(on.post);
    const double ground = pack.plan.layout.posts[i].ground;
    const bool sized = i < pack.plan.takeoff.posts.size();
    take(ground - (sized ? pack.plan.takeoff.posts[i].embedment.metres() : 0.6), ground + (sized ? pack.plan.takeoff.posts[i].above_ground.metres() : 1.5));
  }
  const auto leg = static_cast<std::size_t>(s.leg);
  if (leg < pack.plan.layout.profiles.size())
    for (const auto& p : pack.plan.layout.profiles[leg].points)
      if (s.shows(p.station)) take(p.height - 0.3, p.height + 0.3);
}

// Short slanting strokes below the ground line, one path.
void draw_earth(Svg& svg, const Plan& plan, const Stretch& s) {
  const auto line = ground_line(plan, s);
  std::string strokes;
  std::size_t i = 1;
  for (double x = line.front().x + 1; x < line.back().x; x += 2.1) {
    while (i + 1 < line.size() && line[i].x < x) ++i;
    const Spot a = line[i - 1], b = line[i];
    const double y = b.x > a.x ? a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x) : a.y;
    strokes += move_to({x, y}) + line_to({std::max(s.box.x0, x - 1.8), y + 2.4});
  }
  svg.path(strokes, {pen::hair, ink::grey});
  svg.polyline(line, {pen::ground});
}

// A nice step between heights on the axis: at least 7 mm apart.
void draw_axis(Svg& svg, const Pack& pack, const Stretch& s) {
  const double unit = pack.shown.metric() ? 1.0 : 0.3048;
  double step = 0.5;
  for (const double k : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
    if (step * unit * s.up >= 7) break;
    step = k;
  }
  for (double h = std::ceil(s.low / unit / step) * step; h * unit <= s.high + 1e-9; h += step) {
    const double y = s.y(h * unit);
    svg.line({s.box.x0, y}, {s.box.x1, y}, {pen::hair, "#c9c5bd"});
    svg.text({s.box.x0 - 2, y + 1.25}, number_text(h, 1, true) + (pack.shown.metric() ? " m" : " ft"), {kLeastType, false, Anchor::end, ink::grey});
  }
}

void draw_post(Svg& svg, const Pack& pack, const Stretch& s, const OnThisLeg& on) {
  const auto i = static_cast<std::size_t>(on.post);
  const auto& post = pack.plan.layout.posts[i];
  const bool sized = i < pack.plan.takeoff.posts.size();
  const double above = sized ? pack.plan.takeoff.posts[i].above_ground.metres() : 1.5;
  const double below = sized ? pack.plan.takeoff.posts[i].embedment.metres() : 0.6;
  const double x = s.x(on.station), ground = s.y(post.ground);
  const double width = std::max(0.9, post.diameter.metres() * s.along);
  svg.rect({x - width / 2, s.y(post.ground + above), x + width / 2, ground}, {pen::thin}, post.set ? ink::black : "#ffffff");
  for (const double side : {-0.5, 0.5}) svg.line({x + side * width, ground}, {x + side * width, s.y(post.ground - below)}, {pen::hair, ink::black, "1 0.8"});
}

void draw_infill(Svg& svg, const Pack& pack, const Stretch& s, const setout::Bay& bay, const Box& posts) {
  const auto* fence = fence_of(pack, bay.fence);
  if (!fence || fence->kind == job::FenceKind::rails) return;
  const auto spot = [&](bool end, double above) { return Spot{end ? posts.x1 : posts.x0, (end ? posts.y1 : posts.y0) - above * s.up}; };
  const auto& infill = fence->infill;
  if (fence->kind == job::FenceKind::mesh || fence->kind == job::FenceKind::panels) {
    const double foot = infill.ground_gap.metres(), top = foot + (infill.height > Length() ? infill.height : fence->height).metres();
    svg.polyline({spot(false, foot), spot(true, foot), spot(true, top), spot(false, top)}, {pen::hair, ink::grey}, ink::pale, true);
    return;
  }
  const int wires = takeoff::wires_of(*fence);
  for (int k = 1; k <= wires; ++k) {
    const bool given = static_cast<std::size_t>(k) <= infill.wire_heights.size();
    const double above = given ? infill.wire_heights[static_cast<std::size_t>(k) - 1].metres() : fence->height.metres() * k / (wires + 1);
    svg.line(spot(false, above), spot(true, above), {pen::hair, ink::grey});
  }
}

void draw_gate(Svg& svg, const Pack& pack, const Stretch& s, const setout::Bay& bay, const Box& posts) {
  const auto* fence = fence_of(pack, bay.fence);
  const double height = fence ? fence->height.metres() : 1.4, low = std::min(posts.y0, posts.y1);
  const Box leaf{posts.x0 + 1, low - height * s.up, posts.x1 - 1, low - 0.12 * s.up};
  svg.rect(leaf, {pen::rail, ink::primer});
  svg.line({leaf.x0, leaf.y1}, {leaf.x1, leaf.y0}, {pen::thin, ink::primer});
  const std::string name = pack.say("plan.gate_short", {{"gate", bay.gate}});
  if (text_width(name, kLeastType, true) + 2 < leaf.x1 - leaf.x0)
    svg.text({(leaf.x0 + leaf.x1) / 2, leaf.y0 - 1.2}, name, {kLeastType, true, Anchor::middle, ink::primer});
}

// Rails of the bays on this stretch, under the posts.
void draw_bays(Svg& svg, const Pack& pack, const Stretch& s) {
  const auto& layout = pack.plan.layout;
  for (std::size_t b = 0; b < layout.bays.size(); ++b) {
    const auto& bay = layout.bays[b];
    if (bay.leg != s.leg || !s.shows(bay.start.metres()) || !s.shows(bay.end.metres())) continue;
    const double x0 = s.x(bay.start.metres()), x1 = s.x(bay.end.metres());
    const Box posts{x0, s.y(layout.posts[static_cast<std::size_t>(bay.from)].ground), x1, s.y(layout.posts[static_cast<std::size_t>(bay.to)].ground)};
    if (bay.kind == BayKind::gate) {
      draw_gate(svg, pack, s, bay, posts);
      continue;
    }
    draw_infill(svg, pack, s, bay, posts);
    if (b >= pack.plan.heights.bays.size()) continue;
    const auto& heights = pack.plan.heights.bays[b];
    for (const auto& rail : heights.rails) svg.line({x0, s.y(rail.from.metres())}, {x1, s.y(rail.to.metres())}, {pen::ground});
    if (heights.has_brace_rail) svg.line({x0, s.y(heights.brace.from.metres())}, {x1, s.y(heights.brace.to.metres())}, {pen::ground, ink::primer});
  }
}

// Ground that is cut (hatched) or filled (dotted edge), between the ground and the line it is brought to.
void draw_earthwork(Svg& svg, const Pack& pack, const Stretch& s) {
  for (const auto& work : pack.plan.heights.earthwork) {
    const auto& bay = pack.plan.layout.bays[static_cast<std::size_t>(work.bay)];
    if (bay.leg != s.leg || !s.shows(work.from.metres()) || !s.shows(work.to.metres())) continue;
    const double from = work.from.metres(), to = work.to.metres();
    const double a = ground_at(pack.plan, s.leg, from), b = ground_at(pack.plan, s.leg, to);
    std::vector<Spot> edge{{s.x(from), s.y(a)}};
    const auto i = static_cast<std::size_t>(s.leg);
    for (const auto& p : pack.plan.layout.profiles[i].points)
      if (p.station > from && p.station < to) edge.push_back({s.x(p.station), s.y(p.height)});
    edge.push_back({s.x(to), s.y(b)});
    svg.polyline(edge, {pen::thin, ink::primer, work.way == job::MendWay::fill ? "0.6 0.8" : ""}, ink::pale, true);
    // Below the ground, on white: above it the rails would cross the words.
    const double x = (s.x(from) + s.x(to)) / 2, y = std::max(s.y(a), s.y(b)) + 5;
    const std::string words = pack.say(work.way == job::MendWay::fill ? "earth.fill" : "earth.cut") + " " + pack.shown.volume(work.volume_m3);
    const double half = text_width(words, kLeastType) / 2 + 0.6;
    svg.rect({x - half, y - 3, x + half, y + 0.9}, {pen::hair, "#ffffff"}, "#ffffff");
    svg.text({x, y}, words, {kLeastType, false, Anchor::middle, ink::primer});
  }
}

void draw_fault(Svg& svg, Spot tip) {
  svg.polyline({{tip.x, tip.y}, {tip.x - 1.8, tip.y + 3.4}, {tip.x + 1.8, tip.y + 3.4}}, {pen::thin, ink::primer}, "#ffffff", true);
}

// Places where an opening is too large or too small, pointed at and dimensioned. True when there are any.
bool draw_tight_places(Svg& svg, const Pack& pack, const Stretch& s) {
  bool any = false;
  double free_from = s.box.x0;
  for (const auto& c : pack.plan.heights.clearances) {
    if (c.verdict != grade::Verdict::fails || c.bay < 0 || static_cast<std::size_t>(c.bay) >= pack.plan.layout.bays.size()) continue;
    if (pack.plan.layout.bays[static_cast<std::size_t>(c.bay)].leg != s.leg || !s.shows(c.at.metres())) continue;
    const double x = s.x(c.at.metres()), y = s.y(ground_at(pack.plan, s.leg, c.at.metres()));
    draw_fault(svg, {x, y + 0.6});
    any = true;
    const std::string least = pack.shown.tape(c.least), largest = pack.shown.tape(c.largest);
    const std::string words = pack.say(least == largest ? "profile.opening_alike" : "profile.opening", {{"least", least}, {"largest", largest}});
    const double w = text_width(words, kLeastType);
    const double left = std::min(x - 2, s.box.x1 - w);
    if (left < free_from || y + 8 > s.box.y1 + 1) continue;
    svg.text({left, y + 7.6}, words, {kLeastType, false, Anchor::start, ink::primer});
    free_from = left + w + 2;
  }
  return any;
}

// The slope of the top line over each stretch of bays where it stays the same, written above it.
void draw_slopes(Svg& svg, const Pack& pack, const Stretch& s) {
  const auto& bays = pack.plan.layout.bays;
  const auto slope = [&](std::size_t b) -> std::optional<double> {
    if (b >= bays.size() || bays[b].leg != s.leg || !s.shows(bays[b].start.metres()) || !s.shows(bays[b].end.metres())) return std::nullopt;
    if (b >= pack.plan.heights.bays.size() || pack.plan.heights.bays[b].rails.empty() || bays[b].pitch <= Length()) return std::nullopt;
    const auto& top = pack.plan.heights.bays[b].rails[0];
    return std::round((top.to - top.from) / bays[b].pitch * 1000) / 10;
  };
  for (std::size_t b = 0; b < bays.size();) {
    const auto here = slope(b);
    std::size_t end = b + 1;
    while (here && end < bays.size() && slope(end) && std::fabs(*slope(end) - *here) < 0.45) ++end;
    if (here && s.x(bays[end - 1].end.metres()) - s.x(bays[b].start.metres()) > 15) {
      const auto& heights = pack.plan.heights.bays;
      const double x = (s.x(bays[b].start.metres()) + s.x(bays[end - 1].end.metres())) / 2;
      const double top = std::max(heights[b].rails[0].from.metres(), heights[end - 1].rails[0].to.metres());
      const double y = s.y(top) - 3.2;
      if (y - 3 > s.box.y0 - 6) svg.text({x, y}, (*here > 0 ? "+" : "") + number_text(*here, 1) + " %", {kLeastType, false, Anchor::middle, ink::grey});
    }
    b = end;
  }
}

// Rail heights above the ground at the posts of a stretch: from the bay after the post, else from the one before.
std::map<int, std::vector<Length>> rails_above_ground(const Plan& plan, const Stretch& s) {
  std::map<int, std::vector<Length>> out;
  for (std::size_t b = 0; b < plan.layout.bays.size() && b < plan.heights.bays.size(); ++b) {
    const auto& bay = plan.layout.bays[b];
    if (bay.leg != s.leg || !s.shows(bay.end.metres()) || !s.shows(bay.start.metres()) || plan.heights.bays[b].rails.empty()) continue;
    for (const bool at_from : {true, false}) {
      const int post = at_from ? bay.from : bay.to;
      const auto ground = Length::from_metres(plan.layout.posts[static_cast<std::size_t>(post)].ground);
      auto& heights = out[post];
      heights.clear();
      for (const auto& rail : plan.heights.bays[b].rails) heights.push_back((at_from ? rail.from : rail.to) - ground);
    }
  }
  return out;
}

struct BandRow {
  std::string name;
  double height;
};

// Figures stand turned below their post: name, station, top and bottom rail above the ground.
void draw_band(Svg& svg, const Pack& pack, const Stretch& s, double top) {
  std::size_t rails = 0;
  for (std::size_t b = 0; b < pack.plan.layout.bays.size() && b < pack.plan.heights.bays.size(); ++b)
    if (pack.plan.layout.bays[b].leg == s.leg) rails = std::max(rails, pack.plan.heights.bays[b].rails.size());
  std::vector<BandRow> rows{{pack.say("profile.post"), kPostRow}, {pack.say("profile.station"), kRow}};
  if (rails > 0) rows.push_back({pack.say("profile.top_rail"), kRow});
  if (rails > 1) rows.push_back({pack.say("profile.bottom_rail"), kRow});
  double y = top;
  for (const auto& row : rows) {
    svg.line({s.box.x0 - kGutter, y}, {s.box.x1, y}, {pen::hair, ink::rule});
    const auto lines = wrap(row.name, kGutter - 4, kLeastType);
    draw_lines(svg, {s.box.x0 - kGutter, y + row.height / 2 + 1.2 - 2.25 * static_cast<double>(lines.size() - 1)}, lines, {}, 4.5);
    y += row.height;
  }
  svg.line({s.box.x0 - kGutter, y}, {s.box.x1, y}, {pen::hair, ink::rule});

  const auto above = rails_above_ground(pack.plan, s);
  double last = -100;
  for (const auto& on : posts_of(pack.plan, s.leg)) {
    const double x = s.x(on.station);
    if (!s.shows(on.station) || x - last < 4.4) continue;  // two posts closer than a line of figures: the second is in the post schedule
    last = x;
    const auto& post = pack.plan.layout.posts[static_cast<std::size_t>(on.post)];
    double foot = top + kPostRow;
    svg.text({x + 1.2, foot - 1.2}, shorten_name(post.name, kPostRow - 2, kLeastType, true), {kLeastType, true}, true);
    foot += kRow;
    svg.text({x + 1.2, foot - 1.2}, pack.shown.cell(Length::from_metres(on.station)), {}, true);
    const auto found = above.find(on.post);
    if (found == above.end()) continue;
    svg.text({x + 1.2, foot + kRow - 1.2}, pack.shown.cell(found->second.front()), {}, true);
    if (found->second.size() > 1) svg.text({x + 1.2, foot + 2 * kRow - 1.2}, pack.shown.cell(found->second.back()), {}, true);
  }
}

void draw_stretch(Page& page, const Pack& pack, Stretch s, double band) {
  find_heights(pack, s);
  // A drawing of a level line needs no more height than it has.
  for (const double k : kExaggerations) {
    s.up = s.along * k;
    if ((s.high - s.low) * s.up <= s.box.y1 - s.box.y0 - 9) break;
  }
  const double exaggeration = s.up / s.along;
  const double used = std::min(s.box.y1 - s.box.y0, (s.high - s.low) * s.up + 9);
  s.box.y1 = s.box.y0 + used;
  draw_axis(page.svg, pack, s);
  draw_earth(page.svg, pack.plan, s);
  draw_bays(page.svg, pack, s);
  for (const auto& on : posts_of(pack.plan, s.leg))
    if (s.shows(on.station)) draw_post(page.svg, pack, s, on);
  draw_slopes(page.svg, pack, s);
  const bool faults = draw_tight_places(page.svg, pack, s);
  draw_earthwork(page.svg, pack, s);
  draw_band(page.svg, pack, s, s.box.y1 + 4);
  const double y = s.box.y1 + 4 + band + 9;
  if (y + 6 < page.box.y1) draw_scale_bar(page.svg, {s.box.x0, y}, {1000 / s.along}, 62);
  if (faults && y + 6 < page.box.y1) {
    draw_fault(page.svg, {s.box.x0 + 100, y - 2.6});
    page.svg.text({s.box.x0 + 104, y + 0.6}, pack.say("profile.fault"), {kLeastType, false, Anchor::start, ink::primer});
  }
  page.scale = scale_text(pack, {1000 / s.along});
  if (exaggeration > 1.01) page.scale += ", " + pack.say("profile.exaggerated", {{"k", number_text(exaggeration, 1, true)}});
}

}  // namespace

void draw_profiles(Book& book, const Pack& pack) {
  const auto& layout = pack.plan.layout;
  for (std::size_t leg = 0; leg < layout.legs.size(); ++leg) {
    const auto posts = posts_of(pack.plan, static_cast<int>(leg));
    if (posts.size() < 2) continue;
    const std::string id = leg < pack.job.site.legs.size() ? pack.job.site.legs[leg].id : std::to_string(leg + 1);
    const std::string detail = pack.say("profile.leg", {{"leg", id}});
    const Box room = book.box_of("profile", Turn::wide);
    const double width = room.x1 - room.x0 - kGutter - 6, length = layout.legs[leg].length.metres();
    double pitch = length;
    for (const auto& bay : layout.bays)
      if (bay.leg == static_cast<int>(leg) && bay.kind == BayKind::fence) pitch = std::min(pitch, bay.pitch.metres());
    Scale scale = fitting_scale(pack, length, width);
    if (scale.paper(pitch) < kFigurePitch) {
      scale = fitting_scale(pack, 0.001, 1000);
      for (Scale t = scale; t.paper(pitch) >= kFigurePitch; t = fitting_scale(pack, t.n * 1.001, 1000)) scale = t;
    }
    const double band = kPostRow + 3 * kRow;
    std::size_t first = 0;
    for (int sheet = 1; first + 1 < posts.size(); ++sheet) {
      Page& page = book.add("profile", "profile-" + std::to_string(leg + 1) + (sheet > 1 ? "-" + std::to_string(sheet) : ""), Turn::wide, detail);
      Stretch s;
      s.leg = static_cast<int>(leg);
      s.from = posts[first].station;
      std::size_t last = first + 1;
      while (last + 1 < posts.size() && scale.paper(posts[last + 1].station - s.from) <= width) ++last;
      s.to = posts[last].station;
      // A short leg is drawn no larger than its heights allow.
      find_heights(pack, s);
      const double room_up = page.box.y1 - page.box.y0 - band - 34;
      s.along = 1000 / std::max(scale.n, fitting_scale(pack, s.high - s.low, room_up).n);
      s.box = {page.box.x0 + kGutter, page.box.y0 + 7, page.box.x0 + kGutter + (s.to - s.from) * s.along, page.box.y1 - band - 17};
      draw_stretch(page, pack, s, band);
      first = last;
    }
  }
}

}  // namespace railwright::sheets
