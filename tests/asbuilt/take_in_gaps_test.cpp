// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>

#include "engine/asbuilt/gaps.h"
#include "tests/setout/site_drawing.h"

namespace railwright::asbuilt {
namespace {

// A straight line of three rails on level ground: centres 60, 40 and 20 in less half the pipe.
struct Site {
  job::Job job;
  setout::Layout layout;
  grade::Heights heights;
};

const Length kCentres[] = {Length::from_inches(58.8125), Length::from_inches(38.8125), Length::from_inches(18.8125)};

Site line_of(int bays, int rails = 3) {
  Site s;
  s.job = setout::drawn::straight(Length::feet(8) * bays);
  Findings none;
  s.layout = setout::set_out(s.job, setout::drawn::catalogue(), {}, {}, none);
  for (std::size_t b = 0; b < s.layout.bays.size(); ++b) {
    grade::BayHeights heights;
    for (int k = 0; k < rails; ++k) heights.rails.push_back({kCentres[k], kCentres[k]});
    s.heights.bays.push_back(heights);
  }
  return s;
}

// Posts off their stakes and out of plumb: inches, and inches per 60 in of height.
struct Truth {
  std::vector<double> place, lean;
};

double true_gap(const Site& s, const Truth& t, std::size_t bay, int rail) {
  const double h = kCentres[rail].inches_value() / 60;
  return s.layout.bays[bay].gap.inches_value() + t.place[bay + 1] - t.place[bay] + h * (t.lean[bay + 1] - t.lean[bay]);
}

// Readings to the nearest 1/16 in.
void tape(Site& s, const Truth& t, int rails = 3) {
  for (std::size_t b = 0; b < s.layout.bays.size(); ++b) {
    for (int k = 0; k < rails; ++k) {
      const Length gap = Length::from_inches(true_gap(s, t, b, k)).round_to(Length::sixty_fourths(4));
      s.job.field.gaps.push_back({s.layout.bays[b].name, k + 1, gap, job::GapWay::level});
    }
  }
}

Truth nothing_moved(int bays) { return {std::vector<double>(bays + 1, 0), std::vector<double>(bays + 1, 0)}; }

// Off by sums of three uniform numbers: sigma 1/2 in of place, 1/16 in of lean over 60 in.
Truth scattered(int bays, std::uint64_t seed) {
  Truth t = nothing_moved(bays);
  const auto next = [&seed] {
    double sum = 0;
    for (int i = 0; i < 3; ++i) {
      seed = seed * 6364136223846793005U + 1442695040888963407U;
      sum += static_cast<double>(seed >> 40) / (1 << 24) * 2 - 1;
    }
    return sum;  // variance 3 x 1/3
  };
  for (double& x : t.place) x = next() * 0.5;
  for (double& l : t.lean) l = next() * 0.0625;
  return t;
}

struct Taken {
  AsBuilt asbuilt;
  Findings findings;
};

Taken take(const Site& s) {
  Taken t;
  t.asbuilt = take_in_gaps(s.job, s.layout, s.heights, t.findings);
  return t;
}

std::vector<const Finding*> of(const Findings& findings, const std::string& code) {
  std::vector<const Finding*> found;
  for (const Finding& f : findings) {
    if (f.code == code) found.push_back(&f);
  }
  return found;
}

std::string text_in(const Finding& f, const std::string& key) {
  for (const auto& [name, value] : f.values) {
    if (name == key) return std::get<std::string>(value);
  }
  return {};
}

Length length_in(const Finding& f, const std::string& key) {
  for (const auto& [name, value] : f.values) {
    if (name == key) return Length::from_nm(std::get<LengthValue>(value).nm);
  }
  return {};
}

// Property 1.
TEST(TakeInGaps, ReadingsAsPlannedSayNothing) {
  Site s = line_of(12);
  tape(s, nothing_moved(12));
  const Taken t = take(s);
  EXPECT_TRUE(t.findings.empty());
  ASSERT_EQ(t.asbuilt.reports.size(), 36U);
  for (const GapReport& r : t.asbuilt.reports) {
    EXPECT_EQ(r.residual, Length());
    EXPECT_FALSE(r.doubtful);
  }
  EXPECT_TRUE(t.asbuilt.readings[3][2].known);
  EXPECT_EQ(t.asbuilt.readings[3][2].gap, Length::from_inches(93.625));
}

TEST(TakeInGaps, NothingMeasuredIsNothing) {
  const Taken t = take(line_of(3));
  EXPECT_TRUE(t.asbuilt.readings.empty());
  EXPECT_TRUE(t.findings.empty());
}

// Honest posts and tapes are left in peace: 60 lines of 20 bays, 3600 readings.
TEST(TakeInGaps, HonestScatterIsNoSlip) {
  int doubtful = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Site s = line_of(20);
    tape(s, scattered(20, seed));
    const Taken t = take(s);
    EXPECT_TRUE(of(t.findings, "gaps.slip_foot").empty());
    for (const GapReport& r : t.asbuilt.reports) doubtful += r.doubtful ? 1 : 0;
  }
  EXPECT_LE(doubtful, 3);
}

// Property 3: a foot up or down, in any bay and rail, is named there and nowhere else, and is not cut to.
TEST(TakeInGaps, AFootIsNamedWhereverItIs) {
  for (std::uint64_t i = 0; i < 120; ++i) {
    Site s = line_of(20);
    tape(s, scattered(20, i + 7));
    job::MeasuredGap& wrong = s.job.field.gaps[i % 60];
    wrong.gap += i < 60 ? Length::feet(1) : Length::feet(-1);
    const Taken t = take(s);
    const auto slips = of(t.findings, "gaps.slip_foot");
    ASSERT_EQ(slips.size(), 1U) << i;
    EXPECT_EQ(slips[0]->where, wrong.bay);
    EXPECT_EQ(slips[0]->severity, Severity::stop);
    EXPECT_FALSE(t.asbuilt.readings[i % 60 / 3][i % 3].known);
    EXPECT_TRUE(t.asbuilt.reports[i % 60].doubtful);
    EXPECT_NEAR(measure::abs(t.asbuilt.reports[i % 60].residual).inches_value(), 12, 0.6);
  }
}

// Where only one rail is taped, the plan and the neighbours still tell a foot.
TEST(TakeInGaps, AFootOnTheOnlyRailTaped) {
  for (int bay = 0; bay < 20; ++bay) {
    Site s = line_of(20);
    tape(s, scattered(20, 91), 1);
    s.job.field.gaps[bay].gap -= Length::feet(1);
    const auto slips = of(take(s).findings, "gaps.slip_foot");
    ASSERT_EQ(slips.size(), 1U) << bay;
    EXPECT_EQ(slips[0]->where, s.job.field.gaps[bay].bay);
  }
}

TEST(TakeInGaps, AnInchIsToldByTheOtherRails) {
  int named = 0;
  for (std::size_t i = 0; i < 60; ++i) {
    Site s = line_of(20);
    tape(s, scattered(20, i + 300));
    job::MeasuredGap& wrong = s.job.field.gaps[i];
    wrong.gap += Length::inches(i % 2 == 0 ? 1 : -1);
    const Taken t = take(s);
    const auto slips = of(t.findings, "gaps.slip_inch");
    if (slips.size() == 1 && slips[0]->where == wrong.bay) ++named;
    EXPECT_TRUE(t.asbuilt.reports[i].doubtful) << i;
  }
  EXPECT_GE(named, 54);
}

TEST(TakeInGaps, TwoSlipsInOneRun) {
  Site s = line_of(40);
  tape(s, scattered(40, 5));
  s.job.field.gaps[3 * 10].gap += Length::feet(1);
  s.job.field.gaps[3 * 11 + 1].gap -= Length::feet(1);
  s.job.field.gaps[3 * 30 + 2].gap += Length::feet(2);
  EXPECT_EQ(of(take(s).findings, "gaps.slip_foot").size(), 3U);
}

// Hand calculation: ten gaps each 3/8 in long put the sum 3-3/4 in over the run. Allowed: 3 sqrt(2 x 0.5^2 + 10 x (1/16)^2 + 2 x (1/4)^2) =
// 3 sqrt(0.5 + 0.0391 + 0.125) = 2.445 in.
TEST(TakeInGaps, GapsThatDoNotAddUpToTheRun) {
  Site s = line_of(10);
  tape(s, nothing_moved(10), 1);
  for (job::MeasuredGap& gap : s.job.field.gaps) gap.gap += Length::sixty_fourths(24);
  const Taken t = take(s);
  const auto sums = of(t.findings, "gaps.sum");
  ASSERT_EQ(sums.size(), 1U);
  EXPECT_EQ(sums[0]->where, "A-B");
  EXPECT_EQ(length_in(*sums[0], "off"), Length::from_inches(3.75));
  EXPECT_EQ(length_in(*sums[0], "sum"), Length::from_inches(963.75));
  EXPECT_NEAR(length_in(*sums[0], "allowed").inches_value(), 2.445, 0.001);
}

// Post L5 leans one inch at 60 in: bays 5 and 6 both show it, and it is the one they share.
TEST(TakeInGaps, ALeaningPostIsNamed) {
  Site s = line_of(10);
  Truth truth = nothing_moved(10);
  truth.lean[5] = 1;
  tape(s, truth);
  const Taken t = take(s);
  const auto leans = of(t.findings, "gaps.lean");
  ASSERT_EQ(leans.size(), 2U);
  EXPECT_EQ(leans[0]->where, "L.5");
  EXPECT_EQ(leans[1]->where, "L.6");
  for (const Finding* f : leans) EXPECT_EQ(text_in(*f, "post"), "L5");
  for (const GapReport& r : t.asbuilt.reports) EXPECT_FALSE(r.doubtful) << r.bay;
}

TEST(TakeInGaps, OneBayCannotTellWhichPostLeans) {
  Site s = line_of(10);
  Truth truth = nothing_moved(10);
  truth.lean[5] = 1;
  tape(s, truth);
  auto& gaps = s.job.field.gaps;
  gaps.erase(std::remove_if(gaps.begin(), gaps.end(), [](const job::MeasuredGap& g) { return g.bay != "L.5"; }), gaps.end());
  const Taken t = take(s);
  const auto leans = of(t.findings, "gaps.lean_either");
  ASSERT_EQ(leans.size(), 1U);
  const std::string first = text_in(*leans[0], "post"), second = text_in(*leans[0], "other");
  EXPECT_EQ(std::min(first, second), "L4");
  EXPECT_EQ(std::max(first, second), "L5");
}

TEST(TakeInGaps, ReadingsThatCannotBePlaced) {
  Site s = line_of(4);
  const Length good = Length::from_inches(93.625);
  s.job.field.gaps = {{"L.9", 1, good, job::GapWay::level},
                      {"L.1", 4, good, job::GapWay::level},
                      {"L.1", 0, good, job::GapWay::level},
                      {"L.2", 1, Length(), job::GapWay::level},
                      {"L.2", 2, Length::inches(-5), job::GapWay::level},
                      {"L.2", 3, Length::inches(111), job::GapWay::level},
                      {"L.3", 1, good, job::GapWay::level},
                      {"L.3", 1, good + Length::sixty_fourths(8), job::GapWay::level}};
  const Taken t = take(s);
  EXPECT_EQ(of(t.findings, "gaps.no_such_bay").size(), 1U);
  EXPECT_EQ(of(t.findings, "gaps.no_such_rail").size(), 2U);
  EXPECT_EQ(of(t.findings, "gaps.impossible").size(), 3U);
  EXPECT_EQ(of(t.findings, "gaps.twice").size(), 1U);
  EXPECT_EQ(of(t.findings, "gaps.partly").size(), 1U);
  EXPECT_EQ(t.asbuilt.readings[2][0].gap, good + Length::sixty_fourths(8));
  EXPECT_FALSE(t.asbuilt.readings[1][0].known);
}

// A gap taped along the slope: rise 28 in, slope 100 in, level 96 in (7-24-25 triangle times four).
TEST(TakeInGaps, SlopeReadingsAreMadeLevel) {
  Site s = line_of(1, 1);
  s.job.site.points[1].east = Length::from_inches(98.375);
  s.job.choices.fences[0].spacing.cap = Length::feet(10);
  Findings none;
  s.layout = setout::set_out(s.job, setout::drawn::catalogue(), {}, {}, none);
  s.layout.posts[1].ground = 28 * 0.0254;
  s.heights.bays[0].rails[0] = {kCentres[0], kCentres[0] + Length::inches(28)};
  s.job.field.gaps = {{"L.1", 1, Length::inches(100), job::GapWay::slope}};
  const Taken t = take(s);
  ASSERT_EQ(t.asbuilt.reports.size(), 1U);
  EXPECT_EQ(t.asbuilt.reports[0].measured, Length::inches(96));
  EXPECT_EQ(t.asbuilt.reports[0].planned, Length::inches(96));
  EXPECT_TRUE(t.findings.empty());
  EXPECT_EQ(t.asbuilt.readings[0][0].way, job::GapWay::slope);
  EXPECT_EQ(t.asbuilt.readings[0][0].gap, Length::inches(100));
}

}  // namespace
}  // namespace railwright::asbuilt
