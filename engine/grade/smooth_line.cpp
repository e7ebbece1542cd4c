// SPDX-License-Identifier: MIT
#include "engine/grade/smooth_line.h"

#include <algorithm>
#include <cmath>

#include "engine/grade/link_search.h"

namespace railwright::grade {
namespace {

constexpr double kAnySlope = 1e9;
constexpr double kAnyHeight = 1e6;
constexpr long kWholeWork = 250'000, kLeastNarrowing = 60'000;  // windows passed: in all, and by narrowing at least

// Lets go of the clearances of the bay that ends at `post`, or, when they are gone, of its slope cap. False: nothing is left to let go.
bool release(std::vector<Gate>& gates, const std::vector<int>& posts, int post, SmoothLine& line) {
  const int bay = post - 1;
  if (line.released.empty() || line.released.back() != bay) {
    line.released.push_back(bay);
    for (int g = posts[bay] + 1; g < posts[post]; ++g) gates[g].window = {-kAnyHeight, kAnyHeight};
    return true;
  }
  if (!line.too_steep.empty() && line.too_steep.back() == bay) return false;
  line.too_steep.push_back(bay);
  for (int g = posts[bay] + 1; g <= posts[post]; ++g) gates[g].cap = kAnySlope;
  return true;
}

SmoothLine following(const std::vector<Gate>& gates, const std::vector<int>& posts, SmoothLine line) {
  for (const int g : posts) line.heights.push_back(gates[g].wish);
  line.links = static_cast<int>(posts.size()) - 1;
  return line;
}

double departure(const std::vector<double>& heights, const std::vector<Gate>& gates, const std::vector<int>& posts) {
  double largest = 0;
  for (std::size_t i = 0; i < posts.size(); ++i)
    if (!gates[posts[i]].pinned) largest = std::max(largest, std::abs(heights[i] - gates[posts[i]].wish));
  return largest;
}

// A post whose clearances and tolerance exclude each other keeps its tolerance: the fence as drawn does not clear there.
void open_posts(std::vector<Gate>& gates, const std::vector<int>& posts, double tolerance) {
  for (const int g : posts) {
    const Interval allowed{gates[g].wish - tolerance, gates[g].wish + tolerance};
    if (!gates[g].pinned && meet(gates[g].window, allowed).empty()) gates[g].window = allowed;
  }
}

std::vector<int> posts_of(const std::vector<Gate>& gates) {
  std::vector<int> posts;
  for (std::size_t g = 0; g < gates.size(); ++g)
    if (gates[g].post) posts.push_back(static_cast<int>(g));
  return posts;
}

// Drops places between posts that bind no line within the tolerance.
void drop_idle(std::vector<Gate>& gates, double tolerance) {
  std::vector<Gate> kept;
  kept.reserve(gates.size());
  std::size_t next = 0;  // the post that ends the bay at hand
  const Gate* before = nullptr;
  for (std::size_t g = 0; g < gates.size(); ++g) {
    const Gate& gate = gates[g];
    if (gate.post) {
      before = &gate;
      kept.push_back(gate);
      continue;
    }
    for (next = std::max(next, g); next < gates.size() && !gates[next].post;) ++next;
    const Gate* after = next < gates.size() ? &gates[next] : nullptr;
    if (!before || !after || before->pinned || after->pinned) {
      kept.push_back(gate);
      continue;
    }
    const double middle = before->wish + (after->wish - before->wish) * ((gate.x - before->x) / (after->x - before->x));
    if (middle - tolerance < gate.window.low || middle + tolerance > gate.window.high) kept.push_back(gate);
  }
  gates = std::move(kept);
}

// The fewest pieces from each post to the end, from the mirrored problem; nothing where that takes more than `most_work`, which becomes what it took.
std::vector<int> pieces_to_end(const std::vector<Gate>& gates, double tolerance, long& most_work) {
  std::vector<Gate> mirrored(gates.rbegin(), gates.rend());
  double cap = mirrored.front().cap;  // of the bay at hand: its gates carry it, the post that starts it (mirrored: ends it) carries its neighbour's
  for (Gate& gate : mirrored) {
    gate.x = -gate.x;
    std::swap(gate.cap, cap);
    if (!gate.post) cap = gate.cap;
  }
  const std::vector<int> posts = posts_of(mirrored);
  LinkSearch search(mirrored, posts, 0);
  search.narrow(most_work);
  search.set_tolerance(tolerance);
  const bool found = search.reach_all() < 0 && search.fewest(static_cast<int>(posts.size())) > 0;
  most_work = search.work();
  if (!found) return {};
  std::vector<int> pieces = search.pieces_to();
  std::reverse(pieces.begin(), pieces.end());
  return pieces;
}

struct Tolerance {
  double most = 0, resolution = 0;
};

// Sets the line of the fewest pieces that the tolerance allows, and whether it is known that there are no fewer.
void fewest_pieces(LinkSearch& search, int posts, SmoothLine& line) {
  line.links = search.fewest(posts);
  if (line.links == 0) {  // few starts ran into a dead end
    search.never_hurry();
    line.links = search.fewest(posts);
  }
  line.fewest_known = !search.hurried();
}

void draw(const LinkSearch& search, const std::vector<Gate>& gates, const std::vector<int>& posts, SmoothLine& line) {
  line.breaks.clear();
  line.heights = search.trace(line.breaks);
  line.deviation = departure(line.heights, gates, posts);
}

// Least tolerance, to within `resolution`, that as many pieces keep.
void narrow(LinkSearch& search, const std::vector<Gate>& gates, const std::vector<int>& posts, Tolerance sought, SmoothLine& line) {
  double low = 0, high = std::min(sought.most, line.deviation);
  std::vector<int> least_from;
  bool mirrored = false;
  search.narrow(std::max(kLeastNarrowing, kWholeWork - search.work()));
  // A long line needs its whole tolerance somewhere, so the first trial is just below it; the rest halve what is left.
  for (double trial = high - sought.resolution; high - low > sought.resolution && !search.spent(); trial = (low + high) / 2) {
    if (search.set_tolerance(trial) && search.reach_all() < 0 && search.fewest(line.links, least_from) > 0) {
      draw(search, gates, posts, line);
      high = std::min(trial, line.deviation);
      if (mirrored) continue;
      mirrored = true;
      long work = search.left() / 2;
      least_from = pieces_to_end(gates, sought.most, work);
      search.charge(work);
    } else {
      low = trial;
    }
  }
}

}  // namespace

SmoothLine smooth_line(std::vector<Gate> gates, double tolerance, double resolution, long most_work) {
  SmoothLine line;
  drop_idle(gates, tolerance);
  const std::vector<int> posts = posts_of(gates);
  if (posts.size() < 2) return following(gates, posts, line);
  open_posts(gates, posts, tolerance);
  LinkSearch search(gates, posts, most_work);
  search.set_tolerance(tolerance);
  for (int blocked = search.reach_all(); blocked >= 0; blocked = search.reach_all(blocked - 1))
    if (!release(gates, posts, blocked, line)) return following(gates, posts, line);
  fewest_pieces(search, static_cast<int>(posts.size()), line);
  draw(search, gates, posts, line);
  narrow(search, gates, posts, {tolerance, resolution}, line);
  return line;
}

}  // namespace railwright::grade
