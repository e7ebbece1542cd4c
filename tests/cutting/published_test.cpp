// SPDX-License-Identifier: MIT
#include "tests/cutting/support.h"

// Published instances with published optima.
namespace railwright::cutting::testing {
namespace {

Plan proved(std::vector<Stock> stocks, std::vector<Piece> pieces, Rules rules = {}) {
  Plan plan = solve_checked(std::move(stocks), std::move(pieces), rules);
  EXPECT_TRUE(plan.proved);
  EXPECT_EQ(plan.cost, plan.bound);
  return plan;
}

// V. Chvatal, Linear Programming (1983), pp. 195-198: 453 rolls.
TEST(Published, ChvatalRolls) { EXPECT_EQ(proved({stock(100, 1)}, {piece(45, 97), piece(36, 610), piece(31, 395), piece(14, 211)}).sticks_used, 453); }

// The same with 35 instead of 36, a misprint of a solver manual's table: 453 as well (all patterns enumerated and the integer program
// solved with a public library; its linear program is worth 452.25 either way).
TEST(Published, ChvatalRollsMisprinted) {
  EXPECT_EQ(proved({stock(100, 1)}, {piece(45, 97), piece(35, 610), piece(31, 395), piece(14, 211)}).sticks_used, 453);
}

// Encyclopedia article "Cutting stock problem": 5600 mm paper rolls, 73 master rolls, waste 0.401 %.
TEST(Published, PaperRolls) {
  const Plan plan =
      proved({stock(5600, 1)}, {piece(1380, 22), piece(1520, 25), piece(1560, 12), piece(1710, 14), piece(1820, 18), piece(1880, 18), piece(1930, 20),
                                piece(2000, 10), piece(2050, 12), piece(2100, 14), piece(2140, 16), piece(2150, 18), piece(2200, 20)});
  EXPECT_EQ(plan.sticks_used, 73);
}

// Gilmore and Gomory (1961) as restated in the MO-book (mobook/MO-book, "Extra material: cutting stock"): cost 170.
TEST(Published, SeveralLengthsWithPrices) {
  const Plan plan = proved({stock(5, 6), stock(6, 7), stock(9, 10)}, {piece(2, 20), piece(3, 10), piece(4, 20)});
  EXPECT_EQ(plan.cost.units(), 170);
}

// MO-book, log problem: 334 logs (every piece over 50 needs its own).
TEST(Published, Logs) {
  std::vector<Piece> pieces;
  for (const int count : {38, 44, 30, 41, 36}) pieces.push_back(piece(750, count));
  for (const auto& [length, count] : {std::pair{538, 33},
                                      {530, 36},
                                      {510, 41},
                                      {502, 35},
                                      {322, 37},
                                      {308, 44},
                                      {298, 49},
                                      {201, 37},
                                      {162, 36},
                                      {145, 42},
                                      {110, 33},
                                      {86, 47},
                                      {82, 35},
                                      {66, 49},
                                      {51, 42}})
    pieces.push_back(piece(length, count));
  EXPECT_EQ(proved({stock(1000, 1)}, pieces).sticks_used, 334);
}

// MO-book, woodworking case: eleven priced lengths, $32.44 by a heuristic; the true optimum is $32.28 (all patterns enumerated and the
// integer program solved with a public library), with the kerf of 0.25 charged to every piece, 0.125, or between pieces only; $31.23
// without kerf. Hundredths of an inch, cents.
std::vector<Stock> boards(int stretch) {
  std::vector<Stock> stocks;
  for (const auto& [length, price] :
       {std::pair{36, 168}, {48, 186}, {72, 257}, {84, 265}, {96, 292}, {120, 367}, {144, 440}, {168, 514}, {192, 692}, {216, 862}, {240, 1040}})
    stocks.push_back(stock(length * 1000 - stretch, price));
  return stocks;
}
std::vector<Piece> board_pieces() { return {piece(70500, 3), piece(25500, 10), piece(12500, 1), piece(72000, 6), piece(70750, 1), piece(28500, 1)}; }
TEST(Published, BoardsWithKerf) {
  EXPECT_EQ(proved(boards(0), board_pieces(), kerf(250)).cost.units(), 3228);    // kerf between pieces
  EXPECT_EQ(proved(boards(250), board_pieces(), kerf(250)).cost.units(), 3228);  // kerf with every piece
  EXPECT_EQ(proved(boards(125), board_pieces(), kerf(125)).cost.units(), 3228);
  EXPECT_EQ(proved(boards(0), board_pieces()).cost.units(), 3123);
}

// Sample of a public linear-programming library: bin packing with capacity 100, 3 bins.
TEST(Published, SixItems) { EXPECT_EQ(proved({stock(100, 1)}, {piece(50), piece(60), piece(30), piece(70), piece(50), piece(40)}).sticks_used, 3); }

}  // namespace
}  // namespace railwright::cutting::testing
