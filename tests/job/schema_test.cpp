// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/job/keys.h"

namespace railwright::job {
namespace {

using Json = nlohmann::ordered_json;

// The schema brought down to the same flat list that the reader's own keys make.
class SchemaLister {
 public:
  explicit SchemaLister(const Json& schema) { list_properties(schema, ""); }
  const std::vector<Key>& keys() const { return keys_; }

 private:
  void list_properties(const Json& node, const std::string& path) {
    EXPECT_EQ(node.value("additionalProperties", true), false) << path;
    const Json required = node.value("required", Json::array());
    for (const auto& [name, child] : node.at("properties").items()) {
      EXPECT_FALSE(child.value("description", "").empty()) << path << '/' << name;
      const bool needed = std::find(required.begin(), required.end(), Json(name)) != required.end();
      list(child, path + '/' + name, needed);
    }
  }

  void list(Json node, const std::string& path, bool required) {
    Key key;
    key.path = path;
    key.required = required;
    unwrap_null(node, key);
    key.type = type_of(node);
    for (const Json& word : node.value("enum", Json::array())) key.choices.push_back(word);
    if (node.contains("minimum")) set_range(key, node["minimum"], node["maximum"]);
    if (node.contains("x-range-nm")) set_range(key, node["x-range-nm"][0], node["x-range-nm"][1]);
    if (node.contains("default")) key.fallback = node["default"].dump();
    keys_.push_back(key);
    if (key.type == "object") list_properties(node, path);
    if (key.type == "list") list(node.at("items"), path + "/*", false);
  }

  static void unwrap_null(Json& node, Key& key) {
    if (node.contains("anyOf")) node["$ref"] = node["anyOf"][0]["$ref"];
    const bool null_type = node.contains("type") && node["type"].is_array();
    if (null_type) node["type"] = node["type"][0].get<std::string>();
    key.nullable = null_type || node.contains("anyOf");
  }

  static void set_range(Key& key, double least, double most) {
    key.bounded = true;
    key.least = least;
    key.most = most;
  }

  static std::string type_of(const Json& node) {
    if (node.contains("$ref")) return node["$ref"].get<std::string>().substr(8);  // behind "#/$defs/"
    if (node.contains("enum")) return "choice";
    const std::string type = node.value("type", "");
    if (type == "string") return "text";
    if (type == "boolean") return "flag";
    if (type == "integer") return "count";
    if (type == "array") return "list";
    return type;
  }

  std::vector<Key> keys_;
};

Json schema() {
  std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR) + "/schema/job.schema.json");
  return Json::parse(file);
}

TEST(Schema, SaysWhatTheReaderKnowsAndNothingElse) {
  const std::vector<Key> ours = document_keys();
  const std::vector<Key> theirs = SchemaLister(schema()).keys();
  ASSERT_EQ(ours.size(), theirs.size());
  for (std::size_t i = 0; i < ours.size(); ++i) {
    const Key &a = ours[i], &b = theirs[i];
    EXPECT_EQ(a.path, b.path);
    EXPECT_EQ(a.type, b.type) << a.path;
    EXPECT_EQ(a.required, b.required) << a.path;
    EXPECT_EQ(a.nullable, b.nullable) << a.path;
    EXPECT_EQ(a.choices, b.choices) << a.path;
    EXPECT_EQ(a.fallback, b.fallback) << a.path;
    if (a.type == "money") continue;
    EXPECT_EQ(a.bounded, b.bounded) << a.path;
    EXPECT_EQ(a.least, b.least) << a.path;
    EXPECT_EQ(a.most, b.most) << a.path;
  }
}

TEST(Schema, IsANeutralUrnOfTheSameVersion) {
  EXPECT_EQ(schema()["$id"], "urn:railwright:job:1");
  EXPECT_EQ(schema()["$schema"], "https://json-schema.org/draft/2020-12/schema");
  EXPECT_EQ(schema()["properties"]["version"]["maximum"], 1);
}

// The manual lists every key in the table of its object.
TEST(Manual, ListsEveryKey) {
  std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR) + "/docs/job.md");
  const std::string manual{std::istreambuf_iterator<char>(file), {}};
  for (const Key& key : document_keys()) {
    const std::string name = key.path.substr(key.path.rfind('/') + 1);
    EXPECT_TRUE(name == "*" || manual.find("\n| `" + name + "` |") != std::string::npos) << key.path;
  }
}

}  // namespace
}  // namespace railwright::job
