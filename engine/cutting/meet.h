// SPDX-License-Identifier: MIT
#pragma once

#include "engine/cutting/corner.h"

namespace railwright::cutting {

// Plans that lose next to nothing beyond the linear program, by meeting in the middle (after Schroeppel and Shamir 1981, from memory). Most sticks are cut as the
// program says. For the last one or two of each type a few ways are listed that lose little; the types are dealt into four groups, and of each group
// the thousand best combinations are kept. Then a million sums of the first two and a million of the last two are compared: those that add up to
// the demands, piece by piece, are plans. For jobs of many types and few lengths.
class Meet {
 public:
  Meet(const Model& model, const Task& task, const Master& root, const Corner& corner, Budget& budget, Incumbent& incumbent);

  // Deals out anew up to `times` times, until a plan of cost `bound` is found.
  void run(std::int64_t bound, int times);

 private:
  struct Way {  // how the sticks of a type that are left to decide are cut
    std::int64_t loss = 0;
    std::int64_t rank = 0;     // loss and distance from the program's solution
    std::uint64_t key = 0;     // stands for the pieces; adds up as they do
    std::int64_t element = 0;  // the pieces' remainder in the corner's group
    std::vector<int> patterns;
  };
  struct Label {
    std::int64_t loss = 0;
    std::int64_t rank = 0;
    std::uint64_t key = 0;
    std::int64_t element = 0;
    int before = -1;  // label of the types before
    int way = -1;
  };
  struct Side {
    std::vector<int> types;
    std::vector<std::vector<Label>> labels;  // after each type
  };

  struct Moment {
    double mean = 0;
    double variance = 0;
  };

  void fix();
  void list_ways(int k, std::int64_t distance_price);
  void drop_equals(std::vector<Label>& labels);
  void keep_best(std::vector<Label>& labels);
  Side combine(const std::vector<int>& types, std::int64_t most);
  std::uint64_t key_of(const Pattern& pattern) const;
  double center(const std::vector<Side>& sides, double step);
  void add_moments(const Side& side, std::vector<Moment>& whole) const;
  bool match(const std::vector<Side>& sides);
  void collect(const Side& side, int label, std::vector<Use>& uses) const;
  std::size_t draw(std::size_t below);

  const Model& model_;
  const Task& task_;
  const Master& root_;
  const Corner& corner_;
  Budget& budget_;
  Incumbent& incumbent_;
  std::uint64_t random_ = 1;
  std::vector<std::uint64_t> weights_;                       // of a piece in the key, by sort
  std::vector<std::int64_t> elements_;                       // remainders of the corner's patterns
  std::vector<std::vector<int>> patterns_;                   // of the corner, by type, least loss first
  std::vector<std::vector<std::pair<int, double>>> shares_;  // by type: pattern of the corner and how often the program uses it beyond what is fixed
  std::vector<std::int64_t> left_;                           // sticks to decide, by type
  std::vector<Use> fixed_;
  std::uint64_t wanted_ = 0;            // key of the pieces that the fixed sticks leave
  std::vector<std::vector<Way>> ways_;  // by type
  std::vector<int> spots_;              // of a hash table, reused
  std::vector<double> tilt_;            // of a piece in the ranks, by sort
};

}  // namespace railwright::cutting
