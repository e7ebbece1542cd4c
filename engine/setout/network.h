// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/setout/layout.h"
#include "engine/setout/leg_grid.h"

// How the legs of a site hang together: the places where they meet, and where on each leg these lie.
namespace railwright::setout {

// One direction in which fence leaves a node.
struct Arm {
  int leg = 0;
  bool ahead = true;  // along the leg's own direction
  Vec2 away;          // unit direction of the leg from the node; of a curve its tangent there
};

// A place where legs end, meet or pass: one post.
struct Node {
  int point = 0;  // index into Site::points; the first where several points are one place
  Vec2 at;
  std::vector<Arm> arms;  // by leg; stretches that are not planned (doubled) have none
};

struct NodeOnLeg {
  int node = 0;
  Length station;
  bool doubled_after = false;  // the stretch to the next node already belongs to an earlier leg
};

struct NetworkLeg {
  bool sound = false;  // both points exist and lie apart
  LegPlace place;
  std::vector<NodeOnLeg> nodes;  // by station; the first at 0, the last at the leg's length
};

struct Network {
  std::vector<Node> nodes;
  std::vector<NetworkLeg> legs;  // as Site::legs
  LegGrid grid;
};

// Joins the legs. Points within `Site::snap` of each other are one node; a node within `snap` of a leg lies on it and is moved square onto its line
// (where two legs pass it, to their crossing), so that the passing rails stay straight.
// Findings: `setout.no_such_point`, `setout.zero_leg`, `setout.points_merged`, `setout.duplicate_leg`, `setout.crossing`.
Network join_legs(const job::Site& site, Findings& findings);

// Change of direction between walking along `in` and then along `out`, degrees in [0, 180], rounded to 0.01.
double turn_deg(Vec2 in, Vec2 out);

// True when the turn is under a degree: such a point is a post in a straight line (common practice, no source).
bool straight_on(Vec2 in, Vec2 out);

}  // namespace railwright::setout
