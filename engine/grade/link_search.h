// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/grade/smooth_line.h"
#include "engine/grade/stabber.h"

namespace railwright::grade {

inline constexpr double kNanometre = 1e-9;

Interval meet(Interval a, Interval b);

// The fewest straight pieces through windows, breaking only at posts. `gates` and `posts` (their places among the gates) outlive it.
//
// Level k holds P(k, i): the heights at post i that k pieces reach, from the first post on at which they are all that any number of pieces reaches.
// Level k + 1 follows the lines from all of them. Most need no following: starts are taken by groups, and a group is left out where no line of a
// convex set that holds all its lines reaches anything new (`follow_side`). Else a line of the set that does is tried, from the start it passes.
class LinkSearch {
 public:
  // At most `most_work` windows are passed; then `fewest` follows few starts of each piece (`hurried`), or, when narrowing, gives up.
  LinkSearch(const std::vector<Gate>& gates, const std::vector<int>& posts, long most_work)
      : gates_(gates),
        posts_(posts),
        windows_(posts.size()),
        full_(posts.size()),
        single_(posts.size(), Interval{1, 0}),
        found_(posts.size()),
        reached_(posts.size()),
        most_work_(most_work) {}

  // Windows of the posts for one tolerance. False: a post has none.
  bool set_tolerance(double tolerance);
  // Fills what any number of pieces can reach. Returns the first post that cannot be reached, or -1.
  int reach_all(int after = 0);
  // The fewest pieces, or 0 when more than `most` are needed. `least_from`, where given: a lower bound of the pieces from each post to the end.
  int fewest(int most, const std::vector<int>& least_from = {});
  // After a successful `fewest`: the fewest pieces that reach each post.
  std::vector<int> pieces_to() const;
  // Heights of the posts of the best line of the last successful `fewest`.
  std::vector<double> trace(std::vector<int>& breaks) const;

  long work() const { return work_; }
  long left() const { return most_work_ - work_; }
  bool spent() const { return left() <= 0; }
  void charge(long work) { work_ += work; }
  // Whether `fewest` left starts out for want of work.
  bool hurried() const { return hurried_; }
  void never_hurry() {
    never_hurry_ = true;
    hurried_ = false;
  }
  // From now on `fewest` gives up when `more_work` windows more are passed.
  void narrow(long more_work) {
    narrowing_ = true;
    most_work_ = work_ + more_work;
  }

 private:
  // Heights at a post that a level of pieces reaches; the post where the last piece started, and the level that reached it.
  struct Piece {
    int post = 0;
    Interval heights;
    int from = 0;
    int level = 0;
  };
  // A post where pieces may start: what the level reaches there, pieces that touch made one.
  struct Start {
    int post = 0;
    Interval hull;
    std::vector<Interval> heights;
    bool followed = false;
  };
  using StartList = std::vector<Start>;
  // Starts, from `begin` to before `end`, whose lines pass above (or below) the start at `end`; what they reach counts behind post `full`.
  struct Group {
    std::size_t begin, end;
    bool above;
    int full;
  };

  int last() const { return static_cast<int>(posts_.size()) - 1; }
  double x(int post) const { return gates_[posts_[post]].x; }
  double wish(int post) const { return gates_[posts_[post]].wish; }
  static Interval reach_at(const Stabber& lines, const Gate& gate, Interval window);
  Interval cross_bay(int from, Interval heights);
  int earliest_seeing(int post);
  int next_full();
  bool worth_a_break(int post) const;
  void take_found(int first);
  void next_level();

  void follow_level(StartList& starts, int full);
  void follow_all(StartList& starts, int full);
  void follow(Start& start, int full);
  void follow_group(StartList& starts, std::size_t begin, std::size_t end, int full);
  bool enough();
  void run_from(int from, Interval heights, int full);
  void record(int post, Interval heights, int from);
  Interval hole_at(int post, Interval heights) const;
  bool open_group(const StartList& starts, Group group);
  Stabber::Line line_through(const Gate& gate, double height, bool above);
  std::size_t start_on(const StartList& starts, Group group, Stabber::Line line) const;
  std::size_t parting(const StartList& starts, Group group, Stabber::Line line, std::size_t tried) const;
  bool fill(StartList& starts, Group group, int post, Interval reach, std::size_t& middle);
  bool follow_side(StartList& starts, Group group, std::size_t& middle);

  Interval looking_back(int post, double height, int from) const;
  const Piece* choose(int level, int post, Interval seen, double& height) const;

  const std::vector<Gate>& gates_;
  const std::vector<int>& posts_;
  std::vector<Interval> windows_, full_;
  std::vector<Interval> single_;                // of the starts followed, where a post has one interval of them; else empty
  std::vector<double> borders_;                 // of `open_group`, kept for its memory
  std::vector<std::vector<Piece>> found_;       // of the level under way, by post
  std::vector<std::vector<Interval>> reached_;  // the same, pieces that touch made one, in ascending order
  StartList starts_;                            // what the finished level reaches
  int furthest_ = 0;                            // post that the level under way reaches
  std::vector<int> furthest_of_;                // the same of every finished level
  std::vector<std::vector<Piece>> levels_;      // each sorted by post; the first post of a level is full
  long work_ = 0, most_work_;
  bool narrowing_ = false, hurried_ = false, never_hurry_ = false;
  bool stoppable_ = true, left_out_ = false;  // of the level under way
  int most_ = 0;                              // of the `fewest` under way
  const std::vector<int>* least_from_ = nullptr;
  Stabber stabber_, group_, pencil_;  // of a start; of a group; of those of its lines that pass one point
};

}  // namespace railwright::grade
