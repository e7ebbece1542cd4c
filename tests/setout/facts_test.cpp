// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tests/setout/planned.h"

namespace railwright::setout {
namespace {

using drawn::straight;

// A straight leg of 80 ft, or a bend over an 80 ft chord.
job::Job line(bool curved, job::SpacingMode mode) {
  job::Job job = straight(Length::feet(80));
  if (curved) {
    job.site.legs[0].arc.emplace();
    job.site.legs[0].arc->radius = Length::feet(70);
  }
  job::Spacing& spacing = job.choices.fences[0].spacing;
  spacing.mode = mode;
  spacing.pitch = Length::feet(7);
  spacing.list = {Length::feet(6), Length::feet(7)};
  return job;
}

// Two posts stand in the ground a little off their stakes; the rest is planned anew at a smaller cap. They keep name and place, no name is given twice
// and none that was issued is given to another place.
TEST(Facts, SetPostsOutliveEveryReplanning) {
  using Mode = job::SpacingMode;
  for (const bool curved : {false, true}) {
    for (const Mode mode : {Mode::equal, Mode::best, Mode::at_pitch, Mode::module, Mode::list}) {
      job::Job job = line(curved, mode);
      const auto before = plan(job);
      job.issued.posts = before.layout.new_posts;
      job.issued.bays = before.layout.new_bays;
      const Length l3 = post(before.layout, "L3")->on[0].station + Length::from_inches(0.75);
      const Length l6 = post(before.layout, "L6")->on[0].station - Length::from_inches(0.5);
      job.field.posts.push_back({"L3", "L", l3, Length(), std::nullopt});
      job.field.posts.push_back({"L6", "L", l6, Length::from_inches(0.25), std::nullopt});
      for (const std::int64_t cap : {8, 6, 5}) {
        job.choices.fences[0].spacing.cap = Length::feet(cap);
        job.choices.fences[0].spacing.pitch = Length::feet(cap - 1);
        Limits limits;
        if (mode == Mode::best) limits.forced_bays = {7, 7, 9};
        const auto after = plan(job, limits);
        SCOPED_TRACE(std::to_string(static_cast<int>(mode)) + (curved ? " curved " : " straight ") + std::to_string(cap));
        ASSERT_NE(post(after.layout, "L3"), nullptr);
        ASSERT_NE(post(after.layout, "L6"), nullptr);
        EXPECT_EQ(post(after.layout, "L3")->on[0].station, l3);
        EXPECT_EQ(post(after.layout, "L6")->on[0].station, l6);
        EXPECT_TRUE(post(after.layout, "L3")->set && post(after.layout, "L6")->set);
        std::set<std::string> names;
        for (const Post& p : after.layout.posts) {
          EXPECT_TRUE(names.insert(p.name).second) << p.name;
          for (const job::IssuedPost& old : job.issued.posts) {
            if (old.name != p.name || p.set) continue;
            EXPECT_LE(measure::abs(old.station - p.on[0].station), Length::mm(1)) << p.name;
          }
        }
        const Length most = Length::feet(cap) + Length::inches(1);  // beside a set post the cap may be passed by an inch
        for (const Bay& bay : after.layout.bays) EXPECT_LE(bay.pitch, most) << bay.name;
        if (mode == Mode::best) {
          ASSERT_EQ(after.layout.runs.size(), 3U);
          EXPECT_GE(after.layout.runs[0].bay_count, cap == 8 ? 7 : 3);
        }
      }
    }
  }
}

TEST(Facts, WhatContradictsThePlanIsNamed) {
  job::Job job = line(false, job::SpacingMode::equal);
  const auto before = plan(job);
  job.issued.posts = before.layout.new_posts;
  job.field.posts.push_back({"L3", "L", Length::feet(26), Length(), std::nullopt});
  auto p = plan(job);
  EXPECT_TRUE(has(p.findings, "setout.set_post_moved"));
  EXPECT_EQ(post(p.layout, "L3")->on[0].station, Length::feet(26));
  job.field.posts[0].station = Length::feet(24) + Length::inches(3);  // within the snap
  EXPECT_FALSE(has(plan(job).findings, "setout.set_post_moved"));

  job::Zone gas;
  gas.id = "gas";
  gas.kind = job::ZoneKind::gas;
  gas.tolerance = Length::inches(18);
  gas.shape = {{Length::feet(25), Length::feet(-9)}, {Length::feet(25), Length::feet(9)}};
  job.site.zones = {gas};
  p = plan(job);
  EXPECT_TRUE(has(p.findings, "setout.set_post_in_zone"));
  EXPECT_NE(post(p.layout, "L3"), nullptr);  // it stands, whatever the zone
  job.site.zones[0].shape = {{Length::feet(27), Length::feet(-9)}, {Length::feet(27), Length::feet(9)}};
  EXPECT_FALSE(has(plan(job).findings, "setout.set_post_in_zone"));
}

TEST(Facts, APostOnADoubledStretchIsNamed) {
  job::Job job = line(false, job::SpacingMode::equal);
  job.site.legs.push_back(job.site.legs[0]);
  job.site.legs[1].id = "M";
  job.field.posts.push_back({"M1", "M", Length::feet(20), Length(), std::nullopt});
  EXPECT_TRUE(has(plan(job).findings, "setout.set_post_doubled"));
}

// Fixed posts of every origin divide runs alike: tee, gate, fixed station (grade break), set post, and each run is spaced by the mode.
TEST(Facts, FixedPostsOfEveryOriginDivideTheLeg) {
  job::Job job = drawn::site("A...T.......B\n....\n....C\n", {"AB", "TC"}, Length::feet(10), Length::feet(20));
  job.site.legs[0].fixed = {Length::feet(60)};
  job.site.gates.push_back({"G", "AB", Length::feet(90), Length::feet(10), job::LeafEnd::from, job::Side::left, Length::inches(2), Length::inches(3), 0, ""});
  job.field.posts.push_back({"S", "AB", Length::feet(21), Length(), std::nullopt});
  for (const job::SpacingMode mode : {job::SpacingMode::equal, job::SpacingMode::at_pitch, job::SpacingMode::module, job::SpacingMode::list}) {
    job.choices.fences[0].spacing.mode = mode;
    job.choices.fences[0].spacing.pitch = Length::feet(5);
    job.choices.fences[0].spacing.list = {Length::feet(5)};
    const auto p = plan(job);
    EXPECT_TRUE(p.findings.empty());
    std::vector<std::string> runs;
    for (const setout::Run& r : p.layout.runs) {
      if (r.leg == 0) runs.push_back(p.layout.posts[r.from].name.substr(0, 1) + p.layout.posts[r.to].name.substr(0, 1));
    }
    // A to the set post, on to the tee, to the grade break, to the gate, from the gate to B.
    EXPECT_EQ(runs, (std::vector<std::string>{"AS", "ST", "TA", "AG", "GB"}));
    for (const setout::Run& r : p.layout.runs) {
      const Bay& first = p.layout.bays[r.first_bay];
      if (mode == job::SpacingMode::module || mode == job::SpacingMode::list) {
        EXPECT_EQ(first.pitch, Length::feet(5)) << r.name;
      }
    }
  }
}

}  // namespace
}  // namespace railwright::setout
