// SPDX-License-Identifier: MIT
#include "formats/xml.h"

#include <algorithm>

namespace railwright::formats {
namespace {

std::string line_at(const std::string& text, std::ptrdiff_t offset) {
  const auto end = text.begin() + std::clamp<std::ptrdiff_t>(offset, 0, static_cast<std::ptrdiff_t>(text.size()));
  return std::to_string(1 + std::count(text.begin(), end, '\n'));
}

}  // namespace

Result<void> parse_xml(const std::string& text, pugi::xml_document& document) {
  const auto parsed = document.load_buffer(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!parsed) return fail("walk.not_xml", line_at(text, parsed.offset), {{"line", line_at(text, parsed.offset)}});
  return {};
}

std::string_view local_name(const pugi::xml_node& node) {
  const std::string_view name = node.name();
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node child(const pugi::xml_node& node, std::string_view name) {
  for (const pugi::xml_node& each : node.children()) {
    if (local_name(each) == name) return each;
  }
  return {};
}

std::string child_text(const pugi::xml_node& node, std::string_view name) { return child(node, name).child_value(); }

std::string line_of(const std::string& text, const pugi::xml_node& node) { return line_at(text, node.offset_debug()); }

}  // namespace railwright::formats
