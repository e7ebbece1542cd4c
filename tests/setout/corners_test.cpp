// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "engine/setout/layout.h"
#include "tests/setout/site_drawing.h"

namespace railwright::setout {
namespace {

using drawn::catalogue;
using drawn::site;

Layout plan(const job::Job& job) {
  Findings findings;
  Layout layout = set_out(job, catalogue(), {}, {}, findings);
  EXPECT_TRUE(findings.empty());
  return layout;
}

const CornerProof* proof_at(const Layout& layout, const std::string& post) {
  for (const CornerProof& p : layout.corners) {
    if (layout.posts[p.post].name == post) return &p;
  }
  return nullptr;
}

// Distance between the two marks, laid out from the post along the legs' own stakes.
double between_marks(const job::Job& job, const Layout& layout, const CornerProof& proof) {
  Vec2 marks[2];
  for (int side = 0; side < 2; ++side) {
    const LegPlace& leg = layout.legs[proof.legs[side]];
    const bool ahead = job.site.legs[proof.legs[side]].from == layout.posts[proof.post].name;
    marks[side] = layout.posts[proof.post].at + (ahead ? proof.marks[side].metres() : -proof.marks[side].metres()) * leg.along;
  }
  return measure::distance(marks[0], marks[1]);
}

// 40 ft x 25 ft: units of 8 ft (3 x 8 = 24 on the short side, 4 x 8 = 32 on the long one, 40 across; Pythagoras 24^2 + 32^2 = 40^2).
TEST(Corners, LargestThreeFourFiveThatTheSidesAllow) {
  const job::Job job = site("A...B\n.\n.\nD...C\n", {"AB", "BC", "CD", "DA"}, Length::feet(10), Length::from_inches(100));
  const Layout layout = plan(job);
  ASSERT_EQ(layout.corners.size(), 4U);
  for (const CornerProof& proof : layout.corners) {
    EXPECT_TRUE(proof.square);
    EXPECT_EQ(proof.diagonal, Length::feet(40));
    for (int side = 0; side < 2; ++side) {
      const bool is_long = layout.legs[proof.legs[side]].length == Length::feet(40);
      EXPECT_EQ(proof.marks[side], Length::feet(is_long ? 32 : 24));
    }
    EXPECT_NEAR(between_marks(job, layout, proof), 40 * 0.3048, 1e-9);
  }
}

TEST(Corners, TheTapeIsTheLimitOnLongSides) {
  job::Job job = site("A.......B\n.\n.\nD.......C\n", {"AB", "BC", "CD", "DA"}, Length::feet(100), Length::feet(100));
  EXPECT_EQ(plan(job).corners[0].diagonal, Length::feet(100));
  job.units = job::UnitSystem::metric;
  EXPECT_EQ(plan(job).corners[0].diagonal, Length::mm(30'000));
}

TEST(Corners, ShortSidesAreMarkedInInches) {
  const job::Job job = site("A..B\n.\n\nC\n", {"AB", "AC"}, Length::feet(2), Length::inches(9));
  // 6 ft and 27 in: 3 units of 9 in = 27, 4 = 36 in.
  const Layout layout = plan(job);
  ASSERT_EQ(layout.corners.size(), 1U);
  EXPECT_EQ(layout.corners[0].diagonal, Length::inches(45));
}

// Equilateral corner, 60 degrees between the sides: marks 3 units out are 3 units apart (drawn to within half a nanometre).
TEST(Corners, CornersThatAreNotSquareHaveTheirOwnDiagonal) {
  job::Job job = site("A.B\nC", {"AB", "AC"}, Length::feet(30), Length::feet(60));
  job.site.points[2].east = Length::feet(30);
  job.site.points[2].north = -(Length::feet(60) - Length::from_metres(18.288 - 18.288 * std::sqrt(3.0) / 2));
  job.site.points[0].north = Length();
  job.site.points[1].north = Length();
  const Layout layout = plan(job);
  ASSERT_EQ(layout.corners.size(), 1U);
  const CornerProof& proof = layout.corners[0];
  EXPECT_FALSE(proof.square);
  EXPECT_EQ(proof.marks[0], proof.marks[1]);
  EXPECT_NEAR(proof.diagonal.metres(), proof.marks[0].metres(), 2e-9);
  EXPECT_NEAR(between_marks(job, layout, proof), proof.diagonal.metres(), 1e-9);
}

// Hand calculation: 80 x 60 ft halved by EF. Diagonals 100 ft for the whole and sqrt(40^2 + 60^2) = 72.111 ft for each half.
TEST(Corners, ADividedPaddockHasItsWholeAndItsParts) {
  const job::Job job = site("A---E---B\n|   |   |\n|   |   |\nD---F---C\n", {"AB", "BC", "CD", "DA", "EF"}, Length::feet(10), Length::feet(20));
  const Layout layout = plan(job);
  ASSERT_EQ(layout.quadrilaterals.size(), 3U);
  int whole = 0;
  for (const Quadrilateral& quad : layout.quadrilaterals) {
    EXPECT_EQ(quad.diagonals[0], quad.diagonals[1]);
    if (quad.diagonals[0] == Length::feet(100))
      ++whole;
    else
      EXPECT_NEAR(quad.diagonals[0].metres(), std::sqrt(5200.0) * 0.3048, 1e-9);
  }
  EXPECT_EQ(whole, 1);
  ASSERT_NE(proof_at(layout, "E"), nullptr);                     // the tee is square too
  EXPECT_EQ(proof_at(layout, "E")->diagonal, Length::feet(65));  // 40 ft along AB, 60 along EF: 39 and 52
  EXPECT_EQ(layout.corners.size(), 6U);
}

TEST(Corners, AStraightLineHasNone) {
  const Layout layout = plan(site("A...B...C", {"AB", "BC"}, Length::feet(10), Length::feet(10)));
  EXPECT_TRUE(layout.corners.empty());
  EXPECT_TRUE(layout.quadrilaterals.empty());
}

// A corner split into two legs on one side: the side goes on through the post between.
TEST(Corners, SidesRunOnThroughPostsThatDoNotTurn) {
  const job::Job job = site("A..E.....B\n.\n.\nC\n", {"AE", "EB", "AC"}, Length::feet(5), Length::feet(10));
  const Layout layout = plan(job);
  ASSERT_EQ(layout.corners.size(), 1U);
  EXPECT_EQ(layout.corners[0].diagonal, Length::feet(50));  // 45 ft and 30 ft: 40 and 30
}

}  // namespace
}  // namespace railwright::setout
