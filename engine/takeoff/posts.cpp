// SPDX-License-Identifier: MIT
#include "engine/takeoff/posts.h"

#include "engine/strength/concrete.h"
#include "engine/strength/embedment.h"
#include "engine/takeoff/remaining.h"
#include "engine/takeoff/takeoff.h"

namespace railwright::takeoff {

namespace {

constexpr Length kDeeper = Length::inches(6);

const job::Fence* fence_of(const job::Job& job, int fence) {
  const auto k = static_cast<std::size_t>(fence);
  return k < job.choices.fences.size() ? &job.choices.fences[k] : nullptr;
}

// The top edge of the highest band of each post, above the ground; zero where there is none.
std::vector<Length> tops_of_bands(const job::Catalogue& catalogue, std::size_t posts, const fittings::Assembly& assembly) {
  std::vector<Length> tops(posts);
  for (const fittings::Use& use : assembly.uses) {
    const job::Fitting& fitting = catalogue.fittings[static_cast<std::size_t>(use.fitting)];
    Length& top = tops[static_cast<std::size_t>(use.post)];
    top = measure::max(top, use.height + fitting.band_height / 2);
  }
  return tops;
}

PostSize size_post(const job::Job& job, const job::Fence& fence, const setout::Post& post, Length top_of_bands) {
  const job::Choices& choices = job.choices;
  PostSize size;
  // Where no pipe rail holds the top, the post still stands as high as the fence: wires and mesh hang on it, whatever brace rail it carries lower down.
  const bool railed = fence.kind != job::FenceKind::wire && fence.rails > 0 && top_of_bands.nm() > 0;
  size.above_ground = (railed ? top_of_bands : measure::max(top_of_bands, fence.height)) + choices.projection;
  size.embedment = embedment(fence, role(post));
  size.length = (size.embedment + size.above_ground + choices.trim).round_up_to(choices.cutting.saw_step);
  if (fence.setting == job::Setting::driven) return size;
  size.hole_diameter = fence.hole.nm() > 0 ? fence.hole : strength::prescriptive_hole(post.diameter);
  size.hole_depth = measure::max(size.embedment, fence.frost_depth);
  size.concrete_m3 = strength::concrete_round_post(size.hole_diameter, size.hole_depth, post.diameter, size.embedment).si();
  return size;
}

}  // namespace

PostRole role(const setout::Post& post) {
  if (!post.gate.empty() || post.kind == setout::PostKind::gate) return PostRole::gate;
  const bool line = post.kind == setout::PostKind::line || post.kind == setout::PostKind::fixed;
  return line ? PostRole::line : PostRole::strong;
}

Length embedment(const job::Fence& fence, PostRole role) {
  const Length line = fence.embedment.nm() > 0 ? fence.embedment : strength::prescriptive_depth(fence.height);
  if (role == PostRole::line) return line;
  const Length own = own_embedment(fence, role);
  return own.nm() > 0 ? own : line + kDeeper;
}

Length& own_embedment(job::Fence& fence, PostRole role) {
  if (role == PostRole::gate) return fence.gate_embedment;
  return role == PostRole::strong ? fence.strong_embedment : fence.embedment;
}

Length own_embedment(const job::Fence& fence, PostRole role) {
  if (role == PostRole::gate) return fence.gate_embedment;
  return role == PostRole::strong ? fence.strong_embedment : fence.embedment;
}

std::string& post_pipe(job::Fence& fence, PostRole role) {
  if (role == PostRole::gate) return fence.gate_pipe;
  return role == PostRole::strong ? fence.strong_pipe : fence.line_pipe;
}

std::vector<PostSize> size_posts(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights&,
                                 const fittings::Assembly& assembly, Findings& findings) {
  const std::vector<Length> tops = tops_of_bands(catalogue, layout.posts.size(), assembly);
  const Remaining remaining(job, layout);
  std::vector<PostSize> sizes;
  sizes.reserve(layout.posts.size());
  for (std::size_t k = 0; k < layout.posts.size(); ++k) {
    const setout::Post& post = layout.posts[k];
    const job::Fence* fence = fence_of(job, post.fence);
    sizes.push_back(fence == nullptr ? PostSize{} : size_post(job, *fence, post, tops[k]));
    PostSize& size = sizes.back();
    if (!remaining.post(static_cast<int>(k))) size.concrete_m3 = 0;
    if (size.hole_diameter.nm() > 0 && size.hole_diameter <= post.diameter) {
      findings.push_back(
          {"takeoff.hole_too_narrow", Severity::warning, post.name, {{"hole", value_of(size.hole_diameter)}, {"post", value_of(post.diameter)}}});
    }
  }
  return sizes;
}

}  // namespace railwright::takeoff
