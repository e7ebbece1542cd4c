// SPDX-License-Identifier: MIT
#include "engine/measure/money.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>

namespace railwright::measure {
namespace {

std::string said(std::string_view text) {
  const auto amount = parse_money(text);
  return amount ? decimal_text(*amount) : amount.error().code;
}

TEST(Money, ReadsAmounts) {
  EXPECT_EQ(said("12.5"), "12.50");
  EXPECT_EQ(said("$1,250.00"), "1250.00");
  EXPECT_EQ(said("-$0.0125"), "-0.0125");
  EXPECT_EQ(said(" $ 3 "), "3.00");
  EXPECT_EQ(said("1,000,000"), "1000000.00");
  EXPECT_EQ(said(".5"), "0.50");
  EXPECT_EQ(said("1.95499"), "1.9550");
}

TEST(Money, RefusesWhatIsNoAmount) {
  for (const char* text : {"", "$", ".", "abc", "1.2.3", "12,50", "1,250000", "1,2500000", ",100", "1e3", "NaN", "--1", "1 000", "12.5 USD"}) {
    EXPECT_EQ(said(text), "money.not_an_amount") << text;
  }
  EXPECT_EQ(said("1000000000001"), "money.out_of_range");
  EXPECT_EQ(said(std::string(400, '9')), "money.out_of_range");
}

TEST(Money, TextReadsBack) {
  std::mt19937_64 random(3);
  for (int i = 0; i < 20'000; ++i) {
    const auto units = static_cast<std::int64_t>(random() % 2'000'000'000'000) - 1'000'000'000'000;
    const Money m = Money::from_units(units);
    ASSERT_EQ(parse_money(decimal_text(m)).value(), m);
  }
}

TEST(Money, RoundsHalvesAwayFromZero) {
  EXPECT_EQ(Money::from_units(150).round_to_cents(), Money::cents(2));
  EXPECT_EQ(Money::from_units(149).round_to_cents(), Money::cents(1));
  EXPECT_EQ(Money::from_units(-150).round_to_cents(), Money::cents(-2));
  EXPECT_EQ(Money::cents(333).times(0.5), Money::from_units(16'650));
  EXPECT_EQ(Money::from_units(-1).times(0.5), Money::from_units(-1));
  EXPECT_EQ(Money::whole(1).times(std::numeric_limits<double>::infinity()).units(), 4'600'000'000'000'000'000);
}

}  // namespace
}  // namespace railwright::measure
