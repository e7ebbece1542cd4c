// SPDX-License-Identifier: MIT
// What is offered as a cure cures: for jobs made so that each finding arises, the changed job is planned anew and the finding is gone.
#include "engine/remedy/remedy.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>

#include "data/shipped.h"

namespace railwright::remedy {
namespace {

using job::Fence;
using job::FenceKind;
using job::Job;
using measure::Length;

// A paddock of two legs on level ground, sound but for what each case does to it.
Job sound_job() {
  Job job;
  job.name = "Remedies";
  job.invented = true;
  const auto point = [](const char* id, int east, int north) {
    job::Point p;
    p.id = id;
    p.east = Length::feet(east);
    p.north = Length::feet(north);
    return p;
  };
  job.site.points = {point("A", 0, 0), point("B", 96, 0), point("C", 96, 96)};
  const auto leg = [](const char* id, const char* from, const char* to) {
    job::Leg l;
    l.id = id;
    l.from = from;
    l.to = to;
    l.fence = "paddock";
    return l;
  };
  job.site.legs = {leg("AB", "A", "B"), leg("BC", "B", "C")};
  Fence fence;
  fence.id = "paddock";
  fence.animal = "horse";
  fence.height = Length::inches(60);
  fence.rails = 4;
  fence.rail_pipe = fence.line_pipe = "2-3/8 sch40";
  fence.strong_pipe = fence.gate_pipe = "2-7/8 sch40";
  fence.soil = "clay";
  fence.embedment = Length::inches(48);
  job.choices.fences = {fence};
  job::StockOffer offer;
  offer.name = "long sticks";
  offer.length = Length::feet(24);
  offer.price = measure::Money::whole(60);
  for (const char* pipe : {"2-3/8 sch40", "2-7/8 sch40"}) {
    offer.pipe = pipe;
    offer.name = std::string(pipe) + " sticks";
    job.choices.offers.push_back(offer);
  }
  job.choices.trailer.payload_kg = 5000;
  return job;
}

Fence& fence_in(Job& job) { return job.choices.fences.front(); }

job::Gate gate(int station_feet, int leaf_feet) {
  job::Gate g;
  g.id = "G1";
  g.leg = "AB";
  g.station = Length::feet(station_feet);
  g.leaf = Length::feet(leaf_feet);
  g.hinge_clearance = g.latch_clearance = Length::inches(2);
  return g;
}

void hump(Job& job, int inches) {
  job.site.ground.accuracy = Length::mm(5);
  for (const auto& [feet, height] : {std::pair{0, 0}, std::pair{44, 0}, std::pair{44 * 1 + 1, 0}, std::pair{49, inches}, std::pair{54, 0}, std::pair{96, 0}}) {
    job.site.ground.profile.push_back({"AB", Length::feet(feet), Length::inches(height)});
  }
  job.site.ground.profile.push_back({"BC", Length(), Length()});
  job.site.ground.profile.push_back({"BC", Length::feet(96), Length()});
}

// A second hump four bays on, in the same run.
void humps(Job& job) {
  hump(job, 16);
  auto& profile = job.site.ground.profile;
  const auto last = std::find_if(profile.begin(), profile.end(), [](const auto& point) { return point.station == Length::feet(96); });
  profile.insert(last, {{"AB", Length::feet(73), Length()}, {"AB", Length::feet(78), Length::inches(15)}, {"AB", Length::feet(83), Length()}});
}

void wires(Job& job) {
  Fence& fence = fence_in(job);
  fence.kind = FenceKind::wire;
  fence.rails = 0;
  fence.infill.wires = 5;
  for (const job::Supply& row : data::shipped().supplies) {
    if (fence.infill.supply.empty() && row.kind == "wire" && row.strength_n > 0) fence.infill.supply = row.id;
  }
}

struct Case {
  const char* code;
  std::function<void(Job&)> spoil;
};

const Case kCases[] = {
    {"checks.post_embedment", [](Job& job) { fence_in(job).embedment = Length::inches(12); }},
    {"checks.no_soil", [](Job& job) { fence_in(job).soil.clear(); }},
    {"checks.wire_cold",
     [](Job& job) {
       wires(job);
       fence_in(job).infill.tension = measure::pounds_force(900);
     }},
    {"checks.end_post_bending",
     [](Job& job) {
       wires(job);
       fence_in(job).braces = {false, false, false, 15, {}, {}, {}};
     }},
    {"checks.gate_post_size",
     [](Job& job) {
       job.site.gates = {gate(48, 12)};
       fence_in(job).gate_pipe = "2-3/8 sch40";
     }},
    {"grade.too_low", [](Job& job) { fence_in(job).height = Length::inches(40); }},
    {"grade.opening_large", [](Job& job) { fence_in(job).rails = 2; }},
    {"setout.gate_on_corner", [](Job& job) { job.site.gates = {gate(4, 12)}; }},
    {"setout.gate_outside", [](Job& job) { job.site.gates = {gate(140, 12)}; }},
    {"setout.gates_overlap",
     [](Job& job) {
       job.site.gates = {gate(48, 12), gate(54, 12)};
       job.site.gates[1].id = "G2";
     }},
    {"setout.fixed_outside", [](Job& job) { job.site.legs[0].fixed = {Length::feet(120)}; }},
    {"setout.fixed_in_gate",
     [](Job& job) {
       job.site.gates = {gate(48, 12)};
       job.site.legs[0].fixed = {Length::feet(48)};
     }},
    {"setout.duplicate_leg",
     [](Job& job) {
       job.site.legs.push_back(job.site.legs[0]);
       job.site.legs.back().id = "twin";
     }},
    {"setout.no_pipe", [](Job& job) { fence_in(job).line_pipe = "no such pipe"; }},
    {"setout.set_post_outside",
     [](Job& job) {
       job.field.posts.push_back({"old", "AB", Length::feet(130), {}, {}});
     }},
    {"takeoff.no_offer", [](Job& job) { job.choices.offers.clear(); }},
    {"takeoff.piece_too_long",
     [](Job& job) {
       for (job::StockOffer& offer : job.choices.offers) offer.length = Length::feet(7);
     }},
    {"takeoff.sticks_do_not_suffice",
     [](Job& job) {
       for (job::StockOffer& offer : job.choices.offers) offer.count = 2;
     }},
    {"takeoff.hole_too_narrow", [](Job& job) { fence_in(job).hole = Length::inches(2); }},
    {"takeoff.no_working_hours", [](Job& job) { job.choices.crew.setup_minutes_per_day = 700; }},
    {"takeoff.overloaded", [](Job& job) { job.choices.trailer.payload_kg = 0; }},
    {"takeoff.overhang", [](Job& job) { job.choices.trailer.bed = Length::feet(12); }},
    {"gaps.no_such_bay",
     [](Job& job) {
       job.field.gaps.push_back({"ZZ.9", 1, Length::feet(7), job::GapWay::level});
     }},
    {"gaps.no_such_rail",
     [](Job& job) {
       job.field.gaps.push_back({"AB.1", 9, Length::feet(7), job::GapWay::level});
     }},
    {"grade.hump", [](Job& job) { hump(job, 16); }},
    {"grade.humps", [](Job& job) { humps(job); }},
    {"fittings.rail_too_long",
     [](Job& job) {
       job.field.cut.push_back({"AB.2/1", Length::feet(8)});
     }},
};

// Bays told together count one by one; a finding of several ends in s.
std::int64_t faults_of(const Findings& findings, std::string code) {
  std::int64_t faults = 0;
  if (code == "grade.humps") code = "grade.hump";
  for (const Finding& f : findings) {
    if (f.code == code) ++faults;
    if (f.code != code + "s") continue;
    for (const auto& [name, value] : f.values)
      if (name == "count") faults += std::get<std::int64_t>(value);
  }
  return faults;
}

class Cures : public ::testing::TestWithParam<Case> {};

TEST_P(Cures, TakeTheFindingAway) {
  Job job = sound_job();
  GetParam().spoil(job);
  const Plan plan = make_plan(job, data::shipped(), Effort::quick);
  const auto found = std::find_if(plan.findings.begin(), plan.findings.end(), [](const Finding& f) { return f.code == GetParam().code; });
  ASSERT_NE(found, plan.findings.end()) << "the case does not raise " << GetParam().code;
  const std::vector<Remedy> offered = remedies(job, data::shipped(), plan, *found);
  ASSERT_FALSE(offered.empty());
  for (const Remedy& remedy : offered) {
    // As a face would: written, read back, planned.
    const job::ReadJob read = job::read_job(job::write_job(remedy.job));
    ASSERT_TRUE(read.sound()) << remedy.code;
    const Plan mended = make_plan(read.job, data::shipped(), Effort::quick);
    for (const Finding& left : mended.findings) {
      EXPECT_FALSE(left.code == found->code && left.where == found->where) << remedy.code << " leaves " << left.code;
    }
    const bool whole_fence = found->where == "paddock";
    EXPECT_TRUE(whole_fence || faults_of(mended.findings, found->code) < faults_of(plan.findings, found->code)) << remedy.code;
    EXPECT_EQ(remedy.price.units(), mended.takeoff.price.total.units() - plan.takeoff.price.total.units()) << remedy.code;
  }
  EXPECT_TRUE(std::is_sorted(offered.begin(), offered.end(), [](const Remedy& a, const Remedy& b) { return a.price < b.price; }));
}
INSTANTIATE_TEST_SUITE_P(Jobs, Cures, ::testing::ValuesIn(kCases), [](const auto& row) {
  std::string name = row.param.code;
  std::replace(name.begin(), name.end(), '.', '_');
  return name;
});

// The fence is low all along, and once it is high enough a hump still takes it from one bay: the fence is cured, the bay is another matter.
TEST(Cures, OfAWholeFenceMayLeaveABay) {
  Job job = sound_job();
  hump(job, 16);
  fence_in(job).height = Length::inches(30);
  const Plan plan = make_plan(job, data::shipped(), Effort::quick);
  const auto found = std::find_if(plan.findings.begin(), plan.findings.end(), [](const Finding& f) { return f.code == "grade.too_low"; });
  ASSERT_NE(found, plan.findings.end());
  EXPECT_EQ(found->where, "paddock");
  const auto offered = remedies(job, data::shipped(), plan, *found);
  ASSERT_FALSE(offered.empty());
  EXPECT_EQ(faults_of(make_plan(offered.front().job, data::shipped(), Effort::quick).findings, "grade.too_low"), 1);
}

TEST(Cures, CostTheSameWhicheverPlanIsShown) {
  Job job = sound_job();
  hump(job, 16);
  const Plan quick = make_plan(job, data::shipped(), Effort::quick), full = make_plan(job, data::shipped());
  const auto found = std::find_if(full.findings.begin(), full.findings.end(), [](const Finding& f) { return f.code == "grade.hump"; });
  ASSERT_NE(found, full.findings.end());
  const auto of_quick = remedies(job, data::shipped(), quick, *found), of_full = remedies(job, data::shipped(), full, *found);
  ASSERT_EQ(of_quick.size(), of_full.size());
  for (std::size_t i = 0; i < of_full.size(); ++i) EXPECT_EQ(of_quick[i].price, of_full[i].price) << of_full[i].code;
}

TEST(Cures, AreNotInvented) {
  const Job job = sound_job();
  const Plan plan = make_plan(job, data::shipped(), Effort::quick);
  EXPECT_TRUE(remedies(job, data::shipped(), plan, {"ground.none", Severity::note, "", {}}).empty());
  EXPECT_TRUE(remedies(job, data::shipped(), plan, {"no.such_code", Severity::stop, "AB", {}}).empty());
}

}  // namespace
}  // namespace railwright::remedy
