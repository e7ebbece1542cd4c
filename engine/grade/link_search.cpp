// SPDX-License-Identifier: MIT
#include "engine/grade/link_search.h"

#include <algorithm>
#include <cmath>

namespace railwright::grade {
namespace {

double nearest_in(Interval a, double wish) { return std::min(std::max(wish, a.low), a.high); }

}  // namespace

Interval meet(Interval a, Interval b) { return {std::max(a.low, b.low), std::min(a.high, b.high)}; }

bool LinkSearch::set_tolerance(double tolerance) {
  for (int i = 0; i <= last(); ++i) {
    const Gate& gate = gates_[posts_[i]];
    windows_[i] = gate.pinned ? gate.window : meet(gate.window, {gate.wish - tolerance, gate.wish + tolerance});
    if (windows_[i].empty()) return false;
  }
  return true;
}

// Heights at the next post of lines from `heights` at post `from`.
Interval LinkSearch::cross_bay(int from, Interval heights) {
  stabber_.start(x(from), heights);
  const int end = posts_[from + 1];
  for (int g = posts_[from] + 1; g < end; ++g)
    if (!stabber_.add(gates_[g].x, gates_[g].window, gates_[g].cap)) return {1, 0};
  Interval reach = meet(stabber_.range(gates_[end].x, gates_[end].cap), windows_[from + 1]);
  if (reach.empty() && reach.low - reach.high <= kNanometre) reach.low = reach.high;
  return reach;
}

int LinkSearch::reach_all(int after) {
  full_[0] = windows_[0];
  for (int i = after + 1; i <= last(); ++i) {
    full_[i] = cross_bay(i - 1, full_[i - 1]);
    if (full_[i].empty()) return i;
  }
  return -1;
}

// The first post from which one straight line can reach `post`, looking backwards.
int LinkSearch::earliest_seeing(int post) {
  stabber_.start(-x(post), windows_[post]);
  int seen = post;
  double cap = gates_[posts_[post]].cap;
  for (int g = posts_[post] - 1; g >= 0; --g) {
    const Gate& gate = gates_[g];
    if (!stabber_.add(-gate.x, gate.post ? windows_[seen - 1] : gate.window, cap)) return seen;
    if (gate.post) {
      --seen;
      cap = gate.cap;
    }
  }
  return seen;
}

// The furthest post that one more piece fills by breaking at the post before it. Without one: the first post of the level before.
int LinkSearch::next_full() {
  for (std::size_t i = starts_.size(); i-- > 0;) {
    const int post = starts_[i].post;
    if (post == last()) continue;
    for (const Interval heights : starts_[i].heights) {
      const Interval reach = cross_bay(post, heights);
      if (!reach.empty()) record(post + 1, reach, post);
    }
    if (hole_at(post + 1, full_[post + 1]).empty()) return post + 1;
    found_[post + 1].clear();
    reached_[post + 1].clear();
  }
  return starts_.front().post;
}

// Ends the level under way: its pieces from post `first` on, and what it reaches as the starts of the next.
void LinkSearch::take_found(int first) {
  std::vector<Piece> level;
  starts_.clear();
  for (int post = first; post <= furthest_; ++post) {
    if (found_[post].empty()) continue;
    level.insert(level.end(), found_[post].begin(), found_[post].end());
    starts_.push_back({post, {reached_[post].front().low, reached_[post].back().high}, std::move(reached_[post]), false});
    found_[post].clear();
    reached_[post].clear();
  }
  levels_.push_back(std::move(level));
  furthest_of_.push_back(starts_.back().post);
}

// Whether a line that breaks here, with the pieces of the finished levels behind it, can still end within `most_` pieces.
bool LinkSearch::worth_a_break(int post) const {
  const int behind = static_cast<int>(levels_.size()) - 1;
  return least_from_->empty() || behind + (*least_from_)[post] <= most_;
}

void LinkSearch::next_level() {
  const int full = next_full();
  if (full == starts_.front().post) {  // the old full post stays full with one piece more
    for (const Piece& piece : levels_.back())
      if (piece.post == full) found_[full].push_back(piece);
    reached_[full] = starts_.front().heights;
  }
  if (full < last()) {
    const int earliest = earliest_seeing(full + 1);
    StartList starts;
    for (Start& start : starts_)
      if (start.post >= earliest && worth_a_break(start.post)) starts.push_back(std::move(start));
    follow_level(starts, full);
  }
  take_found(full);
}

int LinkSearch::fewest(int most, const std::vector<int>& least_from) {
  most_ = most;
  least_from_ = &least_from;
  levels_.assign(1, {Piece{0, full_[0], -1, -1}});
  furthest_of_.assign(1, 0);
  furthest_ = 0;
  starts_.assign(1, {0, full_[0], {full_[0]}, false});
  for (auto& here : found_) here.clear();
  for (auto& here : reached_) here.clear();
  for (int k = 1; k <= most; ++k) {
    next_level();
    const int post = furthest_of_.back();
    if (post == last()) return k;
    if (!least_from.empty() && k + least_from[post] > most) return 0;
    if (narrowing_ && spent()) return 0;
  }
  return 0;
}

std::vector<int> LinkSearch::pieces_to() const {
  std::vector<int> pieces(posts_.size());
  std::size_t k = 0;
  for (int post = 0; post <= last(); ++post) {
    while (furthest_of_[k] < post) ++k;
    pieces[post] = static_cast<int>(k);
  }
  return pieces;
}

// Heights at post `from` from which one straight line reaches `height` at `post`.
Interval LinkSearch::looking_back(int post, double height, int from) const {
  Stabber back;
  back.start(-x(post), {height, height});
  double cap = gates_[posts_[post]].cap;
  int passed = post;
  for (int g = posts_[post] - 1; g > posts_[from]; --g) {
    back.add(-gates_[g].x, gates_[g].post ? windows_[passed - 1] : gates_[g].window, cap);
    if (gates_[g].post) {
      --passed;
      cap = gates_[g].cap;
    }
  }
  return back.range(-x(from), cap);
}

// The piece at a post of a level that comes nearest to the wish within `seen`; sets the height.
const LinkSearch::Piece* LinkSearch::choose(int level, int post, Interval seen, double& height) const {
  const Piece* best = nullptr;
  double least = 0;
  for (const Piece& piece : levels_[level]) {
    if (piece.post != post) continue;
    const Interval both = meet(piece.heights, seen);
    // Rounding may part what touches by a nanometre.
    const double here = both.empty() ? (both.low + both.high) / 2 : nearest_in(both, wish(post));
    const double miss = std::abs(here - wish(post)) + (both.empty() ? 1e3 + 1e6 * (both.low - both.high) : 0);
    if (!best || miss < least) {
      best = &piece;
      height = here;
      least = miss;
    }
  }
  return best;
}

std::vector<double> LinkSearch::trace(std::vector<int>& breaks) const {
  std::vector<double> heights(posts_.size());
  int post = last();
  const Piece* piece = choose(static_cast<int>(levels_.size()) - 1, post, windows_[post], heights[post]);
  while (post > 0) {
    const int from = piece->from;
    piece = choose(piece->level, from, looking_back(post, heights[post], from), heights[from]);
    for (int i = from + 1; i < post; ++i) heights[i] = heights[from] + (heights[post] - heights[from]) * ((x(i) - x(from)) / (x(post) - x(from)));
    if (from > 0) breaks.push_back(from);
    post = from;
  }
  std::sort(breaks.begin(), breaks.end());
  return heights;
}

}  // namespace railwright::grade
