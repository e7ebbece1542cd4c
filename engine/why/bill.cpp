// SPDX-License-Identifier: MIT
// What the fence comes to: tallies, price, hours, load.
#include <cmath>
#include <map>

#include "engine/takeoff/orders.h"
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

std::optional<Answer> posts_tally(const Asked& asked) {
  std::map<setout::PostKind, std::int64_t> kinds;
  for (const setout::Post& post : asked.plan.layout.posts) ++kinds[post.kind];
  Answer made = answer(asked, static_cast<std::int64_t>(asked.plan.layout.posts.size()), "sum()", {}, "setout");
  for (const auto& [kind, number] : kinds) made.inputs.push_back(each(kind_name(kind), number));
  return made;
}

// By leg, which is where they are looked for.
std::optional<Answer> by_leg(const Asked& asked, bool rails) {
  std::map<int, std::int64_t> legs;
  if (rails)
    for (const fittings::Rail& rail : asked.plan.assembly.rails) ++legs[asked.bay(rail.bay).leg];
  else
    for (const setout::Bay& bay : asked.plan.layout.bays) ++legs[bay.leg];
  const std::size_t all = rails ? asked.plan.assembly.rails.size() : asked.plan.layout.bays.size();
  Answer made = answer(asked, static_cast<std::int64_t>(all), "sum()", {}, "setout");
  for (const auto& [leg, number] : legs) {
    const std::string& id = asked.job.site.legs[static_cast<std::size_t>(leg)].id;
    made.inputs.push_back(each(id, number));
    made.where.push_back(id);
  }
  return made;
}

std::optional<Answer> fittings_tally(const Asked& asked) {
  std::map<int, std::int64_t> parts;
  for (const fittings::Use& use : asked.plan.assembly.uses) ++parts[use.fitting];
  Answer made = answer(asked, static_cast<std::int64_t>(asked.plan.assembly.uses.size()), "sum()", {}, "fittings");
  for (const auto& [part, number] : parts) made.inputs.push_back(each(asked.plan.catalogue.fittings[static_cast<std::size_t>(part)].id, number));
  return made;
}

// Holes of one size stand together.
std::optional<Answer> concrete_tally(const Asked& asked) {
  struct Holes {
    std::string first;
    double number = 0;
  };
  std::map<double, Holes> sizes;
  double all = 0;
  for (std::size_t k = 0; k < asked.plan.takeoff.posts.size(); ++k) {
    const double volume = asked.plan.takeoff.posts[k].concrete_m3;
    if (!(volume > 0)) continue;
    Holes& holes = sizes[volume];
    if (holes.first.empty()) holes.first = asked.plan.layout.posts[k].name;
    ++holes.number;
    all += volume;
  }
  Answer made = answer(asked, all, "sum()", {}, "geometry", {}, "m3");
  for (const auto& [volume, holes] : sizes) made.inputs.push_back(each(holes.first, volume, holes.number, "m3", "post/" + holes.first + "/concrete"));
  return made;
}

std::optional<Answer> tally(const Asked& asked) {
  if (asked.thing != "all") return std::nullopt;
  if (asked.part == "posts") return posts_tally(asked);
  if (asked.part == "rails" || asked.part == "bays") return by_leg(asked, asked.part == "rails");
  if (asked.part == "fittings") return fittings_tally(asked);
  if (asked.part == "concrete") return concrete_tally(asked);
  return std::nullopt;
}

void list_tally(const job::Job&, const Plan& plan, const Listed& add) {
  if (plan.layout.posts.empty()) return;
  for (const char* part : {"posts", "rails", "bays", "fittings", "concrete"}) add("all", part);
}

// ---- price ----

Answer materials(const Asked& asked) {
  Answer made = answer(asked, value_of(asked.plan.takeoff.price.materials), "sum()", {}, "price_list");
  for (const takeoff::OrderLine& line : asked.plan.takeoff.orders) {
    if (line.amount != Money()) made.inputs.push_back(each(line.item, value_of(line.amount), 1, {}, "order/" + line.group + "/" + line.item + "/amount"));
  }
  return made;
}

Answer feet(const Asked& asked) {
  const takeoff::Remaining remaining(asked.job, asked.plan.layout);
  Answer made = answer(asked, 0.0, "sum()", {}, "caltrans_length", {}, "ft");
  double metres = 0;
  for (const takeoff::Stretch& stretch : takeoff::stretches(asked.plan.layout, remaining)) {
    if (asked.fence(stretch.fence) == nullptr) continue;
    metres += stretch.slope_m;
    const std::string& leg = asked.job.site.legs[static_cast<std::size_t>(stretch.leg)].id;
    made.inputs.push_back(each(leg, stretch.slope_m / measure::kMetrePerFoot, 1, "ft"));
    if (made.where.empty() || made.where.back() != leg) made.where.push_back(leg);
  }
  made.value = metres / measure::kMetrePerFoot;
  return made;
}

std::optional<Answer> price(const Asked& asked) {
  if (asked.thing != "all") return std::nullopt;
  const takeoff::Price& sums = asked.plan.takeoff.price;
  const job::PriceRules& rules = asked.job.choices.price;
  const auto sum = [](const char* name, Money amount) { return figure(std::string("price/all/") + name, name, amount); };
  const auto say = [&](Money value, const char* formula, std::vector<Input> inputs, const char* source) {
    return answer(asked, value_of(value), formula, std::move(inputs), source);
  };
  if (asked.part == "materials") return materials(asked);
  if (asked.part == "labour") {
    return say(sums.labour, "cents(hourly * hours)",
               {input("hourly", asked.job.choices.crew.hourly), figure("hours/all/person_hours", "hours", Value(asked.plan.takeoff.person_hours), "h")}, "job");
  }
  if (asked.part == "overhead") {
    return say(sums.overhead, "cents(share * (materials + labour))",
               {number("share", rules.overhead), sum("materials", sums.materials), sum("labour", sums.labour)}, "job");
  }
  if (asked.part == "profit") {
    return say(sums.profit, "cents(share * (materials + labour + overhead))",
               {number("share", rules.profit), sum("materials", sums.materials), sum("labour", sums.labour), sum("overhead", sums.overhead)}, "job");
  }
  if (asked.part == "tax") return say(sums.tax, "cents(share * materials)", {number("share", rules.tax), sum("materials", sums.materials)}, "job");
  if (asked.part == "total") {
    return say(sums.total, "materials + labour + overhead + profit + tax",
               {sum("materials", sums.materials), sum("labour", sums.labour), sum("overhead", sums.overhead), sum("profit", sums.profit), sum("tax", sums.tax)},
               "price_list");
  }
  if (asked.part == "feet") return feet(asked);
  if (asked.part == "per_foot" && sums.per_foot != Money()) {
    return say(sums.per_foot, "cents(total / feet)", {sum("total", sums.total), figure("price/all/feet", "feet", feet(asked).value, "ft")}, "caltrans_length");
  }
  return std::nullopt;
}

void list_price(const job::Job&, const Plan& plan, const Listed& add) {
  for (const char* part : {"materials", "labour", "overhead", "profit", "tax", "total", "feet"}) add("all", part);
  if (plan.takeoff.price.per_foot != Money()) add("all", "per_foot");
}

// ---- hours ----

bool by_day(const std::string& operation) { return operation == "set-up" || operation == "travel"; }

Answer days(const Asked& asked) {
  const job::Crew& crew = asked.job.choices.crew;
  double work = 0;
  for (const takeoff::HourLine& line : asked.plan.takeoff.hours) work += by_day(line.operation) ? 0 : line.hours;
  return answer(asked, asked.plan.takeoff.days, "work / (people * (hours_per_day - lost_minutes / 60))",
                {number("work", work, "h"), count("people", crew.people), number("hours_per_day", crew.hours_per_day, "h"),
                 number("lost_minutes", crew.setup_minutes_per_day + crew.travel_minutes_per_day, "min")},
                "job", {}, "d");
}

std::optional<Answer> hours(const Asked& asked) {
  const takeoff::Takeoff& takeoff = asked.plan.takeoff;
  if (asked.thing == "all" && asked.part == "days" && takeoff.days > 0) return days(asked);
  if (asked.thing == "all" && asked.part == "person_hours") {
    Answer made = answer(asked, takeoff.person_hours, "sum()", {}, "hours_table", {}, "h");
    for (const takeoff::HourLine& line : takeoff.hours) made.inputs.push_back(each(line.operation, line.hours, 1, "h", "hours/" + line.operation + "/hours"));
    return made;
  }
  const int index = index_where(takeoff.hours, [&](const takeoff::HourLine& line) { return line.operation == asked.thing; });
  if (index < 0) return std::nullopt;
  const takeoff::HourLine& line = takeoff.hours[static_cast<std::size_t>(index)];
  const job::HourRow* row = asked.plan.catalogue.hour(line.operation);
  std::optional<Answer> made;
  if (asked.part == "hours") {
    made = answer(asked, line.hours, "counted * minutes / 60",
                  {figure("hours/" + line.operation + "/count", "counted", Value(line.count), row == nullptr ? "" : row->unit),
                   number("minutes", line.minutes_each, "min")},
                  by_day(line.operation) ? "job" : "hours_table", {}, "h");
  } else if (asked.part == "count") {
    if (by_day(line.operation)) {
      made = answer(asked, line.count, "ceil(days) * people",
                    {figure("hours/all/days", "days", Value(takeoff.days), "d"), count("people", asked.job.choices.crew.people)}, "job");
    } else {
      made = plainly(asked, number("counted", line.count, row == nullptr ? "" : row->unit), "counted");
    }
  }
  if (made && row != nullptr) made->row = row->source;
  return made;
}

void list_hours(const job::Job&, const Plan& plan, const Listed& add) {
  for (const takeoff::HourLine& line : plan.takeoff.hours) {
    add(line.operation, "count");
    add(line.operation, "hours");
  }
  add("all", "person_hours");
  if (plan.takeoff.days > 0) add("all", "days");
}

// ---- load ----

std::optional<Answer> load(const Asked& asked) {
  const takeoff::Load& load = asked.plan.takeoff.load;
  if (asked.thing != "all") return std::nullopt;
  if (asked.part == "mass") {
    Answer made = answer(asked, load.mass_kg, "sum()", {}, "catalogue_mass", {}, "kg");
    for (const takeoff::OrderLine& line : asked.plan.takeoff.orders) {
      if (line.mass_kg > 0) made.inputs.push_back(each(line.item, line.mass_kg, 1, "kg", "order/" + line.group + "/" + line.item + "/mass"));
    }
    return made;
  }
  if (asked.part == "longest") return plainly(asked, input("longest", load.longest), "cut_plan");
  if (asked.part == "trips" && load.trips > 0) {
    return answer(asked, std::int64_t{load.trips}, "ceil(mass / payload)",
                  {figure("load/all/mass", "mass", Value(load.mass_kg), "kg"), number("payload", asked.job.choices.trailer.payload_kg, "kg")}, "job");
  }
  if (asked.part == "tie_downs" && load.longest > Length::feet(5)) {
    return answer(asked, std::int64_t{load.tie_downs}, "1 + ceil(longest / span)",
                  {figure("load/all/longest", "longest", load.longest), input("span", Length::feet(10))}, "cfr_393");
  }
  return std::nullopt;
}

void list_load(const job::Job&, const Plan& plan, const Listed& add) {
  add("all", "mass");
  add("all", "longest");
  if (plan.takeoff.load.trips > 0) add("all", "trips");
  if (plan.takeoff.load.trips > 0 && plan.takeoff.load.longest > Length::feet(5)) add("all", "tie_downs");
}

}  // namespace

const Family kTally{"tally", tally, list_tally};
const Family kPrice{"price", price, list_price};
const Family kHours{"hours", hours, list_hours};
const Family kLoad{"load", load, list_load};

}  // namespace railwright::why
