// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "engine/takeoff/orders.h"

// Sticks by the cut plan, with spares for two things: sticks that arrive bent, and rails whose measured gap is so much longer than planned that the
// last of a stick no longer fits. Each of the two takes half of the accepted chance.
namespace railwright::takeoff {

namespace {

// How much longer the pieces of one stick may come out, one sigma. A gap lies between two posts that each scatter, so its variance is twice the post's; rails of one
// bay share the gap. Neighbouring bays move against each other, which is left out: it would only make the sum steadier.
// With m rails of one bay in the stick the squares add up to m^2 a bay: one for every pair of rails, taken both ways, that share a bay.
double deviation_of_stick(const Input& in, const PipeCuts& pipe, const cutting::Stick& stick) {
  const auto scattered_bay = [&](int piece) {
    const PieceSource& source = pipe.pieces[static_cast<std::size_t>(piece)];
    if (source.kind == PieceKind::post) return -1;
    const fittings::Rail& rail = in.assembly.rails[static_cast<std::size_t>(source.index)];
    return rail.measured ? -1 : rail.bay;
  };
  double squares = 0;
  for (const int piece : stick.pieces) {
    const int bay = scattered_bay(piece);
    for (const int other : stick.pieces) squares += bay >= 0 && scattered_bay(other) == bay ? 1 : 0;
  }
  return in.job.choices.allowances.scatter.metres() * std::sqrt(2 * squares);
}

// Expected number of sticks whose last rail will not fit as planned.
double expected_misfits(const Input& in, const PipeCuts& pipe) {
  if (in.job.choices.cutting.order == job::WorkOrder::rails_first) return 0;
  double sum = 0;
  for (const cutting::Stick& stick : pipe.plan.sticks) {
    const double deviation = deviation_of_stick(in, pipe, stick);
    if (deviation > 0) sum += static_cast<double>(stick.count) * normal_tail(stick.drop.metres() / deviation);
  }
  return sum;
}

// How many of the longest piece a new stick of the stock gives.
std::int64_t longest_pieces_in(const PipeCuts& pipe, int stock) {
  Length longest;
  for (const cutting::Piece& piece : pipe.instance.pieces()) longest = measure::max(longest, piece.length);
  const Length kerf = pipe.instance.rules().kerf;
  const Length usable = pipe.instance.usable(pipe.instance.stocks()[static_cast<std::size_t>(stock)]);
  if (longest.nm() <= 0) return 1;
  return std::max<std::int64_t>(1, (usable + kerf).nm() / (longest + kerf).nm());
}

struct Spare {
  std::int64_t sticks = 0;
  double short_of_length = 0;
};

// Spare sticks for rails that grow: by Hoeffding's bound the number of misfits is no more spread than a binomial of the same mean.
Spare spare_for_scatter(const Orders& orders, const PipeCuts& pipe, int stock, double accepted) {
  const std::int64_t sticks = pipe.plan.sticks_used;
  const double misfits = expected_misfits(orders.in, pipe);
  if (sticks <= 0 || misfits <= 0) return {};
  const double chance = misfits / static_cast<double>(sticks);
  const std::int64_t pieces = binomial_limit(sticks, chance, accepted);
  const std::int64_t per_stick = longest_pieces_in(pipe, stock);
  const std::int64_t spare = (pieces + per_stick - 1) / per_stick;
  return {spare, binomial_exceeds(sticks, spare * per_stick, chance)};
}

std::vector<std::int64_t> sticks_by_stock(const PipeCuts& pipe) {
  std::vector<std::int64_t> used(pipe.stocks.size());
  for (const cutting::Stick& stick : pipe.plan.sticks) used[static_cast<std::size_t>(stick.stock)] += stick.count;
  return used;
}

// The bought stock that spares are taken from: the most used of those on offer without a count, else the most used.
int spare_stock(const Orders& orders, const PipeCuts& pipe, const std::vector<std::int64_t>& used) {
  int best = -1;
  const auto rank = [&](int k) {
    const StockSource& source = pipe.stocks[static_cast<std::size_t>(k)];
    const bool open = source.kind == StockKind::assumed || !orders.in.job.choices.offers[static_cast<std::size_t>(source.index)].count.has_value();
    return std::pair<bool, std::int64_t>(open, used[static_cast<std::size_t>(k)]);
  };
  for (int k = 0; k < static_cast<int>(pipe.stocks.size()); ++k) {
    if (pipe.stocks[static_cast<std::size_t>(k)].kind == StockKind::held) continue;
    if (best < 0 || rank(k) > rank(best)) best = k;
  }
  return best;
}

void order_stock(Orders& orders, const PipeCuts& pipe, int index, std::int64_t used, bool takes_spares) {
  const cutting::Stock& stock = pipe.instance.stocks()[static_cast<std::size_t>(index)];
  const StockSource& source = pipe.stocks[static_cast<std::size_t>(index)];
  const job::Pipe* row = orders.in.catalogue.pipe(pipe.pipe);
  Need need;
  need.item = stock.name;
  need.group = "pipe";
  need.unit = "stick";
  need.why = "sticks";
  need.needed = static_cast<double>(used);
  need.each_length = source.nominal;
  need.each_kg = row == nullptr ? 0 : row->mass_kg_per_m * source.nominal.metres();
  need.own_price = stock.price;
  need.own_priced = source.priced;
  double running_short = 0;
  if (takes_spares) {
    const double half = orders.accepted() / 2;
    const Spare scatter = spare_for_scatter(orders, pipe, index, half);
    const std::int64_t wanted = used + scatter.sticks;
    const std::int64_t bent = spares(wanted, orders.losses.stick, half);
    need.spare = static_cast<double>(scatter.sticks + bent);
    running_short = scatter.short_of_length + chance_short(wanted, wanted + bent, orders.losses.stick);
  }
  OrderLine line = order_line(orders.in.catalogue, need, orders.findings);
  line.running_short = running_short;
  orders.lines.push_back(std::move(line));
  const auto& offers = orders.in.job.choices.offers;
  if (source.kind == StockKind::offered && offers[static_cast<std::size_t>(source.index)].count.value_or(1 << 30) < need.needed + need.spare) {
    orders.findings.push_back({"takeoff.offer_runs_out",
                               Severity::note,
                               stock.name,
                               {{"needed", static_cast<std::int64_t>(need.needed + need.spare)},
                                {"count", static_cast<std::int64_t>(*offers[static_cast<std::size_t>(source.index)].count)}}});
  }
}

}  // namespace

void order_pipe(Orders& orders) {
  for (const PipeCuts& pipe : orders.in.cuts) {
    if (!pipe.plan.found && !pipe.instance.pieces().empty()) {
      orders.findings.push_back({"takeoff.sticks_do_not_suffice", Severity::stop, pipe.pipe, {}});
      continue;
    }
    const std::vector<std::int64_t> used = sticks_by_stock(pipe);
    const int spare = spare_stock(orders, pipe, used);
    for (int k = 0; k < static_cast<int>(used.size()); ++k) {
      if (pipe.stocks[static_cast<std::size_t>(k)].kind == StockKind::held) continue;
      const bool takes_spares = k == spare && pipe.plan.sticks_used > 0;
      if (used[static_cast<std::size_t>(k)] > 0 || takes_spares) order_stock(orders, pipe, k, used[static_cast<std::size_t>(k)], takes_spares);
    }
  }
}

}  // namespace railwright::takeoff
