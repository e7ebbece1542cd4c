// SPDX-License-Identifier: MIT
#include "sheets/grids.h"

// The stake-out list: what the crew reads off the tape, off the string, or off an instrument.
namespace railwright::sheets {
namespace {

Column text_column(const Pack& pack, const std::string& key) { return {pack.say("col." + key), {}, {}, Align::left, 0}; }
Column length_named(const Pack& pack, const std::string& key) { return length_column(pack, pack.say("col." + key)); }
Column right_column(const Pack& pack, const std::string& key, const std::string& unit) { return {pack.say("col." + key), unit, {}, Align::right, 0}; }

// Coordinates: decimal feet or metres, as surveyors write them.
Cell coordinate(const Pack& pack, double metres) {
  return pack.shown.metric() ? fixed_cell(metres, 3) : fixed_cell(metres / 0.3048, 2);
}

// Degrees: seven decimals on paper (a centimetre), eight for a spreadsheet.
Cell degrees_cell(double degrees) { return {number_text(degrees, 7), number_text(degrees, 8)}; }

std::vector<Column> columns(const Pack& pack) {
  const char* unit = pack.shown.metric() ? "m" : "ft";
  std::vector<Column> all{text_column(pack, "post"), text_column(pack, "kind"), length_named(pack, "pitch"), length_named(pack, "station"),
                          length_named(pack, "tape"), length_named(pack, "string_centre"), length_named(pack, "string_face"),
                          right_column(pack, "east", unit), right_column(pack, "north", unit), right_column(pack, "ground", unit)};
  if (!pack.plan.stakes.places.empty()) {
    all.push_back(right_column(pack, "latitude", "°"));
    all.push_back(right_column(pack, "longitude", "°"));
  }
  all.push_back({pack.say("col.done"), {}, {}, Align::tick, 4});
  return all;
}

Row leg_row(const Pack& pack, const stakeout::LegStakes& leg) {
  const std::string side = pack.say(leg.string_side == job::Side::left ? "stakes.left" : "stakes.right");
  return {{{pack.say("stakes.leg", {{"leg", pack.job.site.legs[static_cast<std::size_t>(leg.leg)].id},
                                    {"length", pack.shown.tape(leg.level)},
                                    {"tape", pack.shown.tape(leg.tape)},
                                    {"side", side}}), {}}}, true};
}

Row stake_row(const Pack& pack, const stakeout::Stake& stake, const stakeout::Stake* before) {
  const auto index = static_cast<std::size_t>(stake.post);
  const setout::Post& post = pack.plan.layout.posts[index];
  Row row{{{post.name, {}, post.kind != setout::PostKind::line}, {kind_word(pack, post.kind), {}},
           before == nullptr ? Cell{} : length_cell(pack, stake.station - before->station), length_cell(pack, stake.station),
           length_cell(pack, stake.tape), length_cell(pack, stake.string_to_centre), length_cell(pack, stake.string_to_face),
           coordinate(pack, post.at.x), coordinate(pack, post.at.y), coordinate(pack, post.ground)}};
  row.cells[4].strong = true;
  if (index < pack.plan.stakes.places.size()) {
    row.cells.push_back(degrees_cell(pack.plan.stakes.places[index].latitude_deg));
    row.cells.push_back(degrees_cell(pack.plan.stakes.places[index].longitude_deg));
  }
  row.cells.push_back({});
  return row;
}

}  // namespace

Grid stake_grid(const Pack& pack) {
  Grid grid{"stakes", "stakes", pack.say("sheet.stakes.title"), columns(pack), {}};
  for (const stakeout::LegStakes& leg : pack.plan.stakes.legs) {
    grid.rows.push_back(leg_row(pack, leg));
    const stakeout::Stake* before = nullptr;
    for (const stakeout::Stake& stake : leg.stakes) {
      grid.rows.push_back(stake_row(pack, stake, before));
      before = &stake;
    }
  }
  return grid;
}

}  // namespace railwright::sheets
