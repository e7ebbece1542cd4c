// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <queue>
#include <tuple>
#include <utility>
#include <vector>

#include "engine/job/job.h"
#include "engine/spacing/joint.h"
#include "engine/spacing/search.h"
#include "engine/spacing/table.h"

// A user's limit on how many different pitches a fence shows. Counted are clear gaps, post face to post face: posts of another diameter change the pitch of a bay, not
// its look.
namespace railwright::spacing {

// Clear gaps that lie within `alike` of one another are one look. Runs of one bay have none, nor have braces.
struct LookRule {
  int fence = 0;
  int limit = 1;
  Length alike;
};

// Of the fences in mode `best` that have a limit.
std::vector<LookRule> look_rules(const job::Job& job);

// How many looks a choice shows: the fewest windows of width `alike` that hold all its gaps. Exact: from the least up, each window begins at the first that is
// not held yet.
int looks_shown(const Table& table, const LookRule& rule, const std::vector<int>& choice);

// A window of one rule: it holds gaps from `start` to `start` + alike.
struct Window {
  std::size_t rule = 0;
  Length start;
  std::size_t index = 0;
};  // `index`: of the start among all of the rule

// The counts that these windows allow; runs without a rule keep all.
Allowed held_by(const Table& table, const std::vector<LookRule>& rules, const std::vector<Window>& windows);

// Sets of windows that allow every run a count, in ascending order of a bound: best-first search.
// A node's bound is the sum over the runs of the least of what its windows allow, or, where a window may still be added and the run is not settled, of all. The run
// that would lose most by being settled is branched on: it is settled with what the windows allow, or a window is added for each other count it may take. A window may always be
// moved up until it begins at a pitch of the table, so only those are tried.
class LookSets {
 public:
  LookSets(const Table& table, std::vector<LookRule> rules, const std::vector<std::vector<Wide>>& least);

  // The next set; none: there is no other, or the search has come to its limit of nodes.
  std::optional<std::vector<Window>> next();
  // No set that `next` has not given has a smaller sum of the least of its runs. Known while not `empty`.
  Wide bound() const { return in_pairs_ ? (next_pair_ < pairs_.size() ? pairs_[next_pair_].bound : beyond_pairs_) : queue_.top().bound; }
  bool empty() const { return in_pairs_ ? next_pair_ == pairs_.size() && !more_pairs_ : queue_.empty(); }
  // The sets are all the ways there are to keep the rules, so that what a choice shows is within one of them.
  bool whole() const { return in_pairs_; }
  // In the units of cutting::Plan::work.
  std::int64_t work() const { return nodes_ * steps_ / 200'000; }

 private:
  struct Node {
    Wide bound = 0;
    std::vector<Window> windows;
    std::vector<char> settled;  // by run
    std::int64_t number = 0;
  };
  struct Later {
    bool operator()(const Node& a, const Node& b) const { return a.bound != b.bound ? a.bound > b.bound : a.number > b.number; }
  };
  // What a run costs at least under a node.
  struct Value {
    bool covered = false;
    Wide least = 0;
    Wide any = 0;
    bool open = false;
  };

  struct Pair {
    Wide bound = 0;
    std::size_t one = 0, other = 0;  // indices of starts
    bool operator<(const Pair& p) const { return std::tie(bound, one, other) < std::tie(p.bound, p.one, p.other); }
  };

  bool pairs_suffice() const;
  void list_pairs();
  std::optional<Wide> pair_sum(const std::vector<std::size_t>& runs, std::size_t one, std::size_t other) const;
  void keep_pair(const Pair& pair);
  std::optional<std::vector<Window>> next_pair();
  Value value(const Node& node, std::size_t run) const;
  void tabulate(std::size_t run);
  bool held(const Share& share, std::size_t rule, const std::vector<Window>& windows) const;
  bool push(Node node);
  std::optional<std::vector<Window>> one_by_one() const;
  void branch(const Node& node, std::size_t run);

  const Table& table_;
  std::vector<LookRule> rules_;
  std::vector<std::vector<Wide>> least_;
  std::vector<int> rule_of_;                   // by run; -1: none
  std::vector<std::vector<Length>> starts_;    // by rule, ascending
  std::vector<Wide> any_;                      // by run: the least of all counts
  std::vector<char> plain_;                    // by run with a rule: every count has one look at most, so that these suffice
  std::vector<std::vector<Value>> by_window_;  // by run and window start: what that window alone allows; one more for no window
  std::priority_queue<Node, std::vector<Node>, Later> queue_;
  bool given_ = false;  // a set was given; where none was within the limit of nodes, one is put together window by window
  bool in_pairs_ = false, more_pairs_ = false;
  std::vector<Pair> pairs_;  // ascending
  std::size_t next_pair_ = 0;
  Wide beyond_pairs_ = 0;               // no pair that is not kept has less
  std::int64_t nodes_ = 0, steps_ = 1;  // steps: elements looked at for one node
};

}  // namespace railwright::spacing
