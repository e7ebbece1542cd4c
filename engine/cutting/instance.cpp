// SPDX-License-Identifier: MIT
#include <algorithm>

#include "engine/cutting/cutting.h"
#include "engine/cutting/wide.h"

namespace railwright::cutting {
namespace {

constexpr std::int64_t kLongestNm = 1'000'000'000'000'000;  // 1000 km: sums of a million stay within 64 bits
constexpr std::int64_t kMostPieces = 1'000'000'000;
constexpr std::int64_t kMostMoney = 1'000'000'000'000'000'000;  // 1e14 whole units of currency

std::string place(const char* list, std::size_t index) { return std::string("/") + list + "/" + std::to_string(index); }

std::string fault_of(const Stock& stock) {
  if (stock.length.nm() <= 0) return "cutting.stock_length";
  if (stock.length.nm() > kLongestNm) return "cutting.too_large";
  if (stock.price.units() < 0) return "cutting.stock_price";
  if (stock.count && *stock.count < 0) return "cutting.stock_count";
  return {};
}

std::string fault_of(const Piece& piece) {
  if (piece.length.nm() <= 0) return "cutting.piece_length";
  if (piece.length.nm() > kLongestNm) return "cutting.too_large";
  if (piece.count < 0) return "cutting.piece_count";
  if (piece.count > kMostPieces) return "cutting.too_large";
  return {};
}

Result<bool> check_rules(const Rules& rules) {
  if (rules.kerf.nm() < 0) return fail("cutting.kerf", "/rules/kerf", {{"kerf", LengthValue{rules.kerf.nm()}}});
  for (const auto& [crop, name] : {std::pair{rules.crop_start, "/rules/crop_start"}, std::pair{rules.crop_end, "/rules/crop_end"}})
    if (crop.nm() < 0) return fail("cutting.crop", name, {{"crop", LengthValue{crop.nm()}}});
  const bool long_rule = rules.kerf.nm() > kLongestNm || rules.crop_start.nm() > kLongestNm || rules.crop_end.nm() > kLongestNm;
  if (long_rule) return fail("cutting.too_large", "/rules");
  if (rules.keep_from && rules.keep_from->nm() <= 0) return fail("cutting.drop_rule", "/rules/keep_from");
  if (rules.drop_value.units() < 0 || rules.drop_value_per.nm() <= 0) return fail("cutting.drop_rule", "/rules/drop_value");
  return true;
}

}  // namespace

Result<Instance> Instance::build(std::vector<Stock> stocks, std::vector<Piece> pieces, Rules rules) {
  if (auto checked = check_rules(rules); !checked) return tl::unexpected<Error>(checked.error());
  if (stocks.empty()) return fail("cutting.no_stocks", "/stocks");
  std::int64_t dearest = 0;
  for (std::size_t k = 0; k < stocks.size(); ++k) {
    if (auto fault = fault_of(stocks[k]); !fault.empty()) return fail(fault, place("stocks", k), {{"name", stocks[k].name}});
    dearest = std::max(dearest, stocks[k].price.units());
  }
  Instance instance;
  instance.stocks_ = std::move(stocks);
  instance.pieces_ = std::move(pieces);
  instance.rules_ = rules;
  Length longest = Length::from_nm(-1);
  for (const Stock& stock : instance.stocks_)
    if (!stock.count || *stock.count > 0) longest = measure::max(longest, instance.usable(stock));
  std::int64_t total = 0;
  for (std::size_t p = 0; p < instance.pieces_.size(); ++p) {
    const Piece& piece = instance.pieces_[p];
    const Value label = piece.label;
    if (auto fault = fault_of(piece); !fault.empty()) return fail(fault, place("pieces", p), {{"label", label}});
    if (piece.count > 0 && piece.length > longest)
      return fail("cutting.piece_too_long", place("pieces", p),
                  {{"label", label}, {"length", LengthValue{piece.length.nm()}}, {"longest", LengthValue{std::max<std::int64_t>(longest.nm(), 0)}}});
    total += piece.count;
    if (total > kMostPieces) return fail("cutting.too_large", place("pieces", p), {{"label", label}});
  }
  if (static_cast<Wide>(total) * dearest > kMostMoney) return fail("cutting.too_large", "/stocks");
  return instance;
}

Length Instance::usable(const Stock& stock) const {
  const std::int64_t crops = (rules_.crop_start.nm() > 0) + (rules_.crop_end.nm() > 0);
  return stock.length - rules_.crop_start - rules_.crop_end - rules_.kerf * crops;
}

Length Instance::start() const { return rules_.crop_start.nm() > 0 ? rules_.crop_start + rules_.kerf : Length(); }

bool Instance::keeps(Length drop) const { return rules_.keep_from && drop.nm() > 0 && drop >= *rules_.keep_from; }

Money Instance::worth(const Stock& stock, Length drop) const {
  if (!keeps(drop) || rules_.drop_value.units() == 0) return Money();
  const auto worth = static_cast<Wide>(drop.nm()) * rules_.drop_value.units() / rules_.drop_value_per.nm();
  return worth >= stock.price.units() ? stock.price : Money::from_units(static_cast<std::int64_t>(worth));
}

}  // namespace railwright::cutting
