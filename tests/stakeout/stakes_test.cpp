// SPDX-License-Identifier: MIT
#include "engine/stakeout/stakes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/ground/geodesy.h"
#include "engine/ground/profile.h"
#include "tests/setout/site_drawing.h"

namespace railwright::stakeout {
namespace {

namespace drawn = setout::drawn;

struct Staked {
  job::Job job;
  setout::Layout layout;
  StakeOut stakes;
};

Staked stake(job::Job job) {
  Findings findings;
  const job::Catalogue catalogue = drawn::catalogue();
  setout::Limits limits;
  for (const job::Fence& fence : job.choices.fences) limits.pitch_cap.push_back(fence.spacing.cap);
  auto layout = setout::set_out(job, catalogue, limits, ground::profiles(job.site, findings), findings);
  StakeOut stakes = stake_out(job.site, layout);
  return {std::move(job), std::move(layout), std::move(stakes)};
}

job::Job line_of(Length length) {
  job::Job job = drawn::straight(length);
  job.choices.fences[0].braces.ends = job.choices.fences[0].braces.corners = false;
  return job;
}

// 300 ft at 10 %: the tape laid on the ground reads 300 sqrt(1.01) = 301.496 ft, 17.96 in more (Pythagoras, worked by hand).
TEST(Stakes, TapeOnTheGroundPartsFromTheLevelStation) {
  job::Job job = line_of(Length::feet(300));
  job.site.ground.profile = {{"L", {}, Length::feet(100)}, {"L", Length::feet(300), Length::feet(130)}};
  const Staked staked = stake(job);
  ASSERT_EQ(staked.stakes.legs.size(), 1u);
  const LegStakes& leg = staked.stakes.legs[0];
  EXPECT_EQ(leg.stakes.front().tape, Length());
  EXPECT_EQ(leg.stakes.back().station, Length::feet(300));
  EXPECT_NEAR((leg.stakes.back().tape - leg.stakes.back().station).inches_value(), 17.955, 0.001);
  EXPECT_NEAR(leg.tape.feet_value(), 301.49627, 1e-5);
  for (std::size_t i = 1; i < leg.stakes.size(); ++i) {
    EXPECT_GT(leg.stakes[i].tape - leg.stakes[i - 1].tape, leg.stakes[i].station - leg.stakes[i - 1].station);
  }
}

// A ridge: 3-4-5 up and 5-12-13 down, worked by hand: readings 5 at the top and 18 at the end.
TEST(Stakes, TapeFollowsEverySlope) {
  job::Job job = line_of(Length::feet(16));
  job.site.ground.profile = {{"L", {}, {}}, {"L", Length::feet(4), Length::feet(3)}, {"L", Length::feet(16), Length::feet(-2)}};
  const Staked staked = stake(job);
  const LegStakes& leg = staked.stakes.legs[0];
  ASSERT_EQ(leg.stakes.size(), 3u);  // two bays of 8 ft
  EXPECT_NEAR(leg.stakes[1].tape.feet_value(), 5 + 4 * 13.0 / 12, 1e-6);
  EXPECT_NEAR(leg.stakes[2].tape.feet_value(), 18, 1e-6);
}

// Level ground, or none: the tape reads the station.
TEST(Stakes, WithoutHeightsTheTapeReadsTheStation) {
  for (const LegStakes& leg : stake(line_of(Length::feet(100))).stakes.legs) {
    for (const Stake& stake : leg.stakes) EXPECT_EQ(stake.tape, stake.station);
  }
}

// End posts 2-7/8 in, line posts 2-3/8 in: the string on the end posts' faces runs 1-7/16 in from every centre and 1/4 in from a line post's face.
TEST(Stakes, StringTouchesTheThickestPosts) {
  job::Job job = line_of(Length::feet(40));
  job.choices.fences[0].strong_pipe = "2-7/8";
  const Staked staked = stake(job);
  const LegStakes& leg = staked.stakes.legs[0];
  EXPECT_EQ(leg.string_side, job::Side::right);  // the animals are on the left
  for (std::size_t i = 0; i < leg.stakes.size(); ++i) {
    const bool end = i == 0 || i + 1 == leg.stakes.size();
    EXPECT_EQ(leg.stakes[i].string_to_centre, Length::sixty_fourths(92));
    EXPECT_EQ(leg.stakes[i].string_to_face, end ? Length() : Length::sixty_fourths(16));
  }
}

// A post that stands 1 in to the right of its line, away from the animals, carries the string out with it: the string touches it alone.
TEST(Stakes, AStrayedPostMovesTheString) {
  job::Job job = line_of(Length::feet(40));
  job.field.posts.push_back({"L1", "L", Length::feet(8), Length::inches(1), {}});
  const Staked staked = stake(job);
  const LegStakes& leg = staked.stakes.legs[0];
  int touching = 0;
  for (const Stake& stake : leg.stakes) {
    const bool strayed = staked.layout.posts[static_cast<std::size_t>(stake.post)].name == "L1";
    touching += stake.string_to_face == Length();
    EXPECT_EQ(stake.string_to_face, strayed ? Length() : Length::inches(1));
  }
  EXPECT_EQ(touching, 1);
}

// A corner is staked on both of its legs.
TEST(Stakes, ACornerStandsOnBothLegs) {
  const Staked staked = stake(drawn::site("A----B\n\n\n     C", {"AB", "BC"}, Length::feet(10), Length::feet(10)));
  const auto& last = staked.stakes.legs[0].stakes.back();
  const auto& first = staked.stakes.legs[1].stakes.front();
  EXPECT_EQ(last.post, first.post);
  EXPECT_EQ(last.station, Length::feet(50));
  EXPECT_EQ(first.station, Length());
  EXPECT_TRUE(staked.stakes.places.empty());
}

// Degrees of the posts, read back by the geodesic on the ellipsoid (C. Karney, 2013), lie as far from the origin as the job says.
TEST(Stakes, PlacesOnTheEarthReadBack) {
  job::Job job = line_of(Length::feet(300));
  job.site.origin = job::Origin{35.25, -98.5, 0};
  const Staked staked = stake(job);
  ASSERT_EQ(staked.stakes.places.size(), staked.layout.posts.size());
  for (std::size_t i = 0; i < staked.layout.posts.size(); ++i) {
    const GeoPost& place = staked.stakes.places[i];
    const auto line = ground::geodesic({35.25, -98.5, 0}, {place.latitude_deg, place.longitude_deg, 0});
    ASSERT_TRUE(line);
    EXPECT_NEAR(line->length, measure::norm(staked.layout.posts[i].at), 0.0015);
  }
}

}  // namespace
}  // namespace railwright::stakeout
