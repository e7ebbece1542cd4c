// SPDX-License-Identifier: MIT
#include <vector>

#include "formats/geo.h"
#include "formats/network.h"
#include "formats/text.h"
#include "formats/xml.h"

// OGC KML 2.2 (OGC 07-147r2): coordinates are "longitude,latitude[,height]" tuples parted by blanks; gx:coord parts them by blanks.
namespace railwright::formats {
namespace {

Result<GeoVertex> vertex_of(std::string_view tuple, char comma, const std::string& line) {
  double figures[3] = {0, 0, 0};
  std::size_t count = 0;
  for (std::size_t start = 0; start <= tuple.size() && count < 3;) {
    std::size_t end = tuple.find(comma, start);
    if (end == std::string_view::npos) end = tuple.size();
    const auto figure = read_number(tuple.substr(start, end - start));
    if (!figure) return fail("walk.bad_number", line, {{"text", one_line(tuple, 60)}});
    figures[count++] = *figure;
    start = end + 1;
  }
  if (count < 2) return fail("walk.bad_number", line, {{"text", one_line(tuple, 60)}});
  GeoVertex vertex;
  vertex.longitude_deg = figures[0];
  vertex.latitude_deg = figures[1];
  // Drawn lines carry 0 where nothing was measured.
  if (count == 3 && figures[2] != 0 && figures[2] > -1000 && figures[2] < 10'000) vertex.height_m = figures[2];
  return vertex;
}

Result<std::vector<GeoVertex>> vertices_of(const std::string& text, const pugi::xml_node& geometry) {
  std::vector<GeoVertex> vertices;
  const pugi::xml_node node = child(geometry, "coordinates");
  const std::string_view list = node.child_value();
  constexpr std::string_view kBlanks = " \t\n\r";
  for (std::size_t at = list.find_first_not_of(kBlanks); at != std::string_view::npos; at = list.find_first_not_of(kBlanks, at)) {
    std::size_t end = list.find_first_of(kBlanks, at);
    if (end == std::string_view::npos) end = list.size();
    auto vertex = vertex_of(list.substr(at, end - at), ',', line_of(text, node));
    if (!vertex) return tl::unexpected(vertex.error());
    vertices.push_back(std::move(*vertex));
    at = end;
  }
  return vertices;
}

class Reader : public pugi::xml_tree_walker {
 public:
  Reader(const std::string& text, GeoWalk& walk) : text_(text), walk_(walk) {}
  Result<void> outcome;

  bool for_each(pugi::xml_node& node) override {
    const std::string_view kind = local_name(node);
    if (kind == "name" && walk_.name.empty()) walk_.name = one_line(node.child_value());
    if (kind == "Placemark") placemark_ = node;
    if (kind == "LineString" || kind == "LinearRing") add_line(node, kind == "LinearRing");
    if (kind == "Point") add_point(node);
    if (kind == "Track") add_track(node);
    return outcome.has_value();
  }

 private:
  void add_line(const pugi::xml_node& node, bool closed) {
    auto vertices = vertices_of(text_, node);
    if (!vertices) return refuse(vertices.error());
    GeoLine line;
    line.vertices = std::move(*vertices);
    line.closed = closed;
    if (!line.vertices.empty()) walk_.lines.push_back(std::move(line));
  }

  void add_point(const pugi::xml_node& node) {
    auto vertices = vertices_of(text_, node);
    if (!vertices) return refuse(vertices.error());
    for (GeoVertex& vertex : *vertices) {
      vertex.name = one_line(child_text(placemark_, "name"));
      vertex.note = one_line(child_text(placemark_, "description"));
      walk_.marks.push_back({std::move(vertex), {}});
    }
  }

  void add_track(const pugi::xml_node& node) {
    GeoLine line;
    line.track = true;
    for (const pugi::xml_node& coord : node.children()) {
      if (local_name(coord) != "coord") continue;
      auto vertex = vertex_of(trimmed(coord.child_value()), ' ', line_of(text_, coord));
      if (!vertex) return refuse(vertex.error());
      line.vertices.push_back(std::move(*vertex));
    }
    walk_.recorded = true;
    if (!line.vertices.empty()) walk_.lines.push_back(std::move(line));
  }

  void refuse(const Error& error) { outcome = tl::unexpected(error); }

  const std::string& text_;
  GeoWalk& walk_;
  pugi::xml_node placemark_;
};

}  // namespace

Result<GeoWalk> read_kml(const std::string& text) {
  pugi::xml_document document;
  if (const auto good = parse_xml(text, document); !good) return tl::unexpected(good.error());
  GeoWalk walk;
  Reader reader(text, walk);
  document.traverse(reader);
  if (!reader.outcome) return tl::unexpected(reader.outcome.error());
  return walk;
}

}  // namespace railwright::formats
