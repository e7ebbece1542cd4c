// SPDX-License-Identifier: MIT
#include <algorithm>
#include <functional>
#include <map>
#include <utility>

#include "engine/takeoff/pipe_cuts.h"
#include "engine/takeoff/price_book.h"
#include "engine/takeoff/remaining.h"
#include "engine/takeoff/takeoff.h"

namespace railwright::takeoff {

namespace {

constexpr Length kAssumedStick = Length::feet(21);  // a usual length of new pipe; common practice, no source

// Pieces and stocks of one pipe while they are gathered.
struct Gathered {
  std::vector<cutting::Piece> pieces;
  std::vector<PieceSource> piece_sources;
  std::vector<cutting::Stock> stocks;
  std::vector<StockSource> stock_sources;
  cutting::Rules rules;
  Money price;  // of `per`, the cheapest by length
  Length per = kAssumedStick;
};

void add_piece(Gathered& into, cutting::Piece piece, PieceSource source) {
  if (piece.length.nm() <= 0) return;
  into.pieces.push_back(std::move(piece));
  into.piece_sources.push_back(source);
}

std::map<std::string, Gathered> pieces_by_pipe(const job::Job& job, const setout::Layout& layout, const fittings::Assembly& assembly,
                                               const std::vector<PostSize>& posts) {
  std::map<std::string, Gathered> by_pipe;
  const Remaining remaining(job, layout);
  for (std::size_t k = 0; k < assembly.rails.size(); ++k) {
    const fittings::Rail& rail = assembly.rails[k];
    if (!remaining.rail(rail)) continue;
    const PieceKind kind = rail.number == 0 ? PieceKind::brace : PieceKind::rail;
    // A rail whose gap is still to be measured is cut after what is certain.
    const bool waits = job.choices.cutting.order == job::WorkOrder::posts_first && !rail.measured;
    add_piece(by_pipe[rail.pipe], {rail.name, rail.cut, 1, rail.bay, waits}, {kind, static_cast<int>(k)});
  }
  for (std::size_t k = 0; k < posts.size(); ++k) {
    if (!remaining.post(static_cast<int>(k))) continue;
    const setout::Post& post = layout.posts[k];
    add_piece(by_pipe[post.pipe], {post.name, posts[k].length, 1, -1, false}, {PieceKind::post, static_cast<int>(k)});
  }
  return by_pipe;
}

void add_offers(Gathered& into, const std::string& pipe, const job::Choices& choices) {
  for (std::size_t k = 0; k < choices.offers.size(); ++k) {
    const job::StockOffer& offer = choices.offers[k];
    if (offer.pipe != pipe || offer.length.nm() <= 0 || offer.count.value_or(1) <= 0) continue;
    std::optional<std::int64_t> count;
    if (offer.count) count = *offer.count;
    into.stocks.push_back({offer.name, offer.length - choices.allowances.stick_tolerance, offer.price, count});
    into.stock_sources.push_back({StockKind::offered, static_cast<int>(k), offer.length, Length(), true});
    const bool cheaper = into.price == Money() || offer.price.value() / offer.length.metres() < into.price.value() / into.per.metres();
    if (cheaper) {
      into.price = offer.price;
      into.per = offer.length;
    }
  }
}

void assume_stick(Gathered& into, const std::string& pipe, const job::Catalogue& catalogue, Findings& findings) {
  const job::Pipe* row = catalogue.pipe(pipe);
  Need need;
  need.item = pipe;
  need.unit = "stick";
  need.each_length = kAssumedStick;
  need.each_kg = row == nullptr ? 0 : row->mass_kg_per_m * kAssumedStick.metres();
  const UnitPrice price = unit_price(catalogue, need, findings);
  into.price = price.known ? price.price.round_to_cents() : Money::whole(21);
  into.stocks.push_back({pipe + " 21 ft", kAssumedStick, into.price, {}});
  into.stock_sources.push_back({StockKind::assumed, -1, kAssumedStick, Length(), price.known});
  findings.push_back({"takeoff.no_offer", Severity::warning, pipe, {{"length", value_of(kAssumedStick)}}});
}

void add_held(Gathered& into, const std::string& pipe, const job::Job& job) {
  const Length crop = into.rules.crop_start;
  for (std::size_t k = 0; k < job.field.sticks.size(); ++k) {
    const job::HeldStick& held = job.field.sticks[k];
    if (held.pipe != pipe || held.count <= 0) continue;
    const Length cut_first = measure::max(held.crop - crop, Length());
    const Length sound = held.length - 2 * cut_first;
    if (sound.nm() <= 0) continue;
    const Money worth = into.price.times(job.choices.cutting.drop_value * (sound / into.per));
    into.stocks.push_back({held.name, sound, worth, held.count});
    into.stock_sources.push_back({StockKind::held, static_cast<int>(k), held.length, cut_first, true});
  }
}

cutting::Rules rules_of(const job::Choices& choices) {
  cutting::Rules rules;
  rules.kerf = choices.cutting.kerf;
  rules.crop_start = rules.crop_end = measure::max(choices.cutting.crop, choices.allowances.squaring);
  rules.keep_from = choices.cutting.keep_from;
  return rules;
}

// The longest piece that any stick can give.
Length longest_usable(const Gathered& gathered) {
  Length longest;
  for (const cutting::Stock& stock : gathered.stocks) longest = measure::max(longest, stock.length);
  const cutting::Rules& rules = gathered.rules;
  const std::int64_t crops = (rules.crop_start.nm() != 0 ? 1 : 0) + (rules.crop_end.nm() != 0 ? 1 : 0);
  return longest - rules.crop_start - rules.crop_end - crops * rules.kerf;
}

void leave_out_too_long(Gathered& gathered, Findings& findings) {
  const Length longest = longest_usable(gathered);
  std::size_t kept = 0;
  for (std::size_t k = 0; k < gathered.pieces.size(); ++k) {
    cutting::Piece& piece = gathered.pieces[k];
    if (piece.length > longest) {
      findings.push_back({"takeoff.piece_too_long", Severity::stop, piece.label, {{"length", value_of(piece.length)}, {"longest", value_of(longest)}}});
      continue;
    }
    if (kept != k) {
      gathered.pieces[kept] = std::move(piece);
      gathered.piece_sources[kept] = gathered.piece_sources[k];
    }
    ++kept;
  }
  gathered.pieces.resize(kept);
  gathered.piece_sources.resize(kept);
}

}  // namespace

std::vector<PipeCuts> gather_pieces(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const fittings::Assembly& assembly,
                                    const std::vector<PostSize>& posts, Findings& findings) {
  std::vector<PipeCuts> cuts;
  for (auto& [pipe, gathered] : pieces_by_pipe(job, layout, assembly, posts)) {
    gathered.rules = rules_of(job.choices);
    add_offers(gathered, pipe, job.choices);
    if (gathered.stocks.empty()) assume_stick(gathered, pipe, catalogue, findings);
    gathered.rules.drop_value = gathered.price.times(job.choices.cutting.drop_value);
    gathered.rules.drop_value_per = gathered.per;
    add_held(gathered, pipe, job);
    leave_out_too_long(gathered, findings);
    auto instance = cutting::Instance::build(std::move(gathered.stocks), std::move(gathered.pieces), gathered.rules);
    if (!instance) {
      findings.push_back({instance.error().code, Severity::stop, pipe, instance.error().values});
      continue;
    }
    cuts.push_back({pipe, std::move(*instance), {}, std::move(gathered.stock_sources), std::move(gathered.piece_sources)});
  }
  return cuts;
}

std::vector<ReturnedDrop> returned_drops(const std::vector<PipeCuts>& cuts) {
  std::vector<ReturnedDrop> drops;
  for (const PipeCuts& pipe : cuts) {
    std::map<std::int64_t, ReturnedDrop, std::greater<>> by_length;
    for (const cutting::Stick& stick : pipe.plan.sticks) {
      if (!stick.kept) continue;
      ReturnedDrop& drop = by_length[stick.drop.nm()];
      drop.pipe = pipe.pipe;
      drop.length = stick.drop;
      drop.count += stick.count;
      drop.worth += pipe.instance.worth(pipe.instance.stocks()[static_cast<std::size_t>(stick.stock)], stick.drop) * stick.count;
    }
    for (const auto& [length, drop] : by_length) drops.push_back(drop);
  }
  return drops;
}

}  // namespace railwright::takeoff
