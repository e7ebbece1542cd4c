// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/job/catalogue.h"
#include "engine/measure/length.h"
#include "engine/measure/money.h"
#include "engine/measure/quantity.h"

// The job: what the user knows and decides. It is the only thing saved; the plan is derived from it.
//
// Place: a local level plane, east and north in lengths from the site's origin, heights above the site's datum.
// Document: JSON, schema/job.schema.json. A length is written with its unit ("7 ft 5 1/4 in").
namespace railwright::job {

// ---- where the fence stands --------------------------------------------------------------------------------------------

struct Point {     // a corner, end, tee or gate mark of the walk
  std::string id;  // also the name of the post that stands there
  Length east, north;
  std::optional<Length> height;
  std::string note;
  std::optional<Length> accuracy{};  // of the place, one sigma in each direction; none: Site::position_accuracy, 0: taped
};

enum class Side { left, right };  // seen walking from the leg's first point to its second

// How a leg curves: a circular arc from its first point to its second, or a full circle where both are one point. Its stations run along the arc;
// its posts stand on the arc and its rails are the chords between them.
//  bend    one of `radius` or `diameter`, `middle_ordinate`, `turn_deg`; a radius may have a turn beside it, which is then checked and may be over 180
//  circle  one of `centre` (the first point lies on the circle), `radius` or `diameter`
struct Arc {
  Side turns = Side::left;                          // the way it bends, seen walking
  Length radius;                                    // to the middles of the posts; 0: from the rest
  Length diameter;                                  // likewise
  Length middle_ordinate;                           // of the arc over the middle of the straight line between the leg's points
  double turn_deg = 0;                              // change of direction from end to end: the central angle
  std::optional<std::pair<Length, Length>> centre;  // east, north; circles
  double bearing_deg = 0;                           // circles without a centre: direction from the first point to the centre, clockwise from north
  int sides = 0;                                    // equal sides that the whole curve is divided into where nothing else is fixed on it; 0: by the pitch
};

// A line walked from one point to another, straight unless `arc` says how it curves; fixed posts divide it into runs. Two legs that share a point
// meet there; a point that lies on another leg (within `Site::snap`) makes a tee or cross of it.
struct Leg {
  std::string id;        // prefix of the names of its line posts and bays
  std::string from, to;  // point ids
  std::string fence;     // fence id
  Side animal_side = Side::left;
  std::vector<Length> fixed;  // further fixed posts: level stations from `from` (grade breaks, panel joints)
  std::optional<Arc> arc{};   // none: straight
};

enum class ZoneKind { power, gas, communication, water, sewer, irrigation, survey, rock, roots, culvert, wet, other };

// A place where no hole is dug: the polyline or polygon `shape`, or a stretch of a leg, widened by `tolerance` each side.
struct Zone {
  std::string id;
  ZoneKind kind = ZoneKind::other;
  std::vector<std::pair<Length, Length>> shape;  // east, north; one point, a line, or a closed polygon when `area`
  bool area = false;
  std::string leg;  // instead of a shape: the stretch of this leg `from` one level station `to` another
  Length from, to;
  Length tolerance;
  std::string note;
};

enum class LeafEnd { from, to, both };  // at which end of the opening the hinges are; both: two leaves

struct Gate {
  std::string id;
  std::string leg;
  Length station;  // level, from the leg's `from` to the middle of the opening
  Length leaf;     // width of one leaf
  LeafEnd hinge = LeafEnd::from;
  Side swing = Side::left;
  Length hinge_clearance, latch_clearance;  // opening = leaves + clearances (two leaves: two hinge clearances and one latch clearance)
  double leaf_mass_kg = 0;                  // 0: from the supply row
  std::string supply;                       // supply id of the leaf; empty: by width
  Length ground_clearance{};                // of the closed leaf over the highest ground under it; 0: not said, and the swing is not checked against the ground
};

struct SpotHeight {
  Length east, north, height;
};
struct ProfileHeight {
  std::string leg;
  Length station, height;
};
struct GroundGrid {  // heights at cell centres, row 0 in the south, ESRI ASCII grid order reversed on reading
  int columns = 0, rows = 0;
  Length west, south;  // centre of the south-west cell
  Length cell;
  std::vector<float> heights_m;  // row-major from the south-west; NaN where unknown
};

struct Ground {
  std::vector<ProfileHeight> profile;  // levelled along legs: best
  std::vector<SpotHeight> spots;
  std::optional<GroundGrid> grid;
  Length accuracy;  // of a height, one sigma; above `Choices::clearance_accuracy` clearances are unknown
};

struct Origin {
  double latitude_deg = 0, longitude_deg = 0, height_m = 0;
};

struct Site {
  std::optional<Origin> origin;  // geodetic place of east = north = 0 (WGS 84)
  std::vector<Point> points;
  std::vector<Leg> legs;
  std::vector<Gate> gates;
  std::vector<Zone> zones;
  Ground ground;
  Length snap = Length::mm(100);  // a point this near a leg lies on it
  Length position_accuracy;       // of points that do not say their own, one sigma; 0: taped
};

// ---- what fence ---------------------------------------------------------------------------------------------------------

// rails     one to six pipe rails, nothing between them
// mesh      one or more pipe rails with mesh below
// panels    one or more pipe rails with ready-made panels below
// strained  one or more pipe rails with strained wires below
// wire      wires only; pipe in the bolted end, corner and gate assemblies alone
enum class FenceKind { rails, mesh, panels, strained, wire };
enum class RailLine { follow, level, smooth };
enum class Setting { concrete, driven };
enum class SpacingMode { equal, at_pitch, module, list, best };

// How the bays of a run are chosen between its fixed posts.
//  equal     the fewest equal bays whose pitch is at most `cap`
//  at_pitch  equal bays with the pitch nearest to `pitch` (never above `cap`)
//  module    bays of exactly `pitch` and one make-up bay at the end
//  list      the pitches given, in order, the last repeated; make-up bay at the end
//  best      bay counts chosen together with the cutting (engine/spacing)
struct Spacing {
  SpacingMode mode = SpacingMode::equal;
  Length cap = Length::feet(8);
  Length pitch;  // 0: the cap
  std::vector<Length> list;
  Length panel;                      // panels: joints must fall on posts; 0: none
  int looks = 0;                     // best: at most so many different pitches; 0: no limit
  Length alike = Length::inches(3);  // pitches this near count as one (common practice, no source)
};

struct Infill {
  std::string supply;                // mesh, panel or wire supply id
  Length height;                     // of mesh or panels; 0: the supply's width
  Length ground_gap;                 // bottom of the infill above ground
  int wires = 0;                     // strained and wire fences
  std::vector<Length> wire_heights;  // above ground, top first; empty: equal spacing
  measure::Force tension;            // per wire as strained
};

struct Braces {
  bool ends = true, corners = true, gates = true;
  double corner_from_deg = 15;       // deflection from which a corner is braced
  Length bay;                        // pitch of a brace bay; 0: 8 ft for H-braces
  Length every = Length::feet(660);  // a line brace at least this often; 0: never
  Length rail_height;                // centre of the brace rail above ground; 0: three quarters of the fence's height
};

struct Fence {
  std::string id;
  FenceKind kind = FenceKind::rails;
  std::string animal;                // animal id
  Length height;                     // top of the top pipe (or wire) above ground
  int rails = 3;                     // pipe rails (0 for kind wire)
  std::vector<Length> rail_centres;  // above ground, top first; empty: equal spacing of the tops, height (k-i)/k
  RailLine line = RailLine::follow;
  Length line_tolerance = Length::inches(2);  // smooth: how far a rail may stray from following the ground
  Spacing spacing;
  std::string rail_pipe, line_pipe, strong_pipe, gate_pipe;  // pipe ids; strong: end, corner, tee, brace
  Setting setting = Setting::concrete;
  std::string soil;                         // soil id
  Length embedment;                         // 0: 24 in + 3 in per ft of height over 4 ft (ASTM F567 section 5)
  Length strong_embedment, gate_embedment;  // 0: as `embedment` plus 6 in; gates likewise (common practice, no source)
  Length hole;                              // diameter; 0: 4 x post diameter up to 4 in, 3 x above (ASTM F567 section 5)
  Length frost_depth;                       // holes reach below it; 0: none
  Infill infill;
  Braces braces;
  bool capped = true;
};

// ---- how the work is done -----------------------------------------------------------------------------------------------

enum class WorkOrder { posts_first, rails_first };
enum class GapWay { level, slope };

struct Cutting {
  Length kerf = Length::sixty_fourths(8);
  Length crop;                                 // off each end of a new stick
  Length saw_step = Length::sixty_fourths(4);  // a cut is rounded down to this
  Length keep_from = Length::feet(4);          // shortest drop worth keeping
  double drop_value = 0.5;                     // worth of a kept drop as a share of its price by length
  long work_limit = 0;                         // 0: the engine's default; counts search steps, never seconds
  long spacing_work_limit = 0;                 // of the search for the best spacing; 0: the engine's default
  WorkOrder order = WorkOrder::posts_first;
};

struct StockOffer {  // sticks that can be bought
  std::string name;
  std::string pipe;  // pipe id
  Length length;
  Money price;               // each
  std::optional<int> count;  // none: as many as wanted
  std::string source;
};

// What is done about ground that does not suit the rails, in the bay of a leg that holds a station.
//  cut     ground is taken away until the lowest opening is large enough
//  fill    ground is brought until the lowest opening is small enough
//  filler  one more rail is hung below the lowest
enum class MendWay { cut, fill, filler };
struct Mend {
  std::string leg;
  Length station;
  MendWay way = MendWay::cut;
};

struct Allowances {
  Length scatter = Length::sixty_fourths(32);   // of a set post about its stake, one sigma
  Length squaring = Length::sixty_fourths(16);  // lost per stick end trued
  Length stick_tolerance;                       // a stick may be this much short
  double running_short = 0.05;                  // accepted chance that an order line runs short
  Length earth_width = Length::feet(2);         // of ground that is cut or filled under a fence (common practice, no source)
};

struct Crew {
  int people = 2;
  double setup_minutes_per_day = 45, travel_minutes_per_day = 0, hours_per_day = 8;
  Money hourly;  // per person
};

struct Trailer {
  Length bed = Length::feet(20);
  double payload_kg = 3000;
};

struct PriceRules {
  double overhead = 0.10, tax = 0.0, profit = 0.0;
  std::string currency = "USD";
};

struct Choices {
  std::vector<Fence> fences;
  Cutting cutting;
  std::vector<StockOffer> offers;
  Allowances allowances;
  Crew crew;
  Trailer trailer;
  PriceRules price;
  Length projection = Length::inches(1);  // of a post above the top rail's band
  Length trim = Length::inches(1);        // left for levelling the tops (driven posts: burred top)
  Length clearance_accuracy = Length::inches(3);
  Length plumb_tolerance = Length::sixty_fourths(16);  // top and bottom gaps of a bay may differ by this
  std::vector<Mend> mends;
  Catalogue overrides;  // rows that replace or join the shipped ones, by id
};

// ---- facts of the field -------------------------------------------------------------------------------------------------

struct SetPost {  // already in the ground; planning works round it
  std::string name;
  std::string leg;
  Length station;  // as measured along the leg, level
  Length offset;   // to the right of the leg
  std::optional<Length> diameter;
};

struct MeasuredGap {
  std::string bay;
  int rail = 1;  // numbered from the top
  Length gap;    // clear, post face to post face at the rail's height
  GapWay way = GapWay::level;
};

struct CutRail {
  std::string rail;
  Length length;
};
struct HeldStick {  // on the trailer or in the yard
  std::string name, pipe;
  Length length;
  int count = 1;
  Length crop;  // off each end
};

struct Field {
  std::vector<SetPost> posts;
  std::vector<MeasuredGap> gaps;
  std::vector<CutRail> cut;
  std::vector<HeldStick> sticks;
  std::vector<std::string> done;  // names of posts set, bays bolted: progress
};

// Names and numbers once printed, bought or cut; honoured by every later plan.
struct IssuedPost {
  std::string name, leg;
  Length station;
  bool retired = false;
};
struct IssuedBay {
  std::string name, from, to;
  bool retired = false;
};
struct Issued {
  std::vector<IssuedPost> posts;
  std::vector<IssuedBay> bays;
};

enum class UnitSystem { feet_inches, metric };

struct Job {
  int version = 1;
  std::string name;
  std::string date;  // given by the user; the engine has no clock
  std::string note;
  bool invented = false;  // demonstration data say so on every sheet
  UnitSystem units = UnitSystem::feet_inches;
  std::string language = "en";
  Site site;
  Choices choices;
  Field field;
  Issued issued;
};

}  // namespace railwright::job
