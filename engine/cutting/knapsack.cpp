// SPDX-License-Identifier: MIT
#include "engine/cutting/knapsack.h"

#include <algorithm>
#include <numeric>

namespace railwright::cutting {
namespace {

constexpr double kNever = -1e300;
constexpr std::int64_t kMostCells = 24'000'000;  // 192 MB of doubles

double end_value(const Quote& quote, int type, std::int64_t position) {
  double value = 0;
  for (const EndPrice& end : quote.ends)
    if (end.type == type && end.position == position) value += end.value;
  return value;
}

std::int64_t split_count(std::int64_t copies) {
  std::int64_t stages = 0;
  for (std::int64_t step = 1; copies > 0; step *= 2, ++stages) copies -= std::min(step, copies);
  return stages;
}

}  // namespace

Knapsack::Knapsack(const Model& model, std::vector<std::int64_t> demand) : model_(model), demand_(std::move(demand)) {
  for (const Type& type : model.types) width_ = std::max(width_, type.capacity + 1);
  std::int64_t stages = 1;
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    const std::int64_t most = (width_ - 1) / model.sorts[s].size;
    if (demand_[s] > 0 && most > 0) stages += demand_[s] >= most ? 1 : split_count(demand_[s]);
  }
  dynamic_ = width_ < kMostCells && stages * width_ <= kMostCells;
  if (!dynamic_ || !model.values_drops) return;
  for (int k = 0; k < static_cast<int>(model.types.size()); ++k) {
    auto& table = cost_table_.emplace_back();
    for (std::int64_t used = 0; used <= model.types[k].capacity; ++used) table.push_back(static_cast<double>(model.cost(k, used)));
  }
}

double Knapsack::cost_at(int type, std::int64_t used) const {
  return cost_table_.empty() ? static_cast<double>(model_.cost(type, used)) : cost_table_[type][static_cast<std::size_t>(used)];
}

Offers Knapsack::price(const Quote& quote, int most_patterns, Budget& budget) {
  return dynamic_ ? price_dynamic(quote, most_patterns, budget) : price_by_search(quote, budget);
}

void Knapsack::build_stages(const Quote& quote) {
  stages_.clear();
  std::vector<char> has_arcs(model_.sorts.size(), 0);
  for (const ArcPrice& arc : quote.arcs) has_arcs[arc.sort] = 1;
  const bool wanted = std::any_of(quote.extra.begin(), quote.extra.end(), [](double extra) { return extra > 0; });
  for (int s = 0; s < static_cast<int>(model_.sorts.size()); ++s) {
    const std::int64_t size = model_.sorts[s].size;
    const std::int64_t most = std::min(demand_[s], (width_ - 1) / size);
    if (most <= 0 || (quote.value[s] <= 0 && !has_arcs[s] && !wanted)) continue;
    if (has_arcs[s]) {
      for (std::int64_t i = 0; i < most; ++i) stages_.push_back({s, size, 1, quote.value[s], false, true});
    } else if (demand_[s] >= (width_ - 1) / size) {
      stages_.push_back({s, size, 1, quote.value[s], true, false});
    } else {
      std::int64_t left = most;
      for (std::int64_t step = 1; left > 0; step *= 2) {
        const std::int64_t copies = std::min(step, left);
        stages_.push_back({s, size * copies, copies, quote.value[s] * static_cast<double>(copies), false, false});
        left -= copies;
      }
    }
  }
}

void Knapsack::run_stage(const Stage& stage, const double* from, double* to, const Quote& quote) const {
  const std::int64_t shift = std::min(stage.shift, width_);
  std::copy(from, from + shift, to);
  if (stage.arcs) {
    for (std::int64_t c = shift; c < width_; ++c) to[c] = std::max(from[c], from[c - shift] + stage.gain);
    for (const ArcPrice& arc : quote.arcs) {
      const std::int64_t c = arc.position + shift;
      if (arc.sort != stage.sort || c >= width_) continue;
      double gain = stage.gain;
      for (const ArcPrice& other : quote.arcs)
        if (other.sort == arc.sort && other.position == arc.position) gain += other.value;
      to[c] = std::max(from[c], from[arc.position] + gain);
    }
    return;
  }
  if (!stage.repeats) {
    const double gain = stage.gain;
    for (std::int64_t c = shift; c < width_; ++c) to[c] = std::max(from[c], from[c - shift] + gain);
    return;
  }
  // Blocks as long as the piece do not overlap the cells they read, so that the inner loop runs on vectors.
  for (std::int64_t block = shift; block < width_; block += shift) {
    const std::int64_t end = std::min(block + shift, width_);
    const double* __restrict read = to - shift;
    const double* __restrict old = from;
    double* __restrict write = to;
    for (std::int64_t c = block; c < end; ++c) write[c] = std::max(old[c], read[c] + stage.gain);
  }
}

// For every room the position at or below it with the highest value, lowest position among equals.
void Knapsack::best_positions(const double* last) {
  best_at_.resize(static_cast<std::size_t>(width_));
  std::int32_t best = 0;
  for (std::int64_t c = 0; c < width_; ++c) {
    if (last[c] > last[best]) best = static_cast<std::int32_t>(c);
    best_at_[c] = best;
  }
}

double Knapsack::best_of_type(int type, const Quote& quote, const double* last, std::int64_t& at) const {
  const std::int64_t capacity = model_.types[type].capacity;
  at = best_at_[capacity];
  if (!model_.values_drops && at > 0) {
    return last[at] - quote.scale * cost_at(type, at) + quote.extra[type];
  }
  const bool ends = std::any_of(quote.ends.begin(), quote.ends.end(), [&](const EndPrice& end) { return end.type == type; });
  double best = kNever;
  for (std::int64_t c = 1; c <= capacity; ++c) {  // a stick holds at least one piece, even where pieces are worth nothing
    if (last[c] < kNever / 2) continue;
    double gain = last[c] - quote.scale * cost_at(type, c);
    if (ends) gain += end_value(quote, type, c);
    if (gain <= best) continue;
    best = gain;
    at = c;
  }
  return best == kNever ? kNever : best + quote.extra[type];
}

double Knapsack::ratio_of_type(int type, const Quote& quote, const double* last) const {
  const std::int64_t capacity = model_.types[type].capacity;
  const auto ratio = [&](std::int64_t c) {
    const double cost = quote.scale * cost_at(type, c);
    return last[c] <= 0 ? 0.0 : cost > 0 ? last[c] / cost : 1e300;
  };
  if (!model_.values_drops) return ratio(best_at_[capacity]);
  double best = 0;
  for (std::int64_t c = 0; c <= capacity; ++c) best = std::max(best, ratio(c));
  return best;
}

std::vector<Knapsack::Walk> Knapsack::plan_walks(const Quote& quote, const double* last, Offers& offers) const {
  std::vector<Walk> walks;
  const int types = static_cast<int>(model_.types.size());
  for (int k = 0; k < types; ++k) {
    std::int64_t at = 0;
    offers.best.push_back(best_of_type(k, quote, last, at));
    if (!model_.types[k].counted) offers.ratio = std::max(offers.ratio, ratio_of_type(k, quote, last));
    if (offers.best.back() > 0 && at > 0) walks.push_back({at, k, -1});
  }
  for (int s = 0; s < static_cast<int>(model_.sorts.size()); ++s) {
    if (quote.value[s] <= 0 || demand_[s] == 0) continue;
    const std::int64_t size = model_.sorts[s].size;
    double best = 0;
    Walk walk{0, -1, s};
    for (int k = 0; k < types; ++k) {
      if (model_.types[k].capacity < size) continue;
      const std::int64_t at = best_at_[model_.types[k].capacity - size];
      const double worth = last[at] + quote.value[s] + quote.extra[k] - quote.scale * cost_at(k, at + size);
      if (worth <= best) continue;
      best = worth;
      walk.position = at;
      walk.type = k;
    }
    if (walk.type >= 0) walks.push_back(walk);
  }
  return walks;
}

// All walks go back through the stages together: each stage's two rows are then read once, from near memory.
std::vector<Pattern> Knapsack::walk_back(const std::vector<Walk>& walks) const {
  std::vector<Pattern> patterns;
  std::vector<std::int64_t> at;
  for (const Walk& walk : walks) {
    patterns.push_back({walk.type, {}});
    at.push_back(walk.position);
  }
  for (std::size_t t = stages_.size(); t-- > 0;) {
    const Stage& stage = stages_[t];
    const double* before = &rows_[t * static_cast<std::size_t>(width_)];
    const double* after = before + width_;
    for (std::size_t w = 0; w < walks.size(); ++w) {
      while (at[w] > 0 && after[at[w]] != before[at[w]]) {
        at[w] -= stage.shift;
        auto& takes = patterns[w].takes;
        if (takes.empty() || takes.back().sort != stage.sort) takes.push_back({stage.sort, 0});
        takes.back().count += stage.copies;
        if (!stage.repeats) break;
      }
    }
  }
  for (std::size_t w = 0; w < walks.size(); ++w) {
    auto& takes = patterns[w].takes;
    std::reverse(takes.begin(), takes.end());
    if (walks[w].forced < 0) continue;
    auto spot = std::lower_bound(takes.begin(), takes.end(), walks[w].forced, [](const Take& take, int s) { return take.sort < s; });
    if (spot == takes.end() || spot->sort != walks[w].forced) spot = takes.insert(spot, {walks[w].forced, 0});
    if (++spot->count > demand_[walks[w].forced]) takes.clear();
  }
  return patterns;
}

double Knapsack::gain(const Pattern& pattern, const Quote& quote) const {
  double gain = quote.extra[pattern.type];
  std::int64_t at = 0;
  for (const Take& take : pattern.takes) {
    gain += quote.value[take.sort] * static_cast<double>(take.count);
    const std::int64_t size = model_.sorts[take.sort].size;
    for (const ArcPrice& arc : quote.arcs)
      if (arc.sort == take.sort && arc.position >= at && (arc.position - at) % size == 0 && (arc.position - at) / size < take.count) gain += arc.value;
    at += size * take.count;
  }
  return gain + end_value(quote, pattern.type, at) - quote.scale * cost_at(pattern.type, at);
}

void Knapsack::keep_best(const Quote& quote, std::vector<Pattern> patterns, int most, Offers& offers) const {
  std::vector<std::pair<double, int>> order;
  for (int p = 0; p < static_cast<int>(patterns.size()); ++p) {
    if (patterns[p].takes.empty()) continue;
    const double worth = gain(patterns[p], quote);
    if (worth > 0) order.push_back({worth, p});
  }
  std::sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first != b.first ? a.first > b.first : a.second < b.second; });
  for (const auto& [worth, p] : order) {
    if (static_cast<int>(offers.patterns.size()) >= most) break;
    bool seen = false;  // equal patterns gain alike, so that they stand next to each other
    for (std::size_t q = offers.patterns.size(); q-- > 0 && offers.patterns[q].gain == worth && !seen;)
      seen = offers.patterns[q].pattern.type == patterns[p].type && offers.patterns[q].pattern.takes == patterns[p].takes;
    if (!seen) offers.patterns.push_back({worth, std::move(patterns[p])});
  }
}

Offers Knapsack::price_dynamic(const Quote& quote, int most_patterns, Budget& budget) {
  build_stages(quote);
  if (const std::size_t cells = (stages_.size() + 1) * static_cast<std::size_t>(width_); rows_.size() < cells) rows_.resize(cells);
  std::fill(rows_.begin(), rows_.begin() + width_, kNever);
  rows_[0] = 0;
  for (std::size_t t = 0; t < stages_.size(); ++t)
    run_stage(stages_[t], &rows_[t * static_cast<std::size_t>(width_)], &rows_[(t + 1) * static_cast<std::size_t>(width_)], quote);
  budget.spend(static_cast<std::int64_t>(stages_.size() + 2) * width_);
  const double* last = &rows_[stages_.size() * static_cast<std::size_t>(width_)];
  best_positions(last);
  Offers offers;
  const std::vector<Walk> walks = plan_walks(quote, last, offers);
  keep_best(quote, walk_back(walks), most_patterns, offers);
  return offers;
}

namespace {

// Depth-first search over the sorts in order of value per length.
class Search {
 public:
  Search(const Model& model, const std::vector<std::int64_t>& demand, const Quote& quote, int type) : model_(model), quote_(quote), type_(type) {
    for (int s = 0; s < static_cast<int>(demand.size()); ++s)
      if (demand[s] > 0 && quote.value[s] > 0) order_.push_back(s);
    const auto rate = [&](int s) { return quote.value[s] / static_cast<double>(model.sorts[s].size); };
    std::sort(order_.begin(), order_.end(), [&](int a, int b) { return rate(a) != rate(b) ? rate(a) > rate(b) : a < b; });
    for (const int s : order_) {
      most_.push_back(demand[s]);
      rate_.push_back(rate(s) * (1 + 1e-12));
    }
    smallest_.assign(order_.size() + 1, INT64_MAX);
    for (std::size_t i = order_.size(); i-- > 0;) smallest_[i] = std::min(smallest_[i + 1], model.sorts[order_[i]].size);
    taken_.assign(order_.size(), 0);
  }

  void run(std::int64_t most_nodes) {
    nodes_left_ = most_nodes;
    if (!order_.empty()) go(0, model_.types[type_].capacity, 0);
  }

  double best = 0;        // highest gain found, when above zero
  double unexplored = 0;  // nothing left out gains more
  std::vector<std::pair<double, Pattern>> found;
  std::int64_t nodes_left_ = 0;

 private:
  void go(std::size_t depth, std::int64_t room, double value) {
    note(room, value);
    std::int64_t at = static_cast<std::int64_t>(depth);
    for (; at < static_cast<std::int64_t>(order_.size()) && smallest_[at] <= room; ++at) {
      const double bound = value + static_cast<double>(room) * rate_[at] + 1 - base(room);
      if (bound <= best) return;
      if (--nodes_left_ < 0) {
        unexplored = std::max(unexplored, bound);
        return;
      }
      const std::int64_t size = model_.sorts[order_[at]].size;
      for (std::int64_t count = std::min(most_[at], room / size); count > 0; --count) {
        taken_[at] = count;
        go(at + 1, room - count * size, value + quote_.value[order_[at]] * static_cast<double>(count));
      }
      taken_[at] = 0;
    }
  }

  // Cost less extra of a stick filled this far, in quote units; it only grows with the filling.
  double base(std::int64_t room) const {
    return quote_.scale * static_cast<double>(model_.cost(type_, model_.types[type_].capacity - room)) - quote_.extra[type_];
  }

  void note(std::int64_t room, double value) {
    const double gain = value - base(room);
    if (value <= 0 || gain <= best) return;
    best = gain;
    Pattern pattern{type_, {}};
    for (std::size_t i = 0; i < order_.size(); ++i)
      if (taken_[i] > 0) pattern.takes.push_back({order_[i], taken_[i]});
    std::sort(pattern.takes.begin(), pattern.takes.end(), [](const Take& a, const Take& b) { return a.sort < b.sort; });
    found.push_back({gain, std::move(pattern)});
  }

  const Model& model_;
  const Quote& quote_;
  int type_;
  std::vector<int> order_;
  std::vector<std::int64_t> most_, smallest_, taken_;
  std::vector<double> rate_;
};

}  // namespace

Offers Knapsack::price_by_search(const Quote& quote, Budget& budget) const {
  constexpr std::int64_t kNodes = 400'000;
  Offers offers;
  std::vector<Pattern> patterns;
  for (int k = 0; k < static_cast<int>(model_.types.size()); ++k) {
    Search search(model_, demand_, quote, k);
    search.run(kNodes);
    budget.spend(8 * (kNodes - std::max<std::int64_t>(search.nodes_left_, 0)) + static_cast<std::int64_t>(model_.sorts.size()));
    if (search.unexplored > search.best) offers.exact = false;
    // Where a stick is worth more than it costs, any piece will do, even one that is worth nothing.
    const double least = quote.extra[k] - quote.scale * static_cast<double>(model_.cost(k, model_.sorts.back().size));
    offers.best.push_back(std::max({search.best, search.unexplored, least}));
    for (std::size_t i = search.found.size() > 6 ? search.found.size() - 6 : 0; i < search.found.size(); ++i)
      patterns.push_back(std::move(search.found[i].second));
    const double price = quote.scale * static_cast<double>(model_.types[k].price);
    if (!model_.types[k].counted) offers.ratio = std::max(offers.ratio, model_.values_drops ? 1e300 : price > 0 ? (offers.best.back() + price) / price : 1e300);
  }
  keep_best(quote, std::move(patterns), 1'000'000, offers);
  return offers;
}

}  // namespace railwright::cutting
