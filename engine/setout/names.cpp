// SPDX-License-Identifier: MIT
#include "engine/setout/names.h"

#include <algorithm>

namespace railwright::setout {
namespace {

constexpr Length kSamePlace = Length::mm(1);
constexpr std::size_t kMostDigits = 9;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The number at the end of a name after its prefix; 0: none.
std::int64_t number_after(const std::string& name, std::size_t prefix) {
  if (name.size() <= prefix || name.size() > prefix + kMostDigits) return 0;
  std::int64_t number = 0;
  for (std::size_t i = prefix; i < name.size(); ++i) {
    if (!is_digit(name[i])) return 0;
    number = number * 10 + (name[i] - '0');
  }
  return number;
}

std::string pair_key(const std::string& from, const std::string& to) { return from + '\x1f' + to; }

// Counts on from `number` to the next free name. New names are kept only where another leg might make the same.
std::string next_name(const std::string& prefix, std::int64_t& number, std::unordered_set<std::string>& taken, bool keep) {
  for (;;) {
    std::string name = prefix + std::to_string(++number);
    if (keep ? taken.insert(name).second : taken.count(name) == 0) return name;
  }
}

void raise_to(std::int64_t& highest, std::int64_t number) { highest = std::max(highest, number); }

}  // namespace

Namer::Namer(const job::Job& job) : job_(job) {
  for (const job::Leg& leg : job.site.legs) {
    legs_.insert(leg.id);
    for (std::size_t n = leg.id.size(); n > 0 && is_digit(leg.id[n - 1]); --n) stems_.insert(leg.id.substr(0, n - 1));
  }
  for (const job::Point& point : job.site.points) taken_posts_.insert(point.id);
  for (const job::Gate& gate : job.site.gates) {
    for (const char* end : {"h", "l", "h1", "h2"}) taken_posts_.insert(gate.id + end);
  }
  for (const job::SetPost& post : job.field.posts) taken_posts_.insert(post.name);
  take_issued_posts(job);
  take_issued_bays(job);
}

void Namer::take_issued_posts(const job::Job& job) {
  const auto fixed = taken_posts_;
  for (std::size_t i = 0; i < job.issued.posts.size(); ++i) {
    const job::IssuedPost& post = job.issued.posts[i];
    issued_posts_.insert(post.name);
    taken_posts_.insert(post.name);
    if (post.name.compare(0, post.leg.size(), post.leg) == 0) {
      raise_to(highest_post_[post.leg], number_after(post.name, post.leg.size()));
    }
    if (!post.retired && fixed.count(post.name) == 0) places_[post.leg].push_back({post.station, static_cast<int>(i), false});
  }
  for (auto& entry : places_) {
    std::sort(entry.second.begin(), entry.second.end(),
              [](const Place& a, const Place& b) { return a.station != b.station ? a.station < b.station : a.issued < b.issued; });
  }
}

void Namer::take_issued_bays(const job::Job& job) {
  for (const job::IssuedBay& bay : job.issued.bays) {
    issued_bays_.insert(bay.name);
    taken_bays_.insert(bay.name);
    const std::size_t dot = bay.name.rfind('.');
    if (dot != std::string::npos) raise_to(highest_bay_[bay.name.substr(0, dot)], number_after(bay.name, dot + 1));
    if (!bay.retired) bay_of_.emplace(pair_key(bay.from, bay.to), bay.name);
  }
}

std::vector<Length> Namer::issued_between(const std::string& leg, Length start, Length end) const {
  std::vector<Length> stations;
  const auto places = places_.find(leg);
  if (places == places_.end()) return stations;
  auto it = std::upper_bound(places->second.begin(), places->second.end(), start + kSamePlace, [](Length s, const Place& p) { return s < p.station; });
  for (; it != places->second.end() && it->station < end - kSamePlace; ++it) stations.push_back(it->station);
  return stations;
}

bool Namer::may_collide(const std::string& leg) const {
  if (stems_.count(leg) != 0) return true;
  for (std::size_t n = leg.size(); n > 0 && is_digit(leg[n - 1]); --n) {
    if (legs_.count(leg.substr(0, n - 1)) != 0) return true;
  }
  return false;
}

void Namer::name_posts(const std::string& leg, std::size_t first, std::vector<Post>& posts) {
  const auto places = places_.find(leg);
  if (places != places_.end()) {
    for (std::size_t p = first; p < posts.size(); ++p) {
      if (!posts[p].name.empty()) continue;
      const Length station = posts[p].on.front().station;
      auto it =
          std::lower_bound(places->second.begin(), places->second.end(), station - kSamePlace, [](const Place& place, Length s) { return place.station < s; });
      while (it != places->second.end() && it->used && it->station <= station + kSamePlace) ++it;
      if (it == places->second.end() || it->station > station + kSamePlace) continue;
      it->used = true;
      posts[p].name = job_.issued.posts[it->issued].name;
    }
  }
  std::int64_t& number = highest_post_[leg];
  const bool keep = may_collide(leg);
  for (std::size_t p = first; p < posts.size(); ++p) {
    if (posts[p].name.empty()) posts[p].name = next_name(leg, number, taken_posts_, keep);
  }
}

void Namer::name_bays(const std::string& leg, std::size_t first, std::vector<Bay>& bays, const std::vector<Post>& posts) {
  std::int64_t& number = highest_bay_[leg];
  const std::string prefix = leg + ".";
  for (std::size_t b = first; b < bays.size(); ++b) {
    if (!bay_of_.empty()) {
      const auto known = bay_of_.find(pair_key(posts[bays[b].from].name, posts[bays[b].to].name));
      if (known != bay_of_.end()) bays[b].name = known->second;
    }
    if (bays[b].name.empty()) bays[b].name = next_name(prefix, number, taken_bays_, false);
  }
}

}  // namespace railwright::setout
