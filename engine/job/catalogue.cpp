// SPDX-License-Identifier: MIT
#include "engine/job/catalogue.h"

#include <algorithm>

namespace railwright::job {
namespace {

template <class Row>
const Row* find(const std::vector<Row>& rows, std::string Row::*id, const std::string& wanted) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.*id == wanted; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

const Pipe* Catalogue::pipe(const std::string& id) const { return find(pipes, &Pipe::id, id); }
const Fitting* Catalogue::fitting(const std::string& id) const { return find(fittings, &Fitting::id, id); }
const Animal* Catalogue::animal(const std::string& id) const { return find(animals, &Animal::id, id); }
const Soil* Catalogue::soil(const std::string& id) const { return find(soils, &Soil::id, id); }
const PriceRow* Catalogue::price(const std::string& item) const { return find(prices, &PriceRow::item, item); }
const Supply* Catalogue::supply(const std::string& id) const { return find(supplies, &Supply::id, id); }
const HourRow* Catalogue::hour(const std::string& operation) const { return find(hours, &HourRow::operation, operation); }

}  // namespace railwright::job
