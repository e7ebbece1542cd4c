// SPDX-License-Identifier: MIT
#include "formats/survey_report.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/formats/samples.h"

namespace railwright::formats {
namespace {

constexpr double kFoot = 0.3048;

bool has(const Findings& findings, const std::string& code) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

const Finding& finding(const Findings& findings, const std::string& code) {
  return *std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

// J. Mahun, Open Access Surveying, Traverse Computations, chapters E and I: bearings and lengths as printed, through the file to the adjusted lengths.
const std::string kMahun = "from,to,bearing,distance_ft\nA,B,S 68-05-35 W,472.68\nB,C,N 19-46-00 W,216.13\nC,D,N 45-55-20 E,276.52\nD,A,S 54-59-15 E,382.24\n";

TEST(Survey, MahunsTraverseFromItsFieldBook) {
  const auto report = survey_report(kMahun);
  ASSERT_TRUE(report) << report.error().code;
  ASSERT_TRUE(report->traverse);
  const TraverseReport& t = *report->traverse;
  EXPECT_TRUE(t.closed);
  EXPECT_NEAR(t.closure.perimeter / kFoot, 1347.57, 0.001);
  EXPECT_NEAR(t.closure.latitude / kFoot, 0.083, 0.0006);
  EXPECT_NEAR(t.closure.departure / kFoot, 0.075, 0.0007);
  const double latitudes[] = {-176.386, 203.382, 192.340, -219.336}, departures[] = {-438.574, -73.105, 198.635, 313.044};
  const double lengths[] = {472.715, 216.122, 276.497, 382.237};  // the third is printed 276.479: digits swapped
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(t.adjusted.courses[i].latitude / kFoot, latitudes[i], 0.0011);
    EXPECT_NEAR(t.adjusted.courses[i].departure / kFoot, departures[i], 0.0011);
    EXPECT_NEAR(t.adjusted.courses[i].distance / kFoot, lengths[i], 0.0011);
  }
  EXPECT_NEAR(t.area_m2 / (kFoot * kFoot), 102935.7, 1);  // worked apart from this code by coordinates
  EXPECT_TRUE(report->findings.empty());
}

// A scanned exercise with six courses closing to one part in 200 (area by double meridian distances 1 715 250.05 square units).
TEST(Survey, APoorTraverseIsAdjustedAndToldSo) {
  const auto report = survey_report("bearing,distance_ft\nN5-30E,495.85\nN46-02E,850.62\nS67-38E,855.45\nS12-25E,1020.87\nS83-44W,1117.26\nN55-09W,660.08\n");
  ASSERT_TRUE(report);
  EXPECT_NEAR(report->traverse->closure.linear / kFoot, 24.6876, 0.0001);
  EXPECT_NEAR(report->traverse->area_m2 / (kFoot * kFoot), 1715250.05, 0.5);
  EXPECT_TRUE(has(report->findings, "walk.poor_closure"));
}

// Least squares closes as well and spreads otherwise than the compass rule; `none` leaves the courses as noted.
TEST(Survey, TheAdjustmentIsTheOneAskedFor) {
  WalkOptions options;
  options.adjustment = ground::Adjustment::least_squares;
  const auto least = survey_report(kMahun, options), compass = survey_report(kMahun);
  options.adjustment = ground::Adjustment::none;
  const auto none = survey_report(kMahun, options);
  ASSERT_TRUE(least && compass && none);
  double latitude = 0;
  for (const auto& course : least->traverse->adjusted.courses) latitude += course.latitude;
  EXPECT_NEAR(latitude, 0, 1e-9);
  EXPECT_GT(std::abs(least->traverse->adjusted.points[1].x - compass->traverse->adjusted.points[1].x), 1e-4);
  EXPECT_EQ(none->traverse->adjusted.courses[0].latitude, none->traverse->raw.courses[0].latitude);
  EXPECT_EQ(none->traverse->adjustment, ground::Adjustment::none);
}

// Engineering Aid Basic (NAVEDTRA 10696): 0.00065 ft per degree F for 100 ft of steel tape; its assignment (NAVEDTRA 14069, question 9-41): 125.00 ft along a slope
// that rises 4.0 ft is 124.936 ft level.
TEST(Survey, TapesAreCorrectedForSlopeAndTemperature) {
  const auto hot = survey_report("bearing,distance_ft,temperature_f\nN,100,83\nE,100,68\n");
  ASSERT_TRUE(hot);
  EXPECT_NEAR(hot->traverse->notes.courses[0].level / kFoot, 100 + 15 * 0.00065, 1e-9);
  EXPECT_NEAR(hot->traverse->notes.courses[1].level / kFoot, 100, 1e-9);
  const auto celsius = survey_report("bearing,distance_m,temperature\nN,100,30 C\nE,100,20\n");
  ASSERT_TRUE(celsius);
  EXPECT_NEAR(celsius->traverse->notes.courses[0].temperature, 100 * 6.5e-6 * 18, 1e-12);
  EXPECT_NEAR(celsius->traverse->notes.courses[1].temperature, 0, 1e-12);
  EXPECT_TRUE(has(celsius->findings, "survey.temperature_assumed"));
  const auto rise = survey_report("bearing,slope_distance_ft,rise_ft\nN,125.00,4.0\n");
  ASSERT_TRUE(rise);
  EXPECT_NEAR(rise->traverse->notes.courses[0].level / kFoot, 124.936, 0.0005);
}

// 100 along slopes of 10 % (100 / sqrt 1.01), 1:10 and 30 degrees (cosine 0.866025), worked by hand.
TEST(Survey, SlopesAreReadAsPercentRatioAndDegrees) {
  const auto report = survey_report("bearing,distance_ft,slope\nN,100,10 %\nN,100,1:10\nN,100,-30 deg\nN,100,10\nN,100,\n");
  ASSERT_TRUE(report) << report.error().code;
  const auto& c = report->traverse->notes.courses;
  EXPECT_NEAR(c[0].level / kFoot, 99.50372, 1e-5);
  EXPECT_NEAR(c[1].level / kFoot, 99.50372, 1e-5);
  EXPECT_NEAR(c[2].level / kFoot, 86.60254, 1e-5);
  EXPECT_NEAR(c[2].rise / kFoot, -50, 1e-5);
  EXPECT_NEAR(c[3].level / kFoot, 99.50372, 1e-5);
  EXPECT_NEAR(c[4].level / kFoot, 100, 1e-9);
  EXPECT_TRUE(has(report->findings, "survey.slope_assumed"));
}

TEST(Survey, BlundersAreNamedWithTheirCourse) {
  // CD taped as 376.52 for 276.52: the misclosure points along it.
  std::string wrong = kMahun;
  wrong.replace(wrong.find("276.52"), 6, "376.52");
  const auto report = survey_report(wrong);
  ASSERT_TRUE(report);
  EXPECT_FALSE(report->traverse->closed);
  const Finding& stop = finding(report->findings, "survey.does_not_close");
  EXPECT_EQ(stop.severity, Severity::stop);
  EXPECT_EQ(stop.where, "C-D");
}

TEST(Survey, WhatProvesNothingIsToldSo) {
  EXPECT_TRUE(has(survey_report("bearing,distance_ft\nN,100\n")->findings, "survey.one_leg"));
  EXPECT_TRUE(has(survey_report("bearing,distance_ft\nN,100\nE,100\n")->findings, "survey.open"));
}

TEST(Survey, CrossingLegsAndMixedUnitsAreTold) {
  // A bow tie.
  const auto tie = survey_report("from,to,bearing,distance_ft\nA,B,E,100\nB,C,N 45 W,141.4214\nC,D,E,100\nD,A,S 45 W,141.4214\n");
  ASSERT_TRUE(tie);
  const Finding& crossing = finding(tie->findings, "survey.crossing_legs");
  EXPECT_EQ(crossing.where, "B-C");
  EXPECT_EQ(std::get<std::string>(crossing.values[0].second), "D-A");
  EXPECT_FALSE(has(survey_report(kMahun)->findings, "survey.crossing_legs"));
  const auto mixed = survey_report("bearing,distance_ft\nN,100\nE,30 m\n");
  ASSERT_TRUE(mixed);
  EXPECT_EQ(finding(mixed->findings, "survey.mixed_units").where, "3, distance_ft");
  EXPECT_FALSE(has(survey_report("bearing,distance\nN,100 ft\nE,12 ft 6 in\nS,1 mi\n")->findings, "survey.mixed_units"));
}

TEST(Survey, BadNotesAreRefusedWithTheirPlace) {
  const struct {
    const char* text;
    const char* code;
    const char* place;
  } rows[] = {
      {"from,to,bearing,distance_ft\nA,B,N,100\nC,D,E,100\n", "survey.chain", "3, from"},
      {"bearing,distance_ft,slope\nN,100,89 deg\n", "survey.slope", "2, slope"},
      {"bearing,distance_ft,slope\nN,100,steep\n", "survey.slope", "2, slope"},
      {"bearing,distance_ft,temperature\nN,100,900 F\n", "survey.temperature", "2, temperature"},
      {"bearing,distance_ft,temperature\nN,100,warm\n", "survey.temperature", "2, temperature"},
      {"bearing,distance_ft\nN 95 E,100\n", "bearing.out_of_range", "2, bearing"},
      {"bearing,distance_ft\nN,0\n", "traverse.distance", "1"},
      {"bearing,slope_distance_ft,rise_ft\nN,10,20\n", "tape.rise", "2, slope_distance_ft"},
      {"east,north\n1,2\n3,4\n", "survey.no_notes", "1"},
      {"point,backsight_ft,foresight_ft,known_ft\nBM,,4,100\n", "levels.no_instrument", "2"},
      {"point,backsight_ft,foresight_ft\nBM,4,\nTP,,3\n", "levels.no_start", "2"},
      {"", "file.empty", ""},
  };
  for (const auto& row : rows) {
    const auto report = survey_report(row.text);
    ASSERT_FALSE(report) << row.text;
    EXPECT_EQ(report.error().code, row.code) << row.text;
    EXPECT_EQ(report.error().place, row.place) << row.text;
  }
}

// FE Surveying study guide (Open Exam Prep), 7.5 Differential leveling: BM-1 at 100.00 ft, HI 104.20, 106.85, 106.40, BM-2 at 102.30; sums 12.40 and 10.10.
const std::string kLevels =
    "point,station_ft,backsight_ft,foresight_ft,known_ft\nBM-1,0,4.20,,100.00\nTP-1,0+60,5.15,2.50,\nTP-2,1+20,3.05,3.50,\nBM-2,1+80.5,,4.10,\n";

TEST(Levels, AWorkedLevelRunFromItsNotes) {
  const auto report = survey_report(kLevels);
  ASSERT_TRUE(report) << report.error().code;
  ASSERT_TRUE(report->levels);
  const ground::Levelled& levels = report->levels->levels;
  const double heights[] = {100.00, 101.70, 103.35, 102.30}, instruments[] = {104.20, 106.85, 106.40};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(levels.points[i].height / kFoot, heights[i], 1e-6);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(*levels.points[i].instrument / kFoot, instruments[i], 1e-6);
  EXPECT_NEAR(levels.backsights / kFoot, 12.40, 1e-6);
  EXPECT_NEAR(levels.foresights / kFoot, 10.10, 1e-6);
  EXPECT_TRUE(has(report->findings, "survey.levels_open"));
}

TEST(Levels, MisclosureIsToldAndSpread) {
  const std::string known = kLevels.substr(0, kLevels.size() - 1);
  const auto near = survey_report(known + "102.31\n"), far = survey_report(known + "102.50\n");
  ASSERT_TRUE(near && far);
  EXPECT_TRUE(has(near->findings, "survey.levels_closure"));
  EXPECT_NEAR(near->levels->levels.points[3].height / kFoot, 102.31, 1e-6);
  EXPECT_NEAR(near->levels->levels.points[1].height / kFoot, 101.70 + 0.01 / 3, 1e-6);
  EXPECT_TRUE(has(far->findings, "survey.levels_poor"));
}

// Level notes with stations are a leg with its ground; by their names they give heights to the points of a traverse.
TEST(Levels, BecomeALegOrHeightsOfPoints) {
  const auto leg = read_walk(kLevels);
  ASSERT_TRUE(leg) << leg.error().code;
  EXPECT_EQ(leg->kind, WalkKind::level_notes);
  ASSERT_EQ(leg->site.legs.size(), 1u);
  ASSERT_EQ(leg->site.ground.profile.size(), 4u);
  EXPECT_EQ(leg->site.ground.profile[3].station, measure::Length::from_inches(180.5 * 12));
  EXPECT_NEAR(leg->site.ground.profile[2].height.feet_value(), 103.35, 1e-3);
  EXPECT_EQ(read_walk("point,backsight_ft,foresight_ft,known_ft\nA,4,,100\nB,,3,\n").error().code, "survey.levels_alone");

  auto walk = read_walk(kMahun);
  ASSERT_TRUE(walk);
  const auto levels = survey_report("point,backsight_ft,intermediate_ft,foresight_ft,known_ft\nA,4,,,100\nC,,6.5,,\nD,3,,2,\nX,,1,,\nA,,,5.02,\n");
  ASSERT_TRUE(levels);
  add_levels(*levels->levels, walk->site, walk->findings);
  ASSERT_TRUE(walk->site.points[2].height);
  EXPECT_NEAR(walk->site.points[2].height->feet_value(), 97.51, 1e-3);  // half of the misclosure of -0.02 ft
  EXPECT_FALSE(walk->site.points[1].height);
  EXPECT_TRUE(has(walk->findings, "survey.levels_unmatched"));
}

// A loop by its names starts a job with those names; heights follow the slopes.
TEST(Survey, StartsAJobWithItsNames) {
  const auto walk = read_walk(kMahun);
  ASSERT_TRUE(walk);
  ASSERT_EQ(walk->site.points.size(), 4u);
  ASSERT_EQ(walk->site.legs.size(), 4u);
  EXPECT_EQ(walk->site.points[0].id, "A");
  EXPECT_EQ(walk->site.legs[3].id, "DA");
  EXPECT_NEAR(leg_length(walk->site, 0) / kFoot, 472.715, 0.001);
}

TEST(Survey, JsonCarriesTheSameFigures) {
  const auto report = survey_report(kMahun);
  const auto json = nlohmann::json::parse(survey_json(*report));
  EXPECT_EQ(json["traverse"]["closed"], true);
  EXPECT_EQ(json["traverse"]["adjustment"], "compass");
  EXPECT_EQ(json["traverse"]["points"].size(), 4u);
  EXPECT_EQ(json["traverse"]["courses"][2]["name"], "C-D");
  EXPECT_NEAR(json["traverse"]["linear"].get<double>(), 0.1112 * 304.8, 0.05);
  EXPECT_NEAR(json["traverse"]["ratio"].get<double>(), 12116, 12);
}

}  // namespace
}  // namespace railwright::formats
