// SPDX-License-Identifier: MIT
#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <cmath>

#include "engine/job/read.h"
#include "engine/job/to_json.h"

namespace railwright::job {
namespace {

// A list of numbers stands on as few lines as it needs; nlohmann's own layout would give each height of a grid its own line.
void put(const Json& json, std::string& out, std::size_t indent);

bool is_plain(const Json& json) { return !json.is_structured() || json.empty(); }

void line_break(std::string& out, std::size_t indent) {
  out += '\n';
  out.append(indent, ' ');
}

void put_list(const Json& list, std::string& out, std::size_t indent) {
  constexpr std::size_t kWidth = 100;
  out += '[';
  std::size_t line_start = out.size();
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i > 0) out += ',';
    const bool plain = is_plain(list[i]);
    if (!plain || (i > 0 && out.size() - line_start > kWidth)) {
      line_break(out, indent + 2);
      line_start = out.size();
    } else if (i > 0) {
      out += ' ';
    }
    put(list[i], out, indent + 2);
  }
  if (!list.empty() && !is_plain(list.back())) line_break(out, indent);
  out += ']';
}

// An object of a few plain values stands on one line, so that a point or a gap is one line of a diff.
bool fits_one_line(const Json& object) {
  std::size_t size = 0;
  for (auto item = object.begin(); item != object.end(); ++item) {
    if (!is_plain(*item)) return false;
    size += item.key().size() + 6 + (item->is_string() ? item->get_ref<const std::string&>().size() : 8);
  }
  return size <= 110;
}

void put_object(const Json& object, std::string& out, std::size_t indent) {
  const bool one_line = indent > 0 && fits_one_line(object);
  out += '{';
  for (auto item = object.begin(); item != object.end(); ++item) {
    if (item != object.begin()) out += one_line ? ", " : ",";
    if (!one_line) line_break(out, indent + 2);
    out += Json(item.key()).dump() + ": ";
    put(*item, out, indent + 2);
  }
  if (!one_line && !object.empty()) line_break(out, indent);
  out += '}';
}

void put(const Json& json, std::string& out, std::size_t indent) {
  if (json.is_object()) return put_object(json, out, indent);
  if (json.is_array()) return put_list(json, out, indent);
  // Bytes that are not UTF-8 can only come from a job built in memory; they are replaced, never thrown at the caller.
  out += json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Json to_json(const std::string& text) { return text; }
Json to_json(bool flag) { return flag; }
Json to_json(int count) { return count; }
Json to_json(long count) { return count; }
Json to_json(double number) { return number; }
Json to_json(Length length) { return measure::exact_text(length); }
Json to_json(Money money) { return measure::decimal_text(money); }

// The shortest decimal that reads back to the same float, instead of the float's long tail as a double.
Json to_json(float height) {
  if (!std::isfinite(height)) return nullptr;
  const std::string text = fmt::format("{}", height);
  double value = 0;
  fast_float::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

std::string write_job(const Job& job) {
  Json json = Json::object();
  json["version"] = job.version;
  json.update(to_json(job));
  std::string out;
  put(json, out, 0);
  out += '\n';
  return out;
}

}  // namespace railwright::job
