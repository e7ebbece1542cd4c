// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/cutting/budget.h"

namespace railwright::cutting {

// A primal simplex method for   minimise c x,  A x >= b or <= b (row by row),  x >= 0   to which columns are added between solutions.
//
// It keeps the inverse of the basis explicitly, by columns, and skips zeros: cutting patterns have few entries, bases of cutting problems
// stay sparse, and up to about a thousand rows a pivot costs microseconds. Only + - * / are used, in a fixed order, so that the
// path is the same in every build. Right sides are >= 0 and are raised by fixed tiny amounts against stalling; the answers are
// therefore approximate, and every bound is computed elsewhere in whole numbers.
class Simplex {
 public:
  struct Entry {
    int row;
    double value;
  };
  struct Row {
    double rhs = 0;
    bool at_least = true;
    double penalty = 0;  // cost of missing one unit of an at-least row
  };

  explicit Simplex(const std::vector<Row>& rows);

  int add_column(double cost, std::span<const Entry> entries);
  // Pivots to the optimum over the columns present. False when the budget ended or numbers failed.
  bool optimise(Budget& budget);
  void set_penalty(double factor);

  int rows() const { return m_; }
  int columns() const { return static_cast<int>(cost_.size()); }
  const std::vector<double>& duals() const { return dual_; }
  double objective() const;
  double shortfall() const;            // total of the penalised misses
  std::vector<double> values() const;  // by column, as returned by add_column
  bool basic(int column) const { return place_[column] >= 0; }

 private:
  double reduced_cost(int column) const;
  int entering();
  int leaving(const std::vector<double>& alpha) const;
  void transform(int column, std::vector<double>& alpha) const;
  std::int64_t pivot(int row, int column, const std::vector<double>& alpha);
  void reinvert();
  void refresh();

  int m_;
  std::vector<double> rhs_;
  std::vector<double> inverse_;  // column j at j * m_
  std::vector<int> start_, row_;
  std::vector<double> value_, cost_;
  std::vector<int> basis_;        // column in each row
  std::vector<int> place_;        // row of each column, -1 when not basic
  std::vector<int> logical_;      // columns that stand in the starting basis
  std::vector<char> artificial_;  // by column
  std::vector<double> x_, dual_;
  int scan_ = 0;
  double tolerance_ = 1e-10;  // of reduced costs; costs are scaled to about one
};

}  // namespace railwright::cutting
