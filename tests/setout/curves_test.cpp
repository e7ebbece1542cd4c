// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/setout/planned.h"

namespace railwright::setout {
namespace {

using drawn::straight;

constexpr double kFoot = 0.3048;

double feet(Length length) { return length.metres() / kFoot; }

// A leg "L" that bends left from A, `chord` due east to B.
job::Job bend(Length chord, const job::Arc& arc) {
  job::Job job = straight(chord);
  job.site.legs[0].arc = arc;
  return job;
}

job::Arc of_radius(Length radius) {
  job::Arc arc;
  arc.radius = radius;
  return arc;
}

// A round pen: point A lies south of its middle.
job::Job pen(Length diameter, int sides = 0) {
  job::Job job = straight(Length::feet(1));
  job.site.legs[0].to = "A";
  job::Arc arc;
  arc.diameter = diameter;
  arc.sides = sides;
  job.site.legs[0].arc = arc;
  return job;
}

// Equal chords that add up to the arc; every post on it; every turn the angle of a chord.
void expect_equal_chords(const Planned& p, const job::Job& job) {
  const LegPlace& leg = p.layout.legs[0];
  ASSERT_TRUE(leg.arc);
  Length stations;
  for (const Bay& bay : p.layout.bays) {
    const double chord = measure::distance(p.layout.posts[bay.from].at, p.layout.posts[bay.to].at);
    EXPECT_NEAR(bay.pitch.metres(), chord, 2e-9);
    EXPECT_NEAR(bay.pitch.metres(), p.layout.bays[0].pitch.metres(), 3e-9);
    EXPECT_EQ(bay.gap, bay.pitch - p.layout.posts[bay.from].diameter / 2 - p.layout.posts[bay.to].diameter / 2);
    EXPECT_LE(bay.pitch, job.choices.fences[0].spacing.cap);
    stations += bay.end - bay.start;
  }
  EXPECT_EQ(stations, leg.length);
  for (const Post& q : p.layout.posts) EXPECT_NEAR(measure::distance(q.at, leg.arc->centre), leg.arc->radius, 2e-9);
}

// Published example: R = 1000 ft, I = 16 deg 38 min: L = 290.31, LC = 289.29, M = 10.52 ft (worked example of a university course in route
// surveying, "CE 115 Horizontal Curves", by LC = 2 R sin(I/2), M = R (1 - cos(I/2)), L = R I; the same I and R with M = 10.52 ft in a
// surveyors' examination of 2014). Tolerance: half the last printed digit.
TEST(Curves, PublishedCurve) {
  const double angle = 16 + 38 / 60.0;
  job::Arc by_turn;
  by_turn.turn_deg = angle;
  const Length chord = Length::from_metres(289.29 * kFoot);
  const auto turned = plan(bend(chord, by_turn));
  EXPECT_NEAR(turned.layout.legs[0].arc->radius / kFoot, 1000, 0.03);
  EXPECT_NEAR(feet(turned.layout.legs[0].length), 290.31, 0.01);
  job::Arc by_rise;
  by_rise.middle_ordinate = Length::from_metres(10.52 * kFoot);
  EXPECT_NEAR(plan(bend(chord, by_rise)).layout.legs[0].arc->radius / kFoot, 1000, 0.5);
  const auto round = plan(bend(chord, of_radius(Length::feet(1000))));
  EXPECT_TRUE(round.findings.empty());
  const LegPlace& leg = round.layout.legs[0];
  EXPECT_NEAR(feet(leg.length), 290.31, 0.005);
  EXPECT_NEAR(feet(leg.chord_of(leg.length)), 289.29, 0.005);
  EXPECT_NEAR(leg.arc->delta * 180 / measure::kPi, angle, 0.0005);
  const Vec2 middle = leg.at(leg.length / 2);
  EXPECT_NEAR(std::fabs(middle.y) / kFoot, 10.52, 0.005);
  EXPECT_LT(middle.y, 0);  // bends left, walking east: it swings out to the right, the south
}

// Published example: R = 311 m, I = 26 deg: chord 139.92 m, curve 141.13 m (a simple-curve problem of a surveying course; formulas as above).
TEST(Curves, PublishedMetricCurve) {
  job::Arc arc = of_radius(Length::mm(311'000));
  arc.turn_deg = 26;
  arc.turns = job::Side::right;
  const auto p = plan(bend(Length::mm(139'920), arc));
  EXPECT_TRUE(p.findings.empty());
  EXPECT_NEAR(p.layout.legs[0].length.metres(), 141.13, 0.005);
  EXPECT_GT(p.layout.legs[0].at(p.layout.legs[0].length / 2).y, 0);
  expect_equal_chords(p, bend(Length::mm(139'920), arc));
}

// A regular polygon's side is D sin(pi / n) (Euclid IV; any handbook of geometry): hexagon R, square R sqrt 2, dodecagon R (sqrt 6 - sqrt 2) / 2.
TEST(Curves, RoundPenByDiameterAndSides) {
  const struct {
    int sides;
    double side;
  } cases[] = {{6, 10}, {12, 10 * (std::sqrt(6.0) - std::sqrt(2.0)) / 2}, {4, 10 * std::sqrt(2.0)}, {3, 10 * std::sqrt(3.0)}};
  for (const auto& c : cases) {
    job::Job job = pen(Length::feet(20), c.sides);
    job.choices.fences[0].spacing.cap = Length::feet(18);
    const auto p = plan(job);
    EXPECT_TRUE(p.findings.empty());
    ASSERT_EQ(p.layout.bays.size(), static_cast<std::size_t>(c.sides));
    EXPECT_EQ(p.layout.posts.size(), static_cast<std::size_t>(c.sides));  // the first post is the last
    EXPECT_NEAR(feet(p.layout.bays[0].pitch), c.side, 1e-8);
    expect_equal_chords(p, job);
    for (const Post& q : p.layout.posts) EXPECT_DOUBLE_EQ(q.deflection_deg, 360.0 / c.sides);
  }
}

// A 60 ft pen at an 8 ft cap: arc of an 8 ft chord 60 asin(8/60) = 8.0239 ft, circumference 188.496: 23.49, so 24 bays of 60 sin(7.5 deg) = 7.8316 ft.
TEST(Curves, RoundPenUnderTheCap) {
  const job::Job job = pen(Length::feet(60));
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  ASSERT_EQ(p.layout.bays.size(), 24U);
  EXPECT_NEAR(feet(p.layout.bays[0].pitch), 7.8316, 0.00005);
  expect_equal_chords(p, job);
  EXPECT_DOUBLE_EQ(p.layout.posts[3].deflection_deg, 15);
  EXPECT_EQ(post(p.layout, "A")->kind, PostKind::fixed);
  EXPECT_EQ(p.layout.runs[0].name, "A-A");
  // Due north of A is the middle, and half-way round the far side.
  EXPECT_NEAR(p.layout.posts[12].at.y, 60 * kFoot, 1e-8);
  EXPECT_NEAR(p.layout.posts[12].at.x, 0, 1e-8);
}

TEST(Curves, RoundPenByItsCentre) {
  job::Job job = pen(Length());
  job.site.legs[0].arc->centre = {Length::feet(30), Length()};
  const auto east = plan(job);
  EXPECT_TRUE(east.findings.empty());
  EXPECT_EQ(east.layout.bays.size(), 24U);
  EXPECT_NEAR(east.layout.posts[12].at.x, 60 * kFoot, 1e-8);
  job.site.legs[0].arc->radius = Length::feet(29);
  const auto off = plan(job);
  ASSERT_NE(finding(off.findings, "setout.arc_centre_off"), nullptr);
  EXPECT_EQ(off.layout.bays.size(), 24U);  // the point is kept
}

TEST(Curves, MoreSidesThanAskedWhereTheCapWantsThem) {
  const auto p = plan(pen(Length::feet(60), 12));  // sides of 60 sin 15 = 15.53 ft
  const Finding* f = finding(p.findings, "setout.arc_sides");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(p.layout.bays.size(), 24U);
}

TEST(Curves, FaultsAreNamedAndTheRestPlanned) {
  const auto tight = plan(bend(Length::feet(40), of_radius(Length::feet(19))));
  EXPECT_NE(finding(tight.findings, "setout.arc_too_tight"), nullptr);
  EXPECT_TRUE(tight.layout.bays.empty());
  job::Arc apart = of_radius(Length::feet(100));
  apart.turn_deg = 90;  // would be 141 ft apart
  const auto p = plan(bend(Length::feet(40), apart));
  EXPECT_NE(finding(p.findings, "setout.arc_ends_apart"), nullptr);
  EXPECT_FALSE(p.layout.bays.empty());
  // Exactly half a circle is the tightest.
  const auto half = plan(bend(Length::feet(40), of_radius(Length::feet(20))));
  EXPECT_TRUE(half.findings.empty());
  EXPECT_NEAR(feet(half.layout.legs[0].length), 20 * measure::kPi, 1e-7);
}

// A bend between two straight legs: it joins them without a corner, each end post turned by half a chord's angle.
TEST(Curves, BendBetweenStraightLegs) {
  job::Job job = drawn::site("A...B\n.\n.\n.....C\n.\n.....D", {"AB", "BC", "CD"}, Length::feet(10), Length::feet(10));
  job.site.points[2].east = Length::feet(60);  // C: 20 ft east and 20 ft south of B
  job.site.points[2].north = job.site.points[1].north - Length::feet(20);
  job.site.points[3].east = Length::feet(60);
  job.site.points[3].north = job.site.points[2].north - Length::feet(40);
  job.site.legs[1].arc = of_radius(Length::feet(20));
  job.site.legs[1].arc->turns = job::Side::right;
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  EXPECT_NEAR(feet(p.layout.legs[1].length), 10 * measure::kPi, 1e-7);
  EXPECT_EQ(post(p.layout, "B")->kind, PostKind::fixed);
  // 31.4 ft of arc, 8 ft chords span 8.0537 ft: four bays of 22.5 degrees.
  EXPECT_DOUBLE_EQ(post(p.layout, "BC2")->deflection_deg, 22.5);
  EXPECT_DOUBLE_EQ(post(p.layout, "B")->deflection_deg, 11.25);
  EXPECT_DOUBLE_EQ(post(p.layout, "C")->deflection_deg, 11.25);
}

TEST(Curves, TwoBendsBetweenTheSamePointsAreTwoFences) {
  job::Job job = bend(Length::feet(40), of_radius(Length::feet(20)));
  job.site.legs.push_back(job.site.legs[0]);
  job.site.legs[1].id = "M";
  std::swap(job.site.legs[1].from, job.site.legs[1].to);
  const auto circle = plan(job);  // two half circles
  EXPECT_TRUE(circle.findings.empty());
  EXPECT_EQ(circle.layout.runs.size(), 2U);
  job.site.legs[1].arc.reset();  // a half circle and its diameter
  EXPECT_TRUE(plan(job).findings.empty());
  job.site.legs[1] = job.site.legs[0];
  job.site.legs[1].id = "M";
  EXPECT_NE(finding(plan(job).findings, "setout.duplicate_leg"), nullptr);
}

TEST(Curves, ALegThatCrossesAPenIsNamedAndOneThatMeetsItMakesATee) {
  job::Job job = pen(Length::feet(60));
  job.site.points.push_back(job.site.points[0]);
  job.site.points.back().id = "X";
  job.site.points.back().east = Length::feet(-50);
  job.site.points.back().north = Length::feet(30);
  job.site.points.push_back(job.site.points.back());
  job.site.points.back().id = "Y";
  job.site.points.back().east = Length();
  job::Leg leg;
  leg.id = "XY";
  leg.from = "X";
  leg.to = "Y";
  leg.fence = "plain";
  job.site.legs.push_back(leg);
  const auto across = plan(job);
  ASSERT_NE(finding(across.findings, "setout.crossing"), nullptr);
  job.site.points.back().east = Length::feet(-30) - Length::mm(40);  // on the circle, but for 40 mm
  const auto meets = plan(job);
  EXPECT_TRUE(meets.findings.empty());
  ASSERT_NE(post(meets.layout, "Y"), nullptr);
  EXPECT_EQ(post(meets.layout, "Y")->kind, PostKind::tee);
  EXPECT_NEAR(post(meets.layout, "Y")->at.x, -30 * kFoot, 1e-8);
}

TEST(Curves, GateInARoundPenKeepsItsOpening) {
  job::Job job = pen(Length::feet(60));
  job.site.gates.push_back({"G", "L", Length::feet(40), Length::feet(10), job::LeafEnd::from, job::Side::right, Length::inches(2), Length::inches(3), 0, ""});
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  const auto gate = std::find_if(p.layout.bays.begin(), p.layout.bays.end(), [](const Bay& b) { return b.kind == BayKind::gate; });
  ASSERT_NE(gate, p.layout.bays.end());
  EXPECT_NEAR(gate->gap.metres(), Length::inches(125).metres(), 2e-9);
  EXPECT_NEAR(measure::distance(p.layout.posts[gate->from].at, p.layout.posts[gate->to].at), gate->pitch.metres(), 2e-9);
  EXPECT_EQ(p.layout.runs.size(), 2U);
}

// A buried line north to south 10 ft east of the pen's middle: holes stay 18 + 4.75 in away all round.
TEST(Curves, HolesOfAPenKeepOutOfABuriedLine) {
  job::Job job = pen(Length::feet(60));
  job::Zone zone;
  zone.id = "water";
  for (int way = 0; way < 3; ++way) {
    zone.shape = {{Length::feet(3 + 4 * way), Length::feet(-50)}, {Length::feet(3 + 4 * way), Length::feet(150)}};
    zone.tolerance = Length::inches(18);
    job.site.zones = {zone};
    const auto p = plan(job);
    EXPECT_TRUE(p.findings.empty());
    for (const Post& q : p.layout.posts) EXPECT_GT(std::fabs(q.at.x - (3 + 4 * way) * kFoot), 22.75 * 0.0254) << q.name;
    for (const Bay& bay : p.layout.bays) EXPECT_LE(bay.pitch, Length::feet(8));
  }
  zone.shape = {
      {Length::feet(20), Length::feet(10)}, {Length::feet(45), Length::feet(10)}, {Length::feet(45), Length::feet(50)}, {Length::feet(20), Length::feet(50)}};
  zone.area = true;
  zone.tolerance = Length();
  job.site.zones = {zone};
  const auto wet = plan(job);
  ASSERT_NE(finding(wet.findings, "setout.no_dig"), nullptr);
  for (const Post& q : wet.layout.posts) EXPECT_FALSE(q.at.x > 20 * kFoot && q.at.y > 10 * kFoot && q.at.y < 50 * kFoot) << q.name;
}

// A stretch of a pen's leg is kept free along the arc.
TEST(Curves, HolesOfAPenKeepOutOfAStretchOfIt) {
  job::Job job = pen(Length::feet(60));
  job::Zone zone;
  zone.id = "culvert";
  zone.leg = job.site.legs[0].id;
  zone.from = Length::feet(30);
  zone.to = Length::feet(35);
  job.site.zones = {zone};
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  for (const Post& q : p.layout.posts) EXPECT_TRUE(feet(q.on[0].station) < 29.66 || feet(q.on[0].station) > 35.34) << q.name << ' ' << feet(q.on[0].station);
}

// Set posts of a pen, one of them the first and last post, keep name and place; names stay with the stakes.
TEST(Curves, SetPostsOfAPenKeepNameAndPlace) {
  job::Job job = pen(Length::feet(60));
  const auto before = plan(job);
  job.issued.posts = before.layout.new_posts;
  job.issued.bays = before.layout.new_bays;
  job.field.posts.push_back({"A", "L", Length::inches(1), Length(), std::nullopt});
  job.field.posts.push_back({"L5", "L", post(before.layout, "L5")->on[0].station + Length::from_inches(0.5), Length::from_inches(0.5), std::nullopt});
  const auto p = plan(job);
  EXPECT_TRUE(p.findings.empty());
  ASSERT_EQ(p.layout.posts.size(), before.layout.posts.size());
  for (std::size_t i = 0; i < p.layout.posts.size(); ++i) EXPECT_EQ(p.layout.posts[i].name, before.layout.posts[i].name);
  EXPECT_EQ(post(p.layout, "A")->on[0].station, Length::inches(1));
  EXPECT_EQ(post(p.layout, "A")->on[1].station, Length::inches(1) + p.layout.legs[0].length);
  EXPECT_NEAR(measure::distance(post(p.layout, "L5")->at, p.layout.legs[0].arc->centre), 30 * kFoot + 0.5 * 0.0254,
              2e-9);  // to the right of a pen walked left about is outside
  EXPECT_EQ(post(p.layout, "L9")->on[0].station, post(before.layout, "L9")->on[0].station);
}

TEST(Curves, EverySpacingModeGoesRoundTheBend) {
  for (const job::SpacingMode mode :
       {job::SpacingMode::equal, job::SpacingMode::at_pitch, job::SpacingMode::module, job::SpacingMode::list, job::SpacingMode::best}) {
    job::Job job = bend(Length::feet(60), of_radius(Length::feet(50)));
    job.choices.fences[0].spacing.mode = mode;
    job.choices.fences[0].spacing.pitch = Length::feet(6);
    job.choices.fences[0].spacing.list = {Length::feet(5), Length::feet(6)};
    const auto p = plan(job);
    EXPECT_TRUE(p.findings.empty());
    for (const Bay& bay : p.layout.bays) EXPECT_LE(bay.pitch, Length::feet(8));
    // 100 asin(0.6) = 64.35 ft of arc; chords of 6 ft span 6.0036 ft.
    if (mode == job::SpacingMode::at_pitch) {
      EXPECT_EQ(p.layout.bays.size(), 11U);
    }
    if (mode == job::SpacingMode::module) {
      EXPECT_NEAR(feet(p.layout.bays[3].pitch), 6, 1e-8);
    }
    if (mode == job::SpacingMode::list) {
      EXPECT_NEAR(feet(p.layout.bays[0].pitch), 5, 1e-8);
    }
  }
}

// Turned, moved and mirrored, a bend has the same bays.
TEST(Curves, MovedAndMirroredBendsPlanAlike) {
  const job::Job job = bend(Length::feet(60), of_radius(Length::feet(40)));
  const auto here = plan(job);
  for (int way = 0; way < 3; ++way) {
    job::Job other = job;
    for (job::Point& q : other.site.points) {
      const Length e = q.east, n = q.north;
      if (way == 0) q.east = e + Length::feet(1000), q.north = n - Length::feet(777);
      if (way == 1) q.east = -n, q.north = e;
      if (way == 2) q.east = -e;
    }
    if (way == 2) other.site.legs[0].arc->turns = job::Side::right;
    const auto there = plan(other);
    ASSERT_EQ(there.layout.bays.size(), here.layout.bays.size());
    for (std::size_t b = 0; b < here.layout.bays.size(); ++b) EXPECT_LE(measure::abs(there.layout.bays[b].pitch - here.layout.bays[b].pitch).nm(), 2);
  }
}

}  // namespace
}  // namespace railwright::setout
