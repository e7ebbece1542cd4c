// SPDX-License-Identifier: MIT
// What stands in words/ and data/ is in the program, byte for byte, and can be read.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "data/data.h"
#include "words/words.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

std::string file_bytes(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<fs::path> json_files(const fs::path& folder) {
  std::vector<fs::path> out;
  if (!fs::exists(folder)) return out;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

const fs::path kRoot = RAILWRIGHT_SOURCE_DIR;

TEST(Data, EveryFileIsEmbeddedByteForByte) {
  const std::vector<fs::path> files = json_files(kRoot / "data");
  std::vector<std::string> names;
  for (const fs::path& path : files) {
    names.push_back(path.filename().string());
    EXPECT_EQ(railwright::data::default_file(names.back()), file_bytes(path)) << path;
    EXPECT_TRUE(json::accept(railwright::data::default_file(names.back()))) << path;
  }
  const auto embedded = railwright::data::names();
  EXPECT_EQ(std::vector<std::string>(embedded.begin(), embedded.end()), names);
}

TEST(Data, UnknownFileIsEmpty) { EXPECT_TRUE(railwright::data::default_file("pipe").empty()); }

// Every leaf of the parts is found in the whole, and nothing else.
TEST(Words, CatalogueHoldsTheSentencesOfAllParts) {
  const json whole = json::parse(railwright::words::catalogue_json("en")).flatten();
  std::size_t leaves = 0;
  std::vector<fs::path> parts = json_files(kRoot / "words" / "en");
  if (fs::exists(kRoot / "words" / "en.json")) parts.push_back(kRoot / "words" / "en.json");
  for (const fs::path& path : parts) {
    const json part = json::parse(file_bytes(path)).flatten();
    for (const auto& [key, sentence] : part.items()) {
      ASSERT_TRUE(whole.contains(key)) << path << ' ' << key;
      EXPECT_EQ(whole[key], sentence) << path << ' ' << key;
      ++leaves;
    }
  }
  EXPECT_EQ(leaves, whole.size());
}

TEST(Words, EveryLeafIsASentence) {
  for (const char* language : {"en", "es"}) {
    const std::string_view text = railwright::words::catalogue_json(language);
    if (text.empty()) continue;
    const json flat = json::parse(text).flatten();
    for (const auto& [key, sentence] : flat.items()) {
      EXPECT_TRUE(sentence.is_string() && !sentence.get<std::string>().empty()) << language << ' ' << key;
    }
  }
}

TEST(Words, UnknownLanguageIsEmpty) { EXPECT_TRUE(railwright::words::catalogue_json("xx").empty()); }

}  // namespace
