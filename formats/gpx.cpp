// SPDX-License-Identifier: MIT
#include "formats/geo.h"
#include "formats/network.h"
#include "formats/text.h"
#include "formats/xml.h"

// GPX 1.1 (GPX 1.1 Schema Documentation, topografix): wpt, rte/rtept and trk/trkseg/trkpt with lat and lon, ele in metres.
namespace railwright::formats {
namespace {

Result<GeoVertex> vertex_of(const std::string& text, const pugi::xml_node& node) {
  GeoVertex vertex;
  const auto latitude = read_number(node.attribute("lat").value()), longitude = read_number(node.attribute("lon").value());
  if (!latitude || !longitude) {
    return fail("walk.bad_number", line_of(text, node),
                {{"text", one_line(std::string(node.attribute("lat").value()) + " " + node.attribute("lon").value(), 60)}});
  }
  vertex.latitude_deg = *latitude;
  vertex.longitude_deg = *longitude;
  // A height that cannot be read is no height; devices write "NaN" where they have none.
  vertex.height_m = read_number(child_text(node, "ele"));
  if (vertex.height_m && !(*vertex.height_m > -1000 && *vertex.height_m < 10'000)) vertex.height_m.reset();
  vertex.name = one_line(child_text(node, "name"));
  vertex.note = one_line(child_text(node, "cmt").empty() ? child_text(node, "desc") : child_text(node, "cmt"));
  return vertex;
}

Result<GeoLine> line_of_points(const std::string& text, const pugi::xml_node& parent, std::string_view point, bool track) {
  GeoLine line;
  line.track = track;
  for (const pugi::xml_node& node : parent.children()) {
    if (local_name(node) != point) continue;
    auto vertex = vertex_of(text, node);
    if (!vertex) return tl::unexpected(vertex.error());
    line.vertices.push_back(std::move(*vertex));
  }
  return line;
}

Result<void> add_line(GeoWalk& walk, Result<GeoLine> line) {
  if (!line) return tl::unexpected(line.error());
  if (!line->vertices.empty()) walk.lines.push_back(std::move(*line));
  return {};
}

Result<void> add_node(const std::string& text, const pugi::xml_node& node, GeoWalk& walk) {
  const std::string_view kind = local_name(node);
  if (kind == "metadata" || kind == "trk" || kind == "rte") {
    if (walk.name.empty()) walk.name = one_line(child_text(node, "name"));
  }
  if (kind == "rte") return add_line(walk, line_of_points(text, node, "rtept", false));
  if (kind == "wpt") {
    auto vertex = vertex_of(text, node);
    if (!vertex) return tl::unexpected(vertex.error());
    walk.marks.push_back({std::move(*vertex), {}});
  }
  if (kind != "trk") return {};
  for (const pugi::xml_node& segment : node.children()) {
    if (local_name(segment) != "trkseg") continue;
    if (const auto good = add_line(walk, line_of_points(text, segment, "trkpt", true)); !good) return good;
  }
  return {};
}

}  // namespace

Result<GeoWalk> read_gpx(const std::string& text) {
  pugi::xml_document document;
  if (const auto good = parse_xml(text, document); !good) return tl::unexpected(good.error());
  GeoWalk walk;
  walk.recorded = true;
  for (const pugi::xml_node& node : document.document_element().children()) {
    if (const auto good = add_node(text, node, walk); !good) return tl::unexpected(good.error());
  }
  return walk;
}

}  // namespace railwright::formats
