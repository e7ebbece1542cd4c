// SPDX-License-Identifier: MIT
#include "engine/cutting/layout.h"

#include <algorithm>

#include "engine/cutting/tidy.h"

namespace railwright::cutting {
namespace {

// The pieces of one length, in the order in which they will be cut.
struct Queue {
  std::vector<std::pair<int, std::int64_t>> pieces;  // piece, how many are left
  std::size_t head = 0;
};

class Layout {
 public:
  Layout(const Model& model, const Solution& solution) : model_(model), uses_(merged(solution.uses)) {}

  Plan run() {
    // Cut in the order of the groups: a pattern's place follows the mean group of its pieces, which follows from the order of the
    // patterns before it. The rounds need not settle, so that the best of them is kept.
    std::vector<int> order(uses_.size());
    for (std::size_t u = 0; u < order.size(); ++u) order[u] = static_cast<int>(u);
    std::vector<int> next = order;
    std::int64_t least = INT64_MAX;
    for (int round = 0; round < 3; ++round) {
      sort_by_group(next);
      if (const std::int64_t far = spread(next); far < least) {
        least = far;
        order = next;
      }
    }
    Plan plan;
    fill_queues();
    for (const int u : order) cut(uses_[u], plan);
    finish(plan);
    return plan;
  }

 private:
  void fill_queues() {
    const auto& pieces = model_.instance().pieces();
    queues_.assign(model_.sorts.size(), {});
    for (std::size_t p = 0; p < pieces.size(); ++p)
      if (model_.sort_of_piece[p] >= 0) queues_[model_.sort_of_piece[p]].pieces.push_back({static_cast<int>(p), pieces[p].count});
    for (Queue& queue : queues_)
      std::stable_sort(queue.pieces.begin(), queue.pieces.end(), [&](const auto& a, const auto& b) { return pieces[a.first].group < pieces[b.first].group; });
  }

  void sort_by_group(std::vector<int>& order) {
    fill_queues();
    std::vector<double> key(uses_.size());
    for (const int u : order) key[u] = mean_group(uses_[u]);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return key[a] < key[b]; });
  }

  // Over all groups, how many sticks lie between the first and the last that hold its pieces.
  std::int64_t spread(const std::vector<int>& order) {
    fill_queues();
    std::int32_t last_group = -1;
    for (const Piece& piece : model_.instance().pieces()) last_group = std::max(last_group, piece.group);
    if (last_group > 10'000'000) return 0;
    std::vector<std::pair<std::int64_t, std::int64_t>> ends(static_cast<std::size_t>(last_group) + 1, {INT64_MAX, 0});
    std::int64_t at = 0;
    for (const int u : order) {
      const Use& use = uses_[u];
      for (const Take& take : use.pattern.takes) {
        for (std::int64_t done = 0; done < take.count * use.count;) {
          const auto [piece, got] = draw(take.sort, take.count * use.count - done);
          const std::int32_t group = model_.instance().pieces()[piece].group;
          done += got;
          if (group < 0) continue;
          ends[group].first = std::min(ends[group].first, at + (done - got) / take.count);
          ends[group].second = std::max(ends[group].second, at + (done - 1) / take.count);
        }
      }
      at += use.count;
    }
    std::int64_t sum = 0;
    for (const auto& [first, last] : ends)
      if (first <= last) sum += last - first;
    return sum;
  }

  double mean_group(const Use& use) {
    double sum = 0;
    std::int64_t count = 0;
    for (const Take& take : use.pattern.takes) {
      for (std::int64_t left = take.count * use.count; left > 0;) {
        const auto [piece, got] = draw(take.sort, left);
        sum += static_cast<double>(model_.instance().pieces()[piece].group) * static_cast<double>(got);
        count += got;
        left -= got;
      }
    }
    return count > 0 ? sum / static_cast<double>(count) : 0;
  }

  std::pair<int, std::int64_t> draw(int sort, std::int64_t most) {
    Queue& queue = queues_[sort];
    auto& [piece, left] = queue.pieces[queue.head];
    const std::int64_t got = std::min(left, most);
    left -= got;
    const int drawn = piece;
    if (left == 0) ++queue.head;
    return {drawn, got};
  }

  void cut(const Use& use, Plan& plan) {
    for (std::int64_t left = use.count; left > 0;) {
      const std::int64_t alike = std::max<std::int64_t>(1, std::min(left, alike_sticks(use.pattern)));
      Stick stick;
      stick.stock = model_.types[use.pattern.type].stock;
      stick.count = alike;
      for (const Take& take : use.pattern.takes) draw_pieces(take, alike, stick);
      std::stable_partition(stick.pieces.begin(), stick.pieces.end(),
                            [&](int piece) { return !model_.instance().pieces()[static_cast<std::size_t>(piece)].waits; });
      measure_up(stick);
      plan.sticks.push_back(std::move(stick));
      left -= alike;
    }
  }

  // How many sticks in a row the pieces at the heads of the queues can fill without a change of label.
  std::int64_t alike_sticks(const Pattern& pattern) const {
    std::int64_t alike = std::int64_t{1} << 60;
    for (const Take& take : pattern.takes) {
      const Queue& queue = queues_[take.sort];
      alike = std::min(alike, queue.pieces[queue.head].second / take.count);
    }
    return alike;
  }

  void draw_pieces(const Take& take, std::int64_t alike, Stick& stick) {
    for (std::int64_t left = take.count; left > 0;) {
      const auto [piece, got] = draw(take.sort, left * alike);
      for (std::int64_t i = 0; i < got / alike; ++i) stick.pieces.push_back(piece);
      left -= got / alike;
    }
  }

  void measure_up(Stick& stick) const {
    const Instance& instance = model_.instance();
    Length at = instance.start();
    Length sum;
    for (const int piece : stick.pieces) {
      const Length length = instance.pieces()[piece].length;
      stick.marks.push_back(at + length);
      at += length + instance.rules().kerf;
      sum += length + instance.rules().kerf;
    }
    stick.drop = measure::max(Length(), instance.usable(instance.stocks()[stick.stock]) - sum);
    stick.kept = instance.keeps(stick.drop);
  }

  void finish(Plan& plan) const {
    plan.found = true;
    for (const Stick& stick : plan.sticks) {
      const Stock& stock = model_.instance().stocks()[stick.stock];
      plan.cost_before_drops += stock.price * stick.count;
      plan.cost += (stock.price - model_.instance().worth(stock, stick.drop)) * stick.count;
      plan.sticks_used += stick.count;
    }
    plan.setups = static_cast<int>(uses_.size());
  }

  const Model& model_;
  std::vector<Use> uses_;
  std::vector<Queue> queues_;
};

}  // namespace

Plan lay_out(const Model& model, const Solution& solution) { return Layout(model, solution).run(); }

}  // namespace railwright::cutting
