// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <set>
#include <string>
#include <utility>

#include "engine/plan/plan.h"
#include "tests/formats/samples.h"

namespace railwright::formats {
namespace {

using job::FenceKind;
using measure::Length;

void expect_sound(const job::Job& job) {
  for (const Finding& f : job::validate(job, shipped())) EXPECT_NE(f.severity, Severity::stop) << f.code << " " << f.where;
  const job::ReadJob read = job::read_job(job::write_job(job));
  EXPECT_TRUE(read.sound());
  EXPECT_EQ(job::write_job(read.job), job::write_job(job));
}

TEST(StartJob, EveryAnimalAndKindGivesASoundJob) {
  for (const job::Animal& animal : shipped().animals) {
    for (int kind = -1; kind < 5; ++kind) {
      StartChoices choices;
      choices.strengthen = false;
      choices.animal = animal.id;
      if (kind >= 0) choices.kind = static_cast<FenceKind>(kind);
      const auto started = start_job(choices, shipped());
      if (!started) {
        EXPECT_EQ(started.error().code, "start.no_infill") << animal.id << kind;
        continue;
      }
      expect_sound(started->job);
      EXPECT_TRUE(started->job.invented);
      EXPECT_EQ(started->job.choices.fences[0].height, animal.least_height);
    }
  }
}

// Every animal, kind and two heights: a plan of what is proposed has no check over its figure that `start_job` has not told, sticks that the trailer
// carries, and many proposals have none over at all.
TEST(StartJob, ProposesWhatItsOwnPlanFindsSound) {
  int sound = 0, over = 0;
  for (const job::Animal& animal : shipped().animals) {
    for (int kind = 0; kind < 5; ++kind) {
      for (const Length higher : {Length(), Length::inches(6)}) {
        StartChoices choices;
        choices.animal = animal.id;
        choices.kind = static_cast<FenceKind>(kind);
        choices.height = animal.least_height + higher;
        const auto started = start_job(choices, shipped());
        if (!started) continue;
        std::set<std::pair<std::string, std::string>> told;
        for (const Finding& finding : started->findings)
          if (finding.code == "start.over") told.insert({std::get<std::string>(finding.values[0].second), finding.where});
        const Plan plan = make_plan(started->job, shipped(), Effort::quick);
        for (const Check& check : plan.checks) EXPECT_TRUE(check.ok || told.count({check.code, check.where})) << animal.id << kind << check.code << check.ratio;
        for (const Finding& finding : plan.findings) EXPECT_NE(finding.code, "takeoff.overhang") << animal.id << kind;
        ++(told.empty() ? sound : over);
      }
    }
  }
  RecordProperty("sound", sound);
  RecordProperty("over", over);
  EXPECT_GT(sound, 0);
  EXPECT_LT(over, 2 * sound);  // mesh and many wires pull more than two strands of brace wire carry: told, and left to the user
}

// Fewest equal rails under the widest opening: cattle 48 in, pipe 2-3/8: 48/3 - 2-3/8 = 13-5/8 <= 18, 48/2 - 2-3/8 = 21-5/8 > 18.
TEST(StartJob, RailsFollowFromTheAnimal) {
  StartChoices choices;
  const auto cattle = start_job(choices, shipped());
  ASSERT_TRUE(cattle);
  EXPECT_EQ(cattle->job.choices.fences[0].rails, 3);
  choices.animal = "goat";  // 4 in openings need more than six rails: mesh
  const auto goat = start_job(choices, shipped());
  ASSERT_TRUE(goat);
  EXPECT_EQ(goat->job.choices.fences[0].kind, FenceKind::mesh);
  EXPECT_FALSE(goat->job.choices.fences[0].infill.supply.empty());
}

TEST(StartJob, ProposesNoOpeningThatItsOwnPlanObjectsTo) {
  for (const job::Animal& animal : shipped().animals) {
    StartChoices choices;
    choices.animal = animal.id;
    const auto started = start_job(choices, shipped());
    ASSERT_TRUE(started) << animal.id;
    for (const Finding& finding : make_plan(started->job, shipped(), Effort::quick).findings)
      EXPECT_NE(finding.code.rfind("grade.opening", 0), 0u) << animal.id << finding.code;
  }
}

TEST(StartJob, TellsOfOpeningsThatWereAskedFor) {
  StartChoices choices;
  choices.animal = "sheep";
  choices.rails = 5;  // 36 in / 5 - 2-3/8 in = 4.8 in, where a head is caught
  const auto started = start_job(choices, shipped());
  ASSERT_TRUE(started);
  EXPECT_TRUE(std::any_of(started->findings.begin(), started->findings.end(), [](const Finding& f) { return f.code == "grade.opening_traps"; }));
}

TEST(StartJob, ChoicesAreTakenAndPipesPaired) {
  StartChoices choices;
  choices.animal = "donkey";
  choices.height = Length::inches(54);
  choices.rails = 4;
  choices.pitch = Length::feet(10);
  choices.pipe = "2-3/8 sch40";
  const auto started = start_job(choices, shipped());
  ASSERT_TRUE(started);
  const job::Fence& fence = started->job.choices.fences[0];
  EXPECT_EQ(fence.rails, 4);
  EXPECT_EQ(fence.spacing.cap, Length::feet(10));
  EXPECT_EQ(fence.strong_pipe, "2-7/8 sch40");
  ASSERT_EQ(started->job.choices.offers.size(), 6u);
  // 21 ft at 3.15 a foot.
  EXPECT_EQ(started->job.choices.offers[0].length, Length::feet(21));
  EXPECT_EQ(started->job.choices.offers[0].price, shipped().price("2-3/8 sch40")->price * 21);
}

TEST(StartJob, ImpossibleChoicesAreNamed) {
  const auto code = [](auto change) {
    StartChoices choices;
    change(choices);
    const auto started = start_job(choices, shipped());
    return started ? std::string("started") : started.error().code;
  };
  EXPECT_EQ(code([](StartChoices& c) { c.animal = "dragon"; }), "start.animal");
  EXPECT_EQ(code([](StartChoices& c) { c.pipe = "9"; }), "start.pipe");
  EXPECT_EQ(code([](StartChoices& c) { c.pipe = ""; }), "start.pipe");
  EXPECT_EQ(code([](StartChoices& c) { c.rails = 7; }), "start.rails");
  EXPECT_EQ(code([](StartChoices& c) { c.height = Length::feet(40); }), "start.height");
  EXPECT_EQ(code([](StartChoices& c) { c.pitch = Length(); }), "start.pitch");
}

TEST(StartJob, FencesNamedInTheFileStayApart) {
  const auto walk = read_walk(kGeoJson);
  ASSERT_TRUE(walk);
  const auto started = start_job({}, shipped(), &*walk);
  ASSERT_TRUE(started);
  ASSERT_EQ(started->job.choices.fences.size(), 2u);
  EXPECT_EQ(started->job.choices.fences[0].id, "mesh");
  EXPECT_EQ(started->job.choices.fences[1].id, "lane");
  expect_sound(started->job);
}

// A grid in UTM under a walk in degrees: each height comes out where it lies. Heights rise a metre in a hundred to the east of the grid.
TEST(StartJob, UtmGridIsBroughtUnderAWalkInDegrees) {
  const auto walk = read_walk(kGeoJson);
  ASSERT_TRUE(walk);
  job::GroundGrid grid;
  grid.columns = 60;
  grid.rows = 60;
  grid.cell = Length::mm(10000);
  grid.west = Length::mm(342000000);  // 45 N, 7 E is about 342 370 E, 4 984 890 N in zone 32
  grid.south = Length::mm(4984600000);
  for (int i = 0; i < 3600; ++i) grid.heights_m.push_back(static_cast<float>(i % 60) / 10);
  const auto laid = grid_for(*walk, grid);
  ASSERT_TRUE(laid) << laid.error().code;
  const auto started = start_job({}, shipped(), &*walk, &grid);
  ASSERT_TRUE(started);
  expect_sound(started->job);
  EXPECT_TRUE(started->job.site.ground.grid);
  const float first = laid->heights_m[0];
  EXPECT_NEAR(laid->heights_m[5] - first, 0.5, 0.05);
  grid.west = Length::mm(100000000);
  EXPECT_EQ(grid_for(*walk, grid).error().code, "grid.elsewhere");
}

}  // namespace
}  // namespace railwright::formats
