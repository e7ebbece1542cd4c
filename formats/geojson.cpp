// SPDX-License-Identifier: MIT
#include <algorithm>
#include <nlohmann/json.hpp>

#include "formats/geo.h"
#include "formats/network.h"
#include "formats/text.h"

// GeoJSON (RFC 7946): positions are [longitude, latitude, height]; a polygon's rings repeat their first position at the end.
namespace railwright::formats {
namespace {

using Json = nlohmann::json;

constexpr int kDeepest = 16;

// Text of a property, empty when it is none.
std::string text_of(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end()) return {};
  if (found->is_string()) return one_line(found->get_ref<const std::string&>());
  return found->is_number() ? found->dump() : std::string();
}

class FeatureReader {
 public:
  GeoWalk walk;

  Result<void> read(const Json& json, const std::string& where, int depth) {
    if (depth > kDeepest) return fail("walk.too_deep", where);
    if (!json.is_object()) return wrong(where);
    const std::string type = text_of(json, "type");
    if (walk.name.empty()) walk.name = text_of(json, "name");
    if (type == "FeatureCollection") return read_all(json, "features", where, depth);
    if (type == "GeometryCollection") return read_all(json, "geometries", where, depth);
    if (type == "Feature") return read_feature(json, where, depth);
    const auto coordinates = json.find("coordinates");
    if (coordinates == json.end()) return wrong(where);
    return read_geometry(type, *coordinates, where + "/coordinates");
  }

 private:
  static tl::unexpected<Error> wrong(const std::string& where) { return fail("walk.not_geojson", where); }

  Result<void> read_all(const Json& json, const char* key, const std::string& where, int depth) {
    const auto list = json.find(key);
    if (list == json.end() || !list->is_array()) return wrong(where + "/" + key);
    for (std::size_t i = 0; i < list->size(); ++i) {
      if (const auto good = read((*list)[i], where + "/" + key + "/" + std::to_string(i), depth + 1); !good) return good;
    }
    return {};
  }

  Result<void> read_feature(const Json& json, const std::string& where, int depth) {
    properties_ = {};
    const auto properties = json.find("properties");
    if (properties != json.end() && properties->is_object()) {
      properties_.name = text_of(*properties, "name");
      properties_.note = text_of(*properties, "note");
      properties_.fence = text_of(*properties, "fence");
      if (const std::string gate = text_of(*properties, "gate"); !gate.empty()) properties_.gate = gate_width(gate);
    }
    const auto geometry = json.find("geometry");
    if (geometry == json.end() || geometry->is_null()) return {};
    return read(*geometry, where + "/geometry", depth + 1);
  }

  Result<void> read_geometry(const std::string& type, const Json& list, const std::string& where) {
    if (type == "Point") return add_point(list, where);
    if (type == "LineString") return add_line(list, where, false);
    const bool rings = type == "Polygon";
    if (rings || type == "MultiLineString" || type == "MultiPoint" || type == "MultiPolygon") {
      if (!list.is_array()) return wrong(where);
      for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string below = where + "/" + std::to_string(i);
        const auto good = type == "MultiPoint"     ? add_point(list[i], below)
                          : type == "MultiPolygon" ? read_geometry("Polygon", list[i], below)
                                                   : add_line(list[i], below, rings);
        if (!good) return good;
      }
      return {};
    }
    return wrong(where);
  }

  Result<GeoVertex> position(const Json& json, const std::string& where) {
    GeoVertex vertex;
    const bool sound = json.is_array() && json.size() >= 2 && json[0].is_number() && json[1].is_number();
    if (!sound) return fail("walk.bad_number", where, {{"text", one_line(json.dump(-1, ' ', true, Json::error_handler_t::replace), 60)}});
    vertex.longitude_deg = json[0].get<double>();
    vertex.latitude_deg = json[1].get<double>();
    if (json.size() > 2 && json[2].is_number()) vertex.height_m = json[2].get<double>();
    if (vertex.height_m && !(*vertex.height_m > -1000 && *vertex.height_m < 10'000)) vertex.height_m.reset();
    return vertex;
  }

  Result<void> add_point(const Json& json, const std::string& where) {
    auto vertex = position(json, where);
    if (!vertex) return tl::unexpected(vertex.error());
    vertex->name = properties_.name;
    vertex->note = properties_.note;
    walk.marks.push_back({std::move(*vertex), properties_.gate});
    return {};
  }

  Result<void> add_line(const Json& json, const std::string& where, bool closed) {
    if (!json.is_array()) return wrong(where);
    GeoLine line;
    line.closed = closed;
    line.fence = properties_.fence;
    for (std::size_t i = 0; i < json.size(); ++i) {
      auto vertex = position(json[i], where + "/" + std::to_string(i));
      if (!vertex) return tl::unexpected(vertex.error());
      line.vertices.push_back(std::move(*vertex));
    }
    if (!line.vertices.empty()) walk.lines.push_back(std::move(line));
    return {};
  }

  struct {
    std::string name, note, fence;
    std::optional<measure::Length> gate;
  } properties_;
};

// Nesting is limited before parsing, so that a file of a million brackets builds no tree.
bool too_deep(const std::string& text) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == '[' || c == '{') {
      if (++depth > 64) return true;
    } else if (c == ']' || c == '}') {
      --depth;
    }
  }
  return false;
}

}  // namespace

Result<GeoWalk> read_geojson(const std::string& text) {
  if (too_deep(text)) return fail("walk.too_deep");
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return fail("walk.not_json");
  FeatureReader reader;
  if (const auto good = reader.read(json, "", 0); !good) return tl::unexpected(good.error());
  return std::move(reader.walk);
}

}  // namespace railwright::formats
