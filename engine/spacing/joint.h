// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "engine/cutting/knapsack.h"
#include "engine/cutting/simplex.h"
#include "engine/cutting/wide.h"
#include "engine/spacing/table.h"

// The linear program over cutting patterns and bay counts together, and a bound from it that is exact whatever the rounding.
namespace railwright::spacing {

using cutting::Wide;

// Lower bounds by element: any choice costs at least (rest + sum over the runs of gain[run][element]) / scale ten-thousandths.
struct Relaxed {
  bool known = false;
  std::int64_t scale = 1;
  Wide rest = 0;
  std::vector<std::vector<Wide>> least;                             // by run and element; elements not allowed keep 0
  std::vector<std::vector<double>> share;                           // the program's answer: how much of each run has each count
  Wide bound(const std::vector<std::vector<char>>& allowed) const;  // scaled
};

// Outline (Gilmore and Gomory 1961, with the bay counts as further columns):
//  min  sum c_p x_p + sum f_rk y_rk
//       sum_p a_lp x_p >= d_l + sum n_rkl y_rk      for each class l of lengths of each pipe that the choice bears on
//       sum_k y_rk >= 1                              for each run
//       sum_{p of stock t} x_p <= count of t
// Lengths are put in classes by rounding down, so that the program never overstates what is cut. For any prices u >= 0 of the classes at which no pattern of
// a stock without count gains, every choice costs at least  u d + sum_r min_k (f_rk + u n_rk) - sum_t count_t max gain_t  (Lagrange).
class Joint {
 public:
  // `frozen`: pipes whose pieces do not depend on the choice; they are left out of the program.
  Joint(const Table& table, const std::vector<std::vector<char>>& allowed, const std::vector<char>& frozen, Length scatter, int most_classes);
  ~Joint();

  // One round: the program is solved and every pipe asked for patterns that gain. False: nothing is left to gain, or the budget is spent.
  bool round(cutting::Budget& budget);
  // After the last round.
  void take_shares();
  const Relaxed& relaxed() const { return relaxed_; }
  bool exact_classes() const { return exact_; }

 private:
  struct Pipe;
  struct Count {
    int pipe;
    int cls;
    std::int64_t n;
  };

  void make_classes(int most_classes);
  std::vector<Count> counts_of(const Share& share) const;
  void find_most();
  bool make_models();
  void make_rows();
  void add_pipe_rows(int pipe, std::vector<cutting::Simplex::Row>& rows);
  void add_choices();
  void seed_patterns();
  bool add_pattern(int pipe, const cutting::Pattern& pattern);
  bool ask(cutting::Budget& budget);
  void take_bound(const std::vector<std::vector<double>>& values, Wide charge);

  const Table& table_;
  const std::vector<std::vector<char>>& allowed_;
  const std::vector<char>& frozen_;
  Length scatter_;
  bool exact_ = true;
  std::vector<std::unique_ptr<Pipe>> pipes_;
  std::vector<std::vector<std::vector<Count>>> counts_;  // by run and element
  std::vector<Count> base_;
  std::vector<int> run_row_;
  std::vector<std::vector<int>> column_;  // of y, by run and element
  std::unique_ptr<cutting::Simplex> simplex_;
  double unit_ = 1, dearest_run_ = 1;
  std::int64_t scale_ = 256;
  Wide best_ = 0;
  Relaxed relaxed_;
};

}  // namespace railwright::spacing
