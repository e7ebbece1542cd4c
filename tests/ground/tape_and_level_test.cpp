// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/ground/levelling.h"
#include "engine/ground/tape.h"
#include "engine/measure/length.h"

namespace railwright::ground {
namespace {

// Engineering Aid Basic (NAVEDTRA 10696), chapter 12: 0.00065 ft per degree F for a 100-ft steel tape, about 0.01 ft in 15 degrees F.
TEST(Tape, TemperatureOfASteelTape) {
  const TapeCorrections one = correct({}, {{{100, true}}, 69, {}});
  EXPECT_NEAR(one.temperature, 0.00065, 1e-12);
  EXPECT_NEAR(correct({}, {{{100, true}}, 83, {}}).temperature, 0.01, 0.0005);
  EXPECT_EQ(one.sag, 0);
  EXPECT_EQ(one.pull, 0);
}

// J. Mahun, Open Access Surveying, Distance - taping: 436.48 ft recorded at 50 F and 15 lb in two supported and three hanging bays.
// The printed answers are pictures; these are the formulas' values for the printed inputs, worked apart from this code.
TEST(Tape, AllCorrectionsOfMahunsExample) {
  Tape tape;
  tape.true_length = 100.004;
  tape.standard_f = 70;
  tape.standard_pull = 23;
  tape.section = 0.004;
  tape.weight_per_length = 2.2 / 102;
  const Taped line{{{100, true}, {100, true}, {100, false}, {100, false}, {36.48, false}}, 50, 15.0};
  const TapeCorrections sum = correct(tape, line);
  EXPECT_NEAR(sum.length, 0.0175, 0.00005);
  EXPECT_NEAR(sum.temperature, -0.0567, 0.00005);
  EXPECT_NEAR(sum.pull, -0.0301, 0.00005);
  EXPECT_NEAR(sum.sag, -0.1765, 0.0005);
  EXPECT_NEAR(sum.corrected(), 436.234, 0.001);
}

// The same course, self-study Distances, problem 3.
TEST(Tape, AllCorrectionsOfMahunsSelfStudy) {
  Tape tape;
  tape.true_length = 99.995;
  tape.standard_pull = 18;
  tape.section = 0.003;
  tape.elasticity = 3.0e7;
  tape.weight_per_length = 0.0195;
  Taped line{{}, 80, 25.0};
  for (const double length : {50.0, 50.0, 100.0, 100.0, 78.46}) line.bays.push_back({length, false});
  for (int i = 0; i < 3; ++i) line.bays.push_back({100, true});
  const TapeCorrections sum = correct(tape, line);
  EXPECT_NEAR(sum.recorded, 678.46, 1e-9);
  EXPECT_NEAR(sum.corrected(), 678.462, 0.0015);
}

// H = sqrt(S2 - h2) and the approximation -h2/2S (definition; rows worked by hand).
TEST(Tape, SlopeToLevel) {
  const struct { double rise, level, approximate; } rows[] = {{5, 99.8749, -0.125}, {10, 99.4987, -0.5}, {20, 97.9796, -2.0}, {30, 95.3939, -4.5}};
  for (const auto& row : rows) {
    EXPECT_NEAR(level_from_slope(100, row.rise).value_or(0), row.level, 0.00005);
    EXPECT_NEAR(slope_correction_approximate(100, row.rise), row.approximate, 1e-12);
  }
  EXPECT_EQ(level_from_slope(10, 10).error().code, "tape.rise");
  EXPECT_EQ(level_from_slope(std::numeric_limits<double>::quiet_NaN(), 1).error().code, "tape.rise");
}

// A forum answer reads the diagonal of 60 x 100, 116.619 ft, as 116 ft and six tenths of an inch; decimal feet are not inches: it is 116 ft 7 7/16 in.
TEST(Tape, DecimalFeetAreNotInches) {
  const double diagonal = std::sqrt(60.0 * 60 + 100.0 * 100);
  EXPECT_NEAR(diagonal, 116.619, 0.0005);
  EXPECT_EQ(measure::format_length(measure::Length::from_inches(diagonal * 12)), "116 ft 7 7/16 in");
}

std::vector<LevelSight> loop() {
  // Worked by hand: HI 104.20; turning point 101.05; HI 106.40; back to the benchmark 100.02.
  return {{"BM", 4.20, {}, {}, 100.0}, {"stake 1", {}, 5.10, {}, {}}, {"TP", 5.35, {}, 3.15, {}}, {"stake 2", {}, 2.00, {}, {}}, {"BM", {}, {}, 6.38, {}}};
}

TEST(Levelling, NotesAreReducedAndClosed) {
  const auto levels = reduce_levels(loop(), 0.02);
  ASSERT_TRUE(levels);
  EXPECT_EQ(levels->setups, 2);
  EXPECT_NEAR(*levels->points[0].instrument, 104.20, 1e-9);
  EXPECT_NEAR(levels->points[1].raw, 99.10, 1e-9);
  EXPECT_NEAR(levels->points[2].raw, 101.05, 1e-9);
  EXPECT_NEAR(levels->points[3].raw, 104.40, 1e-9);
  EXPECT_TRUE(levels->closed);
  EXPECT_NEAR(levels->misclosure, 0.02, 1e-9);
  EXPECT_NEAR(levels->allowed, 0.02 * std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(levels->points[2].height, 101.04, 1e-9);
  EXPECT_NEAR(levels->points[4].height, 100.0, 1e-9);
  // The page check of the field book.
  EXPECT_NEAR(levels->backsights - levels->foresights, levels->points[4].raw - levels->points[0].raw, 1e-9);
}

TEST(Levelling, BrokenNotesAreRefused) {
  EXPECT_EQ(reduce_levels({}, 0).error().code, "levels.empty");
  auto notes = loop();
  notes[0].known.reset();
  EXPECT_EQ(reduce_levels(notes, 0).error().code, "levels.no_start");
  notes = loop();
  notes[0].backsight.reset();
  EXPECT_EQ(reduce_levels(notes, 0).error().code, "levels.no_instrument");
  notes = loop();
  notes[1].foresight = 1;
  EXPECT_EQ(reduce_levels(notes, 0).error().code, "levels.two_readings");
  notes = loop();
  notes[3].intermediate = std::numeric_limits<double>::infinity();
  EXPECT_EQ(reduce_levels(notes, 0).error().code, "levels.not_finite");
}

}  // namespace
}  // namespace railwright::ground
