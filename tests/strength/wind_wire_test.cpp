// SPDX-License-Identifier: MIT
#include "engine/strength/brace.h"
#include "engine/strength/haulage.h"
#include "engine/strength/wind.h"
#include "engine/strength/wire.h"
#include "tests/strength/printed.h"

namespace railwright::strength {
namespace {

using measure::pounds_force;

TEST(Wind, ExposureCoefficients) {
  // ASCE 7-10: from the formula; 15 ft is the least height. (A copy of ASCE 7-05 prints 1.11 for exposure D at 30 ft; the formula gives 1.16.)
  const struct {
    double z, b, c, d;
  } rows[] = {{0, 0.575, 0.849, 1.030}, {15, 0.575, 0.849, 1.030}, {20, 0.624, 0.902, 1.083}, {25, 0.665, 0.945, 1.126}, {30, 0.701, 0.982, 1.162}};
  for (const auto& row : rows) {
    EXPECT_PRINTED(exposure_coefficient(Exposure::B, foot(row.z)), row.b, 3);
    EXPECT_PRINTED(exposure_coefficient(Exposure::C, foot(row.z)), row.c, 3);
    EXPECT_PRINTED(exposure_coefficient(Exposure::D, foot(row.z)), row.d, 3);
  }
  EXPECT_GT(exposure_coefficient(Exposure::D, foot(30)), 1.115);
}

// Published: 100 mph, K_z 0.90, K_d 0.85: 19.58 psf.
TEST(Wind, VelocityPressure) { EXPECT_PRINTED(in_psf(velocity_pressure(0.90, 1, 0.85, 100)), 19.58, 2); }

// Solid sign to ASCE 7-10 section 29.4: 155 mph, exposure D, 20 ft, C_f 1.80, 7.48 ft2 -> q 56.62 psf, 648 lb, ASD 389 lb.
TEST(Wind, SolidSign) {
  const double k_z = exposure_coefficient(Exposure::D, foot(20));
  EXPECT_PRINTED(k_z, 1.083, 3);
  const double q = in_psf(velocity_pressure(1.083, 1, 0.85, 155));
  EXPECT_PRINTED(q, 56.62, 2);
  EXPECT_PRINTED(q * 0.85 * 1.80 * 7.48, 648, 0);
  EXPECT_PRINTED(0.6 * q * 0.85 * 1.80 * 7.48, 389, 0);
}

// Freestanding wall to ASCE 7-05: 90 mph, exposure C, 35 ft: 17.80 psf with K_h 1.01 read from the table; the formula's 1.0145 gives 17.88.
TEST(Wind, TableAndFormulaDiffer) {
  EXPECT_PRINTED(in_psf(velocity_pressure(1.01, 1, 0.85, 90)), 17.80, 2);
  EXPECT_PRINTED(in_psf(velocity_pressure(exposure_coefficient(Exposure::C, foot(35)), 1, 0.85, 90)), 17.88, 2);
}

// ASCE 7-16 section 29.3: 1 - (1 - e)^1.5.
TEST(Wind, OpeningsInASolidWall) {
  EXPECT_PRINTED(solid_wall_reduction(0.70), 0.836, 3);
  EXPECT_PRINTED(solid_wall_reduction(0.80), 0.911, 3);
  EXPECT_PRINTED(solid_wall_reduction(0.90), 0.968, 3);
  EXPECT_EQ(solid_wall_reduction(1), 1);
  EXPECT_EQ(solid_wall_reduction(0.69), 0);
}

// ASCE 7-16 Table 29.4-2, as printed in a permit record of the City of Everett (Washington), which works e = 0.153, C_f = 1.8.
TEST(Wind, OpenLattice) {
  const struct { double e, flat, slow, fast; } rows[] = {{0.05, 2.0, 1.2, 0.8}, {0.153, 1.8, 1.3, 0.9}, {0.3, 1.6, 1.5, 1.1}, {0.7, 1.6, 1.5, 1.1}};
  for (const auto& row : rows) {
    EXPECT_EQ(lattice_coefficient(LatticeMember::flat, row.e, inch(2.375), measure::psf(20)), row.flat);
    EXPECT_EQ(lattice_coefficient(LatticeMember::round, row.e, inch(2.375), measure::psf(20)), row.slow);
    EXPECT_EQ(lattice_coefficient(LatticeMember::round, row.e, foot(1), measure::psf(20)), row.fast);
  }
  // A 2-3/8 in rail stays in the slow column until q is some 160 psf: (2.5 / 0.1979)^2 = 159.6.
  EXPECT_EQ(lattice_coefficient(LatticeMember::round, 0.2, inch(2.375), measure::psf(159)), 1.3);
  EXPECT_EQ(lattice_coefficient(LatticeMember::round, 0.2, inch(2.375), measure::psf(160)), 0.9);
  // The record's q_h = 11.67 psf, G = 0.85: q G C_f = 17.86 psf on the solid area.
  EXPECT_NEAR(in_psf(pressure_on_open_frame(measure::psf(11.67), 1.8, 1)), 17.86, 0.006);
}

// Textbook answers on a question board: steel 0.5 mm2, 20 C: 24 N; steel 2 mm2, 50 to 30 C: 88 N; brass 2.0 mm, 27 to -39 C: 3.8e2 N.
TEST(Wire, PullOfAHeldWireThatCools) {
  EXPECT_PRINTED(temperature_pull(0.5e-6, 20, Pressure::si(2.0e11), 1.2e-5).si(), 24, 0);
  EXPECT_PRINTED(temperature_pull(2e-6, 20, Pressure::si(2.0e11), 1.1e-5).si(), 88, 0);
  const double brass = temperature_pull(wire_area_m2(Length::mm(2)), 66, Pressure::si(0.91e11), 2.0e-5).si();
  EXPECT_PRINTED(brass / 100, 3.8, 1);
}

// Fence wire, worked by hand from E 29e6 psi and 6.5e-6 per F: 1.45, 2.15, 3.26 lb per F; 250 lb stretches 1000 ft of 12-1/2 gauge 13.4 in.
TEST(Wire, FenceWire) {
  const auto per_degree = [](double gauge) {
    return measure::in_pounds_force(temperature_pull(wire_area_m2(*steel_wire_gauge(gauge)), kelvins_of_fahrenheit(1)));
  };
  EXPECT_PRINTED(per_degree(12.5), 1.45, 2);
  EXPECT_PRINTED(per_degree(11), 2.15, 2);
  EXPECT_PRINTED(per_degree(9), 3.26, 2);
  EXPECT_PRINTED(stretch_m(pounds_force(250), foot(1000), wire_area_m2(inch(0.099))) / 0.0254, 13.4, 1);
  EXPECT_FALSE(steel_wire_gauge(3).has_value());
}

// UF/IFAS CIR851 prints 1600 lb for 12-1/2 gauge at 200 ksi; 0.099 in gives 1540. Iowa DOT: No. 9 wire of 1290 lb is 74.7 ksi on 0.1483 in.
TEST(Wire, Strength) {
  const double lb = measure::in_pounds_force(wire_strength(wire_area_m2(inch(0.099)), measure::psi(200000)));
  EXPECT_PRINTED(lb, 1540, -1);
  EXPECT_GT(1600 - lb, 50);
  EXPECT_PRINTED(measure::in_pounds_force(wire_strength(wire_area_m2(inch(0.099)), measure::psi(60000))), 462, 0);
  EXPECT_NEAR(1290 / (wire_area_m2(inch(0.1483)) / (0.0254 * 0.0254)) / 1000, 74.7, 0.05);
}

// AISC note on thermal movement: 6.5e-6 per F. 100 ft, 100 F: 0.78 in; 21 ft, 60/100/120 F: 0.098/0.164/0.197 in; held: 18.85 ksi.
// A classroom's 7.2e-6, 5 F, 100 in: 0.0036 in.
TEST(Heat, Expansion) {
  const auto inches = [](double feet, double f) { return expansion_m(foot(feet), kelvins_of_fahrenheit(f)) / 0.0254; };
  EXPECT_PRINTED(inches(100, 100), 0.78, 2);
  EXPECT_PRINTED(inches(21, 60), 0.098, 3);
  EXPECT_PRINTED(inches(21, 100), 0.164, 3);
  EXPECT_PRINTED(inches(21, 120), 0.197, 3);
  EXPECT_PRINTED(inches(1000, 100), 7.8, 1);
  EXPECT_PRINTED(ksi(restrained_stress(kelvins_of_fahrenheit(100))), 18.85, 2);
  EXPECT_PRINTED(expansion_m(inch(100), kelvins_of_fahrenheit(5), 7.2e-6 * 1.8) / 0.0254, 0.0036, 4);
}

// Standard statics worked by hand (no published example): 2500 lb at 2 ft, rail at 4 ft, 8 ft apart: 1250, 1398, 625 lb. 3000 lb: 1500, 1677, 750.
TEST(HBrace, Statics) {
  const auto lb = [](Force f) { return measure::in_pounds_force(f); };
  const HBraceForces a = h_brace({pounds_force(2500), foot(2), foot(4), foot(8)});
  EXPECT_NEAR(lb(a.compression), 1250, 1e-6);
  EXPECT_PRINTED(lb(a.wire_tension), 1398, 0);
  EXPECT_NEAR(lb(a.uplift), 625, 1e-6);
  const HBraceForces b = h_brace({pounds_force(3000), foot(2), foot(4), foot(8)});
  EXPECT_NEAR(lb(b.compression), 1500, 1e-6);
  EXPECT_PRINTED(lb(b.wire_tension), 1677, 0);
  EXPECT_NEAR(lb(b.uplift), 750, 1e-6);
  // 10 ft instead of 8 ft takes a fifth off the uplift.
  const HBraceForces longer = h_brace({pounds_force(2500), foot(2), foot(4), foot(10)});
  EXPECT_NEAR(longer.uplift / a.uplift, 0.8, 1e-12);
  EXPECT_EQ(h_brace({pounds_force(1), foot(2), foot(4), Length()}).compression.si(), 0);
}

// The Conservation Volunteers' handbook, after New Zealand tests: 90 kgf (198 lb) rammed, 900 kgf (1984 lb) driven. 625 lb of uplift pulls out the one and not the other.
TEST(HBrace, PullOut) {
  EXPECT_PRINTED(measure::in_pounds_force(pull_out_resistance(PostSetting::dug_and_rammed)), 198, 0);
  EXPECT_PRINTED(measure::in_pounds_force(pull_out_resistance(PostSetting::driven)), 1984, 0);
  const Force uplift = h_brace({pounds_force(2500), foot(2), foot(4), foot(8)}).uplift;
  EXPECT_GT(uplift, pull_out_resistance(PostSetting::dug_and_rammed));
  EXPECT_LT(uplift, pull_out_resistance(PostSetting::driven));
}

// 49 CFR 393.110. (A licence manual's "one per 10 ft, at least two" gives 2 for 20 ft: not the rule.)
TEST(Haulage, TieDowns) {
  const struct {
    double feet, lb;
    int free, blocked;
  } rows[] = {{4, 900, 1, 1}, {5, 1200, 2, 1}, {8, 1, 2, 1}, {10, 1, 2, 1}, {10.1, 1, 3, 2}, {20, 1, 3, 2}, {21, 1, 4, 3}, {24, 1, 4, 3}, {32, 1, 5, 4}};
  for (const auto& row : rows) {
    EXPECT_EQ(tie_downs(foot(row.feet), measure::pounds(row.lb), false), row.free) << row.feet;
    EXPECT_EQ(tie_downs(foot(row.feet), measure::pounds(row.lb), true), row.blocked) << row.feet;
  }
  EXPECT_EQ(tie_downs(Length(), measure::pounds(1), false), 0);
  // 393.106(d), the rule's own example: 30 000 lb of cargo, 15 000 lb.
  EXPECT_NEAR(measure::in_pounds(least_working_load_limit(measure::pounds(30000))), 15000, 1e-9);
  EXPECT_FALSE(needs_flags(foot(4)));
  EXPECT_TRUE(needs_flags(inch(48.1)));
}

// 29 CFR 1910.269: 10 ft to 50 kV, 4 in per 10 kV above: 69 kV 10.63 ft, 138 kV 12.93 ft, 230 kV 16.0 ft.
TEST(Haulage, OverheadLines) {
  EXPECT_EQ(overhead_distance(7.2), foot(10));
  EXPECT_EQ(overhead_distance(50), foot(10));
  EXPECT_PRINTED(overhead_distance(69).feet_value(), 10.63, 2);
  EXPECT_PRINTED(overhead_distance(138).feet_value(), 12.93, 2);
  EXPECT_PRINTED(overhead_distance(230).feet_value(), 16.0, 1);
}

}  // namespace
}  // namespace railwright::strength
