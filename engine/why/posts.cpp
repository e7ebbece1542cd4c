// SPDX-License-Identifier: MIT
// Posts: where they stand, how deep, how long; their holes.
#include "engine/takeoff/posts.h"

#include "engine/strength/embedment.h"
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

struct Here {
  const Asked& asked;
  int index;
  const setout::Post& post;
  const takeoff::PostSize& size;
  const job::Fence& fence;

  std::string name(const char* part) const { return "post/" + post.name + "/" + part; }
  Answer say(Length value, std::string formula, std::vector<Input> inputs, std::string source) const {
    return answer(asked, value_of(value), std::move(formula), std::move(inputs), std::move(source), {post.name});
  }
  Answer given(const char* input_name, Length value, const char* source) const { return plainly(asked, input(input_name, value), source, {post.name}); }
};

// The bay that ends at a post, on its own leg.
const setout::Bay* bay_before(const Plan& plan, int post) {
  const std::vector<setout::OnLeg>& on = plan.layout.posts[static_cast<std::size_t>(post)].on;
  if (on.empty()) return nullptr;
  for (const setout::Bay& bay : plan.layout.bays) {
    if (bay.to == post && bay.leg == on[0].leg && bay.end == on[0].station) return &bay;
  }
  return nullptr;
}

Answer station(const Here& here) {
  const Length at = here.post.on[0].station;
  const setout::Bay* bay = here.post.set ? nullptr : bay_before(here.asked.plan, here.index);
  if (bay == nullptr) return here.given("station", at, here.post.set ? "measured" : "site");
  const setout::Post& before = here.asked.post(bay->from);
  return here.say(at, "station_before + pitch",
                  {figure("post/" + before.name + "/station", "station_before", bay->start), figure("bay/" + bay->name + "/pitch", "pitch", bay->pitch)},
                  "geometry");
}

Answer depth(const Here& here) {
  using takeoff::PostRole;
  const PostRole role = takeoff::role(here.post);
  const Length own = takeoff::own_embedment(here.fence, role);
  if (own.nm() > 0) return here.given("own_depth", here.size.embedment, "job");
  const Length line = takeoff::embedment(here.fence, PostRole::line);
  std::vector<Input> inputs;
  std::string formula = "own_depth", source = "job";
  if (here.fence.embedment.nm() > 0) {
    inputs.push_back(input("own_depth", here.fence.embedment));
  } else {
    formula = "least_depth + more_per_height * max(height - free_height, 0)";
    inputs = {input("least_depth", Length::inches(24)), number("more_per_height", 0.25), input("height", here.fence.height),
              input("free_height", Length::feet(4))};
    source = "astm_f567";
  }
  if (role != PostRole::line) {
    formula += " + deeper";
    inputs.push_back(input("deeper", here.size.embedment - line));
    source = source == "job" ? "practice" : "astm_f567_deeper";
  }
  return here.say(here.size.embedment, formula, std::move(inputs), source);
}

Answer above(const Here& here) {
  const Length projection = here.asked.job.choices.projection, top = here.size.above_ground - projection;
  for (const fittings::Use& use : here.asked.plan.assembly.uses) {
    if (use.post != here.index) continue;
    const job::Fitting& fitting = here.asked.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)];
    if (use.height + fitting.band_height / 2 != top) continue;
    return here.say(here.size.above_ground, "top_band + band / 2 + projection",
                    {input("top_band", use.height), input("band", fitting.band_height), input("projection", projection)}, "practice");
  }
  return here.say(here.size.above_ground, "height + projection", {input("height", top), input("projection", projection)}, "practice");
}

Answer length(const Here& here) {
  const job::Choices& choices = here.asked.job.choices;
  return here.say(here.size.length, "round_up(depth + above + trim, saw_step)",
                  {figure(here.name("depth"), "depth", here.size.embedment), figure(here.name("above"), "above", here.size.above_ground),
                   input("trim", choices.trim), input("saw_step", choices.cutting.saw_step)},
                  "practice");
}

Answer hole(const Here& here) {
  if (here.fence.hole.nm() > 0) return here.given("own_hole", here.size.hole_diameter, "job");
  return here.say(here.size.hole_diameter, "factor * diameter",
                  {count("factor", here.post.diameter <= Length::inches(4) ? 4 : 3), input("diameter", here.post.diameter)}, "astm_f567_hole");
}

Answer concrete(const Here& here) {
  return answer(here.asked, here.size.concrete_m3, "pi / 4 * (hole ^ 2 * hole_depth - diameter ^ 2 * min(depth, hole_depth))",
                {figure(here.name("hole"), "hole", here.size.hole_diameter), figure(here.name("hole_depth"), "hole_depth", here.size.hole_depth),
                 input("diameter", here.post.diameter), figure(here.name("depth"), "depth", here.size.embedment)},
                "geometry", {here.post.name}, "m3");
}

Answer ground_of(const Here& here) {
  const ground::Source source = here.asked.plan.layout.profiles[static_cast<std::size_t>(here.post.on[0].leg)].source;
  static constexpr const char* kSources[] = {"ground_none", "ground_levelled", "ground_spots", "ground_grid"};
  return here.given("ground", Length::from_metres(here.post.ground), kSources[static_cast<int>(source)]);
}

std::optional<Answer> post(const Asked& asked) {
  const int index = post_named(asked.plan, asked.thing);
  if (index < 0 || static_cast<std::size_t>(index) >= asked.plan.takeoff.posts.size()) return std::nullopt;
  const setout::Post& found = asked.post(index);
  const job::Fence* fence = asked.fence(found.fence);
  if (fence == nullptr || found.on.empty()) return std::nullopt;
  const Here here{asked, index, found, asked.plan.takeoff.posts[static_cast<std::size_t>(index)], *fence};
  const bool dug = here.size.hole_diameter.nm() > 0;
  if (asked.part == "station") return station(here);
  if (asked.part == "ground") return ground_of(here);
  if (asked.part == "depth") return depth(here);
  if (asked.part == "above") return above(here);
  if (asked.part == "length") return length(here);
  if (asked.part == "hole" && dug) return hole(here);
  if (asked.part == "hole_depth" && dug) {
    return here.say(here.size.hole_depth, "max(depth, frost)",
                    {figure(here.name("depth"), "depth", here.size.embedment), input("frost", here.fence.frost_depth)}, "frost");
  }
  if (asked.part == "concrete" && here.size.concrete_m3 > 0) return concrete(here);
  return std::nullopt;
}

void list_posts(const job::Job& job, const Plan& plan, const Listed& add) {
  for (std::size_t k = 0; k < plan.layout.posts.size() && k < plan.takeoff.posts.size(); ++k) {
    const setout::Post& found = plan.layout.posts[k];
    const takeoff::PostSize& size = plan.takeoff.posts[k];
    if (found.on.empty() || found.fence < 0 || static_cast<std::size_t>(found.fence) >= job.choices.fences.size()) continue;
    for (const char* part : {"station", "ground", "depth", "above", "length"}) add(found.name, part);
    if (size.hole_diameter.nm() == 0) continue;
    add(found.name, "hole");
    add(found.name, "hole_depth");
    if (size.concrete_m3 > 0) add(found.name, "concrete");
  }
}

}  // namespace

const Family kPosts{"post", post, list_posts};

}  // namespace railwright::why
