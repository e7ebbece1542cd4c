// SPDX-License-Identifier: MIT
#include "engine/spacing/steps.h"

#include <algorithm>

#include "engine/fittings/meetings.h"
#include "engine/fittings/post_parts.h"
#include "engine/grade/chains.h"

namespace railwright::spacing {
namespace {

using grade::Span;
using job::Fitting;

const Length kRailRounding = Length::from_nm(1000);  // to which the length of a rail that rises is rounded

void keep_shorter(std::vector<Length>& least, const std::vector<Length>& other) {
  // Sorted, the nth shortest of all ways is no longer than the nth shortest of any.
  for (std::size_t i = 0; i < least.size(); ++i) least[i] = measure::min(least[i], other[i]);
}

}  // namespace

// A run along its chain.
struct Steps::Place {
  bool reversed = false;
  std::vector<int> bays, posts;  // one post fewer than bays: those between
  std::vector<Span> spans;       // of the ground, by bay
  grade::Section section;
  double allowance = 0;
  Length end_off[2];  // most that a part takes off at the run's first and last post
};

// The parts of one rail end, or of two at one height, at a line post. Of covers that cost the same whichever takes most off and stands lowest.
struct Steps::Fit {
  bool possible = false;
  Money cost;
  Length off[2];  // from the rails of the bay before the post and of the bay after it
  Length top;     // of the highest band over the rails' centre, at least
};

// The same at every post of the run.
struct Steps::Parts {
  Fit before, after, both;  // of a rail of the bay before the post alone, of the bay after it, of the two at one height
};

// The top rail's centre in one bay, above the datum: of a level that comes in, the least and the most it may be.
struct Steps::Held {
  Length least, most;
  bool step = false;  // a level begins with the bay
};

// All the rail ends at one post.
struct Steps::Meet {
  Money fittings;
  std::vector<Length> off_before, off_after;  // by rail, of the bays before and after the post
  Length top;                                 // of the highest band above the datum, at least
};

Steps::Fit Steps::fit_of(Length post_diameter, const std::vector<fittings::Direction>& directions, const std::vector<int>& side) const {
  const fittings::Cover cover = fittings::cheapest_cover(site_.catalogue, post_diameter, directions);
  Fit fit;
  fit.possible = cover.possible && !cover.parts.empty();
  fit.top = Length::from_nm(Length::kLargestNm);
  for (const fittings::Part& part : cover.parts) {
    const Fitting& fitting = site_.catalogue.fittings[static_cast<std::size_t>(part.fitting)];
    fit.cost += tariff_.fitting(part.fitting);
    fit.off[side[static_cast<std::size_t>(part.first)]] = fitting.take_off;
    if (part.second >= 0) fit.off[side[static_cast<std::size_t>(part.second)]] = fitting.take_off;
    fit.top = measure::min(fit.top, fitting.band_height / 2);
  }
  return fit;
}

// The best of each.
Steps::Fit Steps::either(const Fit& a, const Fit& b) {
  return {a.possible && b.possible, std::min(a.cost, b.cost), {measure::max(a.off[0], b.off[0]), measure::max(a.off[1], b.off[1])}, measure::min(a.top, b.top)};
}

Steps::Steps(const Site& site, const Tariff& tariff, const Trial& trial, std::vector<char> may_stop)
    : site_(site), tariff_(tariff), trial_(trial), may_stop_(std::move(may_stop)), ways_(trial.layout.runs.size()) {
  const setout::Layout& layout = trial.layout;
  for (const grade::Chain& chain : grade::chains_of(layout)) {
    if (site.job.choices.fences[static_cast<std::size_t>(chain.fence)].line != job::RailLine::level) continue;
    for (std::size_t i = 0; i < chain.bays.size(); ++i) {
      const int run = layout.bays[static_cast<std::size_t>(chain.bays[i].bay)].run;
      const bool begins = i == 0 || layout.bays[static_cast<std::size_t>(chain.bays[i - 1].bay)].run != run;
      if (run >= 0 && begins) add_ways(static_cast<std::size_t>(run), chain.bays[i].reversed, i == 0);
    }
  }
}

bool Steps::plain_run(const setout::Run& run) const {
  const job::Job& job = site_.job;
  const setout::Layout& layout = trial_.layout;
  const job::Fence& fence = job.choices.fences[static_cast<std::size_t>(run.fence)];
  const bool built = !job.field.done.empty() || !job.field.gaps.empty() || !job.field.cut.empty() || !job.choices.mends.empty();
  const bool railed = fence.kind != job::FenceKind::wire && fence.rails > 0;
  if (built || !railed || job.site.legs[static_cast<std::size_t>(run.leg)].arc) return false;
  const auto& heights = trial_.heights.bays;
  for (int b = run.first_bay; b < run.first_bay + run.bay_count; ++b) {
    const auto at = static_cast<std::size_t>(b);
    if (layout.bays[at].kind != setout::BayKind::fence || heights[at].has_brace_rail) return false;
    if (heights[at].rails.size() != heights[static_cast<std::size_t>(run.first_bay)].rails.size()) return false;
  }
  const auto post_of = [&](int b) -> const setout::Post& { return layout.posts[static_cast<std::size_t>(layout.bays[static_cast<std::size_t>(b)].to)]; };
  for (int b = run.first_bay; b + 1 < run.first_bay + run.bay_count; ++b) {
    const setout::Post &post = post_of(b), &first = post_of(run.first_bay);
    if (post.set || post.on.size() != 1 || post.pipe != first.pipe || post.diameter != first.diameter || post.fence != run.fence) return false;
  }
  return true;
}

// The most that any part takes off a rail of this diameter at the post.
Length Steps::most_off(int post, Length rail_diameter) const {
  const Length diameter = trial_.layout.posts[static_cast<std::size_t>(post)].diameter;
  Length most;
  for (const Fitting& fitting : site_.catalogue.fittings) {
    const bool fits = (fitting.post_diameter == Length() || fitting.post_diameter == diameter) &&
                      (fitting.rail_diameter == Length() || fitting.rail_diameter == rail_diameter);
    if (fits) most = measure::max(most, fitting.take_off);
  }
  return most;
}

Steps::Place Steps::place_of(const setout::Run& run, bool reversed) const {
  const setout::Layout& layout = trial_.layout;
  Place place;
  place.reversed = reversed;
  place.section = grade::section_of(site_.job.choices.fences[static_cast<std::size_t>(run.fence)], site_.catalogue);
  place.allowance = grade::level_allowance(place.section);
  for (int b = run.first_bay; b < run.first_bay + run.bay_count; ++b) place.bays.push_back(b);
  if (reversed) std::reverse(place.bays.begin(), place.bays.end());
  for (const int b : place.bays) {
    const setout::Bay& bay = layout.bays[static_cast<std::size_t>(b)];
    place.spans.push_back(grade::ground_span(layout, bay, {}));
    if (b != place.bays.back()) place.posts.push_back(reversed ? bay.from : bay.to);
  }
  place.end_off[reversed ? 1 : 0] = most_off(run.from, place.section.rail_diameter);
  place.end_off[reversed ? 0 : 1] = most_off(run.to, place.section.rail_diameter);
  return place;
}

// What comes in reaches over bays whose ground a level can serve; where a chain begins nothing does.
void Steps::add_ways(std::size_t r, bool reversed, bool opens_chain) {
  const setout::Run& run = trial_.layout.runs[r];
  if (may_stop_[r] != 0 || !plain_run(run)) return;
  const Place place = place_of(run, reversed);
  const std::optional<Parts> parts = parts_of(place);
  if (!parts) return;
  Span over = place.spans.front();
  for (std::size_t entry = 0; entry <= place.bays.size(); ++entry) {
    if (entry > 0) over = over.with(place.spans[entry - 1]);
    if (entry > 0 && (opens_chain || over.high - over.low > place.allowance)) break;
    ways_[r].push_back(way(place, *parts, entry));
  }
}

// None: a part is missing, or rails are so near each other that their bands are not apart.
std::optional<Steps::Parts> Steps::parts_of(const Place& place) const {
  const std::vector<Length>& centres = place.section.centres;
  for (std::size_t k = 1; k < centres.size(); ++k) {
    if (centres[k - 1] - centres[k] <= 2 * fittings::kOneLevel) return std::nullopt;
  }
  Parts parts;
  if (place.posts.empty()) return parts;
  const setout::Vec2 along = trial_.layout.legs[static_cast<std::size_t>(trial_.layout.bays[static_cast<std::size_t>(place.bays.front())].leg)].along;
  const setout::Vec2 back{-along.x, -along.y};
  fittings::Direction before{back, place.section.rail_diameter, 0}, after{along, place.section.rail_diameter, 0};
  if (place.reversed) std::swap(before, after);
  const Length post = trial_.layout.posts[static_cast<std::size_t>(place.posts.front())].diameter;
  parts.before = fit_of(post, {before}, {0});
  parts.after = fit_of(post, {after}, {1});
  parts.both = either(fit_of(post, {before, after}, {0, 1}), fit_of(post, {after, before}, {1, 0}));
  if (!parts.before.possible || !parts.after.possible || !parts.both.possible) return std::nullopt;
  return parts;
}

// The run with a level from before over its first `entry` bays.
std::vector<Steps::Held> Steps::levels(const Place& place, std::size_t entry) const {
  const Length centre = place.section.centres.front();
  std::vector<Held> held;
  if (entry > 0) {
    Span over = place.spans.front();
    for (std::size_t i = 1; i < entry; ++i) over = over.with(place.spans[i]);
    held.resize(entry, {Length::from_metres(over.high) + centre, Length::from_metres(over.low + place.allowance) + centre + kRailRounding, false});
  }
  while (held.size() < place.bays.size()) {
    const std::size_t first = held.size();
    const grade::Level level = grade::level_from(place.spans, first, place.allowance);
    const Length height = Length::from_metres(level.span.high) + centre;
    // The level of the last bay may go on into the next run and lie higher for its ground.
    const bool goes_on = level.end == place.bays.size();
    const Length most = goes_on ? Length::from_metres(level.span.low + place.allowance) + centre + kRailRounding : height;
    held.resize(level.end, {height, measure::max(height, most), false});
    held[first].step = true;
  }
  return held;
}

// At a post inside a level: every rail meets the one beyond.
Steps::Meet Steps::inside_level(const Place& place, const Parts& parts, const Held& level) {
  const std::size_t rails = place.section.centres.size();
  return {parts.both.cost * static_cast<std::int64_t>(rails), std::vector<Length>(rails, parts.both.off[0]), std::vector<Length>(rails, parts.both.off[1]),
          level.least + parts.both.top};
}

// At a step: rails within a quarter of an inch of one beyond may share its part, and do where both heights are known.
Steps::Meet Steps::at_step(const Place& place, const Parts& parts, const Held& before, const Held& after) {
  const std::vector<Length>& centres = place.section.centres;
  const std::size_t rails = centres.size();
  const bool known = before.least == before.most && after.least == after.most;
  const auto off = [&](Length alone, Length both) { return known ? both : measure::max(alone, both); };
  // Whether the rails this much apart on the two sides may lie at one height.
  const auto may_meet = [&](Length apart) {
    return before.least - after.most <= apart + fittings::kOneLevel && after.least - before.most <= fittings::kOneLevel - apart;
  };
  Meet meet{{}, std::vector<Length>(rails, parts.before.off[0]), std::vector<Length>(rails, parts.after.off[1]), {}};
  std::size_t pairs = 0;
  for (std::size_t a = 0; a < rails; ++a) {
    for (std::size_t b = 0; b < rails; ++b) {
      if (!may_meet(centres[b] - centres[a])) continue;
      pairs = std::min(pairs + 1, rails);
      meet.off_before[a] = off(parts.before.off[0], parts.both.off[0]);
      meet.off_after[b] = off(parts.after.off[1], parts.both.off[1]);
    }
  }
  const Money alone = parts.before.cost + parts.after.cost, together = known ? parts.both.cost : std::min(alone, parts.both.cost);
  meet.fittings = alone * static_cast<std::int64_t>(rails - pairs) + together * static_cast<std::int64_t>(pairs);
  const Length upper = measure::max(before.least, after.least);
  meet.top = upper + measure::min(parts.before.top, parts.after.top);
  if (may_meet(Length())) meet.top = measure::min(meet.top, upper - fittings::kOneLevel + parts.both.top);
  return meet;
}

Length Steps::post_length(int index, Length top) const {
  const auto post = static_cast<std::size_t>(index);
  const job::Choices& choices = site_.job.choices;
  const Length above_ground = measure::max(Length(), top - Length::from_metres(trial_.layout.posts[post].ground)) + choices.projection;
  return (trial_.posts[post].embedment + above_ground + choices.trim).round_up_to(choices.cutting.saw_step);
}

Length Steps::rail_length(int bay, Length off) const {
  const Length length = trial_.layout.bays[static_cast<std::size_t>(bay)].gap - off - kRailRounding;
  return measure::max(Length(), length.round_down_to(site_.job.choices.cutting.saw_step));
}

StepWay Steps::way(const Place& place, const Parts& parts, std::size_t entry) const {
  const std::size_t bays = place.bays.size(), rails = place.section.centres.size();
  const std::vector<Held> held = levels(place, entry);
  StepWay way;
  std::vector<Length> off(rails, place.end_off[0]);  // at the bay's first post
  for (std::size_t i = 0; i < bays; ++i) {
    Meet meet{{}, std::vector<Length>(rails, place.end_off[1]), {}, {}};
    if (i + 1 < bays) {
      meet = held[i + 1].step ? at_step(place, parts, held[i], held[i + 1]) : inside_level(place, parts, held[i]);
      way.fittings += meet.fittings;
      way.posts.push_back(post_length(place.posts[i], meet.top));
    }
    for (std::size_t k = 0; k < rails; ++k) way.rails.push_back(rail_length(place.bays[i], off[k] + meet.off_before[k]));
    off = std::move(meet.off_after);
  }
  std::sort(way.posts.begin(), way.posts.end());
  std::sort(way.rails.begin(), way.rails.end());
  return way;
}

StepWay least_of(const std::vector<StepWay>& ways) {
  StepWay least = ways.front();
  for (const StepWay& way : ways) {
    least.fittings = std::min(least.fittings, way.fittings);
    keep_shorter(least.posts, way.posts);
    keep_shorter(least.rails, way.rails);
  }
  return least;
}

}  // namespace railwright::spacing
