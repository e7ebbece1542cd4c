// SPDX-License-Identifier: MIT
#include "engine/setout/divide.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <functional>

namespace railwright::setout {
namespace {

constexpr Length kSmall = Length::sixty_fourths(152);  // 2-3/8 in
constexpr Length kFat = Length::sixty_fourths(184);    // 2-7/8 in

RunRule rule(Length cap = Length::feet(8)) {
  RunRule r;
  r.line_diameter = kSmall;
  r.cap = cap;
  return r;
}

Stretch run(Length length, Length end_post = kSmall) { return {Length(), length, end_post, end_post}; }

// A small generator of whole numbers: the same in every build (Numerical Recipes' 64-bit linear congruence).
class Numbers {
 public:
  explicit Numbers(std::uint64_t seed) : state_(seed) {}
  std::int64_t below(std::int64_t n) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(n));
  }

 private:
  std::uint64_t state_;
};

std::vector<Length> places(const Stretch& r, const Division& d) {
  std::vector<Length> at{r.start};
  at.insert(at.end(), d.line.begin(), d.line.end());
  at.push_back(r.end);
  return at;
}

// Hand calculation: 80 ft in 8 ft bays of like posts is ten bays of 96 in; gap 96 - 2.375 = 93.625 in.
TEST(Divide, EqualPostsGiveEqualPitches) {
  const Division d = divide(run(Length::feet(80)), rule(), {});
  ASSERT_EQ(d.line.size(), 9U);
  for (std::size_t i = 0; i < 9; ++i) EXPECT_EQ(d.line[i], Length::feet(8) * static_cast<std::int64_t>(i + 1));
}

// Hand calculation, trade rule "equal level clear gaps" (common practice, no source): 80 ft between two 2-7/8 in posts, 2-3/8 in line posts. Ten bays:
// clear sum 960 - 2.875 - 9 x 2.375 = 935.75 in, gap 93.575, end pitch 93.575 + 1.4375 + 1.1875 = 96.2 in: over 8 ft.
// Eleven: clear 933.375 / 11 = 84.8523 in.
TEST(Divide, FatEndPostsShortenNoRail) {
  const Stretch r = run(Length::feet(80), kFat);
  const Division d = divide(r, rule(), {});
  ASSERT_EQ(d.line.size(), 10U);
  EXPECT_EQ(d.one_bay_less_cap, Length::from_inches(96.2));
  const Length first_gap = d.line[0] - r.start - kFat / 2 - kSmall / 2;
  const Length inner_gap = d.line[1] - d.line[0] - kSmall;
  EXPECT_NEAR(first_gap.inches_value(), 933.375 / 11, 1e-6);
  EXPECT_LE(measure::abs(first_gap - inner_gap).nm(), 1);
  const Division wider = divide(r, rule(Length::from_inches(96.25)), {});
  EXPECT_EQ(wider.line.size(), 9U);
}

// Hand calculation: a 21 ft stick gives two rails of 96 - 2.375 - 3 = 90.625 in; 7 ft 5-1/4 in pitch gives rails of
// 89.25 - 2.375 - 3 = 83.875 in, three of them 251.625 in of 252.
TEST(Divide, PitchThatSuitsTheStick) {
  RunRule r = rule();
  r.mode = job::SpacingMode::at_pitch;
  r.pitch = Length::from_inches(89.25);
  const Division d = divide(run(r.pitch * 40), r, {});
  ASSERT_EQ(d.line.size(), 39U);
  const Length rail = d.line[1] - d.line[0] - kSmall - Length::inches(3);
  EXPECT_EQ(rail, Length::from_inches(83.875));
  EXPECT_EQ(Length::feet(21).nm() / rail.nm(), 3);
  const Length plain = Length::feet(8) - kSmall - Length::inches(3);
  EXPECT_EQ(Length::feet(21).nm() / plain.nm(), 2);
}

// 100 ft at 7 ft: 14 bays are 7 ft 1.7 in, 15 are 6 ft 8 in: 14 is nearer. At 8 ft cap and 8 ft pitch 12 bays would be 8 ft 4 in: 13.
TEST(Divide, AtPitchTakesTheNearest) {
  RunRule r = rule();
  r.mode = job::SpacingMode::at_pitch;
  r.pitch = Length::feet(7);
  EXPECT_EQ(divide(run(Length::feet(100)), r, {}).line.size(), 13U);
  r.pitch = Length::feet(8);
  EXPECT_EQ(divide(run(Length::feet(100)), r, {}).line.size(), 12U);
}

TEST(Divide, ModuleEndsWithMakeUpBay) {
  RunRule r = rule();
  r.mode = job::SpacingMode::module;
  r.pitch = Length::feet(7);
  const Division d = divide(run(Length::feet(24)), r, {});
  EXPECT_EQ(d.line, (std::vector<Length>{Length::feet(7), Length::feet(14), Length::feet(21)}));
  // 22 ft leaves a make-up of 1 ft, gap 9.625 in: kept. 21 ft 6 in leaves 6 in, gap 3.625: shared with the bay before,
  // 7.5 ft as one bay.
  EXPECT_EQ(divide(run(Length::feet(22)), r, {}).line.size(), 3U);
  EXPECT_EQ(divide(run(Length::inches(258)), r, {}).line, (std::vector<Length>{Length::feet(7), Length::feet(14)}));
  // At a cap of 7 ft the two are made alike: 14 ft + 45 in.
  r.cap = Length::feet(7);
  EXPECT_EQ(divide(run(Length::inches(258)), r, {}).line.back(), Length::inches(168 + 45));
}

TEST(Divide, ListRepeatsItsLast) {
  RunRule r = rule();
  r.mode = job::SpacingMode::list;
  r.list = {Length::feet(4), Length::feet(6), Length::feet(9)};
  const Division d = divide(run(Length::feet(30)), r, {});
  EXPECT_TRUE(d.pitch_over_cap);
  EXPECT_EQ(d.line, (std::vector<Length>{Length::feet(4), Length::feet(10), Length::feet(18), Length::feet(26)}));
}

// A 20 ft panel under an 8 ft cap takes bays of 20 / 3 ft = 6 ft 8 in; its joints fall on posts 3, 6, 9.
TEST(Divide, PanelJointsFallOnPosts) {
  RunRule r = rule();
  r.panel = Length::feet(20);
  const Division d = divide(run(Length::feet(70)), r, {});
  ASSERT_EQ(d.line.size(), 10U);
  EXPECT_EQ(d.line[0], Length::inches(80));
  for (std::size_t i = 2; i < 9; i += 3) EXPECT_EQ(d.line[i].nm() % Length::feet(20).nm(), 0);
}

// Properties 1 and 2, and the header's nanometre: 2000 random runs.
TEST(Divide, RandomRunsKeepCapAndSum) {
  Numbers n(3);
  for (int i = 0; i < 2000; ++i) {
    Stretch r{Length::from_nm(n.below(5'000'000'000)), {}, n.below(2) != 0 ? kFat : kSmall, n.below(2) != 0 ? kFat : kSmall};
    r.end = r.start + Length::from_nm(600'000'000 + n.below(300'000'000'000));
    const Length cap = Length::from_nm(1'500'000'000 + n.below(2'000'000'000));
    const Division d = divide(r, rule(cap), {});
    const auto at = places(r, d);
    Length least = Length::feet(1000), most;
    for (std::size_t k = 0; k + 1 < at.size(); ++k) {
      ASSERT_LT(at[k], at[k + 1]);
      ASSERT_LE(at[k + 1] - at[k], cap);
      const Length a = k == 0 ? r.from_diameter : kSmall, b = k + 2 == at.size() ? r.to_diameter : kSmall;
      const Length gap = at[k + 1] - at[k] - a / 2 - b / 2;
      least = measure::min(least, gap);
      most = measure::max(most, gap);
    }
    ASSERT_LE((most - least).nm(), 1);
    if (d.line.empty()) continue;
    // One bay less would break the cap: its end pitch is the shared gap plus half posts.
    const auto bays = static_cast<std::int64_t>(d.line.size());
    EXPECT_GT(widest_pitch(r, kSmall, bays), cap);
  }
}

// Mirror: the run seen from its other end has the same gaps, to the nanometre.
TEST(Divide, ReversedRunIsTheMirror) {
  const Stretch r{Length(), Length::inches(1001), kFat, kSmall}, back{Length(), Length::inches(1001), kSmall, kFat};
  const Division there = divide(r, rule(), {}), here = divide(back, rule(), {});
  ASSERT_EQ(there.line.size(), here.line.size());
  for (std::size_t i = 0; i < there.line.size(); ++i) {
    const Length mirrored = r.end - here.line[here.line.size() - 1 - i];
    EXPECT_LE(measure::abs(there.line[i] - mirrored).nm(), 1);
  }
}

// 24 ft at 8 ft: posts at 8 and 16. A zone 7.5-8.5 ft: four bays of 6 ft clear it with one post more than the fewest.
TEST(Divide, AnotherBayCountClearsTheZone) {
  const std::vector<Blocked> zone{{Length::inches(90), Length::inches(102), 0}};
  const Division d = divide(run(Length::feet(24)), rule(), zone);
  EXPECT_EQ(d.line, (std::vector<Length>{Length::feet(6), Length::feet(12), Length::feet(18)}));
}

// A zone 7.5 ft wide under an 8 ft cap: no equal division of 40 ft with 5 to 7 bays keeps out of 9-16.5 ft (posts at 16, 13.3, 11.4 ft),
// so a bay spans it.
TEST(Divide, UnequalBaysSpanAZone) {
  const std::vector<Blocked> zone{{Length::feet(9), Length::inches(198), 0}};
  const Stretch r = run(Length::feet(40));
  const Division d = divide(r, rule(), zone);
  EXPECT_TRUE(d.too_wide.empty());
  for (const Length at : d.line) EXPECT_EQ(blocked_at(zone, at), nullptr) << at.feet_value();
  const auto at = places(r, d);
  for (std::size_t k = 0; k + 1 < at.size(); ++k) EXPECT_LE(at[k + 1] - at[k], Length::feet(8));
  // 9 ft needs two bays, 7.5 ft one, 23.5 ft three: six at the fewest.
  EXPECT_EQ(d.line.size(), 5U);
}

TEST(Divide, ZoneWiderThanTheCapIsNamedAndSpanned) {
  const std::vector<Blocked> zone{{Length::feet(9), Length::feet(19), 4}};
  const Division d = divide(run(Length::feet(40)), rule(), zone);
  ASSERT_EQ(d.too_wide.size(), 1U);
  EXPECT_EQ(d.too_wide[0].zone, 4);
  EXPECT_EQ(d.too_wide[0].to - d.too_wide[0].from, Length::feet(10));
  for (const Length at : d.line) EXPECT_EQ(blocked_at(zone, at), nullptr);
}

// Fewest posts clear of the zones, by trying every set of posts on a coarse grid (independent of the program's search).
std::size_t fewest_by_hand(Length length, Length cap, const std::vector<Blocked>& zones, Length step) {
  const int cells = static_cast<int>(length.nm() / step.nm());
  std::vector<std::size_t> least(static_cast<std::size_t>(cells) + 1, 1'000'000);
  least[0] = 0;
  for (int i = 1; i <= cells; ++i) {
    if (i < cells && blocked_at(zones, step * i) != nullptr) continue;
    for (int j = i - 1; j >= 0 && step * (i - j) <= cap; --j) {
      if (step * (i - j) < Length::inches(9)) continue;
      least[i] = std::min(least[i], least[j] + 1);
    }
  }
  return least[cells] - 1;
}

// Property 3, and never more than two posts over the fewest possible, on 400 random runs with up to four zones.
TEST(Divide, RandomZonesStayClear) {
  Numbers n(11);
  int spanned = 0;
  for (int i = 0; i < 400; ++i) {
    const Length length = Length::inches(240 + n.below(600));
    std::vector<Blocked> zones;
    Length at = Length::inches(20 + n.below(60));
    while (zones.size() < 4 && at < length - Length::inches(110)) {
      const Length to = at + Length::inches(4 + n.below(80));
      zones.push_back({at, to, static_cast<int>(zones.size())});
      at = to + Length::inches(15 + n.below(150));
    }
    const Stretch r = run(length);
    const Division d = divide(r, rule(), zones);
    ASSERT_TRUE(d.too_wide.empty()) << i;
    const auto all = places(r, d);
    for (std::size_t k = 0; k + 1 < all.size(); ++k) ASSERT_LE(all[k + 1] - all[k], Length::feet(8)) << i;
    for (const Length post : d.line) ASSERT_EQ(blocked_at(zones, post), nullptr) << i;
    const std::size_t fewest = fewest_by_hand(length, Length::feet(8), zones, Length::inches(1));
    EXPECT_LE(d.line.size(), fewest + 2) << i;
    spanned += d.line.size() > fewest ? 1 : 0;
  }
  EXPECT_LT(spanned, 250);
}

TEST(Divide, ImpossibleRunsAreNamed) {
  EXPECT_TRUE(divide(run(Length::inches(2)), rule(), {}).too_short);
  EXPECT_TRUE(divide(run(Length::feet(100)), rule(Length::inches(2)), {}).cap_too_small);
  EXPECT_TRUE(divide(run(Length::feet(100)), rule(Length()), {}).cap_too_small);
  const Division huge = divide(run(Length::from_metres(1e9)), rule(), {});
  EXPECT_TRUE(huge.too_many);
  EXPECT_TRUE(huge.line.empty());
}

}  // namespace
}  // namespace railwright::setout
