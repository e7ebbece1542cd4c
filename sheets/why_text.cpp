// SPDX-License-Identifier: MIT
#include "sheets/why_text.h"

#include <cctype>
#include <cmath>
#include <functional>

#include "engine/measure/quantity.h"
#include "sheets/shown.h"

namespace railwright::sheets {
namespace {

// Four figures that count.
std::string figures(double value) {
  const double size = std::fabs(value);
  int decimals = size >= 1000 ? 0 : size >= 100 ? 1 : size >= 10 ? 2 : 3;
  for (double small = size; small > 0 && small < 0.1 && decimals < 9; small *= 10) ++decimals;
  return grouped(number_text(value, decimals, decimals > 0));
}

// Bare numbers of the engine are in SI; what people compare is not.
struct Unit {
  const char* si;
  double metric;
  const char* metric_name;
  double customary;
  const char* customary_name;
};
constexpr double kPsi = measure::psi(1).si(), kPsf = measure::psf(1).si(), kPound = measure::pounds_force(1).si(), kInch = measure::kMetrePerInch,
                 kFoot = measure::kMetrePerFoot;
constexpr Unit kUnits[] = {{"Pa", 1e6, "MPa", kPsi, "psi"},
                           {"Pa/m", 1e3, "kPa/m", kPsf / kFoot, "psf/ft"},
                           {"N m", 1, "N m", kPound* kFoot, "lb ft"},
                           {"N/m", 1, "N/m", kPound / kFoot, "lb/ft"},
                           {"m2", 1e-6, "mm²", kInch* kInch, "in²"},
                           {"m4", 1e-8, "cm⁴", kInch* kInch* kInch* kInch, "in⁴"},
                           {"kg/m3", 1, "kg/m³", measure::kKilogramPerPound / (kFoot * kFoot * kFoot), "lb/ft³"},
                           {"m/s2", 1, "m/s²", kFoot, "ft/s²"},
                           {"1/K", 1e-6, "/K × 10⁻⁶", 1.8e-6, "/°F × 10⁻⁶"},
                           {"K", 1, "K", 1 / 1.8, "°F"}};

class Telling {
 public:
  Telling(const job::Job& job, const Words& words) : shown_(job), words_(words) {}

  std::string value(const Value& value, const std::string& unit) const {
    if (const auto* length = std::get_if<LengthValue>(&value)) return shown_.tape(Length::from_nm(length->nm));
    if (const auto* money = std::get_if<MoneyValue>(&value)) return shown_.money(Money::from_units(money->units));
    if (const auto* force = std::get_if<ForceValue>(&value)) {
      return shown_.metric() ? figures(force->newtons) + " N" : figures(force->newtons / kPound) + " lb";
    }
    if (const auto* earth = std::get_if<VolumeValue>(&value)) return volume(earth->cubic_metres);
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    const auto* whole = std::get_if<std::int64_t>(&value);
    const auto* real = std::get_if<double>(&value);
    return number(whole != nullptr ? static_cast<double>(*whole) : real != nullptr ? *real : 0, unit);
  }

  std::string name(const why::Input& input) const {
    if (input.name != "each") return words_.text("because.name." + input.name);
    for (const char* section : {"kind.", "operations.", "items."}) {
      if (words_.has(section + input.of)) return words_.text(section + input.of);
    }
    return input.of;
  }

  // A formula with its names told by `tell`; functions and signs as people write them.
  std::string formula(const std::string& formula, const std::function<std::string(const std::string&)>& tell) const {
    std::string out;
    for (std::size_t i = 0; i < formula.size();) {
      const auto c = static_cast<unsigned char>(formula[i]);
      if (std::isalpha(c) == 0) {
        i = add_sign(formula, i, out);
        continue;
      }
      std::string word;
      while (i < formula.size() && (std::isalnum(static_cast<unsigned char>(formula[i])) != 0 || formula[i] == '_')) word += formula[i++];
      if (formula.compare(i, 2, "()") == 0) {
        out += tell(word);
        i += 2;
      } else if (i < formula.size() && formula[i] == '(') {
        out += words_.text("because.function." + word) + " ";
      } else {
        out += word == "pi" ? "π" : tell(word);
      }
    }
    return out;
  }

 private:
  std::string number(double value, const std::string& unit) const {
    if (unit.empty()) return figures(value);
    if (unit == "share") return figures(value * 100) + " %";
    if (unit == "m") return shown_.tape(Length::from_metres(value));
    if (unit == "kg") return shown_.mass(value);
    if (unit == "m3") return volume(value);
    if (unit == "h" || unit == "min" || unit == "d") return figures(value) + " " + unit;
    for (const Unit& row : kUnits) {
      if (unit == row.si)
        return figures(value / (shown_.metric() ? row.metric : row.customary)) + " " + (shown_.metric() ? row.metric_name : row.customary_name);
    }
    return figures(value) + " " + (words_.has("unit." + unit) ? words_.text("unit." + unit) : unit);
  }
  std::string volume(double m3) const {
    if (m3 >= 1e-3) return figures(shown_.in_volume_unit(m3)) + " " + shown_.volume_unit();
    return shown_.metric() ? figures(m3 * 1e6) + " cm³" : figures(m3 / (kInch * kInch * kInch)) + " in³";
  }
  static std::size_t add_sign(const std::string& formula, std::size_t i, std::string& out) {
    const char c = formula[i];
    if (c == '*')
      out += "×";
    else if (c == '-')
      out += "−";
    else if (c == '/')
      out += "÷";
    else if (formula.compare(i, 3, "^ 2") == 0 || formula.compare(i, 3, "^ 3") == 0 || formula.compare(i, 3, "^ 4") == 0) {
      if (!out.empty() && out.back() == ' ') out.pop_back();
      out += formula[i + 2] == '2' ? "²" : formula[i + 2] == '3' ? "³" : "⁴";
      return i + 3;
    } else
      out += c;
    return i + 1;
  }

  Shown shown_;
  const Words& words_;
};

// What the title names: an item without its group, a check by its words.
std::string thing_of(const Words& words, const std::string& kind, const std::string& thing) {
  const auto slash = thing.find('/');
  if (kind == "order" && slash != std::string::npos) {
    const std::string item = thing.substr(slash + 1);
    return words.has("items." + item) ? words.text("items." + item) : item;
  }
  if (kind == "check" && slash != std::string::npos && words.has("checks." + thing.substr(0, slash))) {
    return thing.substr(slash + 1) + ", " + words.text("checks." + thing.substr(0, slash));
  }
  if (kind == "hours" && words.has("operations." + thing)) return words.text("operations." + thing);
  return thing == "all" ? words.text("because.name.all") : thing;
}

std::string title_of(const Words& words, const std::string& figure) {
  const auto first = figure.find('/'), last = figure.rfind('/');
  if (first == std::string::npos || first == last) return figure;
  const std::string kind = figure.substr(0, first), thing = figure.substr(first + 1, last - first - 1);
  std::string part = figure.substr(last + 1);
  if (kind == "stick" && part.compare(0, 4, "mark") == 0) part = "mark";
  return words.fill("because.figure." + kind + "." + part, {{"thing", thing_of(words, kind, thing)}});
}

// The shares of a sum, while they can be read.
std::string shares(const Telling& telling, const why::Answer& answer) {
  constexpr int kMost = 6;
  std::string out;
  int told = 0;
  for (const why::Input& input : answer.inputs) {
    if (input.name != "each") continue;
    if (++told > kMost) return out + " + …";
    if (told > 1) out += " + ";
    if (input.times != 1) out += figures(input.times) + " × ";
    out += telling.value(input.value, input.unit);
  }
  return told > 1 && answer.formula != "sum()" ? "(" + out + ")" : out;
}

}  // namespace

WhyText why_text(const job::Job& job, const Words& words, const why::Answer& answer) {
  const Telling telling(job, words);
  WhyText text;
  text.figure = answer.figure;
  text.title = title_of(words, answer.figure);
  text.value = telling.value(answer.value, answer.unit);
  text.formula =
      telling.formula(answer.formula, [&](const std::string& name) { return words.text(name == "sum" ? "because.function.sum" : "because.name." + name); });
  text.filled = telling.formula(answer.formula, [&](const std::string& name) {
    if (name == "sum") return shares(telling, answer);
    for (const why::Input& input : answer.inputs) {
      if (input.name == name) return telling.value(input.value, input.unit);
    }
    return name;
  });
  text.source = words.text("because.source." + answer.source);
  const std::string shown_row = "engine_text." + answer.row;
  text.row = words.has(shown_row) ? words.text(shown_row) : answer.row;
  text.where = answer.where;
  for (const why::Input& input : answer.inputs) {
    const std::string times = input.times == 1 ? "" : figures(input.times) + " × ";
    text.inputs.push_back({telling.name(input), times + telling.value(input.value, input.unit), input.figure});
  }
  return text;
}

std::string why_lines(const WhyText& text) {
  std::string out = text.title + " = " + text.value + "\n  " + text.formula + "\n  = " + text.filled + "\n";
  for (const WhyText::Input& input : text.inputs) {
    out += "    " + input.name + ": " + input.value + (input.figure.empty() ? "" : "   (" + input.figure + ")") + "\n";
  }
  out += "  " + text.source + "\n";
  if (!text.row.empty()) out += "  " + text.row + "\n";
  return out;
}

}  // namespace railwright::sheets
