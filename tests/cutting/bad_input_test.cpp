// SPDX-License-Identifier: MIT
#include "tests/cutting/support.h"

namespace railwright::cutting::testing {
namespace {

std::string code_of(std::vector<Stock> stocks, std::vector<Piece> pieces, Rules rules = {}) {
  const auto instance = Instance::build(std::move(stocks), std::move(pieces), rules);
  return instance ? "" : instance.error().code;
}

TEST(BadInput, IsRefusedWithACodeAndAPlace) {
  EXPECT_EQ(code_of({}, {piece(5)}), "cutting.no_stocks");
  EXPECT_EQ(code_of({stock(0, 1)}, {piece(5)}), "cutting.stock_length");
  EXPECT_EQ(code_of({stock(-3, 1)}, {piece(5)}), "cutting.stock_length");
  EXPECT_EQ(code_of({stock(10, -1)}, {piece(5)}), "cutting.stock_price");
  EXPECT_EQ(code_of({stock(10, 1, -1)}, {piece(5)}), "cutting.stock_count");
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(0)}), "cutting.piece_length");
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(-5)}), "cutting.piece_length");
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(5, -1)}), "cutting.piece_count");
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(5)}, kerf(-1)), "cutting.kerf");
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(5, 2'000'000'000)}), "cutting.too_large");
  EXPECT_EQ(code_of({stock(INT64_MAX, 1)}, {piece(5)}), "cutting.too_large");
  Rules rules;
  rules.keep_from = Length();
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(5)}, rules), "cutting.drop_rule");
  rules = {};
  rules.crop_end = Length::from_nm(-1);
  EXPECT_EQ(code_of({stock(10, 1)}, {piece(5)}, rules), "cutting.crop");
}

TEST(BadInput, PieceLongerThanEveryStickNamesBoth) {
  Rules rules = kerf(1);
  rules.crop_start = Length::from_nm(2);
  const auto instance = Instance::build({stock(10, 1), stock(20, 1, 0)}, {piece(7), piece(8)}, rules);
  ASSERT_FALSE(instance);
  EXPECT_EQ(instance.error().code, "cutting.piece_too_long");  // 10 less the crop and its kerf leaves 7
  EXPECT_EQ(instance.error().place, "/pieces/1");
}

TEST(BadInput, TooFewSticksIsAnAnswer) {
  EXPECT_EQ(solve_checked({stock(10, 1, 2)}, {piece(6, 3)}).status, Status::infeasible);
  EXPECT_EQ(solve_checked({stock(10, 1, 2)}, {piece(9, 1), piece(3, 4)}).status, Status::infeasible);
}

TEST(BadInput, NothingToCutIsAnEmptyPlan) {
  const Plan plan = solve_checked({stock(10, 1)}, {piece(5, 0)});
  EXPECT_TRUE(plan.proved);
  EXPECT_EQ(plan.cost.units(), 0);
  EXPECT_TRUE(plan.sticks.empty());
}

TEST(BadInput, NamesMayRepeat) {
  std::vector<Piece> pieces = {piece(5), piece(5), piece(4)};
  for (Piece& p : pieces) p.label = "same";
  std::vector<Stock> stocks = {stock(10, 3), stock(9, 2)};
  for (Stock& s : stocks) s.name = "same";
  EXPECT_EQ(solve_checked(stocks, pieces).cost.units(), 4);
}

TEST(BadInput, AMillionPiecesAllDifferent) {
  std::vector<Piece> pieces;
  for (std::int64_t i = 0; i < 1'000'000; ++i) pieces.push_back(piece(1'000'000'000 + i * 997));
  Options options;
  options.effort = Effort::quick;
  const Plan plan = solve_checked({stock(6'400'800'000, 10)}, pieces, kerf(3'175'000), options);
  EXPECT_TRUE(plan.found);
  EXPECT_LE(plan.bound, plan.cost);
}

TEST(BadInput, FreeSticksCostNothing) {
  const Plan plan = solve_checked({stock(10, 0), stock(20, 5)}, {piece(6, 3), piece(15)});
  EXPECT_TRUE(plan.proved);
  EXPECT_EQ(plan.cost.units(), 5);
}

}  // namespace
}  // namespace railwright::cutting::testing
