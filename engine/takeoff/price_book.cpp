// SPDX-License-Identifier: MIT
#include "engine/takeoff/price_book.h"

#include <cmath>

namespace railwright::takeoff {

namespace {

constexpr double kPoundsPerTon = 2000;  // the short ton of American price lists

// How many of the price's unit one of the need is; 0 when that cannot be known.
double price_units_in_one(const std::string& unit, const Need& need) {
  if (unit == "ft") return need.each_length.feet_value();
  if (unit == "m") return need.each_length.metres();
  if (unit == "kg") return need.each_kg;
  if (unit == "lb") return need.each_kg / measure::kKilogramPerPound;
  if (unit == "ton") return need.each_kg / measure::kKilogramPerPound / kPoundsPerTon;
  return 1;
}

bool is_measure(const std::string& unit) { return unit == "ft" || unit == "m" || unit == "kg" || unit == "lb" || unit == "ton"; }

// A pack of 1 is the row's default: a price by the foot or ton does not mean whole feet or tons.
double pack_of(const job::PriceRow& row, double units_in_one, const Need& need) {
  const bool packed = row.pack > 0 && !(is_measure(row.unit) && row.pack == 1);
  const double pack = packed ? row.pack / units_in_one : 1;
  return need.unit == "ft" ? pack : std::max(1.0, std::ceil(pack - 1e-9));
}

}  // namespace

UnitPrice unit_price(const job::Catalogue& catalogue, const Need& need, Findings& findings) {
  const job::PriceRow* row = catalogue.price(need.item);
  if (row == nullptr) return {need.own_price, 1, need.own_priced};
  const double units = price_units_in_one(row->unit, need);
  if (!(units > 0)) {
    findings.push_back({"takeoff.price_unit", Severity::warning, need.item, {{"unit", row->unit}}});
    return {need.own_price, 1, need.own_priced};
  }
  return {row->price.times(units), pack_of(*row, units, need), true};
}

OrderLine order_line(const job::Catalogue& catalogue, const Need& need, Findings& findings) {
  const UnitPrice price = unit_price(catalogue, need, findings);
  OrderLine line;
  line.item = need.item;
  line.group = need.group;
  line.unit = need.unit;
  line.why = need.why;
  line.needed = need.needed;
  line.spare = need.spare;
  line.pack = price.pack;
  line.order = std::ceil((need.needed + need.spare) / price.pack - 1e-9) * price.pack;
  line.priced = price.known;
  line.price = price.price;
  line.amount = price.price.times(line.order).round_to_cents();
  line.mass_kg = line.order * need.each_kg;
  if (!line.priced) findings.push_back({"takeoff.no_price", Severity::note, need.item, {}});
  return line;
}

}  // namespace railwright::takeoff
