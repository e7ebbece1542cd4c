// SPDX-License-Identifier: MIT
#include <algorithm>
#include <optional>

#include "sheets/grids.h"

namespace railwright::sheets {
namespace {

std::string group_word(const Pack& pack, const std::string& group) { return pack.words.has("groups." + group) ? pack.say("groups." + group) : group; }

// Formulas and sources of checks come from the engine as text; another language may say them in its own words.
std::string engine_text(const Pack& pack, const std::string& text) {
  const std::string key = "engine_text." + text;
  return pack.words.has(key) ? pack.say(key) : text;
}

std::string why_word(const Pack& pack, const std::string& why) {
  if (why.empty()) return {};
  return pack.words.has("why." + why) ? pack.say("why." + why) : why;
}

// A check's figure in its own unit, and in the job's where they differ.
std::string figure(const Pack& pack, double value, const std::string& unit) {
  if (!pack.shown.metric()) {
    if (unit == "N") return number_text(value / 4.4482216152605, 0) + " lb";
    if (unit == "N m") return number_text(value / 1.3558179483314, 0) + " ft·lb";
    if (unit == "mm") return number_text(value / 25.4, 2) + " in";
    if (unit == "m") return number_text(value / 0.3048, 2) + " ft";
  }
  const int decimals = value >= 100 ? 0 : value >= 10 ? 1 : 2;
  return number_text(value, decimals) + " " + unit;
}

}  // namespace

Grid order_grid(const Pack& pack) {
  Grid grid{"orders", "orders", pack.say("sheet.orders.title"), {}, {}};
  const std::string& currency = pack.plan.takeoff.price.currency.empty() ? pack.job.choices.price.currency : pack.plan.takeoff.price.currency;
  grid.columns = {text_column(pack, "item"),
                  right_column(pack, "order"),
                  text_column(pack, "unit"),
                  right_column(pack, "needed"),
                  right_column(pack, "spare"),
                  right_column(pack, "price", currency),
                  right_column(pack, "amount", currency),
                  right_column(pack, "short", "%"),
                  text_column(pack, "why"),
                  {pack.say("col.got"), {}, {}, Align::tick, 4}};
  grid.group_head = pack.say("col.group");
  std::string group = "\n";
  for (const auto& line : pack.plan.takeoff.orders) {
    if (line.group != group) grid.rows.push_back({{{group_word(pack, line.group), {}}}, true});
    group = line.group;
    Cell order = number_cell(line.order, 2), price = money_cell(line.price), amount = money_cell(line.amount);
    order.strong = true;
    if (!line.priced) price = amount = {pack.say("orders.no_price"), ""};
    grid.rows.push_back({{{item_word(pack, line.item), line.item},
                          order,
                          {unit_word(pack, line.unit), {}},
                          number_cell(line.needed, 2),
                          number_cell(line.spare, 2),
                          price,
                          amount,
                          fixed_cell(line.running_short * 100, 1),
                          {why_word(pack, line.why), {}},
                          {}}});
  }
  return grid;
}

Grid hour_grid(const Pack& pack) {
  Grid grid{"hours", "hours", pack.say("sheet.hours.title"), {}, {}};
  grid.columns = {text_column(pack, "operation"), right_column(pack, "count"), right_column(pack, "minutes"), right_column(pack, "hours")};
  for (const auto& line : pack.plan.takeoff.hours) {
    const std::string key = "operations." + line.operation;
    grid.rows.push_back({{{pack.words.has(key) ? pack.say(key) : line.operation, line.operation},
                          number_cell(line.count, 1),
                          fixed_cell(line.minutes_each, 1),
                          fixed_cell(line.hours, 1)}});
  }
  return grid;
}

Grid load_grid(const Pack& pack) {
  Grid grid{"load", "load", pack.say("sheet.load.title"), {}, {}};
  grid.columns = {text_column(pack, "item"),
                  right_column(pack, "order"),
                  text_column(pack, "unit"),
                  right_column(pack, "mass", pack.shown.mass_unit()),
                  {pack.say("col.loaded"), {}, {}, Align::tick, 4}};
  grid.group_head = pack.say("col.group");
  std::string group = "\n";
  for (const auto& line : pack.plan.takeoff.orders) {
    if (line.group != group) grid.rows.push_back({{{group_word(pack, line.group), {}}}, true});
    group = line.group;
    // Concrete by the yard weighs nothing on the trailer: it comes by its own lorry.
    const Cell mass = line.mass_kg > 0 ? fixed_cell(pack.shown.in_mass_unit(line.mass_kg), 0) : Cell{pack.say("load.delivered"), {}};
    grid.rows.push_back({{{item_word(pack, line.item), line.item}, number_cell(line.order, 2), {unit_word(pack, line.unit), {}}, mass, {}}});
  }
  return grid;
}

Grid spacing_grid(const Pack& pack) {
  Grid grid{"spacing", "spacing", pack.say("spacing.title"), {}, {}};
  const std::string& currency = pack.plan.takeoff.price.currency.empty() ? pack.job.choices.price.currency : pack.plan.takeoff.price.currency;
  grid.columns = {text_column(pack, "figure"), right_column(pack, "amount", currency)};
  if (!pack.plan.spacing) return grid;
  const spacing::Choice& choice = *pack.plan.spacing;
  const auto row = [&](const char* figure, std::optional<Money> amount) {
    if (amount) grid.rows.push_back({{{pack.say(std::string("spacing.table.") + figure), figure}, money_cell(*amount)}});
  };
  row("cost", choice.cost);
  row("plain", choice.plain);
  row("eight_foot", choice.eight_foot);
  row("bound", choice.bound);
  row("at_zero_allowance", choice.at_zero);
  row("at_double_allowance", choice.at_double);
  row("without_limit", choice.without_limit);
  return grid;
}

Grid earth_grid(const Pack& pack) {
  Grid grid{"earth", "earth", pack.say("sheet.earth.title"), {}, {}};
  grid.columns = {text_column(pack, "bay"),
                  text_column(pack, "work"),
                  length_column(pack, pack.say("col.from")),
                  length_column(pack, pack.say("col.to")),
                  length_column(pack, pack.say("col.deepest")),
                  right_column(pack, "volume", pack.shown.volume_unit())};
  double cut = 0, fill = 0;
  const int decimals = pack.shown.metric() ? 3 : 1;
  const auto volume = [&](double m3) { return fixed_cell(pack.shown.in_volume_unit(m3), decimals); };
  for (const auto& work : pack.plan.heights.earthwork) {
    const bool filled = work.way == job::MendWay::fill;
    (filled ? fill : cut) += work.volume_m3;
    grid.rows.push_back({{{pack.plan.layout.bays[static_cast<std::size_t>(work.bay)].name, {}, true},
                          {pack.say(filled ? "earth.fill" : "earth.cut"), {}},
                          length_cell(pack, work.from),
                          length_cell(pack, work.to),
                          length_cell(pack, work.deepest),
                          volume(work.volume_m3)}});
  }
  for (const bool filled : {false, true}) {
    const double sum = filled ? fill : cut;
    if (sum > 0) grid.rows.push_back({{{pack.say("earth.sum"), {}, true}, {pack.say(filled ? "earth.fill" : "earth.cut"), {}}, {}, {}, {}, volume(sum)}});
  }
  return grid;
}

Grid check_grid(const Pack& pack) {
  Grid grid{"checks", "checks", pack.say("sheet.checks.title"), {}, {}};
  grid.columns = {text_column(pack, "check"),  text_column(pack, "where"),   right_column(pack, "demand"), right_column(pack, "capacity"),
                  right_column(pack, "ratio"), text_column(pack, "verdict"), text_column(pack, "formula"), text_column(pack, "source")};
  for (const auto& check : pack.plan.checks) {
    const std::string key = "checks." + check.code;
    grid.rows.push_back({{{pack.words.has(key) ? pack.say(key) : check.code, check.code, true},
                          {check.where, {}},
                          {figure(pack, check.demand, check.unit), {}},
                          {figure(pack, check.capacity, check.unit), {}},
                          fixed_cell(check.ratio, 2),
                          {pack.say(check.ok ? "check.within" : "check.over"), {}, !check.ok},
                          {engine_text(pack, check.formula), {}},
                          {engine_text(pack, check.source), {}}}});
  }
  return grid;
}

Grid finding_grid(const Pack& pack) {
  Grid grid{"findings", "findings", pack.say("sheet.findings.title"), {}, {}};
  grid.columns = {text_column(pack, "weight"), text_column(pack, "where"), text_column(pack, "finding")};
  static constexpr const char* kWeights[] = {"severity.note", "severity.warning", "severity.stop"};
  measure::LengthFormat format = length_format(pack.job.units);
  format.primes = !pack.shown.metric();
  for (const Severity severity : {Severity::stop, Severity::warning, Severity::note})
    for (const auto& f : pack.plan.findings)
      if (f.severity == severity)
        grid.rows.push_back(
            {{{pack.say(kWeights[static_cast<int>(severity)]), {}, severity == Severity::stop}, {f.where, {}}, {finding_text(pack.words, f, format), {}}}});
  return grid;
}

}  // namespace railwright::sheets
