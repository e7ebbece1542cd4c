// SPDX-License-Identifier: MIT
// Which starts of a level are followed, and which are left out because they can add nothing.
#include <algorithm>

#include "engine/grade/link_search.h"

namespace railwright::grade {
namespace {

constexpr double kAnySlope = 1e9;
constexpr double kAnyHeight = 1e6;
constexpr std::size_t kFewStarts = 24;  // of a level, followed when the work is spent

// A line that passes a later start is followed from there: only lines that miss it are kept. False: none does.
bool leave_to_later(Interval start, Interval reach, Interval& window) {
  if (start.empty()) return true;
  const bool below = reach.low<start.low - kNanometre, above = reach.high> start.high + kNanometre;
  if (!below && !above) return false;
  if (!below) window.low = std::max(window.low, start.high);
  if (!above) window.high = std::min(window.high, start.low);
  return true;
}

// Adds heights to those reached, which lie one above the other with room between.
void reach_more(std::vector<Interval>& reached, Interval heights) {
  auto at = reached.begin();
  while (at != reached.end() && at->high < heights.low - kNanometre) ++at;
  auto end = at;
  for (; end != reached.end() && end->low <= heights.high + kNanometre; ++end) heights = {std::min(heights.low, end->low), std::max(heights.high, end->high)};
  if (at == end) {
    reached.insert(at, heights);
    return;
  }
  *at = heights;
  reached.erase(at + 1, end);
}

}  // namespace

// Adds the parts of `heights` that the level has not reached at this post yet.
void LinkSearch::record(int post, Interval heights, int from) {
  furthest_ = std::max(furthest_, post);
  const int level = static_cast<int>(levels_.size()) - 1;
  for (Interval hole = hole_at(post, heights); !hole.empty(); hole = hole_at(post, heights)) {
    found_[post].push_back({post, hole, from, level});
    reach_more(reached_[post], hole);
  }
}

// Heights that lines reach at a post.
Interval LinkSearch::reach_at(const Stabber& lines, const Gate& gate, Interval window) {
  Interval reach = meet(lines.range(gate.x, gate.cap), window);
  if (reach.empty() && reach.low - reach.high <= kNanometre) reach.low = reach.high;
  return reach;
}

// Follows all lines from a post's heights until none is left; keeps what they reach behind post `full`.
void LinkSearch::run_from(int from, Interval heights, int full) {
  stabber_.start(x(from), heights);
  int post = from + 1;
  const int count = static_cast<int>(gates_.size());
  for (int g = posts_[from] + 1; g < count; ++g) {
    const Gate& gate = gates_[g];
    ++work_;
    Interval window = gate.post ? windows_[post] : gate.window;
    if (gate.post) {
      const Interval reach = reach_at(stabber_, gate, window);
      if (reach.empty()) return;
      if (post > full) record(post, reach, from);
      if (!leave_to_later(single_[post], reach, window)) return;
    }
    if (!stabber_.add(gate.x, window, gate.cap)) return;
    if (gate.post) ++post;
  }
}

// The first of these heights that the level has not reached at this post yet; empty where it has reached them all.
Interval LinkSearch::hole_at(int post, Interval heights) const {
  for (const Interval& reached : reached_[post]) {
    if (reached.high < heights.low - kNanometre) continue;
    if (reached.low > heights.low + kNanometre) return {heights.low, std::min(reached.low, heights.high)};
    if (reached.high >= heights.high - kNanometre) return {1, 0};
    heights.low = reached.high;
  }
  return heights;
}

// Begins a convex set of lines that holds every line from the group that passes above (or below) all of the next start behind it. A line from a start
// of the group is no higher there than the start's top, so left of it no higher than the line from the next start's top through that top; from the
// group's end on it keeps every window. False: there is none.
bool LinkSearch::open_group(const StartList& starts, Group group) {
  const std::size_t begin = group.begin, end = group.end;
  const bool above = group.above;  // no structured binding: lambdas capture it
  // Heights are mirrored for lines that pass below.
  const auto top = [&](Interval a) { return above ? a.high : -a.low; };
  const auto bottom = [&](Interval a) { return above ? a.low : -a.high; };
  const auto mirrored = [&](double low, double high) { return above ? Interval{low, high} : Interval{-high, -low}; };
  const Start& next = starts[end];
  const double edge = top(next.hull), far = x(next.post);
  const int first = starts[begin].post, behind = starts[end - 1].post;
  double steepest = 0, lowest = kAnyHeight;
  borders_.assign(static_cast<std::size_t>(behind - first + 2), kAnySlope);  // least slope to the next start's top from the starts at a post and behind it
  for (std::size_t i = end; i-- > begin;) {
    const double run = far - x(starts[i].post);
    const std::size_t at = static_cast<std::size_t>(starts[i].post - first);
    borders_[at] = std::min(borders_[at + 1], (edge - top(starts[i].hull)) / run);
    steepest = std::max(steepest, (top(windows_[next.post]) - bottom(starts[i].hull)) / run);
    lowest = std::min(lowest, bottom(starts[i].hull));
  }
  lowest -= steepest * (x(behind) - x(first));
  const auto below = [&](int post, double at) { return edge - borders_[static_cast<std::size_t>(post - first)] * (far - at); };
  group_.start(x(first), mirrored(lowest, below(first, x(first))));
  int post = first + 1;
  for (int g = posts_[first] + 1; g <= posts_[next.post]; ++g) {
    const Gate& gate = gates_[g];
    ++work_;
    Interval window = gate.post ? windows_[post] : gate.window;
    if (post < behind || (post == behind && !gate.post)) window = mirrored(lowest, std::max(top(window), below(gate.post ? post + 1 : post, gate.x)));
    if (post == next.post && gate.post) window = mirrored(std::max(edge, bottom(window)), top(window));
    if (window.empty() || !group_.add(gate.x, window, post <= behind ? kAnySlope : gate.cap)) return false;
    if (gate.post) ++post;
  }
  return true;
}

void LinkSearch::follow(Start& start, int full) {
  if (start.followed) return;
  start.followed = true;
  for (const Interval heights : start.heights) run_from(start.post, heights, full);
}

// Whether the level needs no more starts: it reaches the end, or the work is spent and what is left is left out.
bool LinkSearch::enough() {
  if (!found_[last()].empty()) return true;
  if (!stoppable_ || !spent()) return false;
  left_out_ = true;
  return true;
}

// The latest start of the group that a line passes, or `end`.
std::size_t LinkSearch::start_on(const StartList& starts, Group group, Stabber::Line line) const {
  constexpr double kClose = 4 * kNanometre;
  for (std::size_t i = group.end; i-- > group.begin;) {
    const double height = line.at(x(starts[i].post));
    if (height >= starts[i].hull.low - kClose && height <= starts[i].hull.high + kClose) return i;
  }
  return group.end;
}

// Where to part a group whose convex set holds a line that no start has: behind the start it was tried from, where it leaves a window; else where it
// passes from one side of the starts to the other; else in the middle. Either part's set has less of it.
std::size_t LinkSearch::parting(const StartList& starts, Group group, Stabber::Line line, std::size_t tried) const {
  const auto [begin, end, above, full] = group;
  const std::size_t middle = begin + (end - begin) / 2;
  if (tried == end) {
    const auto over = [&](std::size_t i) { return line.at(x(starts[i].post)) > starts[i].hull.high; };
    for (std::size_t i = end; i > begin; --i)
      if (over(i) != over(i - 1)) return std::max(begin + 1, std::min(i, end - 1));
    return middle;
  }
  for (std::size_t i = tried + 1; i < end; ++i) {
    const double height = line.at(x(starts[i].post));
    const Interval window = windows_[starts[i].post];
    if (height < window.low || height > window.high) return i;
  }
  return tried > begin ? tried : middle;
}

// Of the group's lines on one side those through a height at a post: the one that passes the group's edge first, because later starts have little
// room left.
Stabber::Line LinkSearch::line_through(const Gate& gate, double height, bool above) {
  pencil_ = group_;
  pencil_.add(gate.x, {height, height}, gate.cap);
  return above ? pencil_.lowest(gate.x + 1, kAnySlope) : pencil_.highest(gate.x + 1, kAnySlope);
}

// Follows starts of the group until its convex set adds nothing at `post`. False: the group must be parted at `middle`.
bool LinkSearch::fill(StartList& starts, Group group, int post, Interval reach, std::size_t& middle) {
  const Gate& gate = gates_[posts_[post]];
  for (;;) {
    const Interval hole = hole_at(post, reach);
    if (hole.empty() || enough()) return true;
    const double height = hole.low <= reach.low ? reach.low : hole.high >= reach.high ? reach.high : (hole.low + hole.high) / 2;
    const Stabber::Line line = line_through(gate, height, group.above);
    const std::size_t tried = start_on(starts, group, line);
    if (tried == group.end || starts[tried].followed) {
      middle = parting(starts, group, line, tried);
      return false;
    }
    follow(starts[tried], group.full);
  }
}

// Follows starts of the group until its lines on one side of the next start add nothing. False: the group must be parted at `middle`.
bool LinkSearch::follow_side(StartList& starts, Group group, std::size_t& middle) {
  if (!open_group(starts, group)) return true;
  int post = starts[group.end].post;
  const int count = static_cast<int>(gates_.size());
  for (int g = posts_[post++] + 1; g < count; ++g) {
    const Gate& gate = gates_[g];
    ++work_;
    Interval window = gate.post ? windows_[post] : gate.window;
    if (gate.post) {
      const Interval reach = reach_at(group_, gate, window);
      if (reach.empty()) return true;
      if (post > group.full && !fill(starts, group, post, reach, middle)) return false;
      if (enough() || !leave_to_later(single_[post], reach, window)) return true;
    }
    if (!group_.add(gate.x, window, gate.cap)) return true;
    if (gate.post) ++post;
  }
  return true;
}

// Follows what adds something of the starts from `begin` to before `end`, which stands no further than `full`. Lines that pass the start at `end` are
// left to it; all others pass above or below it.
void LinkSearch::follow_group(StartList& starts, std::size_t begin, std::size_t end, int full) {
  if (enough()) return;
  if (end - begin <= 2) {
    while (end-- > begin && !enough()) follow(starts[end], full);
    return;
  }
  std::size_t middle = begin + (end - begin) / 2;
  const bool known = !single_[starts[end].post].empty();
  if (known && follow_side(starts, {begin, end, true, full}, middle) && follow_side(starts, {begin, end, false, full}, middle)) return;
  follow_group(starts, middle, end, full);
  follow_group(starts, begin, middle, full);
}

// The starts are followed that can add something: first the last of all, which reaches most, then those at which a group of others cannot be left out.
void LinkSearch::follow_all(StartList& starts, int full) {
  for (const Start& start : starts)
    if (start.heights.size() == 1) single_[start.post] = start.hull;
  follow(starts.back(), full);
  std::size_t near = starts.size() - 1;  // what stands behind `full` is followed one by one
  for (; near > 0 && starts[near].post > full && !enough(); --near) follow(starts[near - 1], full);
  if (near > 0 && !enough()) follow_group(starts, 0, near, full);
  for (const Start& start : starts) single_[start.post] = {1, 0};
}

void LinkSearch::follow_level(StartList& starts, int full) {
  if (starts.empty()) return;
  stoppable_ = !never_hurry_;
  left_out_ = false;
  follow_all(starts, full);
  if (!left_out_ || narrowing_) return;
  hurried_ = true;
  stoppable_ = false;
  StartList few;  // evenly spread, and the last of all
  const std::size_t count = std::min(kFewStarts, starts.size());
  for (std::size_t i = 1; i <= count; ++i) few.push_back(starts[i * starts.size() / count - 1]);
  for (Start& start : few) start.followed = false;
  follow_all(few, full);
  if (furthest_ <= furthest_of_.back()) follow_all(starts, full);
}

}  // namespace railwright::grade
