// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/setout/draft.h"

// Where pulled wire or mesh needs brace posts: beside ends, corners and gates, and in long lines.
//
// Outline, leg by leg:
//  1. Each stretch of fence gets a brace bay at the ends that are pulled there. Where the stretch is too short for the usual bay it is divided evenly
//     (two pulled ends may share a middle post, or the whole stretch be one brace bay).
//  2. Between braced places, line braces are spread so that none is farther from the next than `every`; what is left over at
//     a post where the pull runs straight on is carried to the next leg.
// A brace post that cannot stand (no room, no-dig zone) is a finding.
namespace railwright::setout {
namespace {

// NRCS-style H-braces are 8 ft; a bay shorter than 4 ft is too steep for its brace wire, and next to a brace bay at least 2 ft
// of fence must be left to bolt up. Common practice, no source.
constexpr Length kUsualBay = Length::feet(8);
constexpr Length kLeastBay = Length::feet(4);
constexpr Length kLeastRest = Length::feet(2);
constexpr std::int64_t kMostLineBraces = 20'000;

struct Carry {
  bool known = false;
  Length distance;  // to the last brace
};

class Bracer {
 public:
  Bracer(Draft& draft, std::vector<Carry>& carry, int leg)
      : draft_(draft), carry_(carry), leg_(leg), fence_(fence_of_leg(draft, leg)), marks_(draft.marks[leg]), size_(sizes_of_leg(draft, leg).strong) {
    const Length asked = fence_.braces.bay > Length() ? fence_.braces.bay : kUsualBay;
    bay_ = draft.network.legs[leg].place.apart_by(measure::min(asked, sizes_of_leg(draft, leg).cap));
    if (!draft.no_dig.empty()) blocked_ = draft.no_dig.along(draft.network.legs[leg].place, size_.hole_radius);
  }
  void brace_ends();
  void brace_line();

 private:
  bool braced(std::size_t mark, bool ahead) const;
  bool anchored(std::size_t mark) const;
  void brace_stretch(std::size_t mark, std::vector<Mark>& out);
  bool allowed(Length& station, Length low, Length high) const;
  int brace_post(Length station);
  void become_brace(int post);
  void name_misfit(Length station, Length room) const;
  std::vector<Length> line_places(std::size_t first, std::size_t last);
  void line_stretch(std::size_t mark, const std::vector<Length>& places, std::vector<Mark>& out);
  bool pair_about(Length middle, Length low, Length high, Length& left, Length& right) const;

  Draft& draft_;
  std::vector<Carry>& carry_;
  int leg_;
  const job::Fence& fence_;
  std::vector<Mark>& marks_;
  const PostSize& size_;
  Length bay_;
  std::vector<Blocked> blocked_;
};

// Is the fence on this side of the mark pulled against it?
bool Bracer::braced(std::size_t mark, bool ahead) const {
  const DraftPost& drafted = draft_.posts[marks_[mark].post];
  if (!drafted.post.gate.empty() && fence_.braces.gates) return true;
  return drafted.node >= 0 && braced_at_node(draft_, drafted.node, leg_, ahead);
}

// Does a pull end at this mark, so that line braces are counted from it?
bool Bracer::anchored(std::size_t mark) const {
  if (!draft_.posts[marks_[mark].post].post.gate.empty()) return true;
  return (mark > 0 && braced(mark, false)) || (mark + 1 < marks_.size() && braced(mark, true));
}

// Moves a station out of a no-dig zone, to the nearer edge within the bounds.
bool Bracer::allowed(Length& station, Length low, Length high) const {
  const Blocked* zone = blocked_at(blocked_, station);
  if (zone == nullptr) return true;
  const bool back = zone->from >= low, ahead = zone->to <= high;
  if (!back && !ahead) return false;
  const bool nearer_back = station - zone->from <= zone->to - station;
  station = back && (nearer_back || !ahead) ? zone->from : zone->to;
  return true;
}

int Bracer::brace_post(Length station) { return add_post(draft_, PostKind::brace, leg_, station, size_); }

void Bracer::become_brace(int post) {
  DraftPost& drafted = draft_.posts[post];
  if (drafted.node >= 0 || drafted.post.kind != PostKind::fixed) return;
  drafted.post.kind = PostKind::brace;
  if (!drafted.post.set) strengthen(drafted, size_);
}

void Bracer::name_misfit(Length station, Length room) const {
  draft_.findings.push_back({"setout.brace_does_not_fit",
                             Severity::warning,
                             draft_.job.site.legs[leg_].id,
                             {{"station", value_of(station)}, {"room", value_of(room)}, {"bay", value_of(bay_)}}});
}

void Bracer::brace_stretch(std::size_t mark, std::vector<Mark>& out) {
  Mark here = marks_[mark];
  const Mark& next = marks_[mark + 1];
  const bool left = braced(mark, true), right = braced(mark + 1, false);
  const std::int64_t ends = (left ? 1 : 0) + (right ? 1 : 0);
  const Length room = next.station - here.station;
  std::int64_t bays = 0;  // 0: bays of the usual pitch
  Length pitch = bay_;
  const Length usual = bay_ + set_tolerance(draft_, here, next);
  if (room < bay_ * ends + kLeastRest) {
    bays = std::max<std::int64_t>(1, (room.nm() + usual.nm() - 1) / usual.nm());
    pitch = room / bays;
  }
  Length first = here.station + pitch, last = next.station - pitch;
  const Length low = here.station + kLeastBay, high = next.station - kLeastBay;
  const bool fits = ends > 0 && pitch >= kLeastBay &&
                    (bays == 1 || ((!left || allowed(first, low, here.station + bay_)) && (!right || allowed(last, next.station - bay_, high))));
  if (ends > 0 && !fits) name_misfit(here.station, room);
  if (!fits) {
    out.push_back(here);
    return;
  }
  if (bays == 1) {
    here.after = Between::brace;
    out.push_back(here);
    if (left) become_brace(next.post);
    if (right) become_brace(here.post);
    return;
  }
  if (left) here.after = Between::brace;
  out.push_back(here);
  if (left && right && bays == 2) {
    out.push_back({first, brace_post(first), Between::brace, -1});
    return;
  }
  if (left) out.push_back({first, brace_post(first), Between::fence, -1});
  if (right) out.push_back({last, brace_post(last), Between::brace, -1});
}

void Bracer::brace_ends() {
  if (bay_ < kLeastBay) return name_misfit(Length(), bay_);
  std::vector<Mark> out;
  for (std::size_t m = 0; m < marks_.size(); ++m) {
    if (m + 1 < marks_.size() && marks_[m].after == Between::fence)
      brace_stretch(m, out);
    else
      out.push_back(marks_[m]);
  }
  marks_ = std::move(out);
}

// Stations of line braces between two anchors (or leg ends), with what neighbouring legs carry over.
std::vector<Length> Bracer::line_places(std::size_t first, std::size_t last) {
  const Length every = fence_.braces.every;
  const Length from = marks_[first].station, to = marks_[last].station;
  const int from_node = draft_.posts[marks_[first].post].node, to_node = draft_.posts[marks_[last].post].node;
  Carry before{true, Length()}, after{true, Length()};
  if (!anchored(first) && from_node >= 0 && carry_[from_node].known) before = carry_[from_node];
  if (!anchored(last)) after = to_node >= 0 ? carry_[to_node] : Carry{};
  const Length total = before.distance + (to - from) + after.distance;
  const std::int64_t whole = total.nm() / every.nm();
  const std::int64_t count = after.known ? (total.nm() - 1) / every.nm() : whole;
  std::vector<Length> places;
  if (count > kMostLineBraces) {
    draft_.findings.push_back({"setout.too_many_posts", Severity::stop, draft_.job.site.legs[leg_].id, {{"most", kMostLineBraces}}});
    return places;
  }
  for (std::int64_t k = 1; k <= count; ++k) {
    const Length step = after.known ? Length::from_nm(total.nm() / (count + 1)) : every;
    places.push_back(measure::max(from, from - before.distance + step * k));
  }
  if (!anchored(first) && from_node >= 0 && !carry_[from_node].known) {
    carry_[from_node] = {true, places.empty() ? to - from : places.front() - from};
  }
  if (!after.known && to_node >= 0) carry_[to_node] = {true, places.empty() ? total : to - places.back()};
  return places;
}

// Two posts a brace bay apart about a place, moved as little as keeps them within the bounds and out of no-dig zones.
bool Bracer::pair_about(Length middle, Length low, Length high, Length& left, Length& right) const {
  left = measure::min(measure::max(middle - bay_ / 2, low), high - bay_);
  if (left < low) return false;
  if (!allowed(left, low, high - bay_)) return false;
  right = left + bay_;
  return allowed(right, left + kLeastBay, measure::min(high, left + bay_));
}

void Bracer::line_stretch(std::size_t mark, const std::vector<Length>& places, std::vector<Mark>& out) {
  Mark here = marks_[mark];
  const Mark& next = marks_[mark + 1];
  const Length room = next.station - here.station;
  if (!places.empty() && room <= bay_ + set_tolerance(draft_, here, next) && room >= kLeastBay) {
    here.after = Between::brace;
    become_brace(here.post);
    become_brace(next.post);
    out.push_back(here);
    return;
  }
  out.push_back(here);
  Length low = here.station + kLeastRest;
  for (const Length middle : places) {
    Length left, right;
    if (!pair_about(middle, low, next.station - kLeastRest, left, right)) {
      name_misfit(middle, room);
      continue;
    }
    out.push_back({left, brace_post(left), Between::brace, -1});
    out.push_back({right, brace_post(right), Between::fence, -1});
    low = right + kLeastRest;
  }
}

void Bracer::brace_line() {
  if (fence_.braces.every <= Length() || bay_ < kLeastBay || marks_.size() < 2) return;
  std::vector<Length> places;
  for (std::size_t first = 0, last = 1; last < marks_.size(); ++last) {
    if (!anchored(last) && last + 1 < marks_.size()) continue;
    if (!(last == first + 1 && marks_[first].after != Between::fence)) {
      const auto more = line_places(first, last);
      places.insert(places.end(), more.begin(), more.end());
    }
    first = last;
  }
  std::vector<Mark> out;
  std::size_t next = 0;
  for (std::size_t m = 0; m < marks_.size(); ++m) {
    std::vector<Length> here;
    while (m + 1 < marks_.size() && next < places.size() && places[next] < marks_[m + 1].station) here.push_back(places[next++]);
    if (m + 1 < marks_.size() && marks_[m].after == Between::fence)
      line_stretch(m, here, out);
    else
      out.push_back(marks_[m]);
  }
  marks_ = std::move(out);
}

}  // namespace

void place_braces(Draft& draft) {
  std::vector<Carry> carry(draft.network.nodes.size());
  for (std::size_t l = 0; l < draft.marks.size(); ++l) {
    if (!draft.network.legs[l].sound || !is_pulled(fence_of_leg(draft, static_cast<int>(l)))) continue;
    Bracer bracer(draft, carry, static_cast<int>(l));
    bracer.brace_ends();
    bracer.brace_line();
  }
}

}  // namespace railwright::setout
