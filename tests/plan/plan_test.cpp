// SPDX-License-Identifier: MIT
#include "engine/plan/plan.h"

#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "data/shipped.h"
#include "engine/cutting/checker.h"
#include "tests/plan/generated_jobs.h"

namespace railwright {
namespace {

using measure::Length;

const job::Catalogue& shipped() {
  static const job::Catalogue catalogue = data::shipped();
  return catalogue;
}

// Properties of the whole way, over drawn jobs of every fence kind; the seed of a failing one stands in the trace.
class DrawnJob : public ::testing::TestWithParam<int> {
 protected:
  job::Job job_ = testing::draw_job(static_cast<std::uint64_t>(GetParam()) + 5000);
  Plan plan_ = make_plan(job_, shipped(), Effort::quick);
};

// (1) Bays lie end to end and add up to their run to the nanometre.
TEST_P(DrawnJob, BaysAddUpToTheirRun) {
  for (const setout::Run& run : plan_.layout.runs) {
    Length at = run.start;
    for (int i = 0; i < run.bay_count; ++i) {
      const setout::Bay& bay = plan_.layout.bays[static_cast<std::size_t>(run.first_bay + i)];
      EXPECT_EQ(bay.start, at) << bay.name;
      EXPECT_EQ(bay.end - bay.start, bay.pitch) << bay.name;
      at = bay.end;
    }
    EXPECT_EQ(at, run.end) << run.name;
  }
}

// (2) Names of posts, bays and rails are given once.
TEST_P(DrawnJob, NamesAreGivenOnce) {
  std::set<std::string> posts, bays, rails;
  for (const setout::Post& post : plan_.layout.posts) EXPECT_TRUE(posts.insert(post.name).second) << post.name;
  for (const setout::Bay& bay : plan_.layout.bays) EXPECT_TRUE(bays.insert(bay.name).second) << bay.name;
  for (const fittings::Rail& rail : plan_.assembly.rails) EXPECT_TRUE(rails.insert(rail.name).second) << rail.name;
}

// (3) Each cut plan is sound by the independent checker, and each rail is cut once and at its length, unless a finding says that it fits no stick.
TEST_P(DrawnJob, EveryRailIsCutOnce) {
  std::map<std::string, Length> cut;
  for (const takeoff::PipeCuts& pipe : plan_.cuts) {
    const std::vector<std::string> faults = cutting::check_plan(pipe.instance, pipe.plan);
    EXPECT_TRUE(faults.empty()) << pipe.pipe << ": " << (faults.empty() ? "" : faults.front());
    for (const cutting::Piece& piece : pipe.instance.pieces()) cut[piece.label] = piece.length;
  }
  std::set<std::string> excused;
  for (const Finding& finding : plan_.findings) excused.insert(finding.where);
  for (const fittings::Rail& rail : plan_.assembly.rails) {
    const auto found = cut.find(rail.name);
    if (found == cut.end()) {
      EXPECT_TRUE(excused.count(rail.name) || stops_work(plan_.findings)) << rail.name << " is neither cut nor reported";
    } else {
      EXPECT_EQ(found->second, rail.cut) << rail.name;
    }
  }
}

// (4) No rail is cut longer than it truly is, and none by more than a step of the saw shorter.
TEST_P(DrawnJob, NoRailIsCutLong) {
  for (const fittings::Rail& rail : plan_.assembly.rails) {
    EXPECT_LE(rail.cut, rail.length) << rail.name;
    EXPECT_GT(rail.cut + job_.choices.cutting.saw_step, rail.length) << rail.name;
  }
}

// (5) A rail end is served by at most one fitting, and by exactly one unless a finding stops work.
TEST_P(DrawnJob, EveryRailEndIsServedOnce) {
  std::map<std::tuple<int, int, bool>, int> served;
  for (const fittings::Use& use : plan_.assembly.uses) {
    for (const fittings::RailEnd& end : use.serves) ++served[{end.bay, end.number, end.at_from}];
  }
  for (const fittings::Rail& rail : plan_.assembly.rails) {
    for (const bool at_from : {true, false}) {
      const int count = served[{rail.bay, rail.number, at_from}];
      EXPECT_TRUE(count == 1 || (count == 0 && stops_work(plan_.findings))) << rail.name << " has " << count;
    }
  }
}

// (6) The bound is never above the cost, and what is ordered is never less than what is needed.
TEST_P(DrawnJob, BoundsAndOrdersHold) {
  for (const takeoff::PipeCuts& pipe : plan_.cuts) {
    if (pipe.plan.found) {
      EXPECT_LE(pipe.plan.bound, pipe.plan.cost) << pipe.pipe;
    }
  }
  for (const takeoff::OrderLine& line : plan_.takeoff.orders) EXPECT_GE(line.order + 1e-9, line.needed) << line.item;
}

// (7) The plan's JSON is JSON, and names that the plan gives first are honoured by the next plan.
TEST_P(DrawnJob, IssuedNamesStay) {
  EXPECT_TRUE(nlohmann::json::accept(plan_json(job_, plan_)));
  job::Job issued = job_;
  issued.issued.posts = plan_.layout.new_posts;
  issued.issued.bays = plan_.layout.new_bays;
  const Plan again = make_plan(issued, shipped(), Effort::quick);
  EXPECT_TRUE(again.layout.new_posts.empty());
  EXPECT_TRUE(again.layout.new_bays.empty());
  ASSERT_EQ(again.layout.posts.size(), plan_.layout.posts.size());
  for (std::size_t i = 0; i < again.layout.posts.size(); ++i) EXPECT_EQ(again.layout.posts[i].name, plan_.layout.posts[i].name);
}

INSTANTIATE_TEST_SUITE_P(Seeds, DrawnJob, ::testing::Range(0, 60));

// The best spacing is never dearer than the plain rule nor cheaper than its bound; the plan is made from it and says so.
TEST(MakePlan, BestSpacingIsPlanned) {
  job::Job job = testing::draw_job(3);
  for (job::Fence& fence : job.choices.fences) fence.spacing.mode = job::SpacingMode::best;
  const Plan plan = make_plan(job, shipped(), Effort::quick);
  ASSERT_TRUE(plan.spacing.has_value());
  EXPECT_LE(plan.spacing->bound, plan.spacing->cost);
  EXPECT_LE(plan.spacing->cost, plan.spacing->plain);
  ASSERT_EQ(plan.spacing->bays.size(), plan.layout.runs.size());
  for (std::size_t i = 0; i < plan.layout.runs.size(); ++i) EXPECT_EQ(plan.layout.runs[i].bay_count, plan.spacing->bays[i]);
  EXPECT_TRUE(nlohmann::json::parse(plan_json(job, plan)).contains("spacing"));
}

// An open line can be walked round; a pen wants a gate.
TEST(MakePlan, APenWithoutAGateIsNamed) {
  const auto named = [](const job::Job& job) {
    const Plan plan = make_plan(job, shipped(), Effort::quick);
    return std::any_of(plan.findings.begin(), plan.findings.end(), [](const Finding& finding) { return finding.code == "plan.no_gate"; });
  };
  job::Job job = testing::draw_job(3);
  job.site.zones.clear();
  job.site.gates.clear();
  job.site.points = {{"A", {}, {}, {}, {}}, {"B", Length::feet(60), {}, {}, {}}, {"C", Length::feet(60), Length::feet(40), {}, {}}};
  const auto leg = [&](const char* id, const char* from, const char* to) {
    job::Leg made = job.site.legs.front();
    made.id = id;
    made.from = from;
    made.to = to;
    made.fixed.clear();
    made.arc.reset();
    return made;
  };
  const std::vector<job::Leg> ring{leg("AB", "A", "B"), leg("BC", "B", "C"), leg("CA", "C", "A")};
  job.site.legs = {ring[0], ring[1]};
  EXPECT_FALSE(named(job));
  job.site.legs = ring;
  EXPECT_TRUE(named(job));
  job::Gate gate;
  gate.id = "G";
  gate.leg = "AB";
  gate.station = Length::feet(30);
  gate.leaf = Length::feet(10);
  job.site.gates = {gate};
  EXPECT_FALSE(named(job));
}

// A plan without a fence is a plan.
TEST(MakePlan, NothingGivesNothing) {
  const Plan plan = make_plan(job::Job(), shipped());
  EXPECT_TRUE(plan.layout.posts.empty());
  EXPECT_FALSE(stops_work(plan.findings));
  EXPECT_EQ(plan.fingerprint.size(), 12u);
}

// Two plans of one job have one fingerprint; a post moved by a millimetre gives another.
TEST(MakePlan, FingerprintTellsPlansApart) {
  job::Job job = testing::draw_job(1);
  const std::string first = make_plan(job, shipped(), Effort::quick).fingerprint;
  EXPECT_EQ(make_plan(job, shipped(), Effort::quick).fingerprint, first);
  job.site.points[1].east += Length::mm(1);
  EXPECT_NE(make_plan(job, shipped(), Effort::quick).fingerprint, first);
}

}  // namespace
}  // namespace railwright
