// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/dive.h"
#include "engine/cutting/remainders.h"
#include "engine/cutting/wide.h"

namespace railwright::cutting {

// What whole numbers cost beyond the linear program, by Gomory's group (1969). At the program's prices every plan costs the program's value and, besides,
// what each of its patterns costs more than its pieces are worth. Patterns that cost nothing more may be used any number of times, even less than none: then only
// the remainder of the demands modulo these patterns matters, and the cheapest multiset of the other patterns with that remainder is a shortest path
// in a small group. Its length is a bound that holds for every plan, in whole numbers; and where the free patterns that it leaves can be used
// as often as they must, it is the plan.
class Corner {
 public:
  // `prices` of pieces, by sort, as the program ended. Nothing is known where patterns or group are too many.
  Corner(const Model& model, const Task& task, const std::vector<double>& prices, Budget& budget, Incumbent& incumbent);

  // Every plan costs at least this; 0 where nothing is known.
  std::int64_t bound() const;
  // Looks for plans among the cheapest paths, from the bound up; ends after `most` paths.
  void try_paths(int most);

  using Cost = std::int64_t;  // in units of 1 / scale of the model's

  // Patterns that lose least, all of them up to some loss; empty where they are too many.
  const std::vector<Pattern>& patterns() const { return patterns_; }
  Cost loss(int pattern) const { return loss_[pattern]; }
  Cost rent(int type) const { return rent_[type]; }
  bool known() const { return known_ >= 0; }
  const Remainders& group() const { return group_; }
  // What a plan of this cost loses beyond the program.
  Cost loss_of(std::int64_t cost) const;

 private:
  struct Step {
    Cost cost = 0;
    std::int64_t element = 0;
    int pattern = -1;  // -1: none is used
    int idle = -1;     // type of which one stick is left unused, -1
  };

  void appraise(const std::vector<double>& prices);
  bool reach_for(Cost reach);
  void enumerate(Cost reach);
  void enumerate_type(int k, Cost reach);
  bool build_group();
  Remainders::Vector shift_of(const Pattern& pattern, bool base) const;
  void list_steps(Cost reach);
  void measure(Cost reach);
  // Prices at which paths are seen to lead nowhere: what a plan that holds the path costs at least.
  struct Refutation {
    Wide start = 0;                    // without any step
    std::vector<std::int64_t> change;  // by step
  };

  bool refuted();
  void refute_by(const std::vector<std::int64_t>& price, const std::vector<std::int64_t>& gain);
  bool list_free();
  bool free_use_is_free() const;
  void sample(std::int64_t cost, int times);
  bool try_cost(std::int64_t cost);
  void walk(std::size_t from, std::int64_t at, Cost left);
  int type_of(const Step& step) const;
  void offer();
  // What patterns may lose and still count as free; the bound does not depend on it.
  Cost no_loss() const { return scale_ * model_.cost_grid / 10'000; }

  const Model& model_;
  const Task& task_;
  Budget& budget_;
  Incumbent& incumbent_;
  std::int64_t scale_ = 1;
  std::vector<Cost> value_;                    // of a piece, by sort
  std::vector<Cost> rent_;                     // of a stick beyond its price, by type
  Wide base_ = 0;                              // cost of the program, scaled
  std::vector<std::vector<Cost>> most_worth_;  // by first sort and room
  std::vector<Pattern> patterns_;
  std::vector<Cost> loss_;  // by pattern: what it costs beyond the worth of its pieces
  bool whole_ = false;      // all patterns up to the reach were listed
  std::int64_t nodes_ = 0;  // of the last enumeration
  std::int64_t looked_ = 0;
  std::vector<int> base_pattern_;  // by type with rent: the pattern that all its sticks are taken to be cut to, -1
  Remainders group_;
  std::int64_t target_ = 0;
  std::vector<Step> steps_;  // by cost
  std::vector<Cost> to_go_;  // by element: least cost of steps that sum up to it
  Cost known_ = -1;          // every plan costs at least this beyond `base_`
  Cost reach_ = 0;           // all patterns that lose no more are listed

  // Trying paths.
  std::vector<const Pattern*> free_;
  std::vector<Refutation> refutations_;
  std::int64_t excluded_ = 0;  // no plan costs less than this
  std::int64_t cost_ = 0;
  std::uint64_t random_ = 1;
  std::vector<int> path_;                   // steps
  std::vector<std::int64_t> free_sticks_;   // not on the path, by type
  std::size_t shortest_ = 0, longest_ = 0;  // path tried
  int paths_left_ = 0;
  bool found_ = false;
  bool unknown_ = false;  // of some path it is not known where it leads
  bool any_unknown_ = false;
  bool cut_short_ = false;  // longer paths were not tried
};

}  // namespace railwright::cutting
