// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/plan/plan.h"

// Every figure of a plan can be asked why it is what it is.
namespace railwright::why {

// One figure that goes into a formula.
struct Input {
  std::string name;  // as the formula spells it; a key of the words catalogue
  Value value;
  std::string unit;    // of a bare number: "m3", "kg", "Pa", "N m", "m4" ...; empty: a count, a share, or the value's own
  std::string figure;  // can be asked in turn; empty: given by the job or a catalogue, or fixed
  std::string of;      // `each` alone: whose it is (a post kind, an item, a piece)
  double times = 1;    // `each` alone: how many of them
};

// The figure, the formula that gives it, and what was put in.
//
// `formula` is written in the names of the inputs, in SI units (metres, newtons, kilograms, the currency): + - * / ^ and brackets, numbers, pi, and
//  sum()                   every input named `each`, times its count, added up
//  min max sqrt cbrt       as usual
//  ceil(x)                 next whole number; a billionth over does not count
//  round_up(x, step), round_down(x, step)   to a multiple of the step
//  cents(x)                to a hundredth, halves away from zero
//  spares(n, loss, chance) the least number more so that, each piece being lost with `loss`, fewer than n sound ones have at most that chance
//  short(n, order, loss)   chance of fewer than n sound ones in an order
//  tail(z)                 chance that a normal deviate exceeds z
// A formula that is one name alone says that the figure was given, counted or found by a search: `source` says which.
struct Answer {
  std::string figure;
  Value value;
  std::string unit;
  std::string formula;
  std::vector<Input> inputs;
  std::string source;              // code: `because.source.<code>` in the words catalogue
  std::string row;                 // the catalogue row's own source, as it is written there; empty: none
  std::vector<std::string> where;  // names of posts, bays, runs, legs, gates: the place in the drawing
};

// A figure's name is `kind/thing/part`; the thing may hold slashes of its own.
//  tally/all/posts|rails|bays|fittings|concrete      run/AB-C/bays|length        fence/paddock/cap
//  post/AB3/station|ground|depth|above|length|hole|hole_depth|concrete           bay/AB.3/pitch|gap
//  rail/AB.3/2/gap|rise|take_off|true_length|length|from|to                      opening/AB.3/2/least|largest
//  mark/AB3/2/below_top          check/rail_bending/AB.3/ratio|demand|capacity (post_wind: wind)   stick/4/mark2|drop
//  cut/<pipe>|all/cost|sticks|bound              spacing/all/cost|plain|bound|saved
//  order/<group>/<item>/needed|spare|order|price|amount|mass|short   price/all/materials|...|total|per_foot|feet
//  hours/<operation>/count|hours     hours/all/person_hours|days     load/all/mass|trips|longest|tie_downs
//  gap/AB.3/2/residual
// Errors: `why.no_such_figure` (place: the figure).
Result<Answer> why(const job::Job& job, const Plan& plan, const std::string& figure);

// Every figure of a plan that `why` answers, in a fixed order.
std::vector<std::string> figures(const job::Job& job, const Plan& plan);

}  // namespace railwright::why
