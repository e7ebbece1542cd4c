// SPDX-License-Identifier: MIT
#include "sheets/words.h"

#include <nlohmann/json.hpp>

#include "sheets/shown.h"

namespace railwright::sheets {
namespace {

using nlohmann::json;

// Adds the leaves below `node`; the key of the first leaf that is no text, or nothing.
std::string gather(const json& node, const std::string& path, std::map<std::string, std::string>& into, int depth = 0) {
  if (node.is_string()) {
    into[path] = node.get<std::string>();
    return {};
  }
  if (!node.is_object() || depth > 16) return path.empty() ? "/" : path;
  for (const auto& [key, value] : node.items()) {
    const auto bad = gather(value, path.empty() ? key : path + "." + key, into, depth + 1);
    if (!bad.empty()) return bad;
  }
  return {};
}

// Cubic feet, from a cubic yard on with the yards that earth is carted by; or cubic metres.
std::string volume_text(double cubic_metres, const measure::LengthFormat& lengths) {
  if (lengths.style != measure::LengthStyle::feet_inches && lengths.style != measure::LengthStyle::inches) return number_text(cubic_metres, 3, true) + " m³";
  const double feet = measure::in_cubic_feet(measure::Volume::si(cubic_metres));
  const std::string text = number_text(feet, 1, true) + " ft³";
  return feet < 27 ? text : text + " (" + number_text(feet / 27, 1, true) + " yd³)";
}

std::string value_text(const Value& value, const measure::LengthFormat& lengths) {
  return std::visit(
      [&](const auto& v) -> std::string {
        using T = std::decay_t<decltype(v)>;
        if constexpr (std::is_same_v<T, std::string>)
          return v;
        else if constexpr (std::is_same_v<T, std::int64_t>)
          return std::to_string(v);
        else if constexpr (std::is_same_v<T, double>)
          return number_text(v, 2, true);
        else if constexpr (std::is_same_v<T, LengthValue>)
          return format_length(measure::Length::from_nm(v.nm), lengths);
        else if constexpr (std::is_same_v<T, MoneyValue>)
          return decimal_text(measure::Money::from_units(v.units).round_to_cents());
        else if constexpr (std::is_same_v<T, AngleValue>)
          return number_text(v.degrees, 1, true) + "°";
        else if constexpr (std::is_same_v<T, SlopeValue>)
          return number_text(v.rise_per_run * 100, 1, true) + " %";
        else if constexpr (std::is_same_v<T, VolumeValue>)
          return volume_text(v.cubic_metres, lengths);
        else {
          static_assert(std::is_same_v<T, ForceValue>);
          if (lengths.style == measure::LengthStyle::feet_inches || lengths.style == measure::LengthStyle::inches)
            return number_text(measure::in_pounds_force(measure::Force::si(v.newtons)), 0) + " lb";
          return number_text(v.newtons, 0) + " N";
        }
      },
      value);
}

std::string sentence(const Words& words, const std::string& key, const std::string& code, const std::string& where, const Values& values,
                     const measure::LengthFormat& lengths) {
  std::map<std::string, std::string> shown{{"where", where}};
  for (const auto& [name, value] : values) {
    const std::string text = value_text(value, lengths);
    const std::string word = "value." + name + "." + text;
    shown[name] = words.has(word) ? words.text(word) : text;
  }
  if (words.has(key)) return words.fill(key, shown);
  std::string out = code;
  if (!where.empty()) out += " (" + where + ")";
  for (const auto& [name, value] : values) out += ", " + name + " " + value_text(value, lengths);
  return out + ".";
}

}  // namespace

Result<Words> Words::parse(std::string_view text) {
  const json document = json::parse(text.begin(), text.end(), nullptr, false);
  if (document.is_discarded()) return fail("words.not_json");
  Words words;
  const auto bad = gather(document, "", words.texts_);
  if (!bad.empty()) return fail("words.not_text", bad);
  return words;
}

void Words::add(const Words& other) {
  for (const auto& [key, text] : other.texts_) texts_[key] = text;
}

std::string Words::text(const std::string& key) const {
  const auto found = texts_.find(key);
  return found == texts_.end() ? "[" + key + "]" : found->second;
}

std::string Words::fill(const std::string& key, const std::map<std::string, std::string>& values) const {
  const std::string sentence = text(key);
  std::string out;
  for (std::size_t i = 0; i < sentence.size();) {
    const auto close = sentence[i] == '{' ? sentence.find('}', i) : std::string::npos;
    const auto value = close == std::string::npos ? values.end() : values.find(sentence.substr(i + 1, close - i - 1));
    if (value == values.end()) {
      out += sentence[i++];
    } else {
      out += value->second;
      i = close + 1;
    }
  }
  return out;
}

std::string finding_text(const Words& words, const Finding& f, const measure::LengthFormat& lengths) {
  return sentence(words, "findings." + f.code, f.code, f.where, f.values, lengths);
}

std::string remedy_text(const Words& words, const std::string& code, const Values& values, const measure::LengthFormat& lengths) {
  return sentence(words, "remedy." + code, code, {}, values, lengths);
}

std::string error_text(const Words& words, const Error& e, const measure::LengthFormat& lengths) {
  return sentence(words, "errors." + e.code, e.code, e.place, e.values, lengths);
}

measure::LengthFormat length_format(job::UnitSystem units) {
  measure::LengthFormat format;
  if (units == job::UnitSystem::metric) {
    format.style = measure::LengthStyle::millimetres;
  }
  return format;
}

}  // namespace railwright::sheets
