// SPDX-License-Identifier: MIT
#include "engine/grade/smooth_line.h"

#include <algorithm>
#include <cmath>

namespace railwright::grade {
namespace {

constexpr double kNanometre = 1e-9;
constexpr double kAnySlope = 1e9;
constexpr double kAnyHeight = 1e6;
// Windows passed, after which few starts of each piece are followed; and after which the departure is narrowed no further.
constexpr long kMostWork = 250'000, kNarrowingWork = 300'000;
constexpr std::size_t kFewStarts = 24;        // of a level, followed when the work is spent

Interval meet(Interval a, Interval b) { return {std::max(a.low, b.low), std::min(a.high, b.high)}; }
double nearest_in(Interval a, double wish) { return std::min(std::max(wish, a.low), a.high); }

// Heights at a post that a level of pieces reaches; the post where the last piece started, and the level that reached it.
struct Piece { int post = 0; Interval heights; int from = 0; int level = 0; };

class Search {
 public:
  Search(const std::vector<Gate>& gates, const std::vector<int>& posts)
      : gates_(gates), posts_(posts), windows_(posts.size()), full_(posts.size()), starts_(posts.size(), Interval{1, 0}), found_(posts.size()) {}

  // Windows of the posts for one tolerance. False: a post has none.
  bool set_tolerance(double tolerance);
  // Fills what any number of pieces can reach. Returns the first post that cannot be reached, or -1.
  int reach_all(int after = 0);
  // The fewest pieces, or 0 when more than `most` are needed. `least_from`, where given: a lower bound of the pieces from each post to the end.
  int fewest(int most, const std::vector<int>& least_from = {});
  std::vector<int> pieces_to() const;
  // Windows passed so far, in all calls.
  long work() const { return work_; }
  bool spent() const { return work_ >= (narrowing_ ? kNarrowingWork : kMostWork); }
  // Whether `fewest` left starts out for want of work.
  bool hurried() const { return hurried_; }
  void never_hurry() { never_hurry_ = true; hurried_ = false; }
  // From now on `fewest` gives up at the work limit.
  void narrow() { narrowing_ = true; }
  // Heights of the posts of the best line of the last successful `fewest`.
  std::vector<double> trace(std::vector<int>& breaks) const;

 private:
  int last() const { return static_cast<int>(posts_.size()) - 1; }
  double x(int post) const { return gates_[posts_[post]].x; }
  double wish(int post) const { return gates_[posts_[post]].wish; }
  Interval cross_bay(int from, Interval heights);
  void run_from(int from, Interval heights, int record_after);
  bool may_add(int from, Interval heights, int after);
  void run_starts(const std::vector<Piece>& starts, std::size_t begin, std::size_t end, int full);
  Interval fat_start(const std::vector<Piece>& starts, std::size_t begin, std::size_t end, int target) const;
  bool holds(int post, Interval heights) const;
  bool enough();
  void follow(const std::vector<Piece>& starts, int full);
  int earliest_seeing(int post);
  Interval looking_back(int post, double height, int from) const;
  const Piece* choose(int level, int post, Interval seen, double& height) const;
  void record(int post, Interval heights, int from);
  int next_full(const std::vector<Piece>& level);
  bool worth_a_break(int post) const;
  void next_level();
  std::vector<Piece> take_found(int from_post);

  const std::vector<Gate>& gates_;
  const std::vector<int>& posts_;
  std::vector<Interval> windows_, full_;
  std::vector<Interval> starts_;             // of the level under way, where a post has one interval of them; else empty
  std::vector<Piece> fresh_;                 // of `record`, kept for its memory
  std::vector<std::vector<Piece>> found_;    // of the level under way, by post
  int furthest_ = 0;                         // post that the level under way reaches
  std::vector<int> furthest_of_;             // the same of every finished level
  std::vector<std::vector<Piece>> levels_;   // each sorted by post, then height; the first post of a level is full
  long work_ = 0;
  bool narrowing_ = false, hurried_ = false, never_hurry_ = false;
  bool stoppable_ = true, left_out_ = false;   // of the level under way
  int most_ = 0;                             // of the `fewest` under way
  const std::vector<int>* least_from_ = nullptr;
  Stabber stabber_;
};

bool Search::set_tolerance(double tolerance) {
  for (int i = 0; i <= last(); ++i) {
    const Gate& gate = gates_[posts_[i]];
    windows_[i] = gate.pinned ? gate.window : meet(gate.window, {gate.wish - tolerance, gate.wish + tolerance});
    if (windows_[i].empty()) return false;
  }
  return true;
}

// Heights at the next post of lines from `heights` at post `from`.
Interval Search::cross_bay(int from, Interval heights) {
  stabber_.start(x(from), heights);
  const int end = posts_[from + 1];
  for (int g = posts_[from] + 1; g < end; ++g)
    if (!stabber_.add(gates_[g].x, gates_[g].window, gates_[g].cap)) return {1, 0};
  Interval reach = meet(stabber_.range(gates_[end].x, gates_[end].cap), windows_[from + 1]);
  if (reach.empty() && reach.low - reach.high <= kNanometre) reach.low = reach.high;
  return reach;
}

int Search::reach_all(int after) {
  full_[0] = windows_[0];
  for (int i = after + 1; i <= last(); ++i) {
    full_[i] = cross_bay(i - 1, full_[i - 1]);
    if (full_[i].empty()) return i;
  }
  return -1;
}

// A line that passes a later start is followed from there: only lines that miss it are kept. False: none does.
bool leave_to_later(Interval start, Interval reach, Interval& window) {
  if (start.empty()) return true;
  const bool below = reach.low < start.low - kNanometre, above = reach.high > start.high + kNanometre;
  if (!below && !above) return false;
  if (!below) window.low = std::max(window.low, start.high);
  if (!above) window.high = std::min(window.high, start.low);
  return true;
}

// Of heights that lie one above the other, the first that end at `low` or above.
std::vector<Piece>::const_iterator first_up_to(const std::vector<Piece>& here, double low) {
  return std::partition_point(here.begin(), here.end(), [&](const Piece& piece) { return piece.heights.high < low; });
}

// Adds the parts of `heights` that the level has not reached at this post yet.
void Search::record(int post, Interval heights, int from) {
  std::vector<Piece>& here = found_[post];
  const int level = static_cast<int>(levels_.size()) - 1;
  furthest_ = std::max(furthest_, post);
  if (here.empty()) { here.push_back({post, heights, from, level}); return; }
  if (here[0].heights.low <= heights.low + kNanometre && here[0].heights.high >= heights.high - kNanometre) return;
  const bool point = heights.high - heights.low <= kNanometre;
  std::vector<Piece>& fresh = fresh_;
  fresh.clear();
  double reached = heights.low;
  bool covered = false;
  for (auto at = first_up_to(here, heights.low); at != here.end(); ++at) {
    const Piece& piece = *at;
    if (piece.heights.low > heights.high) break;
    if (piece.heights.low > reached + kNanometre) fresh.push_back({post, {reached, piece.heights.low}, from, level});
    covered = covered || piece.heights.high >= heights.low;
    reached = std::max(reached, piece.heights.high);
  }
  if (point ? !covered : reached < heights.high - kNanometre) fresh.push_back({post, {reached, heights.high}, from, level});
  if (fresh.empty()) return;
  const auto lower = [](const Piece& p, const Piece& q) { return p.heights.low < q.heights.low; };
  for (const Piece& piece : fresh) here.insert(std::upper_bound(here.begin(), here.end(), piece, lower), piece);
}

// Follows all lines from a post's heights until none is left.
void Search::run_from(int from, Interval heights, int record_after) {
  stabber_.start(x(from), heights);
  int post = from + 1;
  const int count = static_cast<int>(gates_.size());
  for (int g = posts_[from] + 1; g < count; ++g) {
    const Gate& gate = gates_[g];
    ++work_;
    Interval window = gate.post ? windows_[post] : gate.window;
    if (gate.post) {
      Interval reach = meet(stabber_.range(gate.x, gate.cap), window);
      if (reach.empty() && reach.low - reach.high <= kNanometre) reach.low = reach.high;
      if (reach.empty()) return;
      if (post > record_after) record(post, reach, from);
      if (!leave_to_later(starts_[post], reach, window)) return;
    }
    if (!stabber_.add(gate.x, window, gate.cap)) return;
    if (gate.post) ++post;
  }
}

// Whether the level has reached all these heights at this post.
bool Search::holds(int post, Interval heights) const {
  double reached = heights.low;
  bool covered = false;
  const std::vector<Piece>& here = found_[post];
  for (auto at = first_up_to(here, heights.low - kNanometre); at != here.end() && reached < heights.high; ++at) {
    if (at->heights.low > reached + kNanometre) break;
    covered = true;
    reached = std::max(reached, at->heights.high);
  }
  return covered && reached >= heights.high - kNanometre;
}

// As `run_from`, but only asks whether something that the level has not reached yet, at a post behind `after`, would be reached.
bool Search::may_add(int from, Interval heights, int after) {
  stabber_.start(x(from), heights);
  int post = from + 1;
  const int count = static_cast<int>(gates_.size());
  for (int g = posts_[from] + 1; g < count; ++g) {
    const Gate& gate = gates_[g];
    ++work_;
    Interval window = gate.post ? windows_[post] : gate.window;
    if (gate.post) {
      Interval reach = meet(stabber_.range(gate.x, gate.cap), window);
      if (reach.empty() && reach.low - reach.high <= kNanometre) reach.low = reach.high;
      if (reach.empty()) return false;
      if (post > after && !holds(post, reach)) return true;
      if (!leave_to_later(starts_[post], reach, window)) return false;
    }
    if (!stabber_.add(gate.x, window, gate.cap)) return false;
    if (gate.post) ++post;
  }
  return false;
}

// Heights at the last of some starts, within which every line passes that comes from one of them and goes on to `target`.
Interval Search::fat_start(const std::vector<Piece>& starts, std::size_t begin, std::size_t end, int target) const {
  const int last_post = starts[end - 1].post;
  Interval fat{1e300, -1e300};
  for (std::size_t i = begin; i < end; ++i) {
    const double t = (x(last_post) - x(starts[i].post)) / (x(target) - x(starts[i].post));
    fat.low = std::min(fat.low, starts[i].heights.low * (1 - t) + windows_[target].low * t);
    fat.high = std::max(fat.high, starts[i].heights.high * (1 - t) + windows_[target].high * t);
  }
  return meet({fat.low - kNanometre, fat.high + kNanometre}, windows_[last_post]);
}

// Whether the level needs no more starts: it reaches the end, or the work is spent and what is left is left out.
bool Search::enough() {
  if (!found_[last()].empty()) return true;
  if (!stoppable_ || !spent()) return false;
  left_out_ = true;
  return true;
}

// Follows the lines of some starts, the latest first. Many starts are left out at once where no line from all that lies about them adds anything.
void Search::run_starts(const std::vector<Piece>& starts, std::size_t begin, std::size_t end, int full) {
  if (end - begin > 2) {
    if (enough()) return;
    const Interval fat = fat_start(starts, begin, end, full + 1);
    if (fat.empty() || !may_add(starts[end - 1].post, fat, full)) return;
    const std::size_t middle = begin + (end - begin) / 2;
    run_starts(starts, middle, end, full);
    run_starts(starts, begin, middle, full);
    return;
  }
  while (end-- > begin && !enough()) run_from(starts[end].post, starts[end].heights, full);
}

// The first post from which one straight line can reach `post`, looking backwards.
int Search::earliest_seeing(int post) {
  stabber_.start(-x(post), windows_[post]);
  int seen = post;
  double cap = gates_[posts_[post]].cap;
  for (int g = posts_[post] - 1; g >= 0; --g) {
    const Gate& gate = gates_[g];
    if (!stabber_.add(-gate.x, gate.post ? windows_[seen - 1] : gate.window, cap)) return seen;
    if (gate.post) { --seen; cap = gate.cap; }
  }
  return seen;
}

// Merges pieces that touch; calls `visit(post, heights)`.
template <class Visit>
void each_interval(const std::vector<Piece>& level, Visit visit) {
  for (std::size_t i = 0; i < level.size();) {
    const int post = level[i].post;
    Interval all = level[i].heights;
    for (++i; i < level.size() && level[i].post == post && level[i].heights.low <= all.high + kNanometre; ++i)
      all.high = std::max(all.high, level[i].heights.high);
    visit(post, all);
  }
}

bool covers(const std::vector<Piece>& pieces, Interval full) {
  double reached = full.low;
  for (const Piece& piece : pieces) {
    if (piece.heights.low > reached + kNanometre) return false;
    reached = std::max(reached, piece.heights.high);
  }
  return !pieces.empty() && reached >= full.high - kNanometre;
}

// The furthest post that one more piece fills by breaking at the post before it; the pieces stay in `found_`. Without one: the first post of `level`.
int Search::next_full(const std::vector<Piece>& level) {
  std::size_t end = level.size();
  while (end > 0) {
    std::size_t begin = end;
    const int post = level[end - 1].post;
    while (begin > 0 && level[begin - 1].post == post) --begin;
    if (post < last()) {
      each_interval({level.begin() + static_cast<long>(begin), level.begin() + static_cast<long>(end)}, [&](int at, Interval heights) {
        const Interval reach = cross_bay(at, heights);
        if (!reach.empty()) record(at + 1, reach, at);
      });
      if (covers(found_[post + 1], full_[post + 1])) return post + 1;
      found_[post + 1].clear();
    }
    end = begin;
  }
  return level.front().post;
}

std::vector<Piece> Search::take_found(int from_post) {
  std::vector<Piece> level;
  for (int post = from_post; post <= furthest_; ++post) {
    level.insert(level.end(), found_[post].begin(), found_[post].end());
    found_[post].clear();
  }
  return level;
}

// Whether a line that breaks here, with the pieces of the finished levels behind it, can still end within `most_` pieces.
bool Search::worth_a_break(int post) const {
  const int behind = static_cast<int>(levels_.size()) - 1;
  return least_from_->empty() || behind + (*least_from_)[post] <= most_;
}

// Some starts, evenly spread, and the last of all.
std::vector<Piece> some_of(const std::vector<Piece>& starts) {
  std::vector<Piece> some;
  for (std::size_t i = 1; i <= kFewStarts; ++i) some.push_back(starts[i * starts.size() / kFewStarts - 1]);
  return some;
}

// Lines are left to the later starts that are followed too. Late starts reach most, so that little is left for the earlier ones to add.
void Search::follow(const std::vector<Piece>& starts, int full) {
  if (starts.empty()) return;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const bool only = (i == 0 || starts[i - 1].post != starts[i].post) && (i + 1 == starts.size() || starts[i + 1].post != starts[i].post);
    if (only) starts_[starts[i].post] = starts[i].heights;
  }
  run_from(starts.back().post, starts.back().heights, full);
  run_starts(starts, 0, starts.size() - 1, full);
  for (const Piece& start_piece : starts) starts_[start_piece.post] = {1, 0};
}

void Search::next_level() {
  const std::vector<Piece>& level = levels_.back();
  const int start = level.front().post;
  const int full = next_full(level);
  if (full == start)   // the old full post stays full with one piece more
    for (const Piece& piece : level) if (piece.post == start) found_[start].push_back(piece);
  if (full < last()) {
    const int earliest = earliest_seeing(full + 1);
    std::vector<Piece> starts;
    each_interval(level, [&](int post, Interval heights) {
      if (post >= earliest && worth_a_break(post)) starts.push_back({post, heights});
    });
    stoppable_ = !never_hurry_;
    left_out_ = false;
    follow(starts, full);
    if (left_out_ && !narrowing_) {
      hurried_ = true;
      stoppable_ = false;
      follow(some_of(starts), full);
      if (furthest_ <= furthest_of_.back()) follow(starts, full);
    }
  }
  levels_.push_back(take_found(full));
  furthest_of_.push_back(levels_.back().back().post);
}

int Search::fewest(int most, const std::vector<int>& least_from) {
  most_ = most;
  least_from_ = &least_from;
  levels_.assign(1, {Piece{0, full_[0], -1, -1}});
  furthest_of_.assign(1, 0);
  furthest_ = 0;
  for (auto& here : found_) here.clear();
  for (int k = 1; k <= most; ++k) {
    next_level();
    const int post = furthest_of_.back();
    if (post == last()) return k;
    if (!least_from.empty() && k + least_from[post] > most) return 0;
    if (narrowing_ && spent()) return 0;
  }
  return 0;
}

// After a successful `fewest`: the fewest pieces that reach each post.
std::vector<int> Search::pieces_to() const {
  std::vector<int> pieces(posts_.size());
  std::size_t k = 0;
  for (int post = 0; post <= last(); ++post) {
    while (furthest_of_[k] < post) ++k;
    pieces[post] = static_cast<int>(k);
  }
  return pieces;
}

// Heights at post `from` from which one straight line reaches `height` at `post`.
Interval Search::looking_back(int post, double height, int from) const {
  Stabber back;
  back.start(-x(post), {height, height});
  double cap = gates_[posts_[post]].cap;
  int passed = post;
  for (int g = posts_[post] - 1; g > posts_[from]; --g) {
    back.add(-gates_[g].x, gates_[g].post ? windows_[passed - 1] : gates_[g].window, cap);
    if (gates_[g].post) { --passed; cap = gates_[g].cap; }
  }
  return back.range(-x(from), cap);
}

// The piece at a post of a level that comes nearest to the wish within `seen`; sets the height.
const Piece* Search::choose(int level, int post, Interval seen, double& height) const {
  const Piece* best = nullptr;
  double least = 0;
  for (const Piece& piece : levels_[level]) {
    if (piece.post != post) continue;
    const Interval both = meet(piece.heights, seen);
    // Rounding may part what touches by a nanometre.
    const double here = both.empty() ? (both.low + both.high) / 2 : nearest_in(both, wish(post));
    const double miss = std::abs(here - wish(post)) + (both.empty() ? 1e3 + 1e6 * (both.low - both.high) : 0);
    if (!best || miss < least) { best = &piece; height = here; least = miss; }
  }
  return best;
}

std::vector<double> Search::trace(std::vector<int>& breaks) const {
  std::vector<double> heights(posts_.size());
  int post = last();
  const Piece* piece = choose(static_cast<int>(levels_.size()) - 1, post, windows_[post], heights[post]);
  while (post > 0) {
    const int from = piece->from;
    piece = choose(piece->level, from, looking_back(post, heights[post], from), heights[from]);
    for (int i = from + 1; i < post; ++i)
      heights[i] = heights[from] + (heights[post] - heights[from]) * ((x(i) - x(from)) / (x(post) - x(from)));
    if (from > 0) breaks.push_back(from);
    post = from;
  }
  std::sort(breaks.begin(), breaks.end());
  return heights;
}

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
  std::size_t next = 0;   // the post that ends the bay at hand
  const Gate* before = nullptr;
  for (std::size_t g = 0; g < gates.size(); ++g) {
    const Gate& gate = gates[g];
    if (gate.post) { before = &gate; kept.push_back(gate); continue; }
    for (next = std::max(next, g); next < gates.size() && !gates[next].post;) ++next;
    const Gate* after = next < gates.size() ? &gates[next] : nullptr;
    if (!before || !after || before->pinned || after->pinned) { kept.push_back(gate); continue; }
    const double middle = before->wish + (after->wish - before->wish) * ((gate.x - before->x) / (after->x - before->x));
    if (middle - tolerance < gate.window.low || middle + tolerance > gate.window.high) kept.push_back(gate);
  }
  gates = std::move(kept);
}

// The fewest pieces from each post to the end, from the mirrored problem.
std::vector<int> pieces_to_end(const std::vector<Gate>& gates, double tolerance) {
  std::vector<Gate> mirrored(gates.rbegin(), gates.rend());
  double cap = mirrored.front().cap;   // of the bay at hand: its gates carry it, the post that starts it (mirrored: ends it) carries its neighbour's
  for (Gate& gate : mirrored) {
    gate.x = -gate.x;
    std::swap(gate.cap, cap);
    if (!gate.post) cap = gate.cap;
  }
  const std::vector<int> posts = posts_of(mirrored);
  Search search(mirrored, posts);
  search.set_tolerance(tolerance);
  if (search.reach_all() >= 0 || search.fewest(static_cast<int>(posts.size())) == 0) return {};
  std::vector<int> pieces = search.pieces_to();
  std::reverse(pieces.begin(), pieces.end());
  return pieces;
}

}  // namespace

SmoothLine smooth_line(std::vector<Gate> gates, double tolerance, double resolution) {
  SmoothLine line;
  drop_idle(gates, tolerance);
  const std::vector<int> posts = posts_of(gates);
  if (posts.size() < 2) return following(gates, posts, line);
  open_posts(gates, posts, tolerance);
  Search search(gates, posts);
  search.set_tolerance(tolerance);
  for (int blocked = search.reach_all(); blocked >= 0; blocked = search.reach_all(blocked - 1))
    if (!release(gates, posts, blocked, line)) return following(gates, posts, line);
  line.links = search.fewest(static_cast<int>(posts.size()));
  if (line.links == 0) {   // the hurry ran into a dead end
    search.never_hurry();
    line.links = search.fewest(static_cast<int>(posts.size()));
  }
  line.fewest_known = !search.hurried();
  line.heights = search.trace(line.breaks);
  line.deviation = departure(line.heights, gates, posts);
  double low = 0, high = std::min(tolerance, line.deviation);
  std::vector<int> least_from;
  search.narrow();
  // A long line needs its whole tolerance somewhere, so the first trial is just below it; the rest halve what is left.
  for (double trial = high - resolution; high - low > resolution && !search.spent(); trial = (low + high) / 2) {
    if (search.set_tolerance(trial) && search.reach_all() < 0 && search.fewest(line.links, least_from) > 0) {
      line.breaks.clear();
      line.heights = search.trace(line.breaks);
      line.deviation = departure(line.heights, gates, posts);
      high = std::min(trial, line.deviation);
      if (least_from.empty() && search.work() < kNarrowingWork / 2) least_from = pieces_to_end(gates, tolerance);
    } else {
      low = trial;
    }
  }
  return line;
}

}  // namespace railwright::grade
