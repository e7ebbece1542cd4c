// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/measure/length.h"
#include "engine/measure/money.h"
#include "engine/measure/quantity.h"

// Rows of the shipped catalogues (data/*.json); a job may override or add rows by id. Every row carries its `source`.
namespace railwright::job {

using measure::Length;
using measure::Money;

// A size of round pipe. Section properties are computed from `diameter` and a wall by engine/strength, never stored.
struct Pipe {
  std::string id;                   // "2-3/8 sch40"
  Length diameter;                  // outside
  Length wall;                      // nominal wall
  double design_wall_factor = 1.0;  // design wall / nominal wall (0.93 for AISC pipe and HSS to A53)
  double mass_kg_per_m = 0;         // as sold
  double yield_mpa = 0;
  std::string source;
};

// What a fitting is for, by the directions it serves from one post.
enum class FittingKind { end, through, corner };

// One band-and-sleeve part. Angles in degrees between ports; an end part has one port, turned to any bearing.
struct Fitting {
  std::string id;
  FittingKind kind = FittingKind::end;
  Length post_diameter;       // 0: fits any post of the job
  Length rail_diameter;       // 0: fits any rail
  double port_angle_deg = 0;  // through 180, corner 90, end 0
  double angle_tolerance_deg = 0;
  double tilt_limit_deg = 0;  // of a rail out of level
  Length take_off;            // from the post face to the rail's end
  Length bolt_offset;         // from the post face to the sleeve's bolt
  Length band_height;
  Length sleeve_diameter;                 // outside, for the clearance of two sleeves at one height
  Length sleeve_depth;                    // how far the rail can enter
  Length least_engagement;                // how far it must
  measure::Force axial_push, axial_pull;  // 0: unknown
  int bolts = 0;
  int nuts = 0;
  Money price;
  double mass_kg = 0;
  std::string source;
};

struct Animal {
  std::string id;  // "donkey", "horse", "cattle", "goat", "sheep"
  Length least_height;
  Length largest_bottom_gap;   // clear, ground to the bottom of the lowest pipe or mesh
  Length smallest_bottom_gap;  // 0: none
  Length largest_opening;      // clear, pipe to pipe
  Length trap_from, trap_to;   // openings between these trap a head or a hoof; 0,0: none known
  measure::Force push;         // point load on a rail for the strength check
  std::string source;
};

struct Soil {
  std::string id;               // "clay", "sand", "gravel", "soft-rock", "rock"
  double lateral_pa_per_m = 0;  // allowable lateral bearing per metre of depth
  double bearing_pa = 0;
  bool isolated_pole_doubled = true;
  std::string source;
};

// A price-book row. `unit` is one of each, ft, m, stick, bag, roll, lb, kg, ton, hour, mile, load.
struct PriceRow {
  std::string item;  // id of a pipe, fitting or supply
  std::string unit = "each";
  Money price;
  double pack = 1;  // sold in multiples of this many units
  std::string source;
  std::string date;  // of the price, ISO 8601
};

// Anything bought that is neither pipe nor fitting: mesh rolls, panels, wire, clips, caps, bags, leaves, hinges.
struct Supply {
  std::string id;
  std::string kind;        // mesh, panel, wire, barbed, clip, cap, concrete-bag, concrete-yard, gate-leaf, hinge-set, latch, brace-wire, strainer
  Length width;            // height of mesh/panel, width of a gate leaf, cap's pipe diameter
  Length length;           // of a roll, a panel
  double volume_m3 = 0;    // yield of a bag
  double mass_kg = 0;      // each
  double strength_n = 0;   // breaking load of a wire strand
  double diameter_mm = 0;  // wire
  std::string source;
};

// Minutes of one person for one unit of an operation.
struct HourRow {
  std::string operation;  // stake, dig, drive, set, trim, measure, cut, band, rail, mesh, panel, wire, brace, gate, clean-up
  std::string unit;       // post, hole, rail, fitting, ft, assembly, gate, cut, bay
  double minutes = 0;
  std::string source;
};

struct Catalogue {
  std::vector<Pipe> pipes;
  std::vector<Fitting> fittings;
  std::vector<Animal> animals;
  std::vector<Soil> soils;
  std::vector<PriceRow> prices;
  std::vector<Supply> supplies;
  std::vector<HourRow> hours;

  const Pipe* pipe(const std::string& id) const;
  const Fitting* fitting(const std::string& id) const;
  const Animal* animal(const std::string& id) const;
  const Soil* soil(const std::string& id) const;
  const PriceRow* price(const std::string& item) const;
  const Supply* supply(const std::string& id) const;
  const HourRow* hour(const std::string& operation) const;
};

}  // namespace railwright::job
