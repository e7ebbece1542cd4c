// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "engine/job/finding.h"
#include "engine/setout/layout.h"

// Where each rail crosses each post, and what stays clear beneath and between.
namespace railwright::grade {

using measure::Length;

// One rail in one bay: heights of its centre line above the site's datum at the two post centres.
struct RailEnds {
  Length from, to;
};

struct BayHeights {
  std::vector<RailEnds> rails;  // top first; as many as the fence's pipe rails, and a filler rail where the job hangs one. Gate bays, wire fences: none
  bool has_brace_rail = false;  // brace bays: one more pipe, `brace`
  RailEnds brace;
};

enum class Verdict { clear, fails, unknown };

// The least or largest clear opening of one kind in a bay, found all along it.
struct Clearance {
  int bay = 0;
  int below_rail = 0;  // k from 1: the opening under rail k (the last: to the ground or to the infill); rails + 1: under the infill
  Length least, largest;
  Length at;  // station of the worst place on the leg
  Verdict verdict = Verdict::unknown;
};

// Ground that the job has cut or filled under one bay, over a strip `Allowances::earth_width` wide (earth.h).
struct EarthWork {
  int bay = 0;
  job::MendWay way = job::MendWay::cut;  // never `filler`
  Length from, to;                       // stations on the leg
  Length deepest;
  double volume_m3 = 0;
};

struct Heights {
  std::vector<BayHeights> bays;  // as Layout::bays
  std::vector<Clearance> clearances;
  std::vector<EarthWork> earthwork;
};

struct Limits {
  double tilt_deg = 30;
};

// Heights of all rails. follow: the same height above the ground at every post. level: each run level at the lowest height that keeps the bottom clearance,
// stepped at posts only, with the fewest steps that keep the bottom opening within the animal's limits. smooth: the fewest breaks of slope within the fence's
// line tolerance and the clearances, then the least departure from following (smooth_line.h); a bay that no line can pass is let go of with a finding, and
// the line is exact for the rest. Rails keep their distances from the top rail. A line goes on round a corner where two legs of one fence meet.
// Openings are measured plumb. Ground known more coarsely than `Choices::clearance_accuracy`, or not at all: the verdict on openings to the ground is
// `unknown`, never `clear`.
// A bay that the job mends (`Choices::mends`) binds no line where it is mended, and its openings are those after the mending.
// Findings: `grade.hump`, `grade.dip`, `grade.dip_deep` (no filler rail fits), each with an `s` for several of a run, `grade.no_line`, `grade.fewest_unknown`,
// `grade.opening_traps`, `grade.opening_large`, `grade.too_low`, `grade.tilt`, `grade.step`, `grade.unknown_ground`, `grade.mend_nowhere`,
// `grade.mend_idle`, with sizes and remedy values (README.md).
Heights rail_heights(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const Limits& limits, Findings& findings);

// Centre heights above ground of the pipe rails of a fence, top first: as given, else tops at H, H(k-1)/k, ... less half the pipe (common practice, no source).
std::vector<Length> centre_heights(const job::Fence& fence, Length rail_diameter);
// Heights above ground of strained wires, top first: as given, else evenly below the lowest rail (wire fences: below the fence's height) down to the
// infill's ground gap, or with equal spaces to the ground where none is given.
std::vector<Length> wire_heights(const job::Fence& fence, Length rail_diameter);
// Centre of the brace rail above ground: as given, else three quarters of the fence's height; moved to the middle of an opening where it would
// touch a rail.
Length brace_height(const job::Fence& fence, Length rail_diameter);

}  // namespace railwright::grade
