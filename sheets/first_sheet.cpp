// SPDX-License-Identifier: MIT
#include "sheets/first_sheet.h"

#include <algorithm>

#include "sheets/cut_sheet.h"
#include "sheets/grids.h"
#include "sheets/profile_sheet.h"
#include "sheets/site_plan.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

using setout::BayKind;

constexpr double kPicture = 86, kLeastPicture = 60;  // mm of height
constexpr double kHeading = 7.2, kLine = 4.9, kBetween = 1.2, kBullet = 5;

// The middle bay of the run with the most bays: what most of the fence looks like.
int typical_bay(const Plan& plan) {
  int best = -1, most = 0;
  for (const auto& run : plan.layout.runs)
    for (int b = run.first_bay; b < run.first_bay + run.bay_count; ++b) {
      const auto& bay = plan.layout.bays[static_cast<std::size_t>(b)];
      if (bay.kind != BayKind::fence || run.bay_count <= most) continue;
      most = run.bay_count;
      best = b;
    }
  if (best < 0) return -1;
  const auto& run = plan.layout.runs[static_cast<std::size_t>(plan.layout.bays[static_cast<std::size_t>(best)].run)];
  const int middle = run.first_bay + run.bay_count / 2;
  return plan.layout.bays[static_cast<std::size_t>(middle)].kind == BayKind::fence ? middle : best;
}

void dimension(Svg& svg, Spot a, Spot b, const std::string& words) {
  svg.line(a, b, {pen::hair});
  for (const Spot s : {a, b}) svg.line({s.x - 0.9, s.y + 0.9}, {s.x + 0.9, s.y - 0.9}, {pen::rail});
  if (a.y == b.y)
    svg.text({(a.x + b.x) / 2, a.y - 1}, words, {kLeastType, false, Anchor::middle});
  else
    svg.text({a.x - 1, (a.y + b.y) / 2}, words, {kLeastType, false, Anchor::middle}, true);
}

// Base lines from the top down, moved no further than it takes to lie a line apart and below `top`: up where there is room, else down.
void spread(std::vector<double>& bases, double top) {
  constexpr double kApart = 4.4;
  for (std::size_t i = bases.size(); i-- > 1;) bases[i - 1] = std::min(bases[i - 1], bases[i] - kApart);
  for (double& base : bases) {
    base = std::max(base, top);
    top = base + kApart;
  }
}

// One bay from the side, true to scale, with its pitch and the height of each rail.
void draw_bay(Svg& svg, const Pack& pack, int index, Box box) {
  const auto& plan = pack.plan;
  const auto b = static_cast<std::size_t>(index);
  const auto& bay = plan.layout.bays[b];
  const auto from = static_cast<std::size_t>(bay.from), to = static_cast<std::size_t>(bay.to);
  const double pitch = bay.pitch.metres();
  const bool sized = to < plan.takeoff.posts.size() && from < plan.takeoff.posts.size();
  const double above = sized ? plan.takeoff.posts[from].above_ground.metres() : 1.5, below = sized ? plan.takeoff.posts[from].embedment.metres() : 0.7;
  const double g0 = plan.layout.posts[from].ground, g1 = plan.layout.posts[to].ground;
  const double low = std::min(g0, g1) - below, high = std::max(g0, g1) + above;
  const double along = std::min((box.x1 - box.x0 - 34) / (pitch + 0.5), (box.y1 - box.y0 - 13) / (high - low));
  const double x0 = box.x0 + 27, x1 = x0 + pitch * along, foot = box.y0 + 4 + (high - low) * along;
  const auto y = [&](double h) { return foot - (h - low) * along; };
  svg.line({x0 - 6, y(g0)}, {x0, y(g0)}, {pen::ground});
  svg.line({x0, y(g0)}, {x1, y(g1)}, {pen::ground});
  svg.line({x1, y(g1)}, {x1 + 6, y(g1)}, {pen::ground});
  std::string earth;
  for (double x = x0 - 4; x < x1 + 6; x += 2.4) {
    const double h = g0 + (g1 - g0) * std::clamp((x - x0) / std::max(0.1, x1 - x0), 0.0, 1.0);
    earth += move_to({x, y(h)}) + line_to({x - 1.8, y(h) + 2.2});
  }
  svg.path(earth, {pen::hair, ink::grey});
  const auto post = [&](double x, std::size_t i, double ground) {
    const double half = std::max(0.6, plan.layout.posts[i].diameter.metres() * along / 2);
    svg.rect({x - half, y(ground + above), x + half, y(ground)}, {pen::thin}, "#ffffff");
    for (const double side : {-half, half}) svg.line({x + side, y(ground)}, {x + side, y(ground - below)}, {pen::hair, ink::black, "1 0.8"});
  };
  if (b < plan.heights.bays.size()) {
    const auto& rails = plan.heights.bays[b].rails;
    std::vector<double> bases;
    for (const auto& rail : rails) {
      const double a = y(rail.from.metres()), c = y(rail.to.metres());
      svg.polyline({{x0, a - 0.7}, {x1, c - 0.7}, {x1, c + 0.7}, {x0, a + 0.7}}, {pen::thin}, "#ffffff", true);
      bases.push_back(a + 1.2);
    }
    spread(bases, box.y0 + 5.5);
    for (std::size_t r = 0; r < rails.size(); ++r)
      svg.text({x0 - 3, bases[r]}, pack.shown.tape(rails[r].from - Length::from_metres(g0)), {kLeastType, false, Anchor::end});
  }
  post(x0, from, g0);
  post(x1, to, g1);
  const double dim = std::max(y(g0 - below), y(g1 - below)) + 6;
  dimension(svg, {x0, dim}, {x1, dim}, pack.shown.tape(bay.pitch));
  svg.text({box.x0, box.y0 + 0.5}, shorten(pack.say("first.bay", {{"bay", bay.name}}), box.x1 - box.x0, kLeastType),
           {kLeastType, false, Anchor::start, ink::grey});
}

double heading(Svg& svg, Spot at, const std::string& words, double width) {
  svg.text(at, words, {4.6, true, Anchor::start, ink::primer});
  svg.line({at.x, at.y + 1.8}, {at.x + width, at.y + 1.8}, {pen::rail});
  return at.y + kHeading;
}

double list_height(const std::vector<std::string>& items, double width) {
  double height = 0;
  for (const auto& item : items) height += kLine * static_cast<double>(wrap(item, width - kBullet, 3.8).size()) + kBetween;
  return height;
}

// What fits into the room; a list that does not fit says where the rest stands.
double bullet_list(Svg& svg, const std::vector<std::string>& items, Spot at, double width, double bottom) {
  for (const auto& item : items) {
    auto lines = wrap(item, width - kBullet, 3.8);
    const auto room = static_cast<std::size_t>(std::max(0.0, (bottom - at.y) / kLine + 1));
    if (room == 0) break;
    if (lines.size() > room) {
      lines.resize(room);
      lines.back() = shorten(lines.back() + " …", width - kBullet, 3.8);
    }
    svg.circle({at.x + 1.2, at.y - 1.3}, 0.7, {0, ink::none}, ink::primer);
    at.y = draw_lines(svg, {at.x + kBullet, at.y}, lines, {3.8}, kLine) + kBetween;
  }
  return at.y;
}

double draw_buy_list(Svg& svg, const Pack& pack, Spot at, double width) {
  const auto lines = to_buy(pack, 10);
  double count_width = 12;
  for (const auto& l : lines) count_width = std::max(count_width, text_width(l.first, 3.8, true) + 1);
  for (const auto& [count, item] : lines) {
    svg.text({at.x + count_width, at.y}, count, {3.8, true, Anchor::end});
    const auto words = wrap(item, width - count_width - 3, 3.8);
    at.y = draw_lines(svg, {at.x + count_width + 3, at.y}, words, {3.8}, 4.9) + 0.7;
  }
  if (pack.plan.takeoff.orders.size() > lines.size())
    at.y = draw_lines(svg, {at.x + count_width + 3, at.y},
                      wrap(pack.say("first.more", {{"n", std::to_string(pack.plan.takeoff.orders.size() - lines.size())}}), width - count_width - 3, 3.8),
                      {3.8, false, Anchor::start, ink::grey}, 4.9);
  if (pack.plan.takeoff.price.total > Money())
    svg.text({at.x, at.y + 3}, pack.say("first.total", {{"total", pack.shown.money(pack.plan.takeoff.price.total)}}), {4.2, true});
  return at.y + 5;
}

// Heights along the line are only as good as what took them: a phone's are metres out.
std::string ground_sentence(const Pack& pack) {
  ground::Source worst = ground::Source::levelled;
  double accuracy = 0;
  for (const auto& p : pack.plan.layout.profiles) {
    if (p.source == ground::Source::none) return pack.say("sure.ground_none");
    if (p.source == ground::Source::grid) worst = ground::Source::grid;
    if (p.source == ground::Source::spots && worst == ground::Source::levelled) worst = ground::Source::spots;
    accuracy = std::max(accuracy, p.accuracy);
  }
  if (pack.plan.layout.profiles.empty()) return pack.say("sure.ground_none");
  if (worst == ground::Source::grid) return pack.say("sure.ground_grid");
  if (worst == ground::Source::spots) return pack.say("sure.ground_spots");
  if (accuracy <= pack.job.choices.clearance_accuracy.metres()) return pack.say("sure.ground_levelled");
  return pack.say("sure.ground_rough", {{"error", pack.shown.rough(Length::from_metres(accuracy))}});
}

}  // namespace

Counts counts_of(const Plan& plan) {
  Counts c;
  for (const auto& leg : plan.layout.legs) c.fence_m += leg.length.metres();
  c.posts = static_cast<int>(plan.layout.posts.size());
  for (const auto& bay : plan.layout.bays) (bay.kind == BayKind::gate ? c.gates : c.bays) += 1;
  c.rails = plan.assembly.rails.size();
  c.fittings = plan.assembly.uses.size();
  return c;
}

std::vector<std::pair<std::string, std::string>> to_buy(const Pack& pack, std::size_t most) {
  std::vector<const takeoff::OrderLine*> lines;
  for (const auto& line : pack.plan.takeoff.orders)
    if (line.order > 0) lines.push_back(&line);
  std::stable_sort(lines.begin(), lines.end(), [](const auto* a, const auto* b) { return a->amount > b->amount; });
  if (lines.size() > most) lines.resize(most);
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto* line : lines) {
    std::string item = item_word(pack, line->item);
    if (line->unit != "each") item = unit_word(pack, line->unit) + ", " + item;
    out.push_back({pack.shown.count(line->order), item});
  }
  return out;
}

std::vector<std::string> watch_out(const Pack& pack, std::size_t most) {
  std::vector<std::string> out;
  measure::LengthFormat format = length_format(pack.job.units);
  format.primes = !pack.shown.metric();
  for (const Severity severity : {Severity::stop, Severity::warning, Severity::note})
    for (const auto& f : pack.plan.findings) {
      if (f.severity != severity || out.size() >= most) continue;
      const std::string words = finding_text(pack.words, f, format);
      if (std::find(out.begin(), out.end(), words) == out.end()) out.push_back(words);
    }
  const std::size_t all = pack.plan.findings.size();
  if (all > out.size() && out.size() >= most)
    out.push_back(pack.say(all - out.size() == 1 ? "first.one_more_finding" : "first.more_findings", {{"n", std::to_string(all - out.size())}}));
  return out;
}

std::string position_sentence(const Pack& pack) {
  const auto& range = pack.plan.takeoff.range;
  if (!range) return {};
  const Counts c = counts_of(pack.plan);
  Length pipe;
  for (const auto& rail : pack.plan.assembly.rails) pipe += rail.length;
  for (const auto& post : pack.plan.takeoff.posts) pipe += post.length;
  std::string text = pack.say("sure.position", {{"error", pack.shown.far(range->accuracy)},
                                                {"rails", std::to_string(c.rails)},
                                                {"rails_more", std::to_string(range->rails)},
                                                {"posts", std::to_string(c.posts)},
                                                {"posts_more", std::to_string(range->posts)},
                                                {"pipe", pack.shown.rough(pipe)},
                                                {"pipe_more", pack.shown.rough(range->pipe)}});
  const Money total = pack.plan.takeoff.price.total;
  if (total > Money())
    text += " " + pack.say("sure.position_price", {{"low", pack.shown.money(total - range->price)}, {"high", pack.shown.money(total + range->price)}});
  return text;
}

std::vector<std::string> how_sure(const Pack& pack) {
  std::vector<std::string> out{ground_sentence(pack)};
  if (std::string position = position_sentence(pack); !position.empty()) out.push_back(std::move(position));
  const auto measured = std::count_if(pack.plan.assembly.rails.begin(), pack.plan.assembly.rails.end(), [](const auto& r) { return r.measured; });
  const auto rails = pack.plan.assembly.rails.size();
  if (rails > 0) out.push_back(pack.say(measured == 0 ? "sure.no_gaps" : "sure.gaps", {{"n", std::to_string(measured)}, {"of", std::to_string(rails)}}));
  if (!pack.plan.cuts.empty()) out.push_back(bound_sentence(pack, cut_totals(pack.plan)));
  double short_most = 0;
  for (const auto& line : pack.plan.takeoff.orders) short_most = std::max(short_most, line.running_short);
  if (!pack.plan.takeoff.orders.empty()) out.push_back(pack.say("sure.running_short", {{"percent", number_text(short_most * 100, 1, true)}}));
  const auto over = std::count_if(pack.plan.checks.begin(), pack.plan.checks.end(), [](const auto& c) { return !c.ok; });
  if (!pack.plan.checks.empty())
    out.push_back(pack.say(over ? "sure.checks_over" : "sure.checks", {{"n", std::to_string(over)}, {"of", std::to_string(pack.plan.checks.size())}}));
  return out;
}

void draw_first_sheet(Book& book, const Pack& pack) {
  Page& page = book.add("first", "first", Turn::upright);
  const Box box = page.box;
  const Counts c = counts_of(pack.plan);
  const double width = box.x1 - box.x0;
  auto facts = wrap(pack.say("first.facts", {{"length", pack.shown.rough(Length::from_metres(c.fence_m))},
                                             {"posts", std::to_string(c.posts)},
                                             {"rails", std::to_string(c.rails)},
                                             {"bays", std::to_string(c.bays)},
                                             {"gates", std::to_string(c.gates)},
                                             {"fittings", std::to_string(c.fittings)}}),
                    width, 4.6, true);
  double y = draw_lines(page.svg, {box.x0, box.y0 + 3.5}, facts, {4.6, true}, 6) - 1;
  const double column = (width - 8) / 2, right = box.x0 + column + 8;
  const auto sure = how_sure(pack);
  constexpr std::size_t kWatched = 3;
  auto watch = watch_out(pack, kWatched);
  if (watch.empty()) watch.push_back(pack.say("first.nothing"));
  // Long sentences take their room from the picture before any of them is left out.
  const double wanted = 2 * kHeading + 12 + list_height(watch, column) + list_height(sure, column);
  const double picture = std::clamp(box.y1 - y - wanted, kLeastPicture, kPicture);
  const int bay = typical_bay(pack.plan);
  if (c.posts > 0) {
    const double split = bay < 0 ? box.x1 : box.x0 + width * 0.56;
    const Box frame{box.x0, y, split - 3, y + picture};
    const Extent e = extent_of(pack);
    Labels labels(frame);
    labels.keep_clear(draw_north(page.svg, {frame.x1 - 3, frame.y0 + 13}, false));
    View view = fit_view(pack, e.west, e.south, e.east, e.north, {frame.x0 + 12, frame.y0 + 8, frame.x1 - 12, frame.y1 - 18});
    view.turned = false;
    view.scale = {std::max(fitting_scale(pack, std::max(0.5, e.east - e.west), frame.x1 - frame.x0 - 24).n,
                           fitting_scale(pack, std::max(0.5, e.north - e.south), picture - 26).n)};
    page.svg.clip(frame);
    draw_site(page.svg, pack, view, c.posts <= 60 ? Naming::sketch : Naming::none, labels);
    page.svg.end_clip();
    draw_scale_bar(page.svg, {frame.x0 + 3, frame.y1 - 7}, view.scale, 40);
    if (bay >= 0) draw_bay(page.svg, pack, bay, {split, y + 3, box.x1, y + picture});
    y += picture + 5;
  }
  double left_y = heading(page.svg, {box.x0, y}, pack.say("first.buy"), column);
  draw_buy_list(page.svg, pack, {box.x0, left_y}, column);
  double right_y = heading(page.svg, {right, y}, pack.say("first.watch"), column);
  const double sure_height = 6 + list_height(sure, column);
  const double sure_top = std::max(box.y1 - sure_height, right_y + (box.y1 - right_y) * 0.3);
  // Fewer of them, with the count of the rest, rather than a list cut off.
  for (std::size_t n = kWatched; n > 1 && right_y + list_height(watch, column) > sure_top - 4; --n) watch = watch_out(pack, n - 1);
  right_y = bullet_list(page.svg, watch, {right, right_y}, column, sure_top - 9);
  right_y = heading(page.svg, {right, std::min(sure_top, right_y + 5)}, pack.say("first.sure"), column);
  bullet_list(page.svg, sure, {right, right_y}, column, box.y1 + 0.5);
}

}  // namespace railwright::sheets
