// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "sheets/labels.h"
#include "sheets/sheets.h"
#include "sheets/shown.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

// A reader of RFC 4180 written for the test.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> records(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"')
        records.back().back() += c;
      else if (i + 1 < text.size() && text[i + 1] == '"')
        records.back().back() += text[++i];
      else
        quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      records.back().emplace_back();
    } else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      ++i;
      records.emplace_back(1);
    } else {
      records.back().back() += c;
    }
  }
  records.pop_back();
  return records;
}

TEST(Csv, ComesBackAsItWent) {
  const Table table{"t", "T", {"plain", "with, comma", "with \"quotes\""}, {{"a", "1,250.00", "7' 5-1/4\""}, {"", "line\r\nbreak", "\""}, {"é", " ", ","}}};
  const auto records = read_csv(to_csv(table));
  ASSERT_EQ(records.size(), 4u);
  EXPECT_EQ(records[0], table.columns);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(records[i + 1], table.rows[i]);
}

TEST(Words, KeysArePathsAndPlaceholdersAreFilled) {
  const auto words = Words::parse(R"({"findings": {"room.code": "Post {where} is {off} off {unknown}."}, "a": {"b": "x"}})");
  ASSERT_TRUE(words);
  EXPECT_EQ(words->text("a.b"), "x");
  EXPECT_EQ(words->text("a.c"), "[a.c]");
  const Finding f{"room.code", Severity::note, "C4", {{"off", value_of(measure::Length::sixty_fourths(89 * 64 + 16))}}};
  EXPECT_EQ(finding_text(*words, f), "Post C4 is 7 ft 5 1/4 in off {unknown}.");
  EXPECT_EQ(finding_text(*words, f, length_format(job::UnitSystem::metric)), "Post C4 is 2267 mm off {unknown}.");
  EXPECT_EQ(finding_text(*words, {"no.words", Severity::stop, "B1", {{"n", std::int64_t{3}}}}), "no.words (B1), n 3.");
}

TEST(Words, WhatIsNoCatalogueIsRefused) {
  EXPECT_EQ(Words::parse("{").error().code, "words.not_json");
  EXPECT_EQ(Words::parse("").error().code, "words.not_json");
  const auto list = Words::parse(R"({"a": {"b": [1]}})");
  ASSERT_FALSE(list);
  EXPECT_EQ(list.error().code, "words.not_text");
  EXPECT_EQ(list.error().place, "a.b");
}

TEST(Shown, FiguresInBothSystems) {
  job::Job job;
  const Shown feet(job);
  job.units = job::UnitSystem::metric;
  job.choices.price.currency = "EUR";
  const Shown metric(job);
  const auto length = measure::Length::sixty_fourths(89 * 64 + 16);
  EXPECT_EQ(feet.tape(length), "7' 5-1/4\"");
  EXPECT_EQ(metric.tape(length), "2267 mm");
  EXPECT_EQ(feet.plain(length), "89.25");
  EXPECT_EQ(metric.plain(length), "2266.95");
  EXPECT_EQ(feet.money(measure::Money::cents(-125000)), "-$1,250.00");
  EXPECT_EQ(metric.money(measure::Money::cents(125000)), "1,250.00 EUR");
  EXPECT_EQ(number_text(2.675, 2), "2.68");  // halves away from zero after scaling
  EXPECT_EQ(number_text(-0.004, 2), "0.00");
  EXPECT_EQ(grouped("1234567.5"), "1,234,567.5");
  EXPECT_EQ(grouped("-123"), "-123");
}

TEST(Type, WrapLosesNothingAndFits) {
  const std::string text = "Set post C4 at 87 ft 3 in from corner C, then Donaudampfschifffahrtsgesellschaftskapitänsmütze and on";
  for (const double width : {12.0, 30.0, 80.0}) {
    std::string joined;
    for (const auto& line : wrap(text, width, 3.9)) {
      EXPECT_LE(text_width(line, 3.9), width);
      joined += line;
    }
    std::string letters, original;
    for (const char c : joined)
      if (c != ' ') letters += c;
    for (const char c : text)
      if (c != ' ') original += c;
    EXPECT_EQ(letters, original);
  }
}

TEST(Type, ShortenedNamesKeepTheirEnd) {
  const std::string name = "Northwestern meadow behind the barn AB12";
  const std::string shown = shorten_name(name, 25, kLeastType);
  EXPECT_LE(text_width(shown, kLeastType), 25);
  EXPECT_EQ(shown.substr(shown.size() - 4), "AB12");
  EXPECT_EQ(shorten_name("AB12", 25, kLeastType), "AB12");
  EXPECT_LE(text_width(shorten(name, 25, kLeastType), kLeastType), 25);
}

TEST(Svg, NumbersAreShortAndNeverNegativeZero) {
  EXPECT_EQ(mm_text(1.0), "1");
  EXPECT_EQ(mm_text(1.005001), "1.01");
  EXPECT_EQ(mm_text(-0.001), "0");
  EXPECT_EQ(mm_text(-2.5), "-2.5");
  EXPECT_EQ(mm_text(1e300), "0");
}

TEST(Labels, CrowdedNamesNeitherOverlapNorCrossLines) {
  const Box area{0, 0, 200, 100};
  Labels labels(area);
  const Spot a{10, 50}, b{190, 50};
  labels.keep_clear(a, b);
  std::vector<Box> placed;
  Svg svg(200, 100);
  int found = 0;
  for (int i = 0; i < 32; ++i) {  // 5.6 mm apart: the pitch from which the site plan names every post
    const Spot anchor{12 + 5.6 * i, 50};
    const Type type{kLeastType};
    const auto place = labels.place(anchor, "AB" + std::to_string(i), type, {0, -1});
    if (!place) continue;
    ++found;
    const Box box = text_box(place->base, "AB" + std::to_string(i), type);
    EXPECT_FALSE(crosses(a, b, box));
    EXPECT_TRUE(box.x0 >= 0 && box.y0 >= 0 && box.x1 <= 200 && box.y1 <= 100);
    for (const auto& other : placed) EXPECT_FALSE(overlap(box, other));
    placed.push_back(box);
    EXPECT_TRUE(labels.draw(svg, anchor, "AB" + std::to_string(i), type, {0, -1}));
  }
  EXPECT_EQ(found, 32);
}

}  // namespace
}  // namespace railwright::sheets
