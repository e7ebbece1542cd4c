// SPDX-License-Identifier: MIT
#include "engine/grade/chains.h"

#include <algorithm>

namespace railwright::grade {
namespace {

// Ends of bays are numbered 2 * bay + (1 at the `to` end).
struct End {
  int post, fence, number;
};

int bay_of(int end) { return end / 2; }

std::vector<End> ends_of(const setout::Layout& layout) {
  std::vector<End> ends;
  for (int b = 0; b < static_cast<int>(layout.bays.size()); ++b) {
    const setout::Bay& bay = layout.bays[b];
    if (bay.kind == setout::BayKind::gate) continue;
    ends.push_back({bay.from, bay.fence, 2 * b});
    ends.push_back({bay.to, bay.fence, 2 * b + 1});
  }
  std::sort(ends.begin(), ends.end(), [](const End& a, const End& b) {
    if (a.post != b.post) return a.post < b.post;
    if (a.fence != b.fence) return a.fence < b.fence;
    return a.number < b.number;
  });
  return ends;
}

// Joins the ends of one fence at one post: first those of one leg, then the last two that are left.
void join_ends(const setout::Layout& layout, std::vector<End>::const_iterator begin, std::vector<End>::const_iterator end, std::vector<int>& partner) {
  const auto join = [&](int a, int b) {
    partner[a] = b;
    partner[b] = a;
  };
  for (auto a = begin; a != end; ++a)
    for (auto b = a + 1; b != end && partner[a->number] < 0; ++b)
      if (partner[b->number] < 0 && layout.bays[bay_of(a->number)].leg == layout.bays[bay_of(b->number)].leg && a->number % 2 != b->number % 2)
        join(a->number, b->number);
  int left = 0, first = -1, second = -1;
  for (auto a = begin; a != end; ++a)
    if (partner[a->number] < 0) {
      ++left;
      (first < 0 ? first : second) = a->number;
    }
  if (left == 2) join(first, second);
}

std::vector<int> partners(const setout::Layout& layout) {
  std::vector<int> partner(2 * layout.bays.size(), -1);
  const std::vector<End> ends = ends_of(layout);
  for (auto begin = ends.begin(); begin != ends.end();) {
    auto end = begin;
    while (end != ends.end() && end->post == begin->post && end->fence == begin->fence) ++end;
    join_ends(layout, begin, end, partner);
    begin = end;
  }
  return partner;
}

Chain walk(const setout::Layout& layout, const std::vector<int>& partner, int start, std::vector<bool>& used) {
  Chain chain;
  chain.fence = layout.bays[bay_of(start)].fence;
  const auto post_of = [&](int end) { return end % 2 ? layout.bays[bay_of(end)].to : layout.bays[bay_of(end)].from; };
  chain.posts.push_back(post_of(start));
  for (int end = start; end >= 0 && !used[bay_of(end)]; end = partner[end ^ 1]) {
    used[bay_of(end)] = true;
    chain.bays.push_back({bay_of(end), end % 2 == 1});
    chain.posts.push_back(post_of(end ^ 1));
  }
  return chain;
}

}  // namespace

std::vector<Chain> chains_of(const setout::Layout& layout) {
  const std::vector<int> partner = partners(layout);
  std::vector<bool> used(layout.bays.size(), false);
  std::vector<Chain> chains;
  for (const bool loops : {false, true})
    for (int b = 0; b < static_cast<int>(layout.bays.size()); ++b)
      for (const int end : {2 * b, 2 * b + 1})
        if (layout.bays[b].kind != setout::BayKind::gate && !used[b] && (loops || partner[end] < 0)) chains.push_back(walk(layout, partner, end, used));
  std::vector<std::pair<int, int>> middles;  // post, fence
  for (const Chain& chain : chains)
    for (std::size_t i = 1; i + 1 < chain.posts.size(); ++i)
      if (layout.posts[chain.posts[i]].on.size() > 1) middles.push_back({chain.posts[i], chain.fence});
  std::sort(middles.begin(), middles.end());
  const auto on_a_middle = [&](const Chain& chain) {
    return std::binary_search(middles.begin(), middles.end(), std::pair(chain.posts.front(), chain.fence)) ||
           std::binary_search(middles.begin(), middles.end(), std::pair(chain.posts.back(), chain.fence));
  };
  std::stable_partition(chains.begin(), chains.end(), [&](const Chain& chain) { return !on_a_middle(chain); });
  return chains;
}

}  // namespace railwright::grade
