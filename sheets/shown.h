// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/job/job.h"
#include "engine/measure/length.h"
#include "engine/measure/money.h"

// Figures as a sheet shows them, in the job's units. One place, so that a post's height reads the same on every sheet.
namespace railwright::sheets {

using measure::Length;
using measure::Money;

// Fixed decimals, halves away from zero, no locale; `trim` drops trailing zeros. Not a number: "–".
std::string number_text(double value, int decimals, bool trim = false);
// Thousands apart with a thin comma: 1,250.00.
std::string grouped(const std::string& number);

class Shown {
 public:
  explicit Shown(const job::Job& job) : metric_(job.units == job::UnitSystem::metric), currency_(job.choices.price.currency) {}

  bool metric() const { return metric_; }
  // What a tape reads: 7' 5-1/4" or 2267 mm.
  std::string tape(Length length) const;
  // The same without the unit, for a column that names it: 7' 5-1/4" (marks stay, they part feet from inches) or 2267.
  std::string cell(Length length) const;
  // What a piece is cut to: never more than it is, so rounded down to what `cell` shows.
  Length cut(Length length) const;
  // Along the ground: 87' 3" to the inch's sixteenth, or 26.594 m.
  std::string far(Length length) const { return metric_ ? metres(length, true) : tape(length); }
  // Rounded for a person who walks it: 87 ft or 26.6 m.
  std::string rough(Length length) const;
  // A pipe's size: 2-3/8" or 60.3 mm.
  std::string size(Length diameter) const;
  std::string mass(double kg) const;      // 1,240 lb or 562 kg
  std::string volume(double m3) const;    // 1.2 ft³ or 0.034 m³
  std::string money(Money amount) const;  // $1,250.00, or 1,250.00 EUR
  std::string count(double n) const { return grouped(number_text(n, 2, true)); }
  // For a spreadsheet: decimal inches (four places) or millimetres.
  std::string plain(Length length) const;

  const char* tape_unit() const { return metric_ ? "mm" : "ft in"; }
  const char* plain_unit() const { return metric_ ? "mm" : "in"; }
  const char* volume_unit() const { return metric_ ? "m³" : "ft³"; }
  const char* mass_unit() const { return metric_ ? "kg" : "lb"; }
  double in_mass_unit(double kg) const;
  double in_volume_unit(double m3) const;

 private:
  std::string metres(Length length, bool unit) const;
  bool metric_;
  std::string currency_;
};

}  // namespace railwright::sheets
