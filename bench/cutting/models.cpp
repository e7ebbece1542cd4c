// SPDX-License-Identifier: MIT
#include "bench/cutting/models.h"

#include <map>
#include <set>

#include "engine/cutting/model.h"

namespace railwright::bench {
namespace {

using cutting::Model;
using cutting::Pattern;

constexpr std::size_t kMostPatterns = 100'000;

class Patterns {
 public:
  explicit Patterns(const Model& model) : model_(model) {}

  bool run() {
    for (int k = 0; k < static_cast<int>(model_.types.size()) && all.size() <= kMostPatterns; ++k) {
      Pattern pattern{k, {}};
      fill(pattern, 0, model_.types[k].capacity);
    }
    return all.size() <= kMostPatterns;
  }

  std::vector<Pattern> all;

 private:
  // Maximal: no further piece fits, as far as demands allow.
  void fill(Pattern& pattern, std::size_t s, std::int64_t room) {
    if (all.size() > kMostPatterns) return;
    if (s == model_.sorts.size()) {
      if (!pattern.takes.empty() && maximal(pattern, room)) all.push_back(pattern);
      return;
    }
    for (std::int64_t n = std::min(model_.sorts[s].demand, room / model_.sorts[s].size); n >= 0; --n) {
      if (n > 0) pattern.takes.push_back({static_cast<int>(s), n});
      fill(pattern, s + 1, room - n * model_.sorts[s].size);
      if (n > 0) pattern.takes.pop_back();
    }
  }

  bool maximal(const Pattern& pattern, std::int64_t room) const {
    std::vector<std::int64_t> left;
    for (const cutting::Sort& sort : model_.sorts) left.push_back(sort.demand);
    for (const cutting::Take& take : pattern.takes) left[take.sort] -= take.count;
    for (std::size_t s = 0; s < left.size(); ++s)
      if (left[s] > 0 && model_.sorts[s].size <= room) return false;
    return true;
  }

  const Model& model_;
};

std::string term(std::int64_t factor, const std::string& name) { return " + " + std::to_string(factor) + " " + name; }

std::string pattern_program(const Model& model, const std::vector<Pattern>& patterns) {
  std::string text = "Minimize\n obj:";
  std::vector<std::string> rows(model.sorts.size());
  std::vector<std::string> limits(model.types.size());
  std::string integers;
  for (std::size_t p = 0; p < patterns.size(); ++p) {
    std::string name = "x";
    name += std::to_string(p);
    text += term(model.cost(patterns[p]), name) + "\n";
    for (const cutting::Take& take : patterns[p].takes) rows[take.sort] += term(take.count, name) + "\n";
    limits[patterns[p].type] += term(1, name) + "\n";
    integers += " " + name + "\n";
  }
  text += "Subject To\n";
  for (std::size_t s = 0; s < rows.size(); ++s) text += " d" + std::to_string(s) + ":" + rows[s] + " >= " + std::to_string(model.sorts[s].demand) + "\n";
  for (std::size_t k = 0; k < limits.size(); ++k)
    if (model.types[k].counted && !limits[k].empty()) text += " t" + std::to_string(k) + ":" + limits[k] + " <= " + std::to_string(model.types[k].limit) + "\n";
  return text + "Generals\n" + integers + "End\n";
}

// Positions from zero, pieces longest first; a stick of a type may end at any position up to its capacity.
std::string arc_program(const Model& model) {
  std::map<std::int64_t, std::string> balance;
  std::vector<std::string> rows(model.sorts.size());
  std::string integers;
  std::set<std::int64_t> reached = {0};
  std::int64_t longest = 0;
  for (const cutting::Type& type : model.types) longest = std::max(longest, type.capacity);
  std::size_t arcs = 0;
  for (std::size_t s = 0; s < model.sorts.size(); ++s) {
    const std::int64_t size = model.sorts[s].size;
    std::map<std::int64_t, std::int64_t> copies;  // most pieces of this sort already behind a position
    for (const std::int64_t at : reached) copies[at] = 0;
    for (auto it = copies.begin(); it != copies.end(); ++it) {
      if (it->second >= model.sorts[s].demand || it->first + size > longest) continue;
      const auto [next, fresh] = copies.insert({it->first + size, it->second + 1});
      if (!fresh) next->second = std::min(next->second, it->second + 1);
      if (++arcs > 2'000'000) return {};
      const std::string name = "a" + std::to_string(s) + "_" + std::to_string(it->first);
      balance[it->first] += " - " + name + "\n";
      balance[it->first + size] += " + " + name + "\n";
      rows[s] += " + " + name + "\n";
      integers += " " + name + "\n";
    }
    for (const auto& [at, count] : copies) reached.insert(at);
  }
  std::string objective;
  std::vector<std::string> limits(model.types.size());
  std::string start;
  // Sticks end where they are full: loss arcs lead from each position to the next, ends leave at the capacities.
  std::set<std::int64_t> places = reached;
  for (const cutting::Type& type : model.types) places.insert(type.capacity);
  for (auto it = places.begin(); it != places.end(); ++it) {
    const auto next = std::next(it);
    if (next == places.end() || *it == 0) continue;
    const std::string name = "l" + std::to_string(*it);
    balance[*it] += " - " + name + "\n";
    balance[*next] += " + " + name + "\n";
    integers += " " + name + "\n";
  }
  for (std::size_t k = 0; k < model.types.size(); ++k) {
    const std::string name = "n" + std::to_string(k);
    balance[model.types[k].capacity] += " - " + name + "\n";
    start += " + " + name + "\n";
    objective += term(model.types[k].price, name);
    if (model.types[k].counted) limits[k] = " t" + std::to_string(k) + ": " + name + " <= " + std::to_string(model.types[k].limit) + "\n";
    integers += " " + name + "\n";
  }
  balance[0] += start;
  std::string text = "Minimize\n obj:" + objective + "\nSubject To\n";
  for (const auto& [at, row] : balance) text += " b" + std::to_string(at) + ":" + row + " = 0\n";
  for (std::size_t s = 0; s < rows.size(); ++s) text += " d" + std::to_string(s) + ":" + rows[s] + " >= " + std::to_string(model.sorts[s].demand) + "\n";
  for (const std::string& limit : limits) text += limit;
  return text + "Generals\n" + integers + "End\n";
}

}  // namespace

std::string integer_program(const cutting::Instance& instance, std::string& kind) {
  const Model model(instance);
  Patterns patterns(model);
  if (patterns.run()) {
    kind = "patterns";
    return pattern_program(model, patterns.all);
  }
  kind = "arcs";
  return model.values_drops ? std::string() : arc_program(model);
}

}  // namespace railwright::bench
