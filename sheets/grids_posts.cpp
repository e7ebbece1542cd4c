// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>

#include "sheets/grids.h"

namespace railwright::sheets {

std::string kind_word(const Pack& pack, setout::PostKind kind) {
  static constexpr const char* kNames[] = {"end", "corner", "line", "tee", "cross", "gate", "brace", "fixed"};
  return pack.say(std::string("kind.") + kNames[static_cast<int>(kind)]);
}

std::string item_word(const Pack& pack, const std::string& id) {
  const std::string key = "item." + id;
  return pack.words.has(key) ? pack.say(key) : id;
}

std::string unit_word(const Pack& pack, const std::string& unit) {
  const std::string key = "unit." + unit;
  return pack.words.has(key) ? pack.say(key) : unit;
}

Grid post_grid(const Pack& pack) {
  Grid grid{"posts", "posts", pack.say("sheet.posts.title"), {}, {}};
  grid.columns = {text_column(pack, "post"),
                  text_column(pack, "kind"),
                  text_column(pack, "pipe"),
                  length_named(pack, "post_length"),
                  length_named(pack, "above_ground"),
                  length_named(pack, "embedment"),
                  length_named(pack, "hole"),
                  length_named(pack, "hole_depth"),
                  {pack.say("col.concrete"), pack.shown.volume_unit(), {}, Align::right, 0},
                  tick_column(pack)};
  const auto& layout = pack.plan.layout;
  for (std::size_t i = 0; i < layout.posts.size() && i < pack.plan.takeoff.posts.size(); ++i) {
    const auto& post = layout.posts[i];
    const auto& size = pack.plan.takeoff.posts[i];
    const std::string kind = kind_word(pack, post.kind) + (post.set ? pack.say("posts.set") : "");
    const Cell none{"–", "0"};
    grid.rows.push_back({{{post.name, {}, post.kind != setout::PostKind::line},
                          {kind, {}},
                          {item_word(pack, post.pipe), {}},
                          length_cell(pack, size.length),
                          length_cell(pack, size.above_ground),
                          length_cell(pack, size.embedment),
                          size.hole_diameter > Length() ? length_cell(pack, size.hole_diameter) : none,
                          size.hole_depth > Length() ? length_cell(pack, size.hole_depth) : none,
                          size.concrete_m3 > 0 ? fixed_cell(pack.shown.in_volume_unit(size.concrete_m3), pack.shown.metric() ? 3 : 2) : none,
                          {}}});
  }
  return grid;
}

Grid mark_grid(const Pack& pack) {
  Grid grid{"rail-marks", "marks", pack.say("sheet.marks.title"), {}, {}};
  grid.columns = {text_column(pack, "post"), text_column(pack, "serves"), text_column(pack, "part"),
                  length_named(pack, "up"),  length_named(pack, "down"),  tick_column(pack)};
  int post = -1;
  for (const auto& use : pack.plan.assembly.uses) {
    const auto& at = pack.plan.layout.posts[static_cast<std::size_t>(use.post)];
    const bool same = use.post == post;
    post = use.post;
    Row row{{{same ? "" : at.name, at.name, true},
             {serves_word(pack, use), {}},
             {item_word(pack, pack.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id), {}},
             length_cell(pack, use.height),
             length_cell(pack, use.below_top),
             {}},
            false,
            !same};
    grid.rows.push_back(row);
  }
  return grid;
}

namespace {

// The lines of one post on the sheet of marks.
struct PostMarks {
  std::string post;
  std::vector<Row> rows;
};

// A stack of bands at one rail takes a line for each, the upper band first.
std::vector<Row> mark_rows(const Pack& pack, const std::map<int, std::vector<const fittings::Use*>>& by_rail, int lowest, std::size_t width) {
  std::size_t lines = 0;
  for (const auto& [number, bands] : by_rail) lines = std::max(lines, bands.size());
  std::vector<Row> rows;
  for (std::size_t line = 0; line < lines; ++line) {
    Row row{std::vector<Cell>(2 * width + 2), false, line == 0};
    for (const auto& [number, bands] : by_rail) {
      if (line >= bands.size()) continue;
      const auto* use = bands[bands.size() - 1 - line];
      const auto column = 1 + static_cast<std::size_t>(number - lowest);
      row.cells[column] = length_cell(pack, use->height);
      row.cells[column + width] = length_cell(pack, use->below_top);
    }
    rows.push_back(row);
  }
  return rows;
}

std::vector<PostMarks> marks_of_posts(const Pack& pack, int lowest, std::size_t width) {
  std::vector<PostMarks> posts;
  const auto& uses = pack.plan.assembly.uses;
  for (std::size_t first = 0; first < uses.size();) {
    std::size_t end = first;
    std::map<int, std::vector<const fittings::Use*>> by_rail;
    for (; end < uses.size() && uses[end].post == uses[first].post; ++end)
      if (!uses[end].serves.empty()) by_rail[uses[end].serves[0].number].push_back(&uses[end]);
    auto rows = mark_rows(pack, by_rail, lowest, width);
    if (!rows.empty()) posts.push_back({pack.plan.layout.posts[static_cast<std::size_t>(uses[first].post)].name, std::move(rows)});
    first = end;
  }
  return posts;
}

bool same_marks(const PostMarks& a, const PostMarks& b) {
  const auto same_cells = [](const Row& x, const Row& y) {
    return std::equal(x.cells.begin(), x.cells.end(), y.cells.begin(), y.cells.end(), [](const Cell& c, const Cell& d) { return c.text == d.text; });
  };
  return std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(), same_cells);
}

}  // namespace

Grid mark_sheet_grid(const Pack& pack) {
  int most = 0;
  bool braces = false;
  for (const auto& use : pack.plan.assembly.uses)
    for (const auto& end : use.serves) {
      most = std::max(most, end.number);
      braces = braces || end.number == 0;
    }
  Grid grid{"rail-marks", "marks", pack.say("sheet.marks.title"), {}, {}};
  grid.columns = {text_column(pack, "post")};
  const int lowest = braces ? 0 : 1;
  for (const char* key : {"col.rail_up", "col.rail_down"})
    for (int n = lowest; n <= most; ++n) grid.columns.push_back(length_column(pack, pack.say(key, {{"rail", rail_word(pack, n)}})));
  grid.columns.push_back(tick_column(pack));
  const auto posts = marks_of_posts(pack, lowest, static_cast<std::size_t>(most - lowest + 1));
  for (std::size_t first = 0; first < posts.size();) {
    std::size_t end = first + 1;
    while (end < posts.size() && same_marks(posts[first], posts[end])) ++end;
    const std::string name = end == first + 1
                                 ? posts[first].post
                                 : pack.say("marks.alike", {{"first", posts[first].post}, {"last", posts[end - 1].post}, {"n", std::to_string(end - first)}});
    for (Row row : posts[first].rows) {
      row.cells[0] = {row.begins ? name : "", name, true};
      grid.rows.push_back(std::move(row));
    }
    first = end;
  }
  return grid;
}

}  // namespace railwright::sheets
