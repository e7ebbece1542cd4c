// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/job/catalogue.h"
#include "engine/job/finding.h"
#include "engine/takeoff/takeoff.h"

// One line of the buying list from a need, the price book and its packs.
namespace railwright::takeoff {

// A quantity to buy. `unit` is how it is counted (each, stick, roll, bag, ft); `each_length` and `each_kg` belong to one of it, so that a price per foot, metre,
// pound, kilogram or (short) ton can be turned into a price for one.
struct Need {
  std::string item, group, unit, why;
  double needed = 0;
  double spare = 0;
  Length each_length;
  double each_kg = 0;
  Money own_price;  // used when the price book has no row; zero: none known
  bool own_priced = false;
};

// The price of one, in the need's unit; false when there is none.
struct UnitPrice {
  Money price;
  double pack = 1;
  bool known = false;
};
UnitPrice unit_price(const job::Catalogue& catalogue, const Need& need, Findings& findings);

// Rounds up to packs and prices. `running_short` is left at 0 for the caller.
OrderLine order_line(const job::Catalogue& catalogue, const Need& need, Findings& findings);

}  // namespace railwright::takeoff
