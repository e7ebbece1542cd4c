// SPDX-License-Identifier: MIT
#include "sheets/grids.h"

// The stake-out list: what the crew reads off the tape, off the string, or off an instrument.
namespace railwright::sheets {
namespace {

// Coordinates: decimal feet or metres, as surveyors write them.
Cell coordinate(const Pack& pack, double metres) { return pack.shown.metric() ? fixed_cell(metres, 3) : fixed_cell(metres / 0.3048, 2); }

// Degrees: seven decimals on paper (a centimetre), eight for a spreadsheet.
Cell degrees_cell(double degrees) { return {number_text(degrees, 7), number_text(degrees, 8)}; }

std::vector<Column> columns(const Pack& pack) {
  const char* unit = pack.shown.metric() ? "m" : "ft";
  std::vector<Column> all{text_column(pack, "post"),         text_column(pack, "kind"),        length_named(pack, "pitch"),
                          length_named(pack, "station"),     length_named(pack, "tape"),       length_named(pack, "string_centre"),
                          length_named(pack, "string_face"), right_column(pack, "east", unit), right_column(pack, "north", unit),
                          right_column(pack, "ground", unit)};
  if (!pack.plan.stakes.places.empty()) {
    all.push_back(right_column(pack, "latitude", "°"));
    all.push_back(right_column(pack, "longitude", "°"));
  }
  all.push_back({pack.say("col.done"), {}, {}, Align::tick, 4});
  return all;
}

std::string leg_name(const Pack& pack, int leg) { return pack.job.site.legs[static_cast<std::size_t>(leg)].id; }

Row leg_row(const Pack& pack, const stakeout::LegStakes& leg) {
  const std::string side = pack.say(leg.string_side == job::Side::left ? "stakes.left" : "stakes.right");
  return {
      {{pack.say("stakes.leg", {{"leg", leg_name(pack, leg.leg)}, {"length", pack.shown.tape(leg.level)}, {"tape", pack.shown.tape(leg.tape)}, {"side", side}}),
        leg_name(pack, leg.leg)}},
      true};
}

Row stake_row(const Pack& pack, const stakeout::Stake& stake, bool first) {
  const auto index = static_cast<std::size_t>(stake.post);
  const setout::Post& post = pack.plan.layout.posts[index];
  Row row{{{post.name, {}, post.kind != setout::PostKind::line},
           {kind_word(pack, post.kind), {}},
           first ? Cell{} : length_cell(pack, stake.from_before),
           length_cell(pack, stake.station),
           length_cell(pack, stake.tape),
           length_cell(pack, stake.string_to_centre),
           length_cell(pack, stake.string_to_face),
           coordinate(pack, post.at.x),
           coordinate(pack, post.at.y),
           coordinate(pack, post.ground)}};
  row.cells[4].strong = true;
  if (index < pack.plan.stakes.places.size()) {
    row.cells.push_back(degrees_cell(pack.plan.stakes.places[index].latitude_deg));
    row.cells.push_back(degrees_cell(pack.plan.stakes.places[index].longitude_deg));
  }
  row.cells.push_back({});
  return row;
}

const std::string& post_name(const Pack& pack, int post) { return pack.plan.layout.posts[static_cast<std::size_t>(post)].name; }

}  // namespace

Grid stake_grid(const Pack& pack) {
  Grid grid{"stakes", "stakes", pack.say("sheet.stakes.title"), columns(pack), {}};
  grid.group_head = pack.say("col.leg");
  for (const stakeout::LegStakes& leg : pack.plan.stakes.legs) {
    grid.rows.push_back(leg_row(pack, leg));
    for (const stakeout::Stake& stake : leg.stakes) grid.rows.push_back(stake_row(pack, stake, &stake == &leg.stakes.front()));
  }
  return grid;
}

Grid corner_grid(const Pack& pack) {
  Grid grid{"corners", "corners", pack.say("sheet.corners.title"), {}, {}};
  grid.columns = {text_column(pack, "corner"), text_column(pack, "first_side"), length_named(pack, "mark"), text_column(pack, "second_side"),
                  length_named(pack, "mark"),  length_named(pack, "diagonal"),  text_column(pack, "angle"), {pack.say("col.done"), {}, {}, Align::tick, 4}};
  for (const setout::CornerProof& proof : pack.plan.layout.corners) {
    grid.rows.push_back({{{post_name(pack, proof.post), {}, true},
                          {leg_name(pack, proof.legs[0]), {}},
                          length_cell(pack, proof.marks[0]),
                          {leg_name(pack, proof.legs[1]), {}},
                          length_cell(pack, proof.marks[1]),
                          length_cell(pack, proof.diagonal),
                          {pack.say(proof.square ? "corners.square" : "corners.oblique"), {}},
                          {}}});
  }
  for (const setout::Quadrilateral& quad : pack.plan.layout.quadrilaterals) {
    for (std::size_t i = 0; i < 2; ++i) {
      grid.rows.push_back({{{pack.say("corners.across", {{"from", post_name(pack, quad.posts[i])}, {"to", post_name(pack, quad.posts[i + 2])}}), {}, true},
                            {},
                            {},
                            {},
                            {},
                            length_cell(pack, quad.diagonals[i]),
                            {pack.say("corners.four", {{"posts", post_name(pack, quad.posts[0]) + " " + post_name(pack, quad.posts[1]) + " " +
                                                                     post_name(pack, quad.posts[2]) + " " + post_name(pack, quad.posts[3])}}),
                             {}},
                            {}}});
    }
  }
  return grid;
}

}  // namespace railwright::sheets
