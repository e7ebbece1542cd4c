// SPDX-License-Identifier: MIT
#include "engine/job/json_tree.h"

#include <fmt/format.h>

#include <algorithm>

namespace railwright::job {
namespace {

// `line:column` of a byte, counted from 1 in characters.
std::string place_of(std::string_view text, std::size_t byte) {
  std::size_t line = 1, column = 1;
  for (std::size_t i = 0; i < std::min(byte, text.size()); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c == '\n') {
      ++line;
      column = 1;
    } else if ((c & 0xC0u) != 0x80u) {
      ++column;
    }
  }
  return fmt::format("{}:{}", line, column);
}

Finding fault(const char* code, std::string where, Values values = {}) { return {code, Severity::stop, std::move(where), std::move(values)}; }

std::int64_t whole(std::size_t n) { return static_cast<std::int64_t>(n); }

// Bytes of the UTF-8 character that starts here; 0 when none does. Overlong forms, surrogates and values past U+10FFFF are none
// (The Unicode Standard, table 3-7, well-formed byte sequences).
std::size_t character_size(std::string_view text) {
  const auto byte = [&text](std::size_t i) -> unsigned { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0; };
  const auto tail = [&byte](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned first = byte(0), second = byte(1);
  if (first < 0x80) return first == 0 ? 0 : 1;  // NUL: UTF-16 or a binary file
  if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const bool sound = !(first == 0xE0 && second < 0xA0) && !(first == 0xED && second > 0x9F);
    return sound && tail(1) && tail(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const bool sound = !(first == 0xF0 && second < 0x90) && !(first == 0xF4 && second > 0x8F);
    return sound && tail(1) && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

// The first byte that is not UTF-8, or the end.
std::size_t first_bad_byte(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t size = character_size(text.substr(at));
    if (size == 0) return at;
    at += size;
  }
  return at;
}

// Builds the tree while counting, and stops at the first thing that is too much.
class TreeBuilder {
 public:
  TreeBuilder(std::string_view text, const DocumentLimits& limits, Findings& findings) : text_(text), limits_(limits), findings_(findings) {}

  Json take() { return std::move(root_); }

  bool null() { return put(Json()); }
  bool boolean(bool value) { return put(Json(value)); }
  bool number_integer(Json::number_integer_t value) { return put(Json(value)); }
  bool number_unsigned(Json::number_unsigned_t value) { return put(Json(value)); }
  bool number_float(Json::number_float_t value, const std::string&) { return put(Json(value)); }
  bool string(std::string& value) { return put(Json(std::move(value))); }
  bool binary(Json::binary_t&) { return false; }
  bool start_object(std::size_t) { return open(Json::object()); }
  bool end_object() { return close(); }
  bool start_array(std::size_t) { return open(Json::array()); }
  bool end_array() { return close(); }

  bool key(std::string& name) {
    if (open_.back()->contains(name)) {
      return refuse(fault("job.duplicate_key", {}, {{"key", name.substr(0, 60)}}));
    }
    if (open_.back()->size() >= limits_.keys) return too_many(limits_.keys);
    key_ = std::move(name);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) {
    return refuse(fault("job.not_json", place_of(text_, position == 0 ? 0 : position - 1)));
  }

 private:
  bool refuse(Finding finding) {
    findings_.push_back(std::move(finding));
    return false;
  }
  bool too_many(std::size_t most) { return refuse(fault("job.too_many", {}, {{"most", whole(most)}})); }

  Json* place(Json value) {
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& parent = *open_.back();
    if (parent.is_object()) return &(parent[key_] = std::move(value));
    parent.push_back(std::move(value));
    return &parent.back();
  }

  bool put(Json value) {
    if (++values_ > limits_.values) return too_many(limits_.values);
    place(std::move(value));
    return true;
  }

  bool open(Json container) {
    if (++values_ > limits_.values) return too_many(limits_.values);
    if (open_.size() >= limits_.depth) {
      return refuse(fault("job.too_deep", {}, {{"most", whole(limits_.depth)}}));
    }
    open_.push_back(place(std::move(container)));
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  const DocumentLimits& limits_;
  Findings& findings_;
  Json root_;
  std::vector<Json*> open_;  // from the root to the innermost open container
  std::string key_;
  std::size_t values_ = 0;
};

}  // namespace

Json parse_tree(std::string_view text, Findings& findings, const DocumentLimits& limits) {
  if (text.size() > limits.bytes) {
    findings.push_back(fault("job.too_large", {}, {{"most_mb", whole(limits.bytes >> 20)}}));
    return {};
  }
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    findings.push_back(fault("job.empty", {}));
    return {};
  }
  if (const std::size_t bad = first_bad_byte(text); bad < text.size()) {
    findings.push_back(fault("job.not_utf8", place_of(text, bad)));
    return {};
  }
  TreeBuilder builder(text, limits, findings);
  const bool sound = Json::sax_parse(text.begin(), text.end(), &builder);
  return sound ? builder.take() : Json();
}

}  // namespace railwright::job
