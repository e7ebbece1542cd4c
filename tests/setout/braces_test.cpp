// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/setout/layout.h"
#include "tests/setout/site_drawing.h"

namespace railwright::setout {
namespace {

using drawn::site;
using drawn::straight;

job::Job pulled(job::Job job) {
  job.choices.fences[0].kind = job::FenceKind::mesh;
  job.choices.fences[0].strong_pipe = "2-7/8";
  job.choices.fences[0].gate_pipe = "4-1/2";
  job.choices.fences[0].spacing.cap = Length::feet(10);
  return job;
}

Layout plan(const job::Job& job, Findings& findings) { return set_out(job, drawn::catalogue(), {}, {}, findings); }

std::vector<Bay> brace_bays(const Layout& layout) {
  std::vector<Bay> bays;
  std::copy_if(layout.bays.begin(), layout.bays.end(), std::back_inserter(bays), [](const Bay& b) { return b.kind == BayKind::brace; });
  return bays;
}

TEST(Braces, BothEndsOfAPulledLine) {
  Findings findings;
  const Layout layout = plan(pulled(straight(Length::feet(100))), findings);
  const auto braces = brace_bays(layout);
  ASSERT_EQ(braces.size(), 2U);
  EXPECT_EQ(braces[0].start, Length());
  EXPECT_EQ(braces[0].pitch, Length::feet(8));
  EXPECT_EQ(braces[1].end, Length::feet(100));
  EXPECT_EQ(layout.posts[braces[0].to].kind, PostKind::brace);
  EXPECT_EQ(layout.posts[braces[0].to].pipe, "2-7/8");
  EXPECT_EQ(layout.runs.size(), 3U);
}

TEST(Braces, RailFencesHaveNone) {
  Findings findings;
  EXPECT_TRUE(brace_bays(plan(straight(Length::feet(100)), findings)).empty());
}

// A corner of 90 degrees is braced on both sides, one of 10 degrees (under 15) is not.
TEST(Braces, CornersFromTheirAngle) {
  Findings findings;
  EXPECT_EQ(brace_bays(plan(pulled(site("A....B\n.\n.\n.....C\n", {"AB", "BC"}, Length::feet(20), Length::feet(30))), findings)).size(), 4U);
  job::Job slight = pulled(site("A....B....C\n", {"AB", "BC"}, Length::feet(20), Length::feet(20)));
  slight.site.points[1].north += Length::from_inches(105);  // 2 atan(105 / 1200) = 10.0 degrees
  EXPECT_EQ(brace_bays(plan(slight, findings)).size(), 2U);
  slight.choices.fences[0].braces.corner_from_deg = 8;
  EXPECT_EQ(brace_bays(plan(slight, findings)).size(), 4U);
}

// The leg that ends at a tee is braced there; the one that runs through is not.
TEST(Braces, Tee) {
  Findings findings;
  const Layout layout = plan(pulled(site("A....T....B\n\n\n.....C\n", {"AB", "TC"}, Length::feet(10), Length::feet(30))), findings);
  EXPECT_EQ(brace_bays(layout).size(), 4U);
}

TEST(Braces, GatesAreBracedOnTheFenceSide) {
  job::Job job = pulled(straight(Length::feet(100)));
  job.site.gates.push_back({"G", "L", Length::feet(50), Length::feet(12), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""});
  Findings findings;
  EXPECT_EQ(brace_bays(plan(job, findings)).size(), 4U);
  job.choices.fences[0].braces.gates = false;
  EXPECT_EQ(brace_bays(plan(job, findings)).size(), 2U);
}

// 8 ft or less between two pulled ends is one brace bay; 15 ft is two that share a post; 17 ft three parts; 3 ft is a finding.
TEST(Braces, ShortStretches) {
  Findings findings;
  auto bays = brace_bays(plan(pulled(straight(Length::feet(7))), findings));
  ASSERT_EQ(bays.size(), 1U);
  EXPECT_EQ(bays[0].pitch, Length::feet(7));
  bays = brace_bays(plan(pulled(straight(Length::feet(15))), findings));
  ASSERT_EQ(bays.size(), 2U);
  EXPECT_EQ(bays[0].end, Length::inches(90));
  bays = brace_bays(plan(pulled(straight(Length::feet(17))), findings));
  ASSERT_EQ(bays.size(), 2U);
  EXPECT_EQ(bays[0].pitch, Length::inches(68));
  EXPECT_TRUE(findings.empty());
  EXPECT_TRUE(brace_bays(plan(pulled(straight(Length::feet(3))), findings)).empty());
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].code, "setout.brace_does_not_fit");
}

// 2000 ft, a line brace at least every 660 ft: 2000 / 660 = 3.03, so three between the ends, at 500, 1000 and 1500 ft.
TEST(Braces, LineBracesAreSpreadEvenly) {
  Findings findings;
  const auto bays = brace_bays(plan(pulled(straight(Length::feet(2000))), findings));
  ASSERT_EQ(bays.size(), 5U);
  EXPECT_EQ(bays[2].start, Length::feet(996));
  EXPECT_EQ(bays[2].end, Length::feet(1004));
}

// The same 2000 ft walked as 20 legs that bend by under 15 degrees: pulls run through, so braces are still at most 660 ft apart.
TEST(Braces, CountGoesOnThroughSlightBends) {
  job::Job job = pulled(straight(Length::feet(100)));
  job.site.points.clear();
  job.site.legs.clear();
  for (int i = 0; i <= 20; ++i) {
    job::Point point;
    point.id = "P" + std::to_string(i);
    point.east = Length::feet(100) * i;
    point.north = i % 2 == 0 ? Length() : Length::feet(6);
    job.site.points.push_back(point);
    if (i == 0) continue;
    job::Leg leg;
    leg.id = "L" + std::to_string(i) + "/";
    leg.from = "P" + std::to_string(i - 1);
    leg.to = point.id;
    leg.fence = "plain";
    job.site.legs.push_back(leg);
  }
  Findings findings;
  const Layout layout = plan(job, findings);
  double last = 0;
  for (const Bay& bay : brace_bays(layout)) {
    const double x = layout.posts[bay.from].at.x;
    EXPECT_LE(x - last, 660 * 0.3048 + 1.3) << bay.name;  // middle to middle; 1.3 m: half a brace bay
    last = x;
  }
  EXPECT_GE(brace_bays(layout).size(), 5U);
}

TEST(Braces, BracePostStepsOutOfANoDigZone) {
  job::Job job = pulled(straight(Length::feet(100)));
  job::Zone zone;
  zone.id = "line";
  zone.shape = {{Length::feet(8), Length::feet(-10)}, {Length::feet(8), Length::feet(10)}};
  zone.tolerance = Length::inches(6);
  job.site.zones.push_back(zone);
  Findings findings;
  const auto bays = brace_bays(plan(job, findings));
  ASSERT_EQ(bays.size(), 2U);
  // Hole 4 x 2-7/8 in: 96 - 6 - 5.75 = 84.25 in, outward to a millimetre.
  EXPECT_NEAR(bays[0].pitch.inches_value(), 84.25, 0.05);
  EXPECT_TRUE(std::none_of(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::stop; }));
}

// Set brace posts, 1/2 in beyond their stakes, stay brace posts and breed no others.
TEST(Braces, SetBracePostsStay) {
  job::Job job = pulled(straight(Length::feet(2000)));
  Findings findings;
  const Layout before = plan(job, findings);
  for (const Post& q : before.posts) {
    if (q.kind == PostKind::brace) job.field.posts.push_back({q.name, "L", q.on[0].station + Length::from_inches(0.5), Length(), std::nullopt});
  }
  ASSERT_EQ(job.field.posts.size(), 8U);
  job.issued.posts = before.new_posts;
  const Layout after = plan(job, findings);
  EXPECT_EQ(brace_bays(after).size(), 5U);
  for (const job::SetPost& set : job.field.posts) {
    const auto q = std::find_if(after.posts.begin(), after.posts.end(), [&](const Post& p) { return p.name == set.name; });
    ASSERT_NE(q, after.posts.end());
    EXPECT_EQ(q->kind, PostKind::brace) << set.name;
  }
}

}  // namespace
}  // namespace railwright::setout
