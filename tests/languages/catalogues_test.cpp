// SPDX-License-Identifier: MIT
// The Spanish catalogue says what the English one says: the same sentences with the same values, and no English left in it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>

#include "data/data.h"
#include "engine/job/read.h"
#include "sheets/words.h"
#include "words/words.h"

namespace railwright {
namespace {

using Texts = std::map<std::string, std::string>;

// Keys of another language that have no English sentence: what English shows as it comes from the catalogue and the engine.
const std::string kItem = "item.", kEngineText = "engine_text.";

Texts catalogue(const char* language) {
  const auto words = sheets::Words::parse(words::catalogue_json(language));
  EXPECT_TRUE(words) << language;
  return words ? words->all() : Texts();
}

const Texts& english() {
  static const Texts texts = catalogue("en");
  return texts;
}

const Texts& spanish() {
  static const Texts texts = catalogue("es");
  return texts;
}

bool begins_with(const std::string& key, const std::string& start) { return key.compare(0, start.size(), start) == 0; }
bool names_an_item(const std::string& key) { return begins_with(key, kItem); }

// The engine's sources of the checks, whose quoted formulas and references stand on the sheet of checks.
std::string check_sources() {
  std::string out;
  for (const char* name : {"braces", "gates", "posts", "rails"}) {
    std::ifstream file(std::string(RAILWRIGHT_SOURCE_DIR) + "/engine/plan/check_" + name + ".cpp", std::ios::binary);
    EXPECT_TRUE(file) << name;
    out.append(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return out;
}

// The placeholders in the order of their names, each as often as it stands.
std::multiset<std::string> placeholders(const std::string& text) {
  std::multiset<std::string> out;
  for (std::size_t open = text.find('{'); open != std::string::npos; open = text.find('{', open + 1)) {
    const std::size_t close = text.find('}', open);
    EXPECT_NE(close, std::string::npos) << text;
    if (close == std::string::npos) break;
    out.insert(text.substr(open + 1, close - open - 1));
  }
  return out;
}

// What reads alike in both languages: units, symbols and words that Spanish spells as English does.
const std::set<std::string>& alike() {
  static const std::set<std::string> keys = {
      "because.figure.price.total",
      "because.function.cbrt",
      "because.function.sqrt",
      "because.name.factor",
      "because.name.total",
      "items.panel",
      "page.fence.animal",
      "page.more.in_pounds",
      "page.plan.north",
      "page.result.h",
      "plan.run",
      "plan.run_part",
      "plan.run_parts",
      "strip.plan",
      "survey.temperature",
      "unit.ft",
      "unit.kg",
      "unit.lb",
      "unit.m",
      "value.kind.panel",
  };
  return keys;
}

job::Catalogue shipped() {
  job::Catalogue rows;
  for (const std::string_view name : data::names()) job::read_catalogue(data::default_file(name), rows);
  return rows;
}

std::set<std::string> shipped_ids() {
  const job::Catalogue rows = shipped();
  std::set<std::string> ids;
  for (const auto& row : rows.pipes) ids.insert(row.id);
  for (const auto& row : rows.fittings) ids.insert(row.id);
  for (const auto& row : rows.supplies) ids.insert(row.id);
  return ids;
}

TEST(Catalogues, EveryEnglishSentenceIsThereInSpanish) {
  ASSERT_GT(english().size(), 500u);
  for (const auto& [key, text] : english()) EXPECT_EQ(spanish().count(key), 1u) << key << ": " << text;
}

TEST(Catalogues, SpanishSaysNothingThatEnglishDoesNot) {
  for (const auto& [key, text] : spanish()) {
    if (!names_an_item(key) && !begins_with(key, kEngineText)) {
      EXPECT_EQ(english().count(key), 1u) << key << ": " << text;
    }
  }
}

TEST(Catalogues, PlaceholdersAreTheSame) {
  for (const auto& [key, text] : english()) {
    const auto other = spanish().find(key);
    if (other != spanish().end()) {
      EXPECT_EQ(placeholders(text), placeholders(other->second)) << key << ": " << other->second;
    }
  }
}

TEST(Catalogues, NoSentenceIsLeftInEnglish) {
  for (const auto& [key, text] : english()) {
    const auto other = spanish().find(key);
    if (other == spanish().end()) continue;
    EXPECT_EQ(text == other->second, alike().count(key) == 1) << key << ": " << other->second;
  }
}

// Full stops and colons end both or neither, so that a label does not become a sentence.
TEST(Catalogues, SentencesEndAlike) {
  const auto ends = [](const std::string& text) { return !text.empty() && text.back() == '.'; };
  for (const auto& [key, text] : english()) {
    const auto other = spanish().find(key);
    if (other != spanish().end()) {
      EXPECT_EQ(ends(text), ends(other->second)) << key << ": " << other->second;
    }
  }
}

TEST(Catalogues, SpanishNamesTheShippedItemsAndNoOthers) {
  const std::set<std::string> ids = shipped_ids();
  ASSERT_GT(ids.size(), 50u);
  for (const std::string& id : ids) EXPECT_EQ(spanish().count(kItem + id), 1u) << id;
  for (const auto& [key, text] : spanish()) {
    if (names_an_item(key)) {
      EXPECT_EQ(ids.count(key.substr(kItem.size())), 1u) << key << ": " << text;
    }
  }
}

// Sizes are what the yard reads: every figure of the id stands in the Spanish name, in the same order.
TEST(Catalogues, NamesOfItemsKeepTheirFigures) {
  const auto figures = [](const std::string& text) {
    std::string out;
    std::copy_if(text.begin(), text.end(), std::back_inserter(out), [](unsigned char c) { return std::isdigit(c) != 0; });
    return out;
  };
  for (const auto& [key, text] : spanish()) {
    if (names_an_item(key)) {
      EXPECT_EQ(figures(key), figures(text)) << key << ": " << text;
    }
  }
}

// A formula or source that the engine words anew must be translated anew.
TEST(Catalogues, TextsOfTheEngineAreStillSpelledSoThere) {
  const std::string sources = check_sources();
  for (const auto& [key, text] : spanish()) {
    if (!begins_with(key, kEngineText)) continue;
    EXPECT_NE(sources.find('"' + key.substr(kEngineText.size()) + '"'), std::string::npos) << key;
  }
  for (const char* english_word : {"statics", "common practice", "from memory"}) {
    for (std::size_t at = sources.find(english_word); at != std::string::npos; at = sources.find(english_word, at + 1)) {
      const std::size_t open = sources.rfind('"', at), close = sources.find('"', at), line = sources.rfind('\n', at);
      if (open == std::string::npos || open < line || sources.find("//", line) < at) continue;
      const std::string said = sources.substr(open + 1, close - open - 1);
      EXPECT_EQ(spanish().count(kEngineText + said), 1u) << said;
    }
  }
}

TEST(Catalogues, AWordFromTheEngineIsSaidInTheLanguage) {
  const Finding off{"setout.set_post_off_line", Severity::warning, "A3", {{"side", std::string("left")}, {"leg", std::string("AB")}}};
  const auto words = sheets::Words::parse(words::catalogue_json("es"));
  ASSERT_TRUE(words);
  const std::string said = sheets::finding_text(*words, off);
  EXPECT_NE(said.find("lado izquierdo"), std::string::npos) << said;
  EXPECT_EQ(said.find("left"), std::string::npos) << said;
}

}  // namespace
}  // namespace railwright
