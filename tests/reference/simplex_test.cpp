// SPDX-License-Identifier: MIT
// The cutting room's simplex against Clp, an independent and widely used solver, over linear programs drawn from a seed:
// covering rows as cutting has them, with limits on what is in stock.
#include "engine/cutting/simplex.h"

#include <gtest/gtest.h>

#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "engine/cutting/budget.h"

namespace {

using railwright::cutting::Simplex;

// SplitMix64 (Steele, Lea, Flood 2014): the same programs on every machine.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed) {}
  int from_to(int low, int high) { return low + static_cast<int>(bits() % static_cast<std::uint64_t>(high - low + 1)); }

 private:
  std::uint64_t bits() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  std::uint64_t state_;
};

struct Column {
  double cost;
  std::vector<Simplex::Entry> entries;
};
struct Program {
  std::vector<Simplex::Row> rows;
  std::vector<Column> columns;
};

constexpr double kPenalty = 50;

// Demands first, then stock; each pattern serves a few demands from one stock.
Program draw_program(std::uint64_t seed) {
  Draw draw(seed);
  Program program;
  const int demands = draw.from_to(1, 25);
  const int stocks = draw.from_to(1, 3);
  for (int i = 0; i < demands; ++i) program.rows.push_back({double(draw.from_to(1, 60)), true, kPenalty});
  for (int i = 0; i < stocks; ++i) program.rows.push_back({double(draw.from_to(0, 400)), false, 0});
  const int patterns = draw.from_to(5, 150);
  for (int j = 0; j < patterns; ++j) {
    Column column{double(draw.from_to(5, 20)) / 8.0, {}};
    for (int i = draw.from_to(0, 3); i < demands; i += draw.from_to(1, 8)) column.entries.push_back({i, double(draw.from_to(1, 4))});
    column.entries.push_back({demands + draw.from_to(0, stocks - 1), 1.0});
    program.columns.push_back(column);
  }
  return program;
}

void add_to_clp(ClpSimplex& model, const Column& column) {
  std::vector<int> rows;
  std::vector<double> values;
  for (const Simplex::Entry& entry : column.entries) {
    rows.push_back(entry.row);
    values.push_back(entry.value);
  }
  model.addColumn(static_cast<int>(rows.size()), rows.data(), values.data(), 0.0, COIN_DBL_MAX, column.cost);
}

double optimum_by_clp(const Program& program) {
  ClpSimplex model;
  model.setLogLevel(0);
  model.resize(static_cast<int>(program.rows.size()), 0);
  for (int i = 0; i < static_cast<int>(program.rows.size()); ++i) {
    const Simplex::Row& row = program.rows[static_cast<std::size_t>(i)];
    model.setRowBounds(i, row.at_least ? row.rhs : -COIN_DBL_MAX, row.at_least ? COIN_DBL_MAX : row.rhs);
    if (row.at_least) add_to_clp(model, {row.penalty, {{i, 1.0}}});
  }
  for (const Column& column : program.columns) add_to_clp(model, column);
  model.dual();
  EXPECT_EQ(model.status(), 0);
  return model.objectiveValue();
}

// Half of the columns come after a first solution, as in column generation.
double optimum_by_ours(const Program& program) {
  Simplex simplex(program.rows);
  const railwright::cutting::OnProgress nobody;
  railwright::cutting::Budget budget(1'000'000, nobody);
  const std::size_t half = program.columns.size() / 2;
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    if (j == half) {
      EXPECT_TRUE(simplex.optimise(budget));
    }
    simplex.add_column(program.columns[j].cost, program.columns[j].entries);
  }
  EXPECT_TRUE(simplex.optimise(budget));
  return simplex.objective();
}

// The right sides are raised by up to 2e-7 each against stalling, and a unit of a raised row costs up to the penalty.
TEST(Simplex, AgreesWithClp) {
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Program program = draw_program(seed);
    const double raised = 2e-7 * kPenalty * static_cast<double>(program.rows.size());
    const double expected = optimum_by_clp(program);
    EXPECT_NEAR(optimum_by_ours(program), expected, raised + 1e-9 * expected) << "seed " << seed;
  }
}

}  // namespace
