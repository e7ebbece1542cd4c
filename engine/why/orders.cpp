// SPDX-License-Identifier: MIT
// Lines of the buying list: how many are needed, the margin, what is ordered and what it costs.
#include "engine/takeoff/orders.h"

#include <cmath>
#include <map>

#include "engine/why/asked.h"

namespace railwright::why {
namespace {

using takeoff::OrderLine;

struct Here {
  const Asked& asked;
  const OrderLine& line;
  takeoff::Losses losses = {};

  std::string name(const char* part) const { return "order/" + line.group + "/" + line.item + "/" + part; }
  double accepted() const { return asked.job.choices.allowances.running_short; }
  Answer say(double value, std::string formula, std::vector<Input> inputs, const char* source, std::string unit = {}) const {
    return answer(asked, value, std::move(formula), std::move(inputs), source, {}, unit.empty() ? line.unit : unit);
  }
};

// Posts and gates by which a line is counted, one for each kind of post.
struct ByKind {
  std::map<setout::PostKind, std::int64_t> kinds;
  std::vector<std::string> where;
  void add(const setout::Post& post) {
    ++kinds[post.kind];
    if (where.empty() || where.back() != post.name) where.push_back(post.name);
  }
  Answer said(const Here& here, const char* source) const {
    Answer made = here.say(here.line.needed, "sum()", {}, source);
    for (const auto& [kind, number] : kinds) made.inputs.push_back(each(kind_name(kind), number));
    made.where = where;
    return made;
  }
};

Answer fittings_needed(const Here& here) {
  const takeoff::Remaining remaining(here.asked.job, here.asked.plan.layout);
  ByKind by;
  for (const fittings::Use& use : here.asked.plan.assembly.uses) {
    const bool this_part = here.asked.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id == here.line.item;
    if (this_part && remaining.use(use)) by.add(here.asked.post(use.post));
  }
  return by.said(here, "fittings");
}

Answer caps_needed(const Here& here) {
  const takeoff::Remaining remaining(here.asked.job, here.asked.plan.layout);
  const job::Supply* supply = here.asked.plan.catalogue.supply(here.line.item);
  ByKind by;
  for (std::size_t k = 0; k < here.asked.plan.layout.posts.size(); ++k) {
    const setout::Post& post = here.asked.plan.layout.posts[k];
    const job::Fence* fence = here.asked.fence(post.fence);
    const bool size = supply == nullptr || supply->width == post.diameter;
    if (fence != nullptr && fence->capped && size && remaining.post(static_cast<int>(k))) by.add(post);
  }
  std::int64_t all = 0;
  for (const auto& [kind, number] : by.kinds) all += number;
  // Sizes that no catalogue row has share the bare name: then the count is the line's own.
  if (static_cast<double>(all) != here.line.needed) return plainly(here.asked, number("counted", here.line.needed, here.line.unit), "counted");
  return by.said(here, "counted");
}

// Bolts and nuts: so many for each fitting.
Answer bolts_needed(const Here& here, int job::Fitting::*number) {
  const takeoff::Remaining remaining(here.asked.job, here.asked.plan.layout);
  std::map<int, std::int64_t> used;
  for (const fittings::Use& use : here.asked.plan.assembly.uses) {
    if (remaining.use(use)) ++used[use.fitting];
  }
  Answer made = here.say(here.line.needed, "sum()", {}, "fitting_row");
  for (const auto& [part, times] : used) {
    const job::Fitting& fitting = here.asked.plan.catalogue.fittings[static_cast<std::size_t>(part)];
    if (fitting.*number > 0) made.inputs.push_back(each(fitting.id, std::int64_t{fitting.*number}, static_cast<double>(times)));
  }
  return made;
}

double yield_of(const Here& here) {
  const job::Supply* supply = here.asked.plan.catalogue.supply(here.line.item);
  return supply == nullptr ? 0 : supply->volume_m3;
}

bool is_concrete(const Here& here) { return here.line.group == "concrete"; }
bool by_roll(const Here& here) { return here.line.why == "mesh" || here.line.why == "wire" || here.line.why == "brace_wire"; }

// What one unit of a measured line holds: a bag its yield, a roll its length, a foot a foot.
double holds(const Here& here) {
  if (is_concrete(here)) return yield_of(here);
  const job::Supply* supply = here.asked.plan.catalogue.supply(here.line.item);
  return here.line.unit == "roll" && supply != nullptr ? supply->length.metres() : measure::kMetrePerFoot;
}

double volume(const Asked& asked) {
  double all = 0;
  for (const takeoff::PostSize& post : asked.plan.takeoff.posts) all += post.concrete_m3;
  return all;
}

Answer needed(const Here& here) {
  const std::string& why = here.line.why;
  if (why == "fittings") return fittings_needed(here);
  if (why == "caps") return caps_needed(here);
  if (why == "bolts") return bolts_needed(here, &job::Fitting::bolts);
  if (why == "nuts") return bolts_needed(here, &job::Fitting::nuts);
  if (is_concrete(here)) {
    return here.say(here.line.needed, "volume / yield",
                    {figure("tally/all/concrete", "volume", Value(volume(here.asked)), "m3"), number("yield", yield_of(here), "m3")}, "catalogue");
  }
  if (by_roll(here)) {
    const double one = holds(here);
    return here.say(here.line.needed, "used / holds", {input("used", Length::from_metres(here.line.needed * one)), input("holds", Length::from_metres(one))},
                    "rolls");
  }
  Answer made = plainly(here.asked, number("counted", here.line.needed, here.line.unit), why == "sticks" ? "cut_plan" : "counted");
  for (const job::Gate& gate : here.asked.job.site.gates) {
    if (here.line.group == "gates") made.where.push_back(gate.id);
  }
  return made;
}

double loss_of(const Here& here) {
  const std::string& why = here.line.why;
  if (why == "fittings" || why == "strainers") return here.losses.fitting;
  if (why == "bolts" || why == "nuts") return here.losses.bolt;
  if (why == "caps") return here.losses.cap;
  if (why == "clips") return here.losses.clip;
  if (why == "panels") return here.losses.panel;
  return 0;
}

// A measured quantity: mean and deviation of what will be used.
takeoff::Spread spread_of(const Here& here) {
  if (!is_concrete(here)) {
    const double used = here.line.needed * holds(here);
    return {used * (1 + here.losses.roll_excess), used * here.losses.roll_deviation};
  }
  double squares = 0;
  for (const takeoff::PostSize& post : here.asked.plan.takeoff.posts) squares += post.concrete_m3 * post.concrete_m3;
  return {volume(here.asked) * (1 + here.losses.hole_excess), here.losses.hole_deviation * std::sqrt(squares)};
}

Answer measured_spare(const Here& here) {
  const takeoff::Spread use = spread_of(here);
  const double one = holds(here), z = takeoff::normal_quantile(here.accepted());
  const std::string unit = is_concrete(here) ? "m3" : "m";
  const double by_chance = std::max(0.0, (use.mean + z * use.deviation) / one - here.line.needed);
  if (here.line.spare > by_chance + 1e-9) {
    return here.say(here.line.spare, "least_rolls - needed",
                    {number("least_rolls", here.line.needed + here.line.spare, here.line.unit),
                     figure(here.name("needed"), "needed", Value(here.line.needed), here.line.unit)},
                    "rolls");
  }
  return here.say(here.line.spare, "max((mean + deviations(chance) * deviation) / holds - needed, 0)",
                  {number("mean", use.mean, unit), number("deviation", use.deviation, unit), number("holds", one, unit),
                   figure(here.name("needed"), "needed", Value(here.line.needed), here.line.unit), number("chance", here.accepted())},
                  "margin_measured");
}

// Bent sticks, and sticks whose last rail no longer fits: each has half of the accepted chance.
Answer stick_spare(const Here& here) {
  const double half = here.accepted() / 2;
  const auto used = static_cast<std::int64_t>(here.line.needed), spare = static_cast<std::int64_t>(here.line.spare);
  std::int64_t misfit = spare;
  while (misfit > 0 && misfit + takeoff::spares(used + misfit, here.losses.stick, half) > spare) --misfit;
  return here.say(here.line.spare, "misfits + spares(needed + misfits, loss, chance)",
                  {count("misfits", misfit), figure(here.name("needed"), "needed", Value(here.line.needed), here.line.unit), number("loss", here.losses.stick),
                   number("chance", half)},
                  "margin_sticks");
}

Answer spare(const Here& here) {
  if (here.line.spare == 0) return plainly(here.asked, number("counted", 0, here.line.unit), "no_margin");
  if (is_concrete(here) || by_roll(here)) return measured_spare(here);
  if (here.line.why == "sticks") return stick_spare(here);
  return here.say(
      here.line.spare, "spares(needed, loss, chance)",
      {figure(here.name("needed"), "needed", Value(here.line.needed), here.line.unit), number("loss", loss_of(here)), number("chance", here.accepted())},
      "margin_counted");
}

Answer running_short(const Here& here) {
  const Value order(here.line.order), needed(here.line.needed);
  std::optional<Answer> made;
  if (is_concrete(here) || by_roll(here)) {
    const takeoff::Spread use = spread_of(here);
    const std::string unit = is_concrete(here) ? "m3" : "m";
    made = here.say(here.line.running_short, "tail((order * holds - mean) / deviation)",
                    {figure(here.name("order"), "order", order, here.line.unit), number("holds", holds(here), unit), number("mean", use.mean, unit),
                     number("deviation", use.deviation, unit)},
                    "margin_measured");
  } else if (here.line.why == "sticks" || loss_of(here) == 0) {
    made = plainly(here.asked, number("chance", here.line.running_short), here.line.why == "sticks" ? "margin_sticks" : "no_margin");
  } else {
    made = here.say(here.line.running_short, "short(needed, order, loss)",
                    {figure(here.name("needed"), "needed", needed, here.line.unit), figure(here.name("order"), "order", order, here.line.unit),
                     number("loss", loss_of(here))},
                    "margin_counted");
  }
  made->unit = "share";
  return *made;
}

// Where a price comes from: the price book, else the offer or the fitting's row.
std::string price_source(const Here& here) {
  if (const job::PriceRow* row = here.asked.plan.catalogue.price(here.line.item)) return row->source + (row->date.empty() ? "" : ", " + row->date);
  for (const job::StockOffer& offer : here.asked.job.choices.offers) {
    if (offer.name == here.line.item) return offer.source;
  }
  const job::Fitting* fitting = here.asked.plan.catalogue.fitting(here.line.item);
  return fitting == nullptr ? "" : fitting->source;
}

std::string row_source(const Here& here) {
  if (const job::Supply* supply = here.asked.plan.catalogue.supply(here.line.item)) return supply->source;
  const job::Fitting* fitting = here.asked.plan.catalogue.fitting(here.line.item);
  return fitting == nullptr ? "" : fitting->source;
}

std::optional<Answer> order(const Asked& asked) {
  const auto slash = asked.thing.find('/');
  if (slash == std::string::npos) return std::nullopt;
  const std::string group = asked.thing.substr(0, slash), item = asked.thing.substr(slash + 1);
  const int index = index_where(asked.plan.takeoff.orders, [&](const OrderLine& line) { return line.group == group && line.item == item; });
  if (index < 0) return std::nullopt;
  const Here here{asked, asked.plan.takeoff.orders[static_cast<std::size_t>(index)]};
  const OrderLine& line = here.line;
  const auto part = [&](const char* name, double value) { return figure(here.name(name), name, Value(value), line.unit); };
  if (asked.part == "needed") return needed(here);
  if (asked.part == "spare") return spare(here);
  if (asked.part == "short") return running_short(here);
  if (asked.part == "order")
    return here.say(line.order, "ceil((needed + spare) / pack) * pack",
                    {part("needed", line.needed), part("spare", line.spare), number("pack", line.pack, line.unit)}, "packs");
  if (asked.part == "mass") {
    if (!(line.order > 0)) return std::nullopt;
    Answer made =
        here.say(line.mass_kg, "order * mass_each", {part("order", line.order), number("mass_each", line.mass_kg / line.order, "kg")}, "catalogue_mass", "kg");
    made.row = row_source(here);
    return made;
  }
  std::optional<Answer> made;
  if (asked.part == "price") made = plainly(asked, input("price", line.price), line.priced ? "price_book" : "no_price");
  if (asked.part == "amount")
    made = answer(asked, value_of(line.amount), "cents(price * order)", {figure(here.name("price"), "price", line.price), part("order", line.order)},
                  "price_list");
  if (made) made->row = price_source(here);
  return made;
}

void list_orders(const job::Job&, const Plan& plan, const Listed& add) {
  for (const OrderLine& line : plan.takeoff.orders) {
    for (const char* part : {"needed", "spare", "order", "short", "price", "amount", "mass"}) add(line.group + "/" + line.item, part);
  }
}

}  // namespace

const Family kOrders{"order", order, list_orders};

}  // namespace railwright::why
