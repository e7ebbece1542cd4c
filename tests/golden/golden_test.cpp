// SPDX-License-Identifier: MIT
// One small job of each fence kind beside its bill worked by hand: tests/golden/<kind>/{job.json, bill.md, expected.json}.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "data/shipped.h"
#include "engine/plan/plan.h"

namespace railwright {
namespace {

using Json = nlohmann::ordered_json;
using measure::Length;

// The jobs are drawn so that every length of the bills comes out even; a division may leave a nanometre.
constexpr double kEven = 2e-9;  // metres

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR "/tests/golden/") + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

double metres(const Json& text) {
  const auto length = measure::parse_length(text.get<std::string>());
  EXPECT_TRUE(length) << text;
  return length ? length->metres() : 0;
}

const char* kind_of(setout::PostKind kind) {
  static constexpr const char* kNames[] = {"end", "corner", "line", "tee", "cross", "gate", "brace", "fixed"};
  return kNames[static_cast<int>(kind)];
}

const char* kind_of(setout::BayKind kind) {
  static constexpr const char* kNames[] = {"fence", "brace", "gate"};
  return kNames[static_cast<int>(kind)];
}

class Golden : public ::testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    const std::string folder = GetParam();
    const job::ReadJob read = job::read_job(text_of(folder + "/job.json"));
    for (const Finding& fault : read.findings) ADD_FAILURE() << fault.code << " at " << fault.where;
    job_ = read.job;
    expected_ = Json::parse(text_of(folder + "/expected.json"));
    plan_ = make_plan(job_, data::shipped());
  }

  std::map<std::string, int> fittings_on(std::size_t post) const {
    std::map<std::string, int> count;
    for (const fittings::Use& use : plan_.assembly.uses) {
      if (use.post == static_cast<int>(post)) ++count[plan_.catalogue.fittings[static_cast<std::size_t>(use.fitting)].id];
    }
    return count;
  }

  // Cut lengths of one bay: its rails from the top, or its brace rail alone.
  std::vector<double> cuts_of(std::size_t bay, bool brace) const {
    std::vector<double> cuts;
    for (const fittings::Rail& rail : plan_.assembly.rails) {
      if (rail.bay == static_cast<int>(bay) && (rail.number == 0) == brace) cuts.push_back(rail.cut.metres());
    }
    return cuts;
  }

  job::Job job_;
  Json expected_;
  Plan plan_;
};

TEST_P(Golden, NothingStopsTheWork) {
  for (const Finding& finding : plan_.findings) {
    EXPECT_NE(finding.severity, Severity::stop) << finding.code << " at " << finding.where;
  }
}

TEST_P(Golden, Posts) {
  const Json& rows = expected_["posts"];
  ASSERT_EQ(plan_.layout.posts.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Json& row = rows[i];
    const setout::Post& post = plan_.layout.posts[i];
    SCOPED_TRACE(row["name"]);
    EXPECT_EQ(post.name, row["name"]);
    EXPECT_EQ(kind_of(post.kind), row["kind"]);
    EXPECT_EQ(post.pipe, row["pipe"]);
    EXPECT_EQ(job_.site.legs[static_cast<std::size_t>(post.on[0].leg)].id, row["leg"]);
    EXPECT_NEAR(post.on[0].station.metres(), metres(row["station"]), kEven);
  }
}

TEST_P(Golden, PostLengthsAndHoles) {
  const Json& rows = expected_["posts"];
  ASSERT_EQ(plan_.takeoff.posts.size(), rows.size());
  double concrete = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const takeoff::PostSize& size = plan_.takeoff.posts[i];
    SCOPED_TRACE(rows[i]["name"]);
    EXPECT_NEAR(size.embedment.metres(), metres(rows[i]["embedment"]), kEven);
    EXPECT_NEAR(size.above_ground.metres(), metres(rows[i]["above_ground"]), kEven);
    EXPECT_NEAR(size.length.metres(), metres(rows[i]["length"]), kEven);
    EXPECT_NEAR(size.hole_diameter.metres(), metres(rows[i]["hole_diameter"]), kEven);
    EXPECT_NEAR(size.hole_depth.metres(), metres(rows[i]["hole_depth"]), kEven);
    concrete += size.concrete_m3;
  }
  EXPECT_NEAR(concrete, expected_["concrete_m3"].get<double>(), 1e-6);
}

TEST_P(Golden, FittingsOfEachPost) {
  const Json& rows = expected_["posts"];
  ASSERT_EQ(plan_.layout.posts.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    EXPECT_EQ(fittings_on(i), (rows[i]["fittings"].get<std::map<std::string, int>>())) << rows[i]["name"];
  }
}

TEST_P(Golden, BaysAndTheirRails) {
  const Json& rows = expected_["bays"];
  ASSERT_EQ(plan_.layout.bays.size(), rows.size());
  std::size_t rails = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Json& row = rows[i];
    const setout::Bay& bay = plan_.layout.bays[i];
    SCOPED_TRACE(row["name"]);
    EXPECT_EQ(bay.name, row["name"]);
    EXPECT_EQ(kind_of(bay.kind), row["kind"]);
    EXPECT_NEAR(bay.pitch.metres(), metres(row["pitch"]), kEven);
    EXPECT_NEAR(bay.gap.metres(), metres(row["gap"]), kEven);
    for (const bool brace : {false, true}) {
      const Json& wanted = row.value(brace ? "brace_rails" : "rails", Json::array());
      const std::vector<double> cuts = cuts_of(i, brace);
      ASSERT_EQ(cuts.size(), wanted.size());
      for (std::size_t k = 0; k < cuts.size(); ++k) EXPECT_NEAR(cuts[k], metres(wanted[k]), kEven);
      rails += cuts.size();
    }
  }
  EXPECT_EQ(plan_.assembly.rails.size(), rails);
}

// Every line of the buying list, sticks of each offer among them, and nothing else.
TEST_P(Golden, Quantities) {
  std::map<std::string, const takeoff::OrderLine*> lines;
  for (const takeoff::OrderLine& line : plan_.takeoff.orders) {
    EXPECT_TRUE(lines.emplace(line.item, &line).second) << line.item << " twice";
  }
  for (const Json& row : expected_["quantities"]) {
    const std::string item = row["item"];
    SCOPED_TRACE(item);
    const auto found = lines.find(item);
    if (found == lines.end()) {
      ADD_FAILURE() << "not on the list";
      continue;
    }
    EXPECT_NEAR(found->second->needed, row["needed"].get<double>(), 1e-5);
    EXPECT_NEAR(found->second->order, row["order"].get<double>(), 1e-9);
    EXPECT_EQ(measure::decimal_text(found->second->amount), row["amount"]);
    lines.erase(found);
  }
  for (const auto& [item, line] : lines) ADD_FAILURE() << item << " is not in the bill";
}

TEST_P(Golden, Price) {
  const takeoff::Price& price = plan_.takeoff.price;
  const Json& row = expected_["price"];
  EXPECT_EQ(measure::decimal_text(price.materials), row["materials"]);
  EXPECT_EQ(measure::decimal_text(price.labour), row["labour"]);
  EXPECT_EQ(measure::decimal_text(price.overhead), row["overhead"]);
  EXPECT_EQ(measure::decimal_text(price.tax), row["tax"]);
  EXPECT_EQ(measure::decimal_text(price.total), row["total"]);
}

INSTANTIATE_TEST_SUITE_P(Bills, Golden, ::testing::Values("rails", "mesh", "panels", "strained", "wire"),
                         [](const auto& bill) { return std::string(bill.param); });

}  // namespace
}  // namespace railwright
