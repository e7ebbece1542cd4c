// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <set>

#include "data/data.h"
#include "engine/job/read.h"

namespace railwright::job {
namespace {

const char* const kFiles[] = {"pipe.json", "fittings.json", "animals.json", "soils.json", "prices.json", "supplies.json", "hours.json"};

const Catalogue& shipped() {
  static const Catalogue catalogue = [] {
    Catalogue all;
    for (const char* file : kFiles) {
      const Findings findings = read_catalogue(data::default_file(file), all);
      for (const Finding& f : findings) ADD_FAILURE() << file << ' ' << f.code << ' ' << f.where;
    }
    return all;
  }();
  return catalogue;
}

double pounds_per_foot(double kg_per_m) { return kg_per_m * 0.3048 / 0.45359237; }

TEST(ShippedCatalogue, EveryFileIsSound) {
  EXPECT_GE(shipped().pipes.size(), 20u);
  EXPECT_GE(shipped().fittings.size(), 40u);
  EXPECT_GE(shipped().animals.size(), 7u);
  EXPECT_EQ(shipped().soils.size(), 5u);
  EXPECT_GE(shipped().supplies.size(), 40u);
  EXPECT_EQ(shipped().hours.size(), 15u);
}

// Source: AISC Steel Construction Manual, Table 1-14: weight as printed.
TEST(ShippedCatalogue, Schedule40WeightsAreAisc) {
  const std::pair<const char*, double> printed[] = {{"1-5/8 sch40", 2.27}, {"1-7/8 sch40", 2.72}, {"2-3/8 sch40", 3.66}, {"2-7/8 sch40", 5.80},
                                                    {"3-1/2 sch40", 7.58}, {"4 sch40", 9.12},     {"4-1/2 sch40", 10.8}, {"6-5/8 sch40", 19.0}};
  for (const auto& [id, weight] : printed) {
    ASSERT_NE(shipped().pipe(id), nullptr) << id;
    EXPECT_NEAR(pounds_per_foot(shipped().pipe(id)->mass_kg_per_m), weight, 0.005) << id;
    EXPECT_EQ(shipped().pipe(id)->design_wall_factor, 0.93);
  }
}

// Weight against the volume of the wall: W = 10.68 (D - t) t lb/ft, D and t in inches (API 5CT form); 10.69 circulates too, so 0.2 %
// and half a printed digit.
TEST(ShippedCatalogue, WeightsFollowFromDiameterAndWall) {
  for (const Pipe& pipe : shipped().pipes) {
    const double d = pipe.diameter.inches_value(), t = pipe.wall.inches_value();
    const double computed = 10.68 * (d - t) * t;
    EXPECT_NEAR(pounds_per_foot(pipe.mass_kg_per_m), computed, 0.002 * computed + 0.01) << pipe.id;
  }
}

// Source: U.S. federal lands highway specification FP, Table 710.03-1M, grade 2 pipe, kg/m as printed to one decimal.
TEST(ShippedCatalogue, ThinWallWeightsAreTheFederalTable) {
  const std::pair<const char*, double> printed[] = {
      {"1-5/8 thin-wall", 2.7}, {"1-7/8 thin-wall", 3.4}, {"2-3/8 thin-wall", 4.6}, {"2-7/8 thin-wall", 6.9}, {"4 thin-wall", 9.8}};
  for (const auto& [id, kg] : printed) {
    ASSERT_NE(shipped().pipe(id), nullptr) << id;
    EXPECT_NEAR(shipped().pipe(id)->mass_kg_per_m, kg, 0.05) << id;
  }
}

// Source: International Building Code, Table 1806.2, in psf and psf per foot as printed.
TEST(ShippedCatalogue, SoilsAreTable1806_2) {
  struct Row {
    const char* id;
    double vertical, lateral;
  };
  const Row printed[] = {{"rock", 12000, 1200}, {"soft-rock", 4000, 400}, {"gravel", 3000, 200}, {"sand", 2000, 150}, {"clay", 1500, 100}};
  for (const Row& row : printed) {
    const Soil* soil = shipped().soil(row.id);
    ASSERT_NE(soil, nullptr) << row.id;
    EXPECT_NEAR(soil->bearing_pa / measure::psf(1).si(), row.vertical, 0.01);
    EXPECT_NEAR(soil->lateral_pa_per_m * 0.3048 / measure::psf(1).si(), row.lateral, 0.01);
  }
}

// Source of the heights: U.S. Bureau of Land Management facility specifications, 4.5 ft (burro), 5 ft (gentled horse), 6 ft (ungentled).
TEST(ShippedCatalogue, AnimalHeightsArePublished) {
  EXPECT_EQ(shipped().animal("donkey")->least_height, Length::inches(54));
  EXPECT_EQ(shipped().animal("horse")->least_height, Length::feet(5));
  EXPECT_EQ(shipped().animal("wild horse")->least_height, Length::feet(6));
  EXPECT_EQ(shipped().animal("wild burro")->largest_opening, Length::inches(12));
  for (const char* id : {"foal", "cattle", "bull", "goat", "sheep"}) EXPECT_NE(shipped().animal(id), nullptr);
}

// Common practice, no source: 1-1/2 in at each end whatever the size; an end, a through and a corner part for every pair of sizes.
TEST(ShippedCatalogue, FittingsComeInThreeKindsPerPairOfSizes) {
  std::set<std::pair<std::int64_t, std::int64_t>> pairs[3];
  for (const Fitting& f : shipped().fittings) {
    EXPECT_EQ(f.take_off, Length::sixty_fourths(96)) << f.id;
    EXPECT_LT(f.bolt_offset, f.take_off) << f.id;
    EXPECT_LE(f.rail_diameter, f.post_diameter) << f.id;
    EXPECT_LE(f.least_engagement, f.sleeve_depth) << f.id;
    EXPECT_EQ(f.port_angle_deg, f.kind == FittingKind::end ? 0 : f.kind == FittingKind::through ? 180 : 90);
    pairs[static_cast<int>(f.kind)].emplace(f.post_diameter.nm(), f.rail_diameter.nm());
  }
  EXPECT_EQ(pairs[0], pairs[1]);
  EXPECT_EQ(pairs[0], pairs[2]);
  EXPECT_EQ(pairs[0].size() * 3, shipped().fittings.size());
  EXPECT_NE(shipped().fitting("end 2-3/8 x 2-3/8"), nullptr);
}

TEST(ShippedCatalogue, EveryPipeAndSupplyHasAPriceAndEveryPriceAThing) {
  for (const Pipe& pipe : shipped().pipes) EXPECT_NE(shipped().price(pipe.id), nullptr) << pipe.id;
  for (const Supply& supply : shipped().supplies) EXPECT_NE(shipped().price(supply.id), nullptr) << supply.id;
  for (const PriceRow& row : shipped().prices) {
    EXPECT_TRUE(shipped().pipe(row.item) != nullptr || shipped().supply(row.item) != nullptr) << row.item;
    EXPECT_GT(row.price, Money()) << row.item;
    EXPECT_NE(row.source.find("Invented"), std::string::npos) << row.item;
  }
}

// Source: builders' quantity table, 0.30 cubic feet from a 40 lb bag and 0.60 from an 80 lb bag.
TEST(ShippedCatalogue, BagYields) {
  EXPECT_NEAR(shipped().supply("concrete bag 40 lb")->volume_m3, measure::cubic_feet(0.30).si(), 1e-6);
  EXPECT_NEAR(shipped().supply("concrete bag 80 lb")->volume_m3, measure::cubic_feet(0.60).si(), 1e-6);
}

// Source: UF/IFAS CIR851, 1 600 lb for a 12-1/2 gauge high-tensile wire.
TEST(ShippedCatalogue, WireStrength) {
  const Supply* wire = shipped().supply("high-tensile wire 12-1/2 ga x 4000 ft");
  ASSERT_NE(wire, nullptr);
  EXPECT_NEAR(wire->strength_n, measure::pounds_force(1600).si(), 1);
}

TEST(Catalogue, OverlayReplacesByIdAndJoinsTheRest) {
  Catalogue own;
  own.pipes = {{"2-3/8 sch40", Length::inches(2), Length::mm(3), 1, 3, 250, "measured"}, {"my pipe", Length::inches(3), Length::mm(3), 1, 3, 250, "measured"}};
  const Catalogue all = overlay(shipped(), own);
  EXPECT_EQ(all.pipes.size(), shipped().pipes.size() + 1);
  EXPECT_EQ(all.pipe("2-3/8 sch40")->diameter, Length::inches(2));
  EXPECT_EQ(all.pipes.front().id, shipped().pipes.front().id);
  EXPECT_EQ(all.pipe("no such pipe"), nullptr);
}

TEST(Catalogue, AFaultyFileChangesNothing) {
  Catalogue into;
  const Findings findings =
      read_catalogue(R"({"pipes":[{"id":"a","diameter":"2 in","wall":"1 1/2 in","mass_kg_per_m":3,"yield_mpa":250,"source":"x"}]})", into);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].code, "job.wall_too_thick");
  EXPECT_EQ(findings[0].where, "/pipes/0/wall");
  EXPECT_TRUE(into.pipes.empty());
}

}  // namespace
}  // namespace railwright::job
