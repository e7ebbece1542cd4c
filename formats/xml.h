// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "engine/measure/result.h"

namespace railwright::formats {

// Parses XML without a document type: entities beyond the five of XML itself are left as they stand, nothing is fetched or expanded.
// Error `walk.not_xml` (place: line).
Result<void> parse_xml(const std::string& text, pugi::xml_document& document);

// The name without its namespace prefix.
std::string_view local_name(const pugi::xml_node& node);

// First child with this local name; an empty node if there is none.
pugi::xml_node child(const pugi::xml_node& node, std::string_view name);
std::string child_text(const pugi::xml_node& node, std::string_view name);

// Line of a node, counted from 1.
std::string line_of(const std::string& text, const pugi::xml_node& node);

}  // namespace railwright::formats
