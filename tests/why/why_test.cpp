// SPDX-License-Identifier: MIT
// Every figure that can be asked: the inputs put into the formula, by code that knows nothing of the engine, give the figure; and the figure is the plan's own.
#include "engine/why/why.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>
#include <string>

#include "data/shipped.h"
#include "tests/plan/generated_jobs.h"
#include "tests/why/evaluate.h"

namespace railwright::why {
namespace {

using testing::Formula;
using testing::si;

job::Job job_of(const std::string& path) {
  std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR "/") + path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  const job::ReadJob read = job::read_job(text);
  EXPECT_TRUE(read.sound()) << path;
  return read.job;
}

// A length is exact to the nanometre but what comes from a division or a root; rails are rounded to the micrometre.
double slack(const Answer& answer) {
  if (std::holds_alternative<LengthValue>(answer.value)) return 1.1e-6;
  if (std::holds_alternative<MoneyValue>(answer.value)) return 1e-4;
  return 1e-7 * std::max(1.0, std::fabs(si(answer.value)));
}

// The inputs, all of them, in the formula give the figure.
void expect_worked_out(const Answer& answer) {
  try {
    Formula formula(answer);
    EXPECT_NEAR(formula.value(), si(answer.value), slack(answer)) << answer.figure << " = " << answer.formula;
    EXPECT_EQ(formula.unused(), std::vector<std::string>()) << answer.figure << " = " << answer.formula;
  } catch (const std::exception& trouble) {
    ADD_FAILURE() << answer.figure << ": " << trouble.what();
  }
}

void expect_whole(const job::Job& job, const Plan& plan) {
  const std::vector<std::string> names = figures(job, plan);
  const std::set<std::string> known(names.begin(), names.end());
  EXPECT_GT(names.size(), 40u);
  for (const std::string& name : names) {
    const auto answer = why(job, plan, name);
    ASSERT_TRUE(answer) << name;
    EXPECT_EQ(answer->figure, name);
    EXPECT_FALSE(answer->source.empty()) << name;
    expect_worked_out(*answer);
    for (const Input& input : answer->inputs) {
      EXPECT_TRUE(input.figure.empty() || known.count(input.figure) == 1) << name << " leads to " << input.figure;
    }
  }
}

class Planned : public ::testing::TestWithParam<const char*> {};

TEST_P(Planned, InputsInTheFormulaGiveTheFigure) {
  const job::Job job = job_of(GetParam());
  expect_whole(job, make_plan(job, data::shipped()));
}
INSTANTIATE_TEST_SUITE_P(Jobs, Planned,
                         ::testing::Values("examples/donkey-sanctuary/job.json", "tests/golden/rails/job.json", "tests/golden/mesh/job.json",
                                           "tests/golden/panels/job.json", "tests/golden/strained/job.json", "tests/golden/wire/job.json"));

TEST(Why, HoldsForJobsOfEveryKind) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE(seed);
    const job::Job job = testing::draw_job(seed);
    const Plan plan = make_plan(job, data::shipped(), Effort::quick);
    for (const std::string& name : figures(job, plan)) {
      const auto answer = why(job, plan, name);
      ASSERT_TRUE(answer) << name;
      expect_worked_out(*answer);
    }
  }
}

}  // namespace
}  // namespace railwright::why
