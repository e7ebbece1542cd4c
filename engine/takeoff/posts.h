// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/job/job.h"
#include "engine/setout/layout.h"

// What a post is to its fence.
namespace railwright::takeoff {

enum class PostRole { line, strong, gate };

// A post that carries a gate is a gate post whatever else it is; ends, corners, tees, crosses and brace posts are strong ones; line posts and fixed posts
// are line posts.
PostRole role(const setout::Post& post);

// Depth in the ground: the fence's own figure, else 24 in + 3 in per foot of height over 4 ft (ASTM F567 section 5); strong and gate posts 6 in
// more unless given (common practice, no source).
measure::Length embedment(const job::Fence& fence, PostRole role);

// What the fence itself says of posts of a role: their depth (zero: by the rule above) and the id of their pipe.
measure::Length& own_embedment(job::Fence& fence, PostRole role);
measure::Length own_embedment(const job::Fence& fence, PostRole role);
std::string& post_pipe(job::Fence& fence, PostRole role);

}  // namespace railwright::takeoff
