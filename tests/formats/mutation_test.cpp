// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <random>

#include "tests/formats/samples.h"

namespace railwright::formats {
namespace {

// Changes a few places of a sound file: bytes, cuts, doubled stretches, and words that readers trip over.
std::string mutated(std::string bytes, std::mt19937& random) {
  static const char* const kWords[] = {"NaN", "1e308", "-1e-320", "\"", "<", "&", "]]>", ",,,,", "\n\n", "999999999999999999999", "\xFF\xFE", "+", "", "180"};
  const int changes = 1 + static_cast<int>(random() % 4);
  for (int i = 0; i < changes && !bytes.empty(); ++i) {
    const std::size_t at = random() % bytes.size(), length = random() % 12;
    switch (random() % 5) {
      case 0:
        bytes[at] = static_cast<char>(random() % 256);
        break;
      case 1:
        bytes.erase(at, length);
        break;
      case 2:
        bytes.insert(at, bytes.substr(at, length * 4));
        break;
      case 3:
        bytes.replace(at, std::min(length, bytes.size() - at), kWords[random() % std::size(kWords)]);
        break;
      default:
        bytes.resize(at);
        break;
    }
  }
  return bytes;
}

bool within(double metres) { return metres > -1e6 && metres < 1e6; }

// Whatever a reader makes of a damaged file, it is an error with a code, or a site whose legs join points that exist.
void expect_sound_or_refused(const std::string& bytes) {
  const auto walk = read_walk(bytes);
  if (!walk) {
    EXPECT_FALSE(walk.error().code.empty());
    return;
  }
  EXPECT_GE(walk->site.points.size(), 2u);
  EXPECT_GE(walk->site.legs.size(), 1u);
  for (const job::Point& point : walk->site.points) {
    EXPECT_TRUE(within(point.east.metres()) && within(point.north.metres())) << bytes;
  }
  for (std::size_t leg = 0; leg < walk->site.legs.size(); ++leg) EXPECT_LT(leg_length(walk->site, leg), 1e6) << bytes;
}

TEST(Mutation, DamagedFilesNeverCrashAReader) {
  std::mt19937 random(20260101);
  for (const std::string& sample : {kRoute, kGeoJson, kKml, kPlaces, kCourses, kStations}) {
    for (int i = 0; i < 3000; ++i) expect_sound_or_refused(mutated(sample, random));
  }
}

TEST(Mutation, DamagedGridsNeverCrashTheReader) {
  std::mt19937 random(7);
  for (int i = 0; i < 5000; ++i) {
    const auto grid = read_grid(mutated(kGrid, random));
    if (grid)
      EXPECT_EQ(grid->heights_m.size(), static_cast<std::size_t>(grid->columns) * static_cast<std::size_t>(grid->rows));
    else
      EXPECT_FALSE(grid.error().code.empty());
  }
}

// A job started from a damaged file that still reads is a sound job.
TEST(Mutation, WhatReadsMakesASoundJob) {
  std::mt19937 random(99);
  int sound = 0;
  for (const std::string& sample : {kRoute, kGeoJson, kPlaces, kCourses}) {
    for (int i = 0; i < 400; ++i) {
      const std::string bytes = mutated(sample, random);
      const auto walk = read_walk(bytes);
      if (!walk) continue;
      StartChoices choices;
      choices.strengthen = false;  // fifteen plans of each would only take time
      const auto started = start_job(choices, shipped(), &*walk);
      ASSERT_TRUE(started) << started.error().code;
      for (const Finding& f : job::validate(started->job, shipped())) {
        EXPECT_NE(f.severity, Severity::stop) << f.code << " " << f.where << "\n" << bytes;
      }
      ++sound;
    }
  }
  EXPECT_GT(sound, 100);
}

}  // namespace
}  // namespace railwright::formats
