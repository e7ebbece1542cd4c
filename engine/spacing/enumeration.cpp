// SPDX-License-Identifier: MIT
#include "engine/spacing/enumeration.h"

#include <algorithm>
#include <tuple>

namespace railwright::spacing {

Enumeration::Enumeration(std::vector<List> lists) : lists_(std::move(lists)) {
  for (List& list : lists_) {
    std::sort(list.items.begin(), list.items.end());
    const Wide least = list.items.front().first;
    for (auto& item : list.items) item.first -= least;
  }
  // Lists of one item come last: they are never stepped.
  std::sort(lists_.begin(), lists_.end(), [](const List& a, const List& b) {
    const bool a_one = a.items.size() == 1, b_one = b.items.size() == 1;
    if (a_one || b_one) return std::tuple(a_one, a.run) < std::tuple(b_one, b.run);
    return std::tuple(a.items[1].first, a.run) < std::tuple(b.items[1].first, b.run);
  });
  queue_.push({});
}

void Enumeration::push(std::vector<int> at, std::size_t list, int place) {
  if (list >= lists_.size() || place >= static_cast<int>(lists_[list].items.size())) return;
  at.resize(list + 1);
  at[list] = place;
  Wide sum = 0;
  for (std::size_t i = 0; i < at.size(); ++i) sum += lists_[i].items[static_cast<std::size_t>(at[i])].first;
  queue_.push({sum, list, std::move(at)});
}

void Enumeration::next(std::vector<int>& choice) {
  const State state = queue_.top();
  queue_.pop();
  for (std::size_t i = 0; i < lists_.size(); ++i) {
    const int at = i < state.at.size() ? state.at[i] : 0;
    choice[lists_[i].run] = lists_[i].items[static_cast<std::size_t>(at)].second;
  }
  if (state.at.empty()) return push({}, 0, 1);
  push(state.at, state.list, state.at[state.list] + 1);
  push(state.at, state.list + 1, 1);
  if (state.at[state.list] != 1) return;
  std::vector<int> back = state.at;
  back[state.list] = 0;
  push(std::move(back), state.list + 1, 1);
}

}  // namespace railwright::spacing
