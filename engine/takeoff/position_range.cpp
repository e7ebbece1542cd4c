// SPDX-License-Identifier: MIT
#include "engine/takeoff/position_range.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

namespace railwright::takeoff {
namespace {

using measure::Vec2;

constexpr int kFences = 1000;
constexpr std::size_t kRank = 950;  // of a thousand differences in order: 19 of 20 are no greater

// Sums of twelve numbers from 0 to 1, less six: as good as normal up to three sigma, and the same in every build.
class Normal {
 public:
  double next() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }

 private:
  // D. Knuth's multiplier (MMIX); the upper bits alone are used.
  double uniform() {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<double>(state_ >> 11) / 9007199254740992.0;
  }
  std::uint64_t state_ = 20;
};

struct Corner {
  Vec2 at;
  double sigma = 0;
};
struct Span {
  std::size_t leg = 0;
  double length = 0, share = 0, cap = 0;
  int rails = 0;
};  // a run that gives way
struct Ends {
  std::size_t from = 0, to = 0;
  bool sound = false;
};

// What one fence takes more than the planned one.
struct More {
  double fence = 0, pipe = 0, rails = 0, bays = 0;
};

class Simulation {
 public:
  Simulation(const Input& in, const Takeoff& takeoff, const std::vector<Length>& caps) : in_(in), takeoff_(takeoff) {
    take_corners();
    take_spans(caps);
    count_posts();
  }

  bool idle() const { return spans_.empty() || squares_ <= 0; }

  PositionRange run() {
    Normal normal;
    std::vector<double> fence, pipe, rails, bays, price;
    for (int i = 0; i < kFences; ++i) {
      const More more = one(normal);
      fence.push_back(std::abs(more.fence));
      pipe.push_back(std::abs(more.pipe));
      rails.push_back(std::abs(more.rails));
      bays.push_back(std::abs(more.bays));
      price.push_back(std::abs(price_of(more)));
    }
    PositionRange range;
    range.accuracy = shown(std::sqrt(squares_ / static_cast<double>(corners_.size())));
    range.fence = shown(ranked(fence));
    range.pipe = shown(ranked(pipe));
    range.rails = static_cast<std::int64_t>(std::llround(ranked(rails)));
    range.posts = range.bays = static_cast<std::int64_t>(std::llround(ranked(bays)));
    range.price = Money::from_units(static_cast<std::int64_t>(std::llround(ranked(price) * Money::kUnits))).round_to_cents();
    return range;
  }

 private:
  static Length shown(double metres) { return Length::from_metres(metres).round_to(Length::mm(10)); }

  static double ranked(std::vector<double>& values) {
    std::sort(values.begin(), values.end());
    return values[kRank - 1];
  }

  void take_corners() {
    std::set<std::string> set;
    for (const setout::Post& post : in_.layout.posts) {
      if (post.set) set.insert(post.name);
    }
    std::map<std::string, std::size_t> index;
    for (const job::Point& point : in_.job.site.points) {
      index.emplace(point.id, corners_.size());
      const Length sigma = set.count(point.id) != 0 ? Length() : point.accuracy.value_or(in_.job.site.position_accuracy);
      corners_.push_back({measure::in_metres(point.east, point.north), sigma.metres()});
      squares_ += sigma.metres() * sigma.metres();
    }
    for (const job::Leg& leg : in_.job.site.legs) {
      const auto from = index.find(leg.from), to = index.find(leg.to);
      const bool sound = from != index.end() && to != index.end();
      ends_.push_back({sound ? from->second : 0, sound ? to->second : 0, sound});
    }
  }

  bool gives_way(const setout::Run& run) const {
    const auto first = in_.layout.bays.begin() + run.first_bay;
    return std::any_of(first, first + run.bay_count, [](const setout::Bay& bay) { return bay.kind == setout::BayKind::fence; });
  }

  void take_spans(const std::vector<Length>& caps) {
    std::vector<double> lengths(ends_.size(), 0.0);
    for (const setout::Run& run : in_.layout.runs) {
      const auto leg = static_cast<std::size_t>(run.leg), fence = static_cast<std::size_t>(run.fence);
      if (leg >= ends_.size() || fence >= caps.size() || caps[fence].nm() <= 0 || !gives_way(run)) continue;
      const double length = (run.end - run.start).metres();
      lengths[leg] += length;
      spans_.push_back({leg, length, 0, caps[fence].metres(), in_.job.choices.fences[fence].rails});
    }
    for (Span& span : spans_) span.share = lengths[span.leg] > 0 ? span.length / lengths[span.leg] : 0;
  }

  void count_posts() {
    double pipe = 0, line = 0;
    int lines = 0;
    for (std::size_t i = 0; i < takeoff_.posts.size() && i < in_.layout.posts.size(); ++i) {
      pipe += takeoff_.posts[i].length.metres();
      if (in_.layout.posts[i].kind != setout::PostKind::line) continue;
      line += takeoff_.posts[i].length.metres();
      ++lines;
    }
    if (lines > 0) post_length_ = line / lines;
    for (const fittings::Rail& rail : in_.assembly.rails) pipe += rail.length.metres();
    pipe_length_ = pipe;
    for (const setout::Bay& bay : in_.layout.bays) {
      if (bay.kind == setout::BayKind::gate) continue;
      fence_length_ += bay.pitch.metres();
      ++bay_count_;
    }
  }

  static double bays_of(double length, double cap) { return std::max(1.0, std::ceil(measure::on_grid(length) / cap - 1e-9)); }

  More one(Normal& normal) {
    std::vector<Vec2> moved;
    for (const Corner& corner : corners_) {
      const double east = normal.next(), north = normal.next();
      moved.push_back(corner.at + Vec2{east, north} * corner.sigma);
    }
    std::vector<double> longer(ends_.size(), 0.0);
    for (std::size_t i = 0; i < ends_.size(); ++i) {
      const Ends& e = ends_[i];
      if (e.sound) longer[i] = measure::distance(moved[e.from], moved[e.to]) - measure::distance(corners_[e.from].at, corners_[e.to].at);
    }
    More more;
    for (const Span& span : spans_) {
      const double change = std::max(longer[span.leg] * span.share, 0.1 * span.cap - span.length);
      const double bays = bays_of(span.length + change, span.cap) - bays_of(span.length, span.cap);
      more.fence += change;
      more.bays += bays;
      more.rails += bays * span.rails;
      more.pipe += change * span.rails + bays * post_length_;
    }
    return more;
  }

  double price_of(const More& more) const {
    const Price& price = takeoff_.price;
    const double base = (price.materials + price.labour).value();
    if (base <= 0 || bay_count_ == 0 || pipe_length_ <= 0 || fence_length_ <= 0) return 0;
    double by_pipe = 0, by_length = 0, by_bay = price.labour.value();
    for (const OrderLine& line : takeoff_.orders) {
      if (line.group == "pipe")
        by_pipe += line.amount.value();
      else if (line.group == "infill" || line.group == "wire")
        by_length += line.amount.value();
      else if (line.group != "gates" && line.group != "braces")
        by_bay += line.amount.value();
    }
    const double change = by_pipe * more.pipe / pipe_length_ + by_length * more.fence / fence_length_ + by_bay * more.bays / bay_count_;
    return change * price.total.value() / base;
  }

  const Input& in_;
  const Takeoff& takeoff_;
  std::vector<Corner> corners_;
  std::vector<Ends> ends_;
  std::vector<Span> spans_;
  double squares_ = 0;  // sum of the squares of the accuracies
  double post_length_ = 0, pipe_length_ = 0, fence_length_ = 0;
  int bay_count_ = 0;
};

}  // namespace

std::optional<PositionRange> position_range(const Input& in, const Takeoff& takeoff, const std::vector<Length>& pitch_caps) {
  Simulation simulation(in, takeoff, pitch_caps);
  if (simulation.idle()) return std::nullopt;
  return simulation.run();
}

}  // namespace railwright::takeoff
