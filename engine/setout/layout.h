// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/ground/profile.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/measure/arc.h"
#include "engine/measure/geometry.h"

// Where every post stands: legs cut into runs by fixed posts, runs into bays.
namespace railwright::setout {

using measure::Length;

using measure::Vec2;  // metres east and north

enum class PostKind { end, corner, line, tee, cross, gate, brace, fixed };

// A leg that passes or ends at a post, and the station of the post on it.
struct OnLeg {
  int leg = 0;
  Length station;
};

struct Post {
  std::string name;  // stable: a point's id, `<leg><n>`, `<gate>h` / `<gate>l` (two leaves: `<gate>h1` / `<gate>h2`)
  PostKind kind = PostKind::line;
  Vec2 at;
  std::vector<OnLeg> on;      // at least one; several at corners, tees, crosses
  std::string pipe;           // pipe id
  Length diameter;            // outside
  int fence = 0;              // index of the fence that sets its depth (the tallest that meets here)
  std::string gate;           // id of the gate it carries, else empty
  bool set = false;           // already in the ground: a fact
  double ground = 0;          // height of the ground at the post, metres
  double deflection_deg = 0;  // corners and posts on a curve: change of direction of the rails, 0 straight on (rounded to 0.01)
};

enum class BayKind { fence, brace, gate };

struct Bay {
  std::string name;  // stable: `<leg>.<n>`
  BayKind kind = BayKind::fence;
  int leg = 0, run = 0;  // run -1 for a gate's opening
  int from = 0, to = 0;  // post indices in the leg's direction
  Length start, end;     // stations on the leg of the two post centres
  Length pitch;          // level, centre to centre: end - start, on a curve the chord
  Length gap;            // level, face to face
  int fence = 0;
  std::string gate;
};

// A stretch between two fixed posts of one leg.
struct Run {
  std::string name;  // `<from post>-<to post>`
  int leg = 0, from = 0, to = 0, fence = 0;
  int first_bay = 0, bay_count = 0;  // consecutive in Layout::bays
  Length start, end;
};

// A tape across a corner proves it: marks on two straight sides, measured from the corner post's middle, and what must lie between them.
struct CornerProof {
  int post = 0;
  std::array<int, 2> legs{};      // leg that each side begins with
  std::array<Length, 2> marks{};  // square: 3 and 4 whole units, the 4 on the longer side; otherwise 3 and 3
  Length diagonal;                // square: 5 units; otherwise by the law of cosines, to the nearest nm
  bool square = true;             // within 0.1 degree
};

// Four posts joined by straight sides, in walking order: its diagonals, post 0 to 2 and post 1 to 3. A rectangle has them alike.
struct Quadrilateral {
  std::array<int, 4> posts{};
  std::array<Length, 2> diagonals{};
};

// Where a leg lies. Stations run along it; on a curve along the arc.
struct LegPlace {
  Vec2 from, to;
  Length length;                      // level, along the leg
  Vec2 along;                         // unit direction from end to end; of a circle where it begins
  std::optional<measure::Arc> arc{};  // none: straight

  bool closed() const { return arc && arc->closed; }
  Vec2 at(Length station, Length offset_right = Length()) const;
  Vec2 along_at(Length station) const;  // unit direction of walking there
  Length station_of(Vec2 place) const;  // of the place of the leg nearest to it
  double off_line(Vec2 place) const;    // metres to the right of the leg
  // Straight distance between two stations this far apart, and the reverse (at most a third of a circle). The same on a straight leg.
  Length chord_of(Length apart) const;
  Length apart_by(Length chord) const;
  // The leg as straight pieces whose ends lie on it and whose middles miss it by at most 10 mm (of circles over 2 km across, more).
  std::vector<Vec2> pieces() const;
  std::vector<Vec2> pieces_between(Length start, Length end) const;  // the same of the stretch between two stations of the leg
};

struct Layout {
  std::vector<LegPlace> legs;    // as Site::legs
  std::vector<job::Zone> zones;  // as Site::zones; those given by a stretch of a leg with its line as their shape
  std::vector<Post> posts;       // in order of legs and stations; shared posts once
  std::vector<Bay> bays;         // grouped by leg, in order of station
  std::vector<Run> runs;
  std::vector<CornerProof> corners;  // corners, and tees and crosses with square sides; in order of the site's points
  std::vector<Quadrilateral> quadrilaterals;
  std::vector<ground::Profile> profiles;
  std::vector<job::IssuedPost> new_posts;  // names given by this plan that the job has not issued yet
  std::vector<job::IssuedBay> new_bays;
};

// Unit direction of a bay from its first post to its second: the leg's, on a curve the chord's.
Vec2 direction_of(const Layout& layout, const Bay& bay);

// One leaf of a gate: steps in metres from the middle of its hinge post to its end, closed and open at a right angle. It sweeps the quarter circle between.
struct Leaf {
  int hinge = 0;  // post
  Vec2 closed, open;
};
// The leaves of a gate whose opening is this bay: one, or two that meet.
std::vector<Leaf> leaves_of(const Layout& layout, const job::Gate& gate, const Bay& bay);

// Limits that come from rooms above, as plain numbers; index = fence.
struct Limits {
  std::vector<Length> pitch_cap;  // the smaller of the user's cap and what the rail carries
  std::vector<int> forced_bays;   // spacing mode best: bay count per run in Layout order; empty: by rule
};

// Sets out the whole network. Never fails: what cannot be done is a finding of severity stop and the rest is still planned.
// A curved leg is set out by equal chords: stations and the limits on them run along the arc, a bay's pitch is its chord, its gap that chord less half of both posts.
// Properties: (1) bays of a run add up to the run to the nanometre (by their stations); (2) equal bays differ by at most 1 nm in level clear gap where
// the posts of the run are of one diameter between (end posts of other diameter: equal clear gaps); (3) no pitch above its cap, but a bay named by `setout.no_dig` and, by twice the setting
// scatter (at least 1 in), one beside a set post; (4) set posts keep name and place;
// (5) an issued name stays with its place, a retired one is never given again.
// Findings: `setout.crossing` (legs cross without a common point), `setout.zero_leg`, `setout.gate_too_wide`, `setout.gates_overlap`, `setout.gate_on_corner`,
// `setout.no_dig` (no hole possible, says the nearest pitch that would work), `setout.fixed_outside`, `setout.duplicate_leg`, `setout.set_post_off_line`,
// `setout.panel_mismatch`, `setout.sharp_corner`, `setout.too_many_posts`, `setout.no_dig_fixed`, `setout.gate_opening`, `setout.gate_swing`, `setout.gate_swings`, `setout.gate_ground`,
// `setout.brace_does_not_fit`, `setout.no_dig_first`, `setout.no_dig_last`, `setout.no_dig_gate`, `setout.zone_crosses_itself`, `setout.arc_too_tight`, `setout.arc_ends_apart`, `setout.arc_sides`,
// `setout.set_post_moved`, `setout.set_post_in_zone`, `setout.set_post_doubled`, `setout.one_bay_less`, `setout.issued_kept`, `setout.issued_moved`, ... (all in words/en/setout.json). Holes are never planned in a zone, save for fixed posts.
// A point that no leg uses has no post. Stations run from the leg's staked points; a set corner keeps its own station, which may be below 0.
Layout set_out(const job::Job& job, const job::Catalogue& catalogue, const Limits& limits, std::vector<ground::Profile> profiles, Findings& findings);

}  // namespace railwright::setout
