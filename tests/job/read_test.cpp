// SPDX-License-Identifier: MIT
#include "engine/job/read.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "data/shipped.h"
#include "engine/job/same.h"

namespace railwright::job {
namespace {

const char* const kPaddock = R"({
  "version": 1,
  "name": "Invented paddock",
  "site": {
    "points": [
      {"id": "A", "east": "0 ft", "north": "0 ft"},
      {"id": "B", "east": "120 ft", "north": "0 ft", "height": "1.5 m"}
    ],
    "legs": [{"id": "L", "from": "A", "to": "B", "fence": "paddock", "animal_side": "right"}],
    "gates": [{"id": "G", "leg": "L", "station": "60 ft", "leaf": "12 ft"}]
  },
  "choices": {
    "fences": [{"id": "paddock", "height": "60 in", "animal": "donkey", "rail_pipe": "2-3/8 sch40",
                "line_pipe": "2-3/8 sch40", "gate_pipe": "2-7/8 sch40"}],
    "offers": [{"name": "21 ft", "pipe": "2-3/8 sch40", "length": "21 ft", "price": "58.00", "count": 12}]
  },
  "field": {"gaps": [{"bay": "L1", "rail": 2, "gap": "7' 5-1/4\"", "way": "slope"}]}
})";

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

// All findings as `code where` lines, in order.
std::string faults(std::string_view text) {
  std::ostringstream out;
  for (const Finding& f : read_job(text).findings) out << f.code << ' ' << f.where << '\n';
  return out.str();
}

std::string fault_of(const std::string& from, const std::string& to) { return faults(with(kPaddock, from, to)); }

TEST(ReadJob, ReadsAJob) {
  const ReadJob read = read_job(kPaddock);
  EXPECT_EQ(faults(kPaddock), "");
  ASSERT_TRUE(read.sound());
  const Job& job = read.job;
  EXPECT_EQ(job.name, "Invented paddock");
  EXPECT_EQ(job.site.points[1].east, Length::feet(120));
  EXPECT_EQ(job.site.points[1].height, Length::mm(1500));
  EXPECT_EQ(job.site.points[0].height, std::nullopt);
  EXPECT_EQ(job.site.legs[0].animal_side, Side::right);
  EXPECT_EQ(job.choices.fences[0].height, Length::feet(5));
  EXPECT_EQ(job.choices.fences[0].rails, 3);
  EXPECT_EQ(job.choices.offers[0].price, Money::whole(58));
  EXPECT_EQ(job.choices.offers[0].count, 12);
  EXPECT_EQ(job.field.gaps[0].gap, Length::inches(89) + Length::sixty_fourths(16));
  EXPECT_EQ(job.field.gaps[0].way, GapWay::slope);
}

TEST(ReadJob, StrongerPostsUseTheLinePipeWhereNoneIsNamed) {
  const Fence fence = read_job(kPaddock).job.choices.fences[0];
  EXPECT_EQ(fence.strong_pipe, "2-3/8 sch40");
  EXPECT_EQ(fence.gate_pipe, "2-7/8 sch40");
}

TEST(ReadJob, AnEmptyObjectIsAnEmptyJob) {
  EXPECT_EQ(faults("{}"), "");
  EXPECT_EQ(faults("\xEF\xBB\xBF {}"), "");
}

TEST(ReadJob, NamesEveryFaultAtOnce) {
  EXPECT_EQ(faults(R"({
    "nmae": "x",
    "units": "yards",
    "site": {
      "points": [{"id": "A", "east": 12, "north": "5"}, {"id": "A", "east": "1 ft", "north": "seven"}],
      "legs": [{"id": "L", "from": "A", "to": "Z", "fence": "none"}]
    },
    "choices": {"fences": [{"id": "f", "rails": 7, "capped": "yes"}], "crew": {"people": 2.5}}
  })"),
            "job.not_a_choice /units\n"
            "job.needs_unit /site/points/0/east\n"
            "job.needs_unit /site/points/0/north\n"
            "length.not_a_length /site/points/1/north\n"
            "job.missing_key /choices/fences/0/height\n"
            "job.not_yes_no /choices/fences/0/capped\n"
            "job.not_whole /choices/crew/people\n"
            "job.unknown_key /nmae\n"
            "job.duplicate_id /site/points/1/id\n"
            "job.count_out_of_range /choices/fences/0/rails\n"
            "job.no_such_id /site/legs/0/to\n"
            "job.no_such_id /site/legs/0/fence\n"
            "job.missing_key /choices/fences/0/rail_pipe\n"
            "job.missing_key /choices/fences/0/line_pipe\n");
}

TEST(ReadJob, NamesTheNearestKeyAndId) {
  const Findings keys = read_job(with(kPaddock, "\"animal_side\"", "\"animl_side\"")).findings;
  ASSERT_EQ(keys.size(), 1u);
  EXPECT_EQ(std::get<std::string>(keys[0].values[0].second), "animl_side");
  EXPECT_EQ(std::get<std::string>(keys[0].values[1].second), "animal_side");
  const Findings ids = read_job(with(kPaddock, "\"fence\": \"paddock\"", "\"fence\": \"padock\"")).findings;
  ASSERT_EQ(ids.size(), 1u);
  EXPECT_EQ(std::get<std::string>(ids[0].values[1].second), "paddock");
}

TEST(ReadJob, PointersAreEscaped) { EXPECT_EQ(faults(R"({"a/b~c": 1})"), "job.unknown_key /a~1b~0c\n"); }

TEST(ReadJob, LengthsNeedAUnit) {
  EXPECT_EQ(fault_of("\"120 ft\"", "120"), "job.needs_unit /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "\"120\""), "job.needs_unit /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "null"), "job.needs_unit /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "[1]"), "job.needs_unit /site/points/1/east\n");
}

TEST(ReadJob, ImpossibleValues) {
  EXPECT_EQ(fault_of("\"120 ft\"", "\"1001 km\""), "job.length_out_of_range /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "\"9999999 km\""), "length.out_of_range /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "1e308"), "job.needs_unit /site/points/1/east\n");
  EXPECT_EQ(fault_of("\"station\": \"60 ft\"", "\"station\": \"-60 ft\""), "job.length_out_of_range /site/gates/0/station\n");
  EXPECT_EQ(fault_of("\"count\": 12", "\"count\": 1e308"), "job.not_whole /choices/offers/0/count\n");
  EXPECT_EQ(fault_of("\"count\": 12", "\"count\": -1"), "job.count_out_of_range /choices/offers/0/count\n");
  EXPECT_EQ(fault_of("\"count\": 12", "\"count\": 2000000000"), "job.count_out_of_range /choices/offers/0/count\n");
  EXPECT_EQ(fault_of("\"count\": 12", "\"count\": 12.0"), "");
  EXPECT_EQ(fault_of("\"count\": 12", "\"count\": null"), "");
  EXPECT_EQ(fault_of("\"58.00\"", "\"-58\""), "job.money_out_of_range /choices/offers/0/price\n");
  EXPECT_EQ(fault_of("\"58.00\"", "\"a lot\""), "money.not_an_amount /choices/offers/0/price\n");
  EXPECT_EQ(fault_of("\"58.00\"", "1e308"), "job.money_out_of_range /choices/offers/0/price\n");
  EXPECT_EQ(fault_of("\"leaf\": \"12 ft\"", "\"leaf\": \"12 ft\", \"leaf_mass_kg\": 1e308"), "job.out_of_range /site/gates/0/leaf_mass_kg\n");
  EXPECT_EQ(fault_of("\"id\": \"G\"", "\"id\": \" G\""), "job.bad_id /site/gates/0/id\n");
  EXPECT_EQ(fault_of("\"id\": \"G\"", "\"id\": \"\""), "job.empty_text /site/gates/0/id\n");
  EXPECT_EQ(fault_of("\"id\": \"G\"", "\"id\": \"G\\u0007\""), "job.bad_id /site/gates/0/id\n");
}

TEST(ReadJob, Curves) {
  const auto bend = [](const std::string& arc) { return fault_of("\"to\": \"B\"", "\"to\": \"B\", \"arc\": " + arc); };
  const auto circle = [](const std::string& arc) { return fault_of("\"to\": \"B\"", "\"to\": \"A\", \"arc\": " + arc); };
  EXPECT_EQ(bend(R"({"radius": "80 ft", "turn_deg": 97})"), "");
  EXPECT_EQ(bend(R"({"middle_ordinate": "10 ft"})"), "");
  EXPECT_EQ(bend("null"), "");
  EXPECT_EQ(bend("{}"), "job.arc_no_size /site/legs/0/arc\n");
  EXPECT_EQ(bend(R"({"radius": "80 ft", "diameter": "160 ft"})"), "job.arc_twice /site/legs/0/arc/diameter\n");
  EXPECT_EQ(bend(R"({"radius": "80 ft", "middle_ordinate": "10 ft"})"), "job.arc_twice /site/legs/0/arc/middle_ordinate\n");
  EXPECT_EQ(bend(R"({"radius": "80 ft", "centre": {"east": "0 ft", "north": "0 ft"}})"), "job.arc_of_circles /site/legs/0/arc/centre\n");
  EXPECT_EQ(bend(R"({"radius": "80 ft", "turn_deg": 360})"), "job.out_of_range /site/legs/0/arc/turn_deg\n");
  EXPECT_EQ(circle(R"({"diameter": "60 ft", "sides": 12, "bearing_deg": 90})"), "");
  EXPECT_EQ(circle(R"({"centre": {"east": "0 ft", "north": "30 ft"}})"), "");
  EXPECT_EQ(circle("{}"), "job.arc_no_size /site/legs/0/arc\n");
  EXPECT_EQ(circle(R"({"radius": "30 ft", "turn_deg": 90})"), "job.arc_of_bends /site/legs/0/arc/turn_deg\n");
  EXPECT_EQ(circle(R"({"radius": "30 ft", "sides": 2})"), "job.arc_few_sides /site/legs/0/arc/sides\n");
}

TEST(ReadJob, WhatNoSingleFieldShows) {
  EXPECT_EQ(fault_of("\"to\": \"B\"", "\"to\": \"A\""), "job.leg_to_itself /site/legs/0/to\n");
  EXPECT_EQ(fault_of("\"120 ft\"", "\"0 ft\""), "job.leg_without_length /site/legs/0/to\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"rail_centres\": [\"58 in\", \"40 in\"]"),
            "job.height_count /choices/fences/0/rail_centres\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"rail_centres\": [\"58 in\", \"20 in\", \"40 in\"]"),
            "job.not_descending /choices/fences/0/rail_centres/2\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"kind\": \"mesh\""), "job.missing_key /choices/fences/0/infill/supply\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"rails\": 0"), "job.no_rails /choices/fences/0/rails\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"spacing\": {\"mode\": \"list\"}"), "job.empty_list /choices/fences/0/spacing/list\n");
  EXPECT_EQ(fault_of("\"height\": \"60 in\"", "\"height\": \"60 in\", \"spacing\": {\"pitch\": \"9 ft\"}"),
            "job.pitch_over_cap /choices/fences/0/spacing/pitch\n");
  EXPECT_EQ(fault_of("\"gates\":", "\"zones\": [{\"id\": \"z\", \"area\": true, \"shape\": []}], \"gates\":"), "job.too_few_places /site/zones/0/shape\n");
  EXPECT_EQ(fault_of("\"gates\":", "\"zones\": [{\"id\": \"z\", \"leg\": \"L\", \"from\": \"9 ft\", \"to\": \"3 ft\"}], \"gates\":"),
            "job.zone_backwards /site/zones/0/to\n");
  EXPECT_EQ(fault_of("\"gates\":", "\"zones\": [{\"id\": \"z\", \"leg\": \"L\", \"shape\": [{\"east\": \"0 ft\", \"north\": \"0 ft\"}]}], \"gates\":"),
            "job.zone_twice /site/zones/0/leg\n");
  EXPECT_EQ(fault_of("\"gates\":", "\"zones\": [{\"id\": \"z\", \"leg\": \"L\", \"from\": \"3 ft\", \"to\": \"9 ft\"}], \"gates\":"), "");
  EXPECT_EQ(fault_of("\"gates\":",
                     "\"ground\": {\"grid\": {\"columns\": 2, \"rows\": 2, \"west\": \"0 m\", \"south\": \"0 m\", "
                     "\"cell\": \"10 m\", \"heights_m\": [1, null, 3]}}, \"gates\":"),
            "job.grid_count /site/ground/grid/heights_m\n");
  EXPECT_EQ(fault_of("\"way\": \"slope\"}", "\"way\": \"slope\"}, {\"bay\": \"L1\", \"rail\": 2, \"gap\": \"7 ft\"}"), "job.gap_twice /field/gaps/1\n");
}

TEST(ReadJob, ANewerJobSaysSoAndNothingElse) {
  EXPECT_EQ(faults(R"({"version": 2, "anything": []})"), "job.newer_version /version\n");
  EXPECT_EQ(faults(R"({"version": 0})"), "job.count_out_of_range /version\n");
}

TEST(ReadJob, TextsThatAreNoJson) {
  EXPECT_EQ(faults(""), "job.empty \n");
  EXPECT_EQ(faults(" \n\t"), "job.empty \n");
  EXPECT_EQ(faults("{\n  \"name\": \"x\",,\n}"), "job.not_json 2:15\n");
  EXPECT_EQ(faults("{\"a\": NaN}"), "job.not_json 1:7\n");
  EXPECT_EQ(faults("{\"a\": 1e999}").substr(0, 13), "job.not_json ");
  EXPECT_EQ(faults("{\"a\": 1").substr(0, 13), "job.not_json ");
  EXPECT_EQ(faults("{} {}").substr(0, 13), "job.not_json ");
  EXPECT_EQ(faults("[1, 2]"), "job.not_object \n");
  EXPECT_EQ(faults("3"), "job.not_object \n");
  EXPECT_EQ(faults("{\"name\": \"a\", \"name\": \"b\"}"), "job.duplicate_key \n");
}

TEST(ReadJob, TextsOfOtherEncodings) {
  EXPECT_EQ(faults("{\"name\": \"Caf\xE9\"}"), "job.not_utf8 1:14\n");             // Latin-1
  EXPECT_EQ(faults(std::string_view("\xFF\xFE{\0}\0", 6)), "job.not_utf8 1:1\n");  // UTF-16, little end first
  EXPECT_EQ(faults(std::string_view("\0{\0}", 4)), "job.not_utf8 1:1\n");          // UTF-16 without a mark
  EXPECT_EQ(faults("{\"name\": \"\xED\xA0\x80\"}"), "job.not_utf8 1:11\n");        // a lone surrogate
  EXPECT_EQ(faults("{\"name\": \"\xC0\xAF\"}"), "job.not_utf8 1:11\n");            // an overlong form
  EXPECT_EQ(faults("{\n\"name\": \"\xC3\xA9\xC3\xA9\", \"x\xFF\": 1}"), "job.not_utf8 2:17\n");
  EXPECT_EQ(faults("\x89PNG\r\n\x1a\n"), "job.not_utf8 1:1\n");
  EXPECT_EQ(faults("{\"name\": \"Caf\xC3\xA9\"}"), "");
}

// The limits that refuse them are counts, so nothing is read beyond them.
TEST(ReadJob, HostileTextsAreRefused) {
  const auto first_fault = [](const std::string& text) {
    const Findings findings = read_job(text).findings;
    return findings.empty() ? std::string() : findings[0].code;
  };
  EXPECT_EQ(first_fault(std::string(100'000'000, 'x')), "job.too_large");
  EXPECT_EQ(first_fault(std::string(5'000'000, '[')), "job.too_deep");
  std::string keys = "{";
  for (int i = 0; i < 100'000; ++i) keys += "\"k" + std::to_string(i) + "\": 1,";
  EXPECT_EQ(first_fault(keys), "job.too_many");
  std::string faulty = "{\"field\": {\"done\": [0";
  for (int i = 0; i < 200'000; ++i) faulty += ",1";
  EXPECT_EQ(first_fault(faulty + "]}}"), "job.not_text");
}

TEST(ReadJob, FaultsAreCappedAndCounted) {
  std::string faulty = "{\"field\": {\"done\": [0";
  for (int i = 0; i < 999; ++i) faulty += ",1";
  const Findings findings = read_job(faulty + "]}}").findings;
  ASSERT_EQ(findings.size(), 501u);
  EXPECT_EQ(findings.back().code, "job.more_faults");
  EXPECT_EQ(std::get<std::int64_t>(findings.back().values[0].second), 500);
}

TEST(Validate, ReferencesIntoTheCatalogue) {
  Job job = read_job(kPaddock).job;
  EXPECT_TRUE(validate(job, data::shipped()).empty());
  job.choices.fences[0].animal = "dunkey";
  job.choices.fences[0].rail_pipe = "2-3/8 sch44";
  const Findings findings = validate(job, data::shipped());
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].where, "/choices/fences/0/animal");
  EXPECT_EQ(std::get<std::string>(findings[0].values[1].second), "donkey");
  EXPECT_EQ(std::get<std::string>(findings[1].values[1].second), "2-3/8 sch40");
}

TEST(Validate, AnOverriddenRowIsNoDuplicate) {
  Job job = read_job(kPaddock).job;
  job.choices.overrides.pipes = {{"2-3/8 sch40", Length::inches(2), Length::mm(3), 1, 3, 250, "measured"}};
  EXPECT_TRUE(validate(job, data::shipped()).empty());
  job.choices.overrides.pipes[0].mass_kg_per_m = std::numeric_limits<double>::quiet_NaN();
  ASSERT_EQ(validate(job, data::shipped()).size(), 1u);
  EXPECT_EQ(validate(job, data::shipped())[0].code, "job.out_of_range");
}

std::string file_text(const std::string& name) {
  std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR) + "/" + name, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// The example in the manual is a sound job, with the shipped catalogue too.
TEST(Manual, TheSmallestJobIsSound) {
  const std::string manual = file_text("docs/job.md");
  const auto start = manual.find("```json\n") + 8;
  const std::string text = manual.substr(start, manual.find("```", start) - start);
  EXPECT_EQ(faults(text), "");
  EXPECT_TRUE(validate(read_job(text).job, data::shipped()).empty());
}

}  // namespace
}  // namespace railwright::job
