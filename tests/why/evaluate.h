// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "engine/why/why.h"

// A small reader of formulas, written apart from the engine: it knows nothing but the names and values that an answer gives.
namespace railwright::testing {

inline double si(const Value& value) {
  struct Visitor {
    double operator()(const std::string& text) const { throw std::runtime_error("no number: " + text); }
    double operator()(std::int64_t number) const { return static_cast<double>(number); }
    double operator()(double number) const { return number; }
    double operator()(LengthValue v) const { return static_cast<double>(v.nm) * 1e-9; }
    double operator()(MoneyValue v) const { return static_cast<double>(v.units) / 10000; }
    double operator()(AngleValue v) const { return v.degrees; }
    double operator()(SlopeValue v) const { return v.rise_per_run; }
    double operator()(ForceValue v) const { return v.newtons; }
    double operator()(VolumeValue v) const { return v.cubic_metres; }
  };
  return std::visit(Visitor{}, value);
}

// P(fewer than n sound of `order`), each lost with chance p: the binomial sum, term by term through logarithms.
inline double chance_short_of(double n, double order, double p) {
  const int all = static_cast<int>(std::lround(order)), least = static_cast<int>(std::lround(n));
  if (least <= 0 || p <= 0) return 0;
  if (all < least) return 1;
  double sum = 0;
  for (int lost = all - least + 1; lost <= all; ++lost) {
    sum += std::exp(std::lgamma(all + 1.0) - std::lgamma(lost + 1.0) - std::lgamma(all - lost + 1.0) + lost * std::log(p) + (all - lost) * std::log1p(-p));
  }
  return sum;
}

// How many deviations of a normal spread have the chance beyond them: halved until the double is found.
inline double deviations_for(double chance) {
  double low = -40, high = 40;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (std::erfc(middle / std::sqrt(2.0)) / 2 > chance ? low : high) = middle;
  }
  return low;
}

class Formula {
 public:
  explicit Formula(const why::Answer& answer) : text_(answer.formula) {
    for (const why::Input& input : answer.inputs) {
      if (input.name == "each")
        sum_ += input.times * si(input.value);
      else if (!values_.emplace(input.name, si(input.value)).second)
        throw std::runtime_error("twice: " + input.name);
    }
  }

  double value() {
    const double result = terms();
    if (at_ != text_.size()) throw std::runtime_error("left over: " + text_.substr(at_));
    return result;
  }
  // Names that were given and not asked for.
  std::vector<std::string> unused() const {
    std::vector<std::string> names;
    for (const auto& [name, value] : values_) {
      if (used_.count(name) == 0) names.push_back(name);
    }
    return names;
  }

 private:
  void blank() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool take(char c) {
    blank();
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    blank();
    return true;
  }
  void need(char c) {
    if (!take(c)) throw std::runtime_error(std::string("expected ") + c + " in " + text_);
  }

  double terms() {
    double sum = product();
    for (;;) {
      if (take('+'))
        sum += product();
      else if (take('-'))
        sum -= product();
      else
        return sum;
    }
  }
  double product() {
    double result = power();
    for (;;) {
      if (take('*'))
        result *= power();
      else if (take('/'))
        result /= power();
      else
        return result;
    }
  }
  double power() {
    const double base = atom();
    return take('^') ? std::pow(base, power()) : base;
  }
  double atom() {
    blank();
    if (take('(')) {
      const double inner = terms();
      need(')');
      return inner;
    }
    if (at_ < text_.size() && (std::isdigit(static_cast<unsigned char>(text_[at_])) != 0)) {
      std::size_t length = 0;
      const double number = std::stod(text_.substr(at_), &length);
      at_ += length;
      blank();
      return number;
    }
    std::string name;
    while (at_ < text_.size() && (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_')) name += text_[at_++];
    if (name.empty()) throw std::runtime_error("cannot read " + text_.substr(at_));
    if (take('(')) return call(name);
    blank();
    if (name == "pi") return 3.14159265358979323846;
    const auto found = values_.find(name);
    if (found == values_.end()) throw std::runtime_error("no value for " + name);
    used_[name] = true;
    return found->second;
  }
  double call(const std::string& name) {
    std::vector<double> given;
    if (!take(')')) {
      do given.push_back(terms());
      while (take(','));
      need(')');
    }
    if (name == "sum" && given.empty()) return sum_;
    if (name == "sqrt") return std::sqrt(given.at(0));
    if (name == "cbrt") return std::cbrt(given.at(0));
    if (name == "ceil") return std::ceil(given.at(0) - 1e-9);
    if (name == "min") return std::min(given.at(0), given.at(1));
    if (name == "max") return std::max(given.at(0), given.at(1));
    if (name == "round_up") return std::ceil(given.at(0) / given.at(1) - 1e-9) * given.at(1);
    if (name == "round_down") return std::floor(given.at(0) / given.at(1) + 1e-9) * given.at(1);
    if (name == "cents") return std::floor(given.at(0) * 100 + 0.5 + 1e-7) / 100;
    if (name == "tail") return std::erfc(given.at(0) / std::sqrt(2.0)) / 2;
    if (name == "deviations") return deviations_for(given.at(0));
    if (name == "short") return chance_short_of(given.at(0), given.at(1), given.at(2));
    if (name == "spares") {
      double more = 0;
      while (chance_short_of(given.at(0), given.at(0) + more, given.at(1)) > given.at(2)) ++more;
      return more;
    }
    throw std::runtime_error("no function " + name);
  }

  std::string text_;
  std::size_t at_ = 0;
  double sum_ = 0;
  std::map<std::string, double> values_;
  std::map<std::string, bool> used_;
};

}  // namespace railwright::testing
