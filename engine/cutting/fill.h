// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/master.h"

namespace railwright::cutting {

// A plan from prices of pieces: round after round the knapsack names, for every length still wanted, the pattern worth most that holds
// it; the best of these that do not compete for the same pieces are cut, a part of what is left each time, so that hard pieces are not left for
// the end; greedy cuts the rest. `found` is false when counted sticks run out.
Solution fill_by_prices(const Model& model, Task task, const std::vector<double>& prices, Budget& budget, double loose = 0.001);

// The first part of that: takes out of the task all but the fraction `leave` of its worth. `by_length` is the share of the price by length
// that is mixed into the prices: the more, the fuller the sticks and the less regard to what the program says.
struct Peel {
  double leave = 0;
  double by_length = 0.05;
  double loose = 0.001;  // offers may at first cost this much more than their pieces are worth
};
std::vector<Use> peel_by_prices(const Model& model, Task& task, const std::vector<double>& prices, const Peel& how, Budget& budget);

}  // namespace railwright::cutting
