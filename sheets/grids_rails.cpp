// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>

#include "sheets/grids.h"

namespace railwright::sheets {
namespace {

Cell cut_cell(const Pack& pack, Length l) { return {pack.shown.cell(pack.shown.cut(l)), pack.shown.plain(l)}; }

// The part that holds one end of a rail.
using PartAt = std::map<std::tuple<int, int, bool>, const fittings::Use*>;
PartAt parts_by_end(const Plan& plan) {
  PartAt parts;
  for (const auto& use : plan.assembly.uses)
    for (const auto& end : use.serves) parts[{end.bay, end.number, end.at_from}] = &use;
  return parts;
}

std::string part_word(const Pack& pack, const PartAt& parts, const fittings::Rail& rail, bool at_from) {
  const auto found = parts.find({rail.bay, rail.number, at_from});
  if (found == parts.end()) return "–";
  return item_word(pack, pack.plan.catalogue.fittings[static_cast<std::size_t>(found->second->fitting)].id);
}

const setout::Bay& bay_of(const Plan& plan, const fittings::Rail& rail) { return plan.layout.bays[static_cast<std::size_t>(rail.bay)]; }
const std::string& post_name(const Plan& plan, int post) { return plan.layout.posts[static_cast<std::size_t>(post)].name; }

}  // namespace

std::string rail_word(const Pack& pack, int number) { return number == 0 ? pack.say("rail.brace") : pack.say("rail.number", {{"n", std::to_string(number)}}); }

const std::string& far_post(const Plan& plan, const fittings::RailEnd& end) {
  const auto& bay = plan.layout.bays[static_cast<std::size_t>(end.bay)];
  return post_name(plan, end.at_from ? bay.to : bay.from);
}

std::string serves_word(const Pack& pack, const fittings::Use& use) {
  std::string out;
  for (std::size_t i = 0; i < use.serves.size(); ++i) {
    const auto& end = use.serves[i];
    const bool same = i > 0 && end.number == use.serves[i - 1].number;
    out += i == 0 ? "" : ", ";
    out += same ? pack.say("rail.to_short", {{"post", far_post(pack.plan, end)}})
                : pack.say("rail.to", {{"rail", rail_word(pack, end.number)}, {"post", far_post(pack.plan, end)}});
  }
  return out;
}

bool piece_final(const Pack& pack, const takeoff::PipeCuts& pipe, int piece) {
  const auto& source = pipe.pieces[static_cast<std::size_t>(piece)];
  if (source.kind == takeoff::PieceKind::post || pack.job.choices.cutting.order == job::WorkOrder::rails_first) return true;
  const auto i = static_cast<std::size_t>(source.index);
  return i < pack.plan.assembly.rails.size() && pack.plan.assembly.rails[i].measured;
}

std::size_t ready_pieces(const Pack& pack, const takeoff::PipeCuts& pipe, const cutting::Stick& stick) {
  std::size_t ready = 0;
  while (ready < stick.pieces.size() && piece_final(pack, pipe, stick.pieces[ready])) ++ready;
  return ready;
}

Grid fitting_grid(const Pack& pack) {
  Grid grid{"fittings", "fittings", pack.say("sheet.fittings.title"), {}, {}};
  grid.columns = {text_column(pack, "post"),
                  text_column(pack, "part"),
                  text_column(pack, "serves"),
                  length_named(pack, "up"),
                  {pack.say("col.stack"), {}, {}, Align::right, 0}};
  for (const auto& use : pack.plan.assembly.uses)
    grid.rows.push_back({{{post_name(pack.plan, use.post), {}},
                          {item_word(pack, pack.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id), {}},
                          {serves_word(pack, use), {}},
                          length_cell(pack, use.height),
                          number_cell(use.stack, 0)}});
  return grid;
}

Grid rail_grid(const Pack& pack) {
  Grid grid{"rails", "rails", pack.say("sheet.rails.title"), {}, {}};
  grid.columns = {text_column(pack, "rail"),  text_column(pack, "from"),      text_column(pack, "to"),
                  text_column(pack, "pipe"),  length_named(pack, "gap"),      text_column(pack, "gap_from"),
                  length_named(pack, "rise"), length_named(pack, "take_off"), length_named(pack, "cut")};
  for (const auto& rail : pack.plan.assembly.rails) {
    const auto& bay = bay_of(pack.plan, rail);
    grid.rows.push_back({{{rail.name, {}},
                          {post_name(pack.plan, bay.from), {}},
                          {post_name(pack.plan, bay.to), {}},
                          {item_word(pack, rail.pipe), {}},
                          length_cell(pack, rail.gap),
                          {pack.say(rail.measured ? "gap.measured" : "gap.planned"), {}},
                          length_cell(pack, rail.rise),
                          length_cell(pack, rail.take_off),
                          cut_cell(pack, rail.cut)}});
  }
  return grid;
}

Grid bay_grid(const Pack& pack) {
  const auto& rails = pack.plan.assembly.rails;
  int most = 0;
  bool braces = false;
  for (const auto& rail : rails) {
    most = std::max(most, rail.number);
    braces = braces || rail.number == 0;
  }
  const int lowest = braces ? 0 : 1;
  Grid grid{"bays", "bays", pack.say("sheet.bays.title"), {}, {}};
  grid.columns = {text_column(pack, "bay"), text_column(pack, "from"), text_column(pack, "to"), length_named(pack, "planned")};
  for (int n = lowest; n <= most; ++n) grid.columns.push_back({rail_word(pack, n), pack.shown.tape_unit(), {}, Align::blank, 22});
  for (std::size_t first = 0; first < rails.size();) {
    const auto& bay = bay_of(pack.plan, rails[first]);
    Row row{std::vector<Cell>(grid.columns.size())};
    row.cells[0] = {bay.name, {}, true};
    row.cells[1] = {post_name(pack.plan, bay.from), {}};
    row.cells[2] = {post_name(pack.plan, bay.to), {}};
    row.cells[3] = length_cell(pack, bay.gap);
    std::size_t end = first;
    for (; end < rails.size() && rails[end].bay == rails[first].bay; ++end)
      if (rails[end].measured) row.cells[static_cast<std::size_t>(4 + rails[end].number - lowest)] = length_cell(pack, rails[end].gap);
    grid.rows.push_back(row);
    first = end;
  }
  return grid;
}

namespace {

// A rail where it is bolted, and what holds its ends.
struct Bolted {
  const fittings::Rail* rail = nullptr;
  std::string from_part, to_part;
};

struct BoltingBay {
  const setout::Bay* bay = nullptr;
  std::vector<Bolted> rails;  // in the order of bolting
};

// From the bottom rail up; a brace rail (number 0) where its band sits, by height.
BoltingBay bolting_bay(const Pack& pack, const PartAt& parts, std::size_t first) {
  const auto& rails = pack.plan.assembly.rails;
  BoltingBay out{&bay_of(pack.plan, rails[first]), {}};
  for (std::size_t i = first; i < rails.size() && rails[i].bay == rails[first].bay; ++i)
    out.rails.push_back({&rails[i], part_word(pack, parts, rails[i], true), part_word(pack, parts, rails[i], false)});
  const auto height = [&](const fittings::Rail& rail) {
    const auto found = parts.find({rail.bay, rail.number, true});
    return found == parts.end() ? Length::mm(-rail.number) : found->second->height;
  };
  std::stable_sort(out.rails.begin(), out.rails.end(), [&](const auto& a, const auto& b) { return height(*a.rail) < height(*b.rail); });
  return out;
}

std::vector<BoltingBay> bolting_bays(const Pack& pack) {
  const PartAt parts = parts_by_end(pack.plan);
  const auto& rails = pack.plan.assembly.rails;
  std::vector<BoltingBay> bays;
  for (std::size_t first = 0; first < rails.size();) {
    bays.push_back(bolting_bay(pack, parts, first));
    first += bays.back().rails.size();
  }
  return bays;
}

bool same_parts(const Pack& pack, const Bolted& a, const Bolted& b) {
  return a.from_part == b.from_part && a.to_part == b.to_part && cut_cell(pack, a.rail->cut).text == cut_cell(pack, b.rail->cut).text;
}

// Bays of one run, one after the other, whose rails are alike, piece by piece.
bool same_work(const Pack& pack, const BoltingBay& first, const BoltingBay& next) {
  if (first.bay->run != next.bay->run || first.rails.size() != next.rails.size()) return false;
  for (std::size_t r = 0; r < first.rails.size(); ++r)
    if (first.rails[r].rail->number != next.rails[r].rail->number || !same_parts(pack, first.rails[r], next.rails[r])) return false;
  return true;
}

std::string bays_word(const Pack& pack, const setout::Bay& from, const setout::Bay& to, std::size_t count) {
  return pack.say(
      count > 1 ? "bolting.bays" : "bolting.bay",
      {{"bay", from.name}, {"last", to.name}, {"n", std::to_string(count)}, {"from", post_name(pack.plan, from.from)}, {"to", post_name(pack.plan, to.to)}});
}

// The rails of a bay; rails next to each other that are alike share a line.
void add_bolting_rows(Grid& grid, const Pack& pack, const BoltingBay& bay, int& step) {
  for (std::size_t first = 0; first < bay.rails.size();) {
    const Bolted& low = bay.rails[first];
    std::size_t end = first + 1;
    while (end < bay.rails.size() && low.rail->number > 0 && bay.rails[end].rail->number > 0 && same_parts(pack, low, bay.rails[end])) ++end;
    const int count = static_cast<int>(end - first), high = bay.rails[end - 1].rail->number;
    const std::string steps = count == 1 ? std::to_string(step + 1) : std::to_string(step + 1) + "–" + std::to_string(step + count);
    const std::string rails =
        count == 1 ? rail_word(pack, high) : pack.say("rail.numbers", {{"from", std::to_string(low.rail->number)}, {"to", std::to_string(high)}});
    grid.rows.push_back({{{steps, {}}, {rails, {}}, {low.from_part, {}}, {low.to_part, {}}, cut_cell(pack, low.rail->cut), {}}});
    step += count;
    first = end;
  }
}

}  // namespace

Grid bolting_grid(const Pack& pack) {
  Grid grid{"bolting", "bolting", pack.say("sheet.bolting.title"), {}, {}};
  grid.columns = {{pack.say("col.step"), {}, {}, Align::right, 0},
                  text_column(pack, "rail"),
                  text_column(pack, "from"),
                  text_column(pack, "to"),
                  text_column(pack, "from_part"),
                  text_column(pack, "to_part"),
                  length_named(pack, "cut")};
  int step = 0;
  for (const BoltingBay& bay : bolting_bays(pack))
    for (const Bolted& bolted : bay.rails)
      grid.rows.push_back({{number_cell(++step, 0),
                            {bolted.rail->name, {}},
                            {post_name(pack.plan, bay.bay->from), {}},
                            {post_name(pack.plan, bay.bay->to), {}},
                            {bolted.from_part, {}},
                            {bolted.to_part, {}},
                            cut_cell(pack, bolted.rail->cut)}});
  return grid;
}

Grid bolting_sheet_grid(const Pack& pack) {
  Grid grid{"bolting", "bolting", pack.say("sheet.bolting.title"), {}, {}};
  grid.columns = {{pack.say("col.step"), {}, {}, Align::right, 0},
                  text_column(pack, "rail"),
                  text_column(pack, "from_part"),
                  text_column(pack, "to_part"),
                  length_named(pack, "cut"),
                  tick_column(pack)};
  const auto bays = bolting_bays(pack);
  int step = 0;
  for (std::size_t first = 0; first < bays.size();) {
    std::size_t end = first + 1;
    while (end < bays.size() && same_work(pack, bays[first], bays[end])) ++end;
    grid.rows.push_back({{{bays_word(pack, *bays[first].bay, *bays[end - 1].bay, end - first), {}}}, true});
    add_bolting_rows(grid, pack, bays[first], step);
    first = end;
  }
  return grid;
}

Grid cut_grid(const Pack& pack) {
  Grid grid{"cuts", "cuts", pack.say("sheet.cuts.title"), {}, {}};
  grid.columns = {text_column(pack, "pipe"),
                  text_column(pack, "stick"),
                  length_named(pack, "stick_length"),
                  {pack.say("col.sticks"), {}, {}, Align::right, 0},
                  {pack.say("col.order_in_stick"), {}, {}, Align::right, 0},
                  text_column(pack, "piece"),
                  length_named(pack, "cut"),
                  length_named(pack, "mark"),
                  length_named(pack, "drop"),
                  text_column(pack, "fate")};
  for (const auto& pipe : pack.plan.cuts)
    for (const auto& stick : pipe.plan.sticks) {
      const auto& stock = pipe.instance.stocks()[static_cast<std::size_t>(stick.stock)];
      const std::size_t ready = ready_pieces(pack, pipe, stick);
      for (std::size_t i = 0; i < stick.pieces.size(); ++i) {
        const auto& piece = pipe.instance.pieces()[static_cast<std::size_t>(stick.pieces[i])];
        const bool last = i + 1 == stick.pieces.size();
        grid.rows.push_back({{{item_word(pack, pipe.pipe), {}},
                              {stock.name, {}},
                              length_cell(pack, stock.length),
                              number_cell(static_cast<double>(stick.count), 0),
                              number_cell(static_cast<double>(i + 1), 0),
                              {piece.label, {}},
                              cut_cell(pack, piece.length),
                              i < ready && i < stick.marks.size() ? length_cell(pack, stick.marks[i]) : Cell{},
                              last ? length_cell(pack, stick.drop) : Cell{},
                              {last ? pack.say(stick.kept ? "cuts.kept" : "cuts.waste") : "", {}}}});
      }
    }
  return grid;
}

}  // namespace railwright::sheets
