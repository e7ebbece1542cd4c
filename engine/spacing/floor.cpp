// SPDX-License-Identifier: MIT
#include "engine/spacing/floor.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/fittings/cover.h"
#include "engine/fittings/meetings.h"
#include "engine/grade/levels.h"
#include "engine/grade/section.h"

namespace railwright::spacing {
namespace {

using job::Fitting;
using job::FittingKind;

// Heights come back from doubles: a nanometre or two either way.
constexpr Length kRounding = Length::from_nm(4);
const Length kMicrometre = Length::from_nm(1000);

bool fits(Length of_part, Length diameter) { return of_part == Length() || of_part == diameter; }

bool railed(const job::Fence& fence) { return fence.kind != job::FenceKind::wire && fence.rails > 0; }

// A rail with these parts at its ends and at least this rise, before the saw's step. Fittings::rail_length rounds to the micrometre.
Length least_length(Length gap, Length rise, const Fitting& f, const Fitting& g) {
  const Length level = gap - f.take_off - g.take_off;
  const Length sloped = fittings::rail_length(gap, rise, f.take_off, f.bolt_offset, g.take_off, g.bolt_offset);
  return measure::min(level, sloped) - kRounding - kMicrometre;
}

}  // namespace

Floor::Floor(const Site& site, const Tariff& tariff, const Trial& trial, const Owners& owners, std::vector<char> may_stop)
    : site_(site), tariff_(tariff), trial_(trial), owners_(owners), may_stop_(std::move(may_stop)), bays_at_(trial.layout.posts.size()) {
  for (std::size_t b = 0; b < trial.layout.bays.size(); ++b) {
    const setout::Bay& bay = trial.layout.bays[b];
    if (bay.kind == setout::BayKind::gate) continue;
    bays_at_[static_cast<std::size_t>(bay.from)].push_back(static_cast<int>(b));
    bays_at_[static_cast<std::size_t>(bay.to)].push_back(static_cast<int>(b));
  }
  find_loose_legs();
}

// Legs on which something is built whose name was never issued.
void Floor::find_loose_legs() {
  const job::Job& job = site_.job;
  std::set<std::string> built(job.field.done.begin(), job.field.done.end());
  for (const job::MeasuredGap& gap : job.field.gaps) built.insert(gap.bay);
  for (const job::CutRail& cut : job.field.cut) built.insert(cut.rail.substr(0, cut.rail.find('/')));
  for (const job::IssuedPost& post : job.issued.posts) built.erase(post.name);
  for (const job::IssuedBay& bay : job.issued.bays) built.erase(bay.name);
  for (const job::Point& point : job.site.points) built.erase(point.id);
  for (const job::Leg& leg : job.site.legs) {
    const auto named = [&](const std::string& name) { return name.compare(0, leg.id.size(), leg.id) == 0; };
    loose_leg_.push_back(std::any_of(built.begin(), built.end(), named) ? 1 : 0);
  }
}

bool Floor::shared(int post) const { return owners_.post[static_cast<std::size_t>(post)] >= trial_.layout.runs.size(); }

bool Floor::loose_post(int post) const {
  const std::vector<setout::OnLeg>& on = trial_.layout.posts[static_cast<std::size_t>(post)].on;
  const bool own = owners_.post[static_cast<std::size_t>(post)] < trial_.layout.runs.size();
  return own && std::any_of(on.begin(), on.end(), [&](const setout::OnLeg& at) { return loose_leg_[static_cast<std::size_t>(at.leg)] != 0; });
}

const job::Fence& Floor::fence_of_bay(int bay) const {
  return site_.job.choices.fences[static_cast<std::size_t>(trial_.layout.bays[static_cast<std::size_t>(bay)].fence)];
}

Length Floor::rail_diameter(int bay) const {
  const job::Pipe* pipe = site_.catalogue.pipe(fittings::rail_pipe_of(fence_of_bay(bay)));
  return pipe == nullptr ? Length() : pipe->diameter;
}

// A line post of a run whose rails follow the ground.
bool Floor::exact_post(int post) const {
  const auto p = static_cast<std::size_t>(post);
  if (owners_.post[p] >= trial_.layout.runs.size()) return false;
  const auto& fences = site_.job.choices.fences;
  return fences[static_cast<std::size_t>(trial_.layout.runs[owners_.post[p]].fence)].line == job::RailLine::follow;
}

bool Floor::exact_bay(int bay) const {
  const setout::Bay& b = trial_.layout.bays[static_cast<std::size_t>(bay)];
  return exact_post(b.from) && exact_post(b.to);
}

std::vector<const Fitting*> Floor::candidates(Length post_diameter, Length rail_diameter) const {
  std::vector<const Fitting*> found;
  for (const Fitting& fitting : site_.catalogue.fittings) {
    if (fits(fitting.post_diameter, post_diameter) && fits(fitting.rail_diameter, rail_diameter)) found.push_back(&fitting);
  }
  return found;
}

// A rail end that a single part fits is always served; one that none fits costs nothing and takes nothing off.
bool Floor::served(Length post_diameter, Length rail_diameter) const {
  const auto found = candidates(post_diameter, rail_diameter);
  return std::any_of(found.begin(), found.end(), [](const Fitting* f) { return f->kind == FittingKind::end; });
}

// No stack of bands moves a rail's end further: ten rails at one level, each band as thick as the thickest.
Length Floor::stack_room() const {
  Length thickest;
  for (const Fitting& fitting : site_.catalogue.fittings) thickest = measure::max(thickest, measure::max(fitting.band_height, fitting.sleeve_diameter));
  for (const job::Pipe& pipe : site_.catalogue.pipes) thickest = measure::max(thickest, pipe.diameter);
  return thickest * 10;
}

// Smooth lines keep within the tolerance at every post; a stack of bands may shift an end only at shared posts.
Length Floor::least_rise(int bay) const {
  const setout::Bay& b = trial_.layout.bays[static_cast<std::size_t>(bay)];
  const auto runs = trial_.layout.runs.size();
  const bool inside = owners_.post[static_cast<std::size_t>(b.from)] < runs && owners_.post[static_cast<std::size_t>(b.to)] < runs;
  const job::Fence& fence = fence_of_bay(bay);
  if (!inside || fence.line != job::RailLine::smooth) return {};
  const auto& posts = trial_.layout.posts;
  const double ground = posts[static_cast<std::size_t>(b.to)].ground - posts[static_cast<std::size_t>(b.from)].ground;
  return measure::max(Length(), Length::from_metres(std::abs(ground)) - 2 * fence.line_tolerance - kRounding);
}

bool Floor::uncertain(const fittings::Rail& rail) const { return !exact_bay(rail.bay) && rail.number > fence_of_bay(rail.bay).rails; }

Length Floor::rail(const fittings::Rail& rail, Length longest) const {
  if (exact_bay(rail.bay)) return rail.cut;
  if (uncertain(rail)) return {};
  const setout::Bay& bay = trial_.layout.bays[static_cast<std::size_t>(rail.bay)];
  const auto& posts = trial_.layout.posts;
  const job::Fence& fence = fence_of_bay(rail.bay);
  const double ground = std::abs(posts[static_cast<std::size_t>(bay.to)].ground - posts[static_cast<std::size_t>(bay.from)].ground);
  const Length rise = Length::from_metres(ground) + 2 * fence.line_tolerance + 2 * stack_room();
  const bool too_long = bay.gap + rise > longest && rail.cut > Length();
  if (too_long && may_stop_[owners_.bay[static_cast<std::size_t>(rail.bay)]] != 0) return {};
  // A gap taped along the slope gives no rail shorter than the level one with the same reading.
  Length gap = rail.gap;
  const auto& readings = trial_.built.readings;
  const auto b = static_cast<std::size_t>(rail.bay), k = static_cast<std::size_t>(std::max(0, rail.number - 1));
  const bool read = rail.measured && b < readings.size() && k < readings[b].size();
  if (read && readings[b][k].way == job::GapWay::slope) gap = measure::min(gap, readings[b][k].gap);
  static const Fitting kNone;
  const Length diameter = rail_diameter(rail.bay);
  auto from = candidates(posts[static_cast<std::size_t>(bay.from)].diameter, diameter);
  auto to = candidates(posts[static_cast<std::size_t>(bay.to)].diameter, diameter);
  if (from.empty()) from.push_back(&kNone);
  if (to.empty()) to.push_back(&kNone);
  Length least = rail.length;
  const Length at_least = read ? Length() : least_rise(rail.bay);
  for (const Fitting* f : from) {
    for (const Fitting* g : to) least = measure::min(least, least_length(gap, at_least, *f, *g));
  }
  return measure::max(Length(), least.round_down_to(site_.job.choices.cutting.saw_step));
}

// How much higher than along the ground at the post, in metres, a bay's top rail is there at least: a level rail clears the highest ground of its bay, unless
// the bay is mended; a smooth one keeps within its tolerance. How far a bay reaches from a shared post is not known: its run may have another count.
double Floor::least_line(int index, int post) const {
  const job::Fence& fence = fence_of_bay(index);
  if (fence.line == job::RailLine::smooth) return -fence.line_tolerance.metres();
  if (fence.line == job::RailLine::follow || shared(post) || !site_.job.choices.mends.empty()) return 0;
  const setout::Bay& bay = trial_.layout.bays[static_cast<std::size_t>(index)];
  return grade::ground_span(trial_.layout, bay, {}).high - trial_.layout.posts[static_cast<std::size_t>(post)].ground;
}

// Level rails of two bays that can never lie at one height at the post between them, and so share no part. A level holds the highest ground of its bay and no
// more than the allowance over the lowest (grade/levels.h), unless the bay alone has more.
bool Floor::apart(int post, int one, int other) const {
  const auto& bays = trial_.layout.bays;
  const job::Fence& fence = fence_of_bay(one);
  const auto& heights = trial_.heights.bays;
  const bool brace = heights[static_cast<std::size_t>(one)].has_brace_rail || heights[static_cast<std::size_t>(other)].has_brace_rail;
  const bool alike = bays[static_cast<std::size_t>(one)].fence == bays[static_cast<std::size_t>(other)].fence;
  if (fence.line != job::RailLine::level || !alike || brace || shared(post) || !site_.job.choices.mends.empty()) return false;
  const grade::Section section = grade::section_of(fence, site_.catalogue);
  const double allowance = grade::level_allowance(section);
  double low[2], high[2];
  for (const int k : {0, 1}) {
    const grade::Span span = grade::ground_span(trial_.layout, bays[static_cast<std::size_t>(k == 0 ? one : other)], {});
    low[k] = span.high;
    high[k] = std::max(span.high, span.low + allowance);
  }
  constexpr double kNear = 0.008;  // a quarter of an inch shares a level (fittings), and a little more
  const double least = std::max({0.0, low[0] - high[1], low[1] - high[0]}), most = std::max(high[0] - low[1], high[1] - low[0]);
  for (const Length a : section.centres) {
    for (const Length b : section.centres) {
      const double between = std::abs((a - b).metres());
      if (between >= least - kNear && between <= most + kNear) return false;
    }
  }
  return true;
}

// The top edge of the highest band at a post, above the ground, at least.
Length Floor::least_top(int post) const {
  const setout::Post& p = trial_.layout.posts[static_cast<std::size_t>(post)];
  Length top;
  for (const int b : bays_at_[static_cast<std::size_t>(post)]) {
    const job::Fence& fence = fence_of_bay(b);
    if (!railed(fence) || !served(p.diameter, rail_diameter(b))) continue;
    const std::vector<Length> centres = grade::centre_heights(fence, rail_diameter(b));
    Length band = Length::from_nm(Length::kLargestNm);
    for (const Fitting* f : candidates(p.diameter, rail_diameter(b))) band = measure::min(band, f->band_height / 2);
    top = measure::max(top, centres.front() + Length::from_metres(least_line(b, post)) + band - kRounding);
  }
  return top;
}

Length Floor::post(int index, Length longest) const {
  const auto p = static_cast<std::size_t>(index);
  const setout::Post& post = trial_.layout.posts[p];
  const takeoff::PostSize& size = trial_.posts[p];
  if (exact_post(index)) return size.length;
  const job::Choices& choices = site_.job.choices;
  const job::Fence& fence = choices.fences[static_cast<std::size_t>(post.fence)];
  const bool level = std::any_of(bays_at_[p].begin(), bays_at_[p].end(), [&](int b) { return fence_of_bay(b).line == job::RailLine::level; });
  const Length most = size.length + 2 * fence.line_tolerance + stack_room();
  if (may_stop_[owners_.post[p]] != 0 && (level || most > longest)) return {};
  Length top = least_top(index);
  if (!railed(fence)) top = measure::max(top, fence.height);
  const Length least = (size.embedment + top + choices.projection + choices.trim).round_up_to(choices.cutting.saw_step);
  return measure::min(size.length, least);
}

std::vector<Floor::Arm> Floor::arms_of(int post, const std::vector<char>& bay_remains) const {
  std::vector<Arm> arms;
  for (const int b : bays_at_[static_cast<std::size_t>(post)]) {
    if (bay_remains[static_cast<std::size_t>(b)] == 0 || loose_bay(b)) continue;
    const setout::Bay& bay = trial_.layout.bays[static_cast<std::size_t>(b)];
    const grade::BayHeights& heights = trial_.heights.bays[static_cast<std::size_t>(b)];
    const auto hung = static_cast<std::int64_t>(heights.rails.size());
    const auto rails = std::min<std::int64_t>(hung, fence_of_bay(b).rails) + (heights.has_brace_rail ? 1 : 0);
    const measure::Vec2 along = trial_.layout.legs[static_cast<std::size_t>(bay.leg)].along;
    const measure::Vec2 away = bay.from == post ? along : measure::Vec2{-along.x, -along.y};
    const bool curved = site_.job.site.legs[static_cast<std::size_t>(bay.leg)].arc.has_value();
    if (rails > 0) arms.push_back({b, away, rail_diameter(b), rails, curved});
  }
  return arms;
}

// Weight of one rail end of each arm. With two arms the first takes what it can: the sum is what counts.
std::vector<Money> Floor::weights(int post, const std::vector<Arm>& arms) const {
  const Length post_diameter = trial_.layout.posts[static_cast<std::size_t>(post)].diameter;
  const Money nothing, much = Money::from_units(std::int64_t{1} << 52);
  const std::size_t n = arms.size();
  std::vector<Money> single(n, much), pair(n * n, much);
  for (std::size_t f = 0; f < site_.catalogue.fittings.size(); ++f) {
    const Fitting& fitting = site_.catalogue.fittings[f];
    if (!fits(fitting.post_diameter, post_diameter)) continue;
    const Money cost = tariff_.fitting(static_cast<int>(f));
    for (std::size_t i = 0; i < n; ++i) {
      if (!fits(fitting.rail_diameter, arms[i].rail_diameter)) continue;
      if (fitting.kind == FittingKind::end) single[i] = std::min(single[i], cost);
      for (std::size_t j = i; j < n && fitting.kind != FittingKind::end; ++j) {
        if (!fits(fitting.rail_diameter, arms[j].rail_diameter)) continue;
        if (i != j && apart(post, arms[i].bay, arms[j].bay)) continue;
        // On a curve the directions turn with the count of bays: any part may come to fit.
        const bool curved = arms[i].curved || arms[j].curved;
        const double miss = curved ? 0 : std::abs(fittings::angle_between_deg(arms[i].away, arms[j].away) - fitting.port_angle_deg);
        if (miss <= fitting.angle_tolerance_deg + 0.02) pair[i * n + j] = std::min(pair[i * n + j], cost);
      }
    }
  }
  std::vector<Money> weight(n);
  for (std::size_t i = 0; i < n; ++i) {
    weight[i] = single[i] == much ? nothing : std::min(single[i], Money::from_units(pair[i * n + i].units() / 2));
    for (std::size_t j = 0; j < n && n != 2; ++j) weight[i] = std::min(weight[i], Money::from_units(pair[std::min(i, j) * n + std::max(i, j)].units() / 2));
  }
  if (n == 2) weight[1] = std::max(nothing, std::min(weight[1], pair[1] - weight[0]));
  return weight;
}

Money Floor::fittings(int post, const std::vector<char>& bay_remains, Money whole) const {
  if (exact_post(post)) return whole;
  const std::vector<Arm> arms = arms_of(post, bay_remains);
  const std::vector<Money> weight = weights(post, arms);
  Money sum;
  for (std::size_t i = 0; i < arms.size(); ++i) sum += weight[i] * arms[i].ends;
  return std::min(sum, whole);
}

}  // namespace railwright::spacing
