// SPDX-License-Identifier: MIT
#include "sheets/cut_sheet.h"
#include "sheets/first_sheet.h"
#include "sheets/fitting_sheet.h"
#include "sheets/grids.h"
#include "sheets/profile_sheet.h"
#include "sheets/sheets.h"
#include "sheets/site_plan.h"
#include "sheets/spacing_lines.h"

// The pack in the order in which the job is done: look, buy, haul, stake, set, mark, measure, cut, bolt.
namespace railwright::sheets {
namespace {

void draw_if_any(Book& book, const Grid& grid, const GridLook& look = {}) {
  if (!grid.rows.empty()) draw_grid(book, grid, look);
}

std::vector<std::string> price_lines(const Pack& pack) {
  const auto& price = pack.plan.takeoff.price;
  const std::string position = position_sentence(pack);
  std::vector<std::string> lines;
  if (!position.empty()) lines.push_back(position);
  for (const std::string& line : spacing_lines(pack)) lines.push_back(line);
  if (price.total <= Money()) return lines;
  const auto say = [&](const std::string& key, Money amount) { return pack.say("orders." + key, {{"amount", pack.shown.money(amount)}}); };
  std::string parts = say("materials", price.materials) + "  ·  " + say("labour", price.labour) + "  ·  " + say("overhead", price.overhead) + "  ·  " +
                      say("profit", price.profit) + "  ·  " + say("tax", price.tax);
  lines.insert(lines.begin(), {parts, say("total", price.total) + "  ·  " + say("per_foot", price.per_foot)});
  return lines;
}

std::vector<std::string> hour_lines(const Pack& pack) {
  const auto& t = pack.plan.takeoff;
  return {pack.say("hours.total",
                   {{"hours", number_text(t.person_hours, 1)}, {"days", number_text(t.days, 1)}, {"people", std::to_string(pack.job.choices.crew.people)}})};
}

std::vector<std::string> load_lines(const Pack& pack) {
  const auto& load = pack.plan.takeoff.load;
  std::vector<std::string> lines{pack.say("load.total", {{"mass", pack.shown.mass(load.mass_kg)},
                                                         {"trips", std::to_string(load.trips)},
                                                         {"longest", pack.shown.tape(load.longest)},
                                                         {"tiedowns", std::to_string(load.tie_downs)}})};
  if (load.overhang) lines.push_back(pack.say("load.overhang"));
  lines.push_back(pack.say("load.source"));
  return lines;
}

std::vector<std::string> steps(const Pack& pack) {
  std::vector<std::string> lines;
  for (int i = 1; pack.words.has("bolting.steps." + std::to_string(i)); ++i)
    lines.push_back(std::to_string(i) + ".  " + pack.say("bolting.steps." + std::to_string(i)));
  return lines;
}

}  // namespace

std::vector<Sheet> draw_sheets(const job::Job& job, const Plan& plan, const Words& words, Paper paper) {
  const Pack pack{job, plan, words, paper, Shown(job)};
  Book book(pack);
  draw_first_sheet(book, pack);
  draw_site_plan(book, pack);
  draw_profiles(book, pack);
  draw_if_any(book, order_grid(pack), {5.4, {}, price_lines(pack), {}});
  draw_if_any(book, load_grid(pack), {5.4, {}, load_lines(pack), {}});
  draw_if_any(book, hour_grid(pack), {5.4, {}, hour_lines(pack), {}});
  draw_if_any(book, earth_grid(pack));
  draw_if_any(book, stake_grid(pack));
  draw_if_any(book, corner_grid(pack));
  draw_if_any(book, post_grid(pack));
  draw_fitting_sheets(book, pack);
  draw_if_any(book, mark_sheet_grid(pack));
  draw_if_any(book, bay_grid(pack), {9.4, {}, {}, {}});  // a blank takes a carpenter's pencil
  draw_cut_sheets(book, pack);
  draw_if_any(book, bolting_sheet_grid(pack), {5.4, steps(pack), {}, {}});
  draw_if_any(book, check_grid(pack));
  draw_if_any(book, finding_grid(pack));
  draw_cautions(book, pack);
  return book.finish();
}

std::vector<Table> tables(const job::Job& job, const Plan& plan, const Words& words) {
  const Pack pack{job, plan, words, Paper::letter, Shown(job)};
  std::vector<Table> out;
  for (const auto& grid :
       {stake_grid(pack), corner_grid(pack), post_grid(pack), fitting_grid(pack), mark_grid(pack), rail_grid(pack), bay_grid(pack), cut_grid(pack),
        bolting_grid(pack), order_grid(pack), load_grid(pack), hour_grid(pack), spacing_grid(pack), earth_grid(pack), check_grid(pack), finding_grid(pack)})
    out.push_back(to_table(grid));
  return out;
}

}  // namespace railwright::sheets
