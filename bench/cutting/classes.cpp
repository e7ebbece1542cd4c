// SPDX-License-Identifier: MIT
#include "bench/cutting/classes.h"

#include <algorithm>
#include <cmath>

namespace railwright::bench {
namespace {

using cutting::Instance;
using cutting::Piece;
using cutting::Rules;
using cutting::Stock;
using measure::Length;
using measure::Money;

class Random {
 public:
  Random(std::uint64_t seed, std::uint64_t draw) : state_((seed + draw * 1'000'003) * 2862933555777941757ULL + 3037000493ULL) {}
  std::int64_t between(std::int64_t low, std::int64_t high) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(high - low + 1));
  }

 private:
  std::uint64_t state_;
};

using Sizes = std::vector<std::int64_t>;

Case bins(const std::string& name, std::vector<Stock> stocks, const Sizes& sizes) {
  std::vector<Piece> pieces;
  for (const std::int64_t size : sizes) pieces.push_back({"", Length::from_nm(size), 1, -1});
  return {name, *Instance::build(std::move(stocks), std::move(pieces), Rules{})};
}
Case bins(const std::string& name, std::int64_t capacity, const Sizes& sizes) {
  return bins(name, {{"bin", Length::from_nm(capacity), Money::from_units(1), {}}}, sizes);
}

Sizes uniform(Random& random, std::int64_t n, std::int64_t low, std::int64_t high) {
  Sizes sizes;
  for (std::int64_t i = 0; i < n; ++i) sizes.push_back(random.between(low, high));
  return sizes;
}

void falkenauer_uniform(Class& c) {
  c.rule = "Falkenauer (1996): n items uniform in 20..100, bins of 150";
  for (const int n : {120, 250, 500, 1000})
    for (int i = 0; i < 20; ++i) {
      Random random(1000 + n * 100 + i, c.draw);
      c.cases.push_back(bins("u" + std::to_string(n), 150, uniform(random, n, 20, 100)));
    }
}

void falkenauer_triplets(Class& c) {
  c.rule = "Falkenauer (1996): bins of 1000 filled by three items each: one in 380..490, one in 250..half the rest, the remainder";
  for (const int n : {60, 120, 249, 501})
    for (int i = 0; i < 20; ++i) {
      Random random(2000 + n * 100 + i, c.draw);
      Sizes sizes;
      for (int t = 0; t < n / 3; ++t) {
        const std::int64_t a = random.between(380, 490);
        const std::int64_t b = random.between(250, (1000 - a) / 2);
        sizes.insert(sizes.end(), {a, b, 1000 - a - b});
      }
      c.cases.push_back(bins("t" + std::to_string(n), 1000, sizes));
    }
}

void scholl_1(Class& c) {
  c.rule = "Scholl, Klein and Juergens (1997), set 1: bins of 100, 120, 150; sizes uniform in 1, 20 or 30..100; n 50..500";
  for (const int n : {50, 100, 200, 500})
    for (const int capacity : {100, 120, 150})
      for (const int low : {1, 20, 30})
        for (int i = 0; i < 5; ++i) {
          Random random(3000 + n * 7919 + capacity * 101 + low * 13 + i, c.draw);
          c.cases.push_back(bins("n" + std::to_string(n), capacity, uniform(random, n, low, 100)));
        }
}

void scholl_2(Class& c) {
  c.rule = "Scholl, Klein and Juergens (1997), set 2: bins of 1000, mean size 1000/3, /5, /7, /9, spread 20, 50, 90 %; n 50..500";
  for (const int n : {50, 100, 200, 500})
    for (const int per_bin : {3, 5, 7, 9})
      for (const int spread : {20, 50, 90})
        for (int i = 0; i < 3; ++i) {
          Random random(4000 + n * 7919 + per_bin * 101 + spread * 13 + i, c.draw);
          const std::int64_t mean = 1000 / per_bin;
          c.cases.push_back(bins("n" + std::to_string(n), 1000, uniform(random, n, mean * (100 - spread) / 100, mean * (100 + spread) / 100)));
        }
}

void scholl_3(Class& c) {
  c.rule = "Scholl, Klein and Juergens (1997), set 3: bins of 100000, 200 sizes uniform in 20000..35000";
  for (int i = 0; i < 10; ++i) {
    Random random(5000 + i, c.draw);
    c.cases.push_back(bins("hard", 100000, uniform(random, 200, 20000, 35000)));
  }
}

void schwerin(Class& c) {
  c.rule = "Schwerin and Waescher (1997): bins of 1000, 100 or 120 sizes uniform in 150..200";
  for (const int n : {100, 120})
    for (int i = 0; i < 50; ++i) {
      Random random(6000 + n * 100 + i, c.draw);
      c.cases.push_back(bins("n" + std::to_string(n), 1000, uniform(random, n, 150, 200)));
    }
}

void waescher(Class& c) {
  c.rule =
      "Waescher and Gau (1996) by the generator of Gau and Waescher (1995): bins of 10000, m sizes up to 25..100 % of it, mean demand 1, 10, 50 "
      "(the seventeen collected hard cases themselves are not at hand)";
  for (const int m : {10, 20, 30, 40, 50, 100})
    for (const int top : {25, 50, 75, 100})
      for (const int demand : {1, 10, 50}) {
        Random random(7000 + m * 7919 + top * 101 + demand, c.draw);
        Sizes sizes;
        for (int s = 0; s < m; ++s) {
          const std::int64_t size = random.between(100, 100 * top);
          const std::int64_t count = demand == 1 ? 1 : random.between(1, 2 * demand - 1);
          sizes.insert(sizes.end(), static_cast<std::size_t>(count), size);
        }
        c.cases.push_back(bins("m" + std::to_string(m), 10000, sizes));
      }
}

// A hard28-like rule: the same capacity, number and range of sizes as that set (Schoenfield 2002), without its selection for hardness.
void like_hard28(Class& c) {
  c.rule = "as Schoenfield (2002), hard28: bins of 1000, 160..200 sizes uniform in 1..800; not selected for hardness, the set itself is not at hand";
  for (int i = 0; i < 28; ++i) {
    Random random(8000 + i, c.draw);
    c.cases.push_back(bins("h", 1000, uniform(random, 160 + 20 * (i % 3), 1, 800)));
  }
}

void variable_sized(Class& c) {
  c.rule = "Monaci (2002): bins of 100, 120, 150 or 60, 80, 100, 120, 150, cost = size; sizes uniform in 1, 20 or 50..100; n 25..500";
  for (const int n : {25, 50, 100, 200, 500})
    for (const int low : {1, 20, 50})
      for (const int set : {3, 5})
        for (int i = 0; i < 3; ++i) {
          Random random(9000 + n * 7919 + low * 101 + set * 13 + i, c.draw);
          std::vector<Stock> stocks;
          for (const int size : set == 3 ? std::vector<int>{100, 120, 150} : std::vector<int>{60, 80, 100, 120, 150})
            stocks.push_back({"bin", Length::from_nm(size), Money::from_units(size), {}});
          c.cases.push_back(bins("n" + std::to_string(n), stocks, uniform(random, n, low, 100)));
        }
}

void variable_concave(Class& c) {
  c.rule = "Haouari and Serairi (2009): bins as Monaci's five, cost rising with the root of the size, and with its power 3/2 (both x 100, rounded)";
  for (const int n : {100, 500})
    for (const int power : {1, 3})
      for (int i = 0; i < 5; ++i) {
        Random random(9500 + n * 7919 + power * 101 + i, c.draw);
        std::vector<Stock> stocks;
        for (const int size : {60, 80, 100, 120, 150}) {
          const double root = std::sqrt(static_cast<double>(size));
          stocks.push_back({"bin", Length::from_nm(size), Money::from_units(static_cast<std::int64_t>(100 * (power == 1 ? root : root * size) + 0.5)), {}});
        }
        c.cases.push_back(bins("n" + std::to_string(n), stocks, uniform(random, n, 1, 60)));
      }
}

constexpr std::int64_t kSixteenth = Length::kNmPerInch / 16;

Rules saw() {
  Rules rules;
  rules.kerf = Length::from_nm(2 * kSixteenth);
  return rules;
}

std::vector<Stock> yard(int kinds) {
  const std::vector<Stock> sticks = {{"21 ft", Length::feet(21), Money::cents(3840), {}},
                                     {"24 ft", Length::feet(24), Money::cents(4390), {}},
                                     {"32 ft", Length::feet(32), Money::cents(5850), {}}};
  return {sticks.begin(), sticks.begin() + kinds};
}

std::vector<Stock> used_joints(Random& random, int kinds, std::int64_t total_feet) {
  std::vector<Stock> stocks;
  for (int k = 0; k < kinds; ++k) {
    const std::int64_t length = random.between(28 * 192, 32 * 192);
    const std::int64_t count = std::max<std::int64_t>(1, total_feet * 12 / 10 / 30 / kinds + random.between(0, 2));
    stocks.push_back({"joint", Length::from_nm(length * kSixteenth), Money::cents(length * 95 / 192), count});
  }
  return stocks;
}

// Pieces as a planned fence gives them: a few lengths, each often. `lengths` sorts, `total` pieces, 20..118 in to 1/16 in.
std::vector<Piece> planned_pieces(Random& random, int lengths, int total) {
  std::vector<Piece> pieces;
  std::int64_t weights = 0;
  std::vector<std::int64_t> weight;
  for (int i = 0; i < lengths; ++i) weights += weight.emplace_back(random.between(1, 20));
  for (int i = 0; i < lengths; ++i) {
    const std::int64_t count = std::max<std::int64_t>(1, total * weight[i] / weights);
    pieces.push_back({"rail", Length::from_nm(random.between(20 * 16, 118 * 16) * kSixteenth), count, i});
  }
  return pieces;
}

void planned(Class& c) {
  c.rule = "planned jobs: 3..100 lengths in 20..118 in to 1/16 in, 200..20000 pieces, 1..3 stick lengths, or 60 kinds of used joint; kerf 1/8 in";
  c.seconds = 1;
  for (const int lengths : {3, 10, 30, 100})
    for (const int total : {200, 2000, 20000})
      for (const int kinds : {1, 2, 3, 60}) {
        Random random(10000 + lengths * 7919 + total * 11 + kinds, c.draw);
        std::vector<Piece> pieces = planned_pieces(random, lengths, total);
        std::int64_t inches = 0;
        for (const Piece& piece : pieces) inches += piece.length.nm() / Length::kNmPerInch * piece.count;
        const auto stocks = kinds == 60 ? used_joints(random, 60, inches / 12) : yard(kinds);
        c.cases.push_back(
            {"m" + std::to_string(lengths) + "-n" + std::to_string(total) + "-k" + std::to_string(kinds), *Instance::build(stocks, pieces, saw())});
      }
}

// Rails of runs with equal bays whose gaps were scattered by up to an inch when the posts were set, and read to 1/16 in.
void measured(Class& c, int total, double seconds) {
  c.rule = "measured jobs: runs of 60 rails of 60..117 in, each gap off by up to 1 in, read to 1/16 in; kerf 1/8 in; 1..3 stick lengths";
  c.seconds = seconds;
  for (int i = 0; i < 6; ++i) {
    Random random(20000 + total * 31 + i, c.draw);
    std::vector<Piece> pieces;
    std::int64_t nominal = 0;
    for (int p = 0; p < total; ++p) {
      if (p % 60 == 0) nominal = random.between(60 * 16, 117 * 16);
      pieces.push_back({"rail", Length::from_nm((nominal + random.between(-16, 16)) * kSixteenth), 1, p / 3});
    }
    c.cases.push_back({"n" + std::to_string(total) + "-k" + std::to_string(1 + i % 3), *Instance::build(yard(1 + i % 3), pieces, saw())});
  }
}

void drops(Class& c) {
  c.rule = "planned jobs with drops of 2 ft and more worth a dollar a foot, 1..3 stick lengths";
  for (const int lengths : {3, 10, 30})
    for (const int total : {200, 2000})
      for (const int kinds : {1, 2, 3}) {
        Random random(30000 + lengths * 7919 + total * 11 + kinds, c.draw);
        Rules rules = saw();
        rules.keep_from = Length::feet(2);
        rules.drop_value = Money::whole(1);
        c.cases.push_back({"m" + std::to_string(lengths), *Instance::build(yard(kinds), planned_pieces(random, lengths, total), rules)});
      }
}

}  // namespace

std::vector<std::string> class_names() {
  return {"uniform",  "triplets",      "scholl1", "scholl2",     "scholl3",     "schwerin",     "waescher",      "like_hard28",
          "variable", "variable_root", "planned", "measured100", "measured500", "measured2000", "measured10000", "drops"};
}

Class make_class(const std::string& name, std::uint64_t draw) {
  Class c;
  c.name = name;
  c.draw = draw;
  if (name == "uniform") falkenauer_uniform(c);
  if (name == "triplets") falkenauer_triplets(c);
  if (name == "scholl1") scholl_1(c);
  if (name == "scholl2") scholl_2(c);
  if (name == "scholl3") scholl_3(c);
  if (name == "schwerin") schwerin(c);
  if (name == "waescher") waescher(c);
  if (name == "like_hard28") like_hard28(c);
  if (name == "variable") variable_sized(c);
  if (name == "variable_root") variable_concave(c);
  if (name == "planned") planned(c);
  if (name == "measured100") measured(c, 100, 0.1);
  if (name == "measured500") measured(c, 500, 0.5);
  if (name == "measured2000") measured(c, 2000, 2);
  if (name == "measured10000") measured(c, 10000, 10);
  if (name == "drops") drops(c);
  return c;
}

}  // namespace railwright::bench
