// SPDX-License-Identifier: MIT
#include "cli/pdf.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "tests/sheets/paddock.h"

namespace railwright::cli {
namespace {

std::vector<sheets::Sheet> pack() {
  const auto p = sheets::testing::paddock();
  return sheets::draw_sheets(p.job, p.plan, sheets::testing::english());
}

// What a reader gets who selects all text.
std::string text_of(const std::string& pdf) {
  const std::string path = ::testing::TempDir() + "railwright_pdf_test.pdf";
  std::ofstream(path, std::ios::binary) << pdf;
  FILE* pipe = popen(("pdftotext -layout '" + path + "' -").c_str(), "r");
  if (!pipe) return {};
  std::string text;
  std::array<char, 4096> buffer{};
  for (std::size_t n; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), n);
  pclose(pipe);
  std::remove(path.c_str());
  return text;
}

TEST(Pdf, SameSheetsGiveTheSameBytesWhateverTheClockSays) {
  const auto sheets = pack();
  setenv("SOURCE_DATE_EPOCH", "1", 1);
  const auto first = bind_pdf(sheets);
  setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
  const auto second = bind_pdf(sheets);
  unsetenv("SOURCE_DATE_EPOCH");
  const auto third = bind_pdf(sheets);
  ASSERT_TRUE(first && second && third);
  EXPECT_EQ(first->substr(0, 5), "%PDF-");
  EXPECT_TRUE(*first == *second);
  EXPECT_TRUE(*first == *third);
}

TEST(Pdf, TextCanBeSelected) {
  const auto sheets = pack();
  const auto pdf = bind_pdf(sheets);
  ASSERT_TRUE(pdf);
  const std::string text = text_of(*pdf);
  for (const char* words :
       {"What will be built", "Site plan", "Buying list", "Cut sheet", "Cautions", "AB11", "Hollow Oak donkey paddock", "Plan 0123456789ab"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
  EXPECT_NE(text.find("Sheet 1 of " + std::to_string(sheets.size())), std::string::npos);
  // A page break (form feed) after every sheet.
  EXPECT_EQ(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\f')), sheets.size());
}

TEST(Pdf, ABrokenSheetIsNamed) {
  auto sheets = pack();
  sheets[1].svg = "<svg";
  const auto pdf = bind_pdf(sheets);
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, "pdf.bad_svg");
  EXPECT_EQ(pdf.error().place, "2");
}

}  // namespace
}  // namespace railwright::cli
