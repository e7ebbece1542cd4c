// SPDX-License-Identifier: MIT
#include "engine/takeoff/remaining.h"

#include <algorithm>

namespace railwright::takeoff {

Remaining::Remaining(const job::Job& job, const setout::Layout& layout) : done_(job.field.done.begin(), job.field.done.end()) {
  for (const job::CutRail& rail : job.field.cut) cut_.insert(rail.rail);
  bays_.reserve(layout.bays.size());
  for (const setout::Bay& bay : layout.bays) bays_.push_back(done_.count(bay.name) == 0 ? 1 : 0);
  posts_.reserve(layout.posts.size());
  for (const setout::Post& post : layout.posts) posts_.push_back(!post.set && done_.count(post.name) == 0 ? 1 : 0);
}

bool Remaining::use(const fittings::Use& use) const {
  return use.serves.empty() || std::any_of(use.serves.begin(), use.serves.end(), [&](const fittings::RailEnd& end) { return bay(end.bay); });
}

}  // namespace railwright::takeoff
