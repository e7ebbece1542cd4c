// SPDX-License-Identifier: MIT
#include "formats/strengthen.h"

#include <algorithm>

#include "engine/plan/plan.h"
#include "engine/takeoff/posts.h"

namespace railwright::formats {
namespace {

using measure::Length;

// Steps and ends of what a start proposes (common practice, no source).
constexpr Length kDeeper = Length::inches(3);
constexpr Length kDeepest = Length::inches(66);
constexpr Length kWiderHole = Length::inches(2), kWidestHole = Length::inches(24);
constexpr Length kDeepEnough = Length::inches(48);  // from here on a wider hole is dug before a deeper one
constexpr Length kLongerBrace = Length::feet(1), kLongestBrace = Length::feet(12);
constexpr int kHighestBraceOf20 = 17;  // twentieths of the fence's height
constexpr double kEasier_lbf = 25, kEasiest_lbf = 150;
constexpr int kMostSteps = 40;

// The schedule or make in a pipe's name, behind its size.
std::string make_of(const job::Pipe& pipe) {
  const std::size_t blank = pipe.id.find(' ');
  return blank == std::string::npos ? std::string() : pipe.id.substr(blank);
}

bool has_fittings(const job::Catalogue& catalogue, const job::Pipe& post, const job::Pipe& rail) {
  return std::any_of(catalogue.fittings.begin(), catalogue.fittings.end(), [&](const job::Fitting& fitting) {
    const bool fits_post = fitting.post_diameter == Length() || fitting.post_diameter == post.diameter;
    return fits_post && (fitting.rail_diameter == Length() || fitting.rail_diameter == rail.diameter);
  });
}

using takeoff::PostRole;

// One failing check and the post or bay that it names.
class Step {
 public:
  Step(const Plan& plan, const Check& check, job::Fence& fence) : plan_(plan), check_(check), fence_(fence) {}

  // True when something was changed.
  bool take() {
    const std::string& code = check_.code;
    if (code == "brace_wire") return longer_brace() || higher_brace() || easier_wires();
    if (code == "end_post_uplift") return deeper(PostRole::strong) || longer_brace() || easier_wires();
    if (code == "wire_cold") return easier_wires();
    if (code == "gate_post_size") return thicker(PostRole::gate);
    if (code == "brace_compression") return longer_brace();
    const PostRole post = role();
    if (code.find("embedment") != std::string::npos) return (depth_of(post) >= kDeepEnough && wider_hole()) || deeper(post) || wider_hole();
    if (code.find("post_") != std::string::npos) return thicker(post);
    return false;
  }

 private:
  PostRole role() const {
    if (check_.code.rfind("gate_", 0) == 0) return PostRole::gate;
    if (check_.code.rfind("end_", 0) == 0) return PostRole::strong;
    for (const setout::Post& post : plan_.layout.posts)
      if (post.name == check_.where) return takeoff::role(post);
    return PostRole::line;
  }

  // Depth of the posts of a kind as the plan has them.
  Length depth_of(PostRole wanted) const {
    Length depth;
    for (std::size_t i = 0; i < plan_.layout.posts.size() && i < plan_.takeoff.posts.size(); ++i) {
      if (takeoff::role(plan_.layout.posts[i]) == wanted) depth = measure::max(depth, plan_.takeoff.posts[i].embedment);
    }
    return depth;
  }

  bool deeper(PostRole of) {
    Length& depth = takeoff::own_embedment(fence_, of);
    const Length now = measure::max(depth, depth_of(of));
    if (now + kDeeper > kDeepest) return false;
    const Length share = Length::from_metres(now.metres() * (check_.ratio - 1) / 3);  // part of what is missing, so that it is not overshot
    const Length next = measure::min(kDeepest, now + measure::max(kDeeper, share));
    // The others keep the depth that follows from the line posts' until a check of theirs asks for more.
    depth = next.round_up_to(Length::inches(1));
    return true;
  }

  bool wider_hole() {
    Length widest = fence_.hole;
    for (const takeoff::PostSize& size : plan_.takeoff.posts) widest = measure::max(widest, size.hole_diameter);
    if (fence_.setting == job::Setting::driven || widest + kWiderHole > kWidestHole) return false;
    fence_.hole = (widest + kWiderHole).round_up_to(Length::inches(1));
    return true;
  }

  bool thicker(PostRole of) {
    std::string& id = takeoff::post_pipe(fence_, of);
    const job::Pipe* pipe = plan_.catalogue.pipe(id);
    const job::Pipe* rail = plan_.catalogue.pipe(fence_.rail_pipe);
    if (pipe == nullptr || rail == nullptr) return false;
    const job::Pipe next = next_size_up(plan_.catalogue, *pipe, *rail);
    if (next.id == id) return false;
    id = next.id;
    return true;
  }

  bool longer_brace() {
    const Length bay = fence_.braces.bay > Length() ? fence_.braces.bay : Length::feet(8);
    if (bay + kLongerBrace > kLongestBrace || fence_.kind == job::FenceKind::panels) return false;
    fence_.braces.bay = bay + kLongerBrace;
    return true;
  }

  // Nearer to the pull of the wires the brace rail pushes, and its wire pulls, less.
  bool higher_brace() {
    const Length high = (fence_.height * kHighestBraceOf20 / 20).round_down_to(Length::inches(1));
    if (fence_.braces.rail_height >= high) return false;
    fence_.braces.rail_height = high;
    return true;
  }

  bool easier_wires() {
    const double pull = measure::in_pounds_force(fence_.infill.tension);
    if (pull - kEasier_lbf < kEasiest_lbf) return false;
    fence_.infill.tension = measure::pounds_force(pull - kEasier_lbf);
    return true;
  }

  const Plan& plan_;
  const Check& check_;
  job::Fence& fence_;
};

}  // namespace

job::Pipe next_size_up(const job::Catalogue& catalogue, const job::Pipe& pipe, const job::Pipe& rail) {
  job::Pipe best = pipe;
  for (const job::Pipe& other : catalogue.pipes) {
    const bool larger = other.diameter > pipe.diameter && make_of(other) == make_of(pipe) && has_fittings(catalogue, other, rail);
    if (larger && (best.diameter == pipe.diameter || other.diameter < best.diameter)) best = other;
  }
  return best;
}

// The fences of a job that has just begun are alike, so each step is taken in all of them.
Findings strengthen(job::Job& job, const job::Catalogue& shipped) {
  Findings left;
  for (int step = 0; step < kMostSteps; ++step) {
    const Plan plan = make_plan(job, shipped, Effort::quick);
    left.clear();
    bool changed = false;
    for (const Finding& finding : plan.findings)
      if (finding.code == "grade.opening_traps" || finding.code == "grade.opening_large") left.push_back(finding);
    for (const Check& check : plan.checks) {
      if (check.ok) continue;
      left.push_back({"start.over", Severity::note, check.where, {{"check", check.code}, {"ratio", check.ratio}}});
      for (job::Fence& fence : job.choices.fences) changed = Step(plan, check, fence).take() || changed;
    }
    if (!changed) break;
  }
  return left;
}

}  // namespace railwright::formats
