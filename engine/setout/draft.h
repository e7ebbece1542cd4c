// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/catalogue.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/setout/layout.h"
#include "engine/setout/network.h"
#include "engine/setout/no_dig.h"

// The fixed posts of a site while they are being found. Each step adds its own: nodes, gates, fixed stations, set posts, braces.
namespace railwright::setout {

// What a post of one use is made of, and the hole it needs.
struct PostSize {
  std::string pipe;
  Length diameter;
  Length hole_radius;  // driven posts: half the pipe
};

struct FenceSizes {
  PostSize line, strong, gate;
  Length cap;  // pitch cap
};

// What stands between a fixed post and the next on a leg.
enum class Between { fence, brace, gate, nothing };

struct Mark {
  Length station;
  int post = 0;  // index into Draft::posts
  Between after = Between::fence;
  int gate = -1;  // index into Site::gates when `after` is gate
};

struct DraftPost {
  Post post;  // name empty: given later
  Length hole_radius;
  int node = -1;  // index into Network::nodes
};

struct Draft {
  const job::Job& job;
  const job::Catalogue& catalogue;
  Findings& findings;
  Network network;
  std::vector<job::Zone> zones;  // as Layout::zones
  NoDig no_dig;
  std::vector<FenceSizes> sizes;  // as Choices::fences
  std::vector<int> fence_of;      // per leg
  std::vector<DraftPost> posts;
  std::vector<std::vector<Mark>> marks;  // per leg, ascending
  std::map<std::string, int> facts;      // set posts by name: index into Field::posts
  std::vector<char> taken;               // per set post: already a post of the draft
};

// Joins the legs and drafts the post of every node.
Draft draft_nodes(const job::Job& job, const job::Catalogue& catalogue, const Limits& limits, Findings& findings);
void place_gates(Draft& draft);
void place_fixed_stations(Draft& draft);
void place_set_posts(Draft& draft);
void place_braces(Draft& draft);
// Names fixed posts whose holes would touch a no-dig zone, and how far each would have to move along its leg.
void check_holes(Draft& draft);
// Fills in `Layout::corners` and `quadrilaterals`; the index of each node's post in the layout, -1 where it has none.
void prove_corners(const Draft& draft, const std::vector<int>& post_of_node, Layout& layout);
// Names what a gate's leaf would strike: legs, other leaves, rocks and roots, rising ground.
void check_swings(Draft& draft, const Layout& layout);
// Names outlines of areas that cross themselves.
void check_zones(Draft& draft);

const job::Fence& fence_of_leg(const Draft& draft, int leg);
const FenceSizes& sizes_of_leg(const Draft& draft, int leg);
Vec2 place_on(const Draft& draft, int leg, Length station, Length offset_right = Length());
// Adds an unnamed post on a leg; returns its index.
int add_post(Draft& draft, PostKind kind, int leg, Length station, const PostSize& size);
// Gives the post the larger of its own size and this one.
void strengthen(DraftPost& post, const PostSize& size);
// The set post of this name that nothing has taken yet, or null.
const job::SetPost* free_fact(const Draft& draft, const std::string& name);
// Makes a drafted post the set post: name, place and diameter become facts.
void adopt_fact(Draft& draft, int post, int leg, const job::SetPost& fact);
// Index of the mark that begins the stretch holding the station; -1: before the first.
int stretch_at(const std::vector<Mark>& marks, Length station);
// How much a pitch between these marks may pass its cap: posts stand a little off their stakes, and a bay over the cap by twice the setting scatter (at least 1 in)
// next to a post already in the ground is better than one more post. 0 where neither post is set. Common practice, no source.
Length set_tolerance(const Draft& draft, const Mark& from, const Mark& to);
// True when the leg's wire or mesh is pulled at this node and must be braced there.
bool braced_at_node(const Draft& draft, int node, int leg, bool ahead);
bool is_pulled(const job::Fence& fence);

// Clear width between the faces of a gate's two posts: leaves and clearances.
Length opening_width(const job::Gate& gate);

}  // namespace railwright::setout
