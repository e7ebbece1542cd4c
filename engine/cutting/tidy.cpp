// SPDX-License-Identifier: MIT
#include "engine/cutting/tidy.h"

#include <algorithm>
#include <map>
#include <utility>

namespace railwright::cutting {
namespace {

using Key = std::pair<int, std::vector<std::pair<int, std::int64_t>>>;

Key key_of(const Pattern& pattern) {
  Key key{pattern.type, {}};
  for (const Take& take : pattern.takes) key.second.push_back({take.sort, take.count});
  return key;
}

// What `a` holds beyond `b`.
std::vector<Take> beyond(const std::vector<Take>& a, const std::vector<Take>& b) {
  std::vector<Take> rest;
  std::size_t j = 0;
  for (const Take& take : a) {
    while (j < b.size() && b[j].sort < take.sort) ++j;
    const std::int64_t also = j < b.size() && b[j].sort == take.sort ? b[j].count : 0;
    if (take.count > also) rest.push_back({take.sort, take.count - also});
  }
  return rest;
}

std::vector<Take> together(const std::vector<Take>& a, const std::vector<Take>& b) {
  std::map<int, std::int64_t> sum;
  for (const Take& take : a) sum[take.sort] += take.count;
  for (const Take& take : b) sum[take.sort] += take.count;
  std::vector<Take> takes;
  for (const auto& [sort, count] : sum) takes.push_back({sort, count});
  return takes;
}

class Tidy {
 public:
  Tidy(const Model& model, const std::vector<Use>& uses, std::int64_t steps) : model_(model), left_(steps) {
    for (const Use& use : uses) change(use.pattern, use.count);
  }

  std::vector<Use> run() {
    while (left_ > 0 && pass()) {
    }
    std::vector<Use> uses;
    for (const auto& [key, use] : patterns_) uses.push_back(use);
    return uses;
  }

 private:
  void change(const Pattern& pattern, std::int64_t by) {
    const Key key = key_of(pattern);
    Use& use = patterns_.insert({key, {pattern, 0}}).first->second;
    use.count += by;
    if (use.count == 0) patterns_.erase(key);
  }

  std::int64_t count(const Pattern& pattern) const {
    const auto at = patterns_.find(key_of(pattern));
    return at == patterns_.end() ? 0 : at->second.count;
  }

  // Tries every stick that is cut like no other; true when one was made like others.
  bool pass() {
    std::vector<Pattern> all, single;
    for (const auto& [key, use] : patterns_) {
      all.push_back(use.pattern);
      if (use.count == 1) single.push_back(use.pattern);
    }
    bool any = false;
    for (const Pattern& from : single) any = (count(from) == 1 && resettle(from, all)) || any;
    return any;
  }

  bool resettle(const Pattern& from, const std::vector<Pattern>& all) {
    for (const Pattern& to : all) {
      left_ -= 8;
      if (left_ <= 0) return false;
      if (to.type != from.type || to.takes == from.takes || count(to) == 0) continue;
      const std::vector<Take> needs = beyond(to.takes, from.takes);
      if (needs.size() > 2) continue;
      const std::vector<Take> gives = beyond(from.takes, to.takes);
      for (const Pattern& other : all)
        if (exchange(from, to, other, needs, gives)) return true;
    }
    return false;
  }

  bool exchange(const Pattern& from, const Pattern& to, const Pattern& other, const std::vector<Take>& needs, const std::vector<Take>& gives) {
    left_ -= static_cast<std::int64_t>(2 + other.takes.size());
    if (!beyond(needs, other.takes).empty() || other == from) return false;
    const Pattern after{other.type, together(beyond(other.takes, needs), gives)};
    const std::int64_t used = model_.used(after);
    if (after.takes.empty() || used > model_.types[after.type].capacity) return false;
    const std::int64_t others = count(other);
    left_ -= 40;
    if (others == 0 || (others > 1 && (count(after) == 0 || after == from))) return false;  // no fewer patterns
    if (other.takes == to.takes && other.type == to.type && others == 1) return false;
    if (model_.cost(from) + model_.cost(other) != model_.cost(to) + model_.cost(after.type, used)) return false;
    change(from, -1);
    change(other, -1);
    change(to, 1);
    change(after, 1);
    return true;
  }

  const Model& model_;
  std::int64_t left_;
  std::map<Key, Use> patterns_;
};

}  // namespace

void tidy(const Model& model, std::vector<Use>& uses, std::int64_t steps) { uses = Tidy(model, uses, steps).run(); }

std::vector<Use> merged(const std::vector<Use>& uses) {
  std::map<Key, std::size_t> seen;
  std::vector<Use> whole;
  for (const Use& use : uses) {
    if (use.count == 0) continue;
    const auto [at, fresh] = seen.insert({key_of(use.pattern), whole.size()});
    if (fresh) {
      whole.push_back(use);
    } else {
      whole[at->second].count += use.count;
    }
  }
  return whole;
}

}  // namespace railwright::cutting
