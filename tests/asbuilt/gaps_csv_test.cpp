// SPDX-License-Identifier: MIT
#include "engine/asbuilt/gaps_csv.h"

#include <gtest/gtest.h>

namespace railwright::asbuilt {
namespace {

using measure::Length;

TEST(GapsCsv, ReadsUnitsWaysAndQuotes) {
  const ReadGaps read = read_gaps(
      "\xEF\xBB\xBF"
      "bay,rail,gap,way\r\nL.1,1,7 ft 9 5/8 in,level\r\n\"L.2\",2,93.5,\r\nL.3,3,2378 mm,Slope\r\n");
  EXPECT_TRUE(read.findings.empty());
  ASSERT_EQ(read.gaps.size(), 3U);
  EXPECT_EQ(read.gaps[0].bay, "L.1");
  EXPECT_EQ(read.gaps[0].gap, Length::from_inches(93.625));
  EXPECT_EQ(read.gaps[1].gap, Length::from_inches(93.5));
  EXPECT_EQ(read.gaps[1].way, job::GapWay::level);
  EXPECT_EQ(read.gaps[2].rail, 3);
  EXPECT_EQ(read.gaps[2].way, job::GapWay::slope);
}

TEST(GapsCsv, QuotedInchMarksAndColumnsInAnyOrder) {
  const ReadGaps read = read_gaps("gap,bay,rail\n\"7' 9-5/8\"\"\",L.1,1\n,L.1,2\n");
  EXPECT_TRUE(read.findings.empty());
  ASSERT_EQ(read.gaps.size(), 1U);
  EXPECT_EQ(read.gaps[0].gap, Length::from_inches(93.625));
}

TEST(GapsCsv, NamesEveryFaultWithItsPlace) {
  const ReadGaps read = read_gaps("bay,rail,gap,way\n,1,93,level\nL.1,x,93,level\nL.1,1,many,level\nL.1,1,93,sideways\n\nL.1,0,93,\nL.2,1,93,level\n");
  ASSERT_EQ(read.findings.size(), 5U);
  EXPECT_EQ(read.findings[0].code, "gaps_csv.bay");
  EXPECT_EQ(read.findings[0].where, "2:1");
  EXPECT_EQ(read.findings[1].code, "gaps_csv.rail");
  EXPECT_EQ(read.findings[1].where, "3:5");
  EXPECT_EQ(read.findings[2].code, "gaps_csv.gap");
  EXPECT_EQ(read.findings[2].where, "4:7");
  EXPECT_EQ(read.findings[3].code, "gaps_csv.way");
  EXPECT_EQ(read.findings[3].where, "5:10");
  EXPECT_EQ(read.findings[4].where, "7:5");
  ASSERT_EQ(read.gaps.size(), 1U);
  EXPECT_EQ(read.gaps[0].bay, "L.2");
}

TEST(GapsCsv, EmptyBinaryAndHeaderless) {
  EXPECT_EQ(read_gaps("").findings.at(0).code, "gaps_csv.empty");
  EXPECT_EQ(read_gaps("\n \n").findings.at(0).code, "gaps_csv.empty");
  EXPECT_EQ(read_gaps("L.1,1,93,level\n").findings.at(0).code, "gaps_csv.header");
  EXPECT_EQ(read_gaps(std::string_view("\x7f\0\1\2", 4)).findings.at(0).code, "gaps_csv.not_text");
  EXPECT_EQ(read_gaps("bay,rail,gap\n\"L.1,1,93\n").findings.at(0).code, "gaps_csv.quote");
}

}  // namespace
}  // namespace railwright::asbuilt
