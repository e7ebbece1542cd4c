// SPDX-License-Identifier: MIT
#include "sheets/sheets.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <pugixml.hpp>
#include <set>

#include "sheets/scale.h"
#include "sheets/svg.h"
#include "sheets/type.h"
#include "tests/sheets/paddock.h"

// Numbers in brackets are the properties stated in sheets/sheets.h.
namespace railwright::sheets {
namespace {

using testing::paddock;
using testing::PaddockSize;

struct Case {
  const char* name;
  PaddockSize size;
  Paper paper = Paper::letter;
};

PaddockSize sized(int bays_long, int bays_short, int rails, bool metric, bool measured, const std::string& prefix) {
  PaddockSize s;
  s.bays_long = bays_long;
  s.bays_short = bays_short;
  s.rails = rails;
  s.metric = metric;
  s.measured = measured;
  s.prefix = prefix;
  return s;
}

const std::string kLongPrefix = "Northwestern meadow behind the barn ";  // 36 letters; names get 38 and more

std::vector<Case> cases() {
  return {{"usual", {}},
          {"metric on A4", sized(12, 8, 4, true, false, ""), Paper::a4},
          {"short", sized(5, 1, 1, false, false, "")},
          {"long", sized(60, 25, 3, false, true, "")},
          {"names of forty letters", sized(12, 8, 6, true, true, kLongPrefix), Paper::a4}};
}

struct Label {
  std::string text;
  Box box;
  double size;
};

Label label_of(const pugi::xml_node& node) {
  const std::string anchor = node.attribute("text-anchor").value(), weight = node.attribute("font-weight").value();
  Type type{node.attribute("font-size").as_double(), weight == "700"};
  type.anchor = anchor == "middle" ? Anchor::middle : anchor == "end" ? Anchor::end : Anchor::start;
  const std::string text = node.text().get();
  const Spot at{node.attribute("x").as_double(), node.attribute("y").as_double()};
  return {text, text_box(at, text, type, node.attribute("transform")), type.size};
}

std::vector<Label> labels_of(const Sheet& sheet) {
  pugi::xml_document document;
  EXPECT_TRUE(document.load_string(sheet.svg.c_str())) << sheet.id;
  std::vector<Label> labels;
  for (const auto& found : document.select_nodes("//text")) labels.push_back(label_of(found.node()));
  return labels;
}

std::vector<Sheet> draw(const Case& c) {
  const auto p = paddock(c.size);
  return draw_sheets(p.job, p.plan, testing::english(), c.paper);
}

Sheet sheet_of(const std::vector<Sheet>& sheets, const std::string& id) {
  for (const auto& s : sheets)
    if (s.id == id) return s;
  ADD_FAILURE() << "no sheet " << id;
  return sheets.front();
}

bool has_text(const Sheet& sheet, const std::string& text) { return sheet.svg.find(escape(text)) != std::string::npos; }

TEST(Sheets, LabelsStayOnThePaperAreLegibleAndDoNotOverlap) {  // (2) (3)
  for (const auto& c : cases())
    for (const auto& sheet : draw(c)) {
      pugi::xml_document document;
      ASSERT_TRUE(document.load_string(sheet.svg.c_str())) << c.name << " " << sheet.id;
      const auto root = document.document_element();
      const double width = root.attribute("width").as_double(), height = root.attribute("height").as_double();
      const auto labels = labels_of(sheet);
      ASSERT_FALSE(labels.empty());
      for (std::size_t i = 0; i < labels.size(); ++i) {
        const auto& a = labels[i];
        EXPECT_GE(a.size * kCapHeight, 2.5) << c.name << " " << sheet.id << " " << a.text;
        EXPECT_TRUE(a.box.x0 >= 5 && a.box.y0 >= 5 && a.box.x1 <= width - 5 && a.box.y1 <= height - 5) << c.name << " " << sheet.id << ": " << a.text;
        for (std::size_t k = i + 1; k < labels.size(); ++k)
          EXPECT_FALSE(overlap(a.box, labels[k].box, -0.15)) << c.name << " " << sheet.id << ": " << a.text << " | " << labels[k].text;
      }
    }
}

TEST(Sheets, EverySheetSaysWhatItIs) {
  for (const auto& c : cases()) {
    const auto sheets = draw(c);
    std::set<std::string> ids;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      EXPECT_TRUE(ids.insert(sheets[i].id).second) << sheets[i].id;
      EXPECT_TRUE(has_text(sheets[i], "Sheet " + std::to_string(i + 1) + " of " + std::to_string(sheets.size())));
      EXPECT_TRUE(has_text(sheets[i], "Plan 0123456789ab"));
      EXPECT_TRUE(has_text(sheets[i], "Invented data: not a real site"));
      EXPECT_TRUE(has_text(sheets[i], "licensed engineer or installer decide"));
      EXPECT_TRUE(has_text(sheets[i], "Date 4 May 2031"));
    }
    for (const char* id :
         {"first", "site-plan", "profile-1", "orders", "load", "stakes", "posts", "fittings", "rail-marks", "bays", "cuts", "bolting", "checks", "cautions"})
      EXPECT_TRUE(ids.count(id)) << c.name << " " << id;
  }
}

TEST(Sheets, NoSentenceIsMissingFromTheCatalogue) {
  for (const auto& c : cases())
    for (const auto& sheet : draw(c))
      for (const auto& label : labels_of(sheet))
        for (const char* section :
             {"[sheet.", "[strip.",   "[col.",    "[first.", "[sure.", "[plan.",    "[zone.",     "[profile.", "[kind.",   "[rail.", "[fitting.",
              "[cuts.",  "[bolting.", "[orders.", "[hours.", "[load.", "[caution.", "[severity.", "[check.",   "[stakes.", "[gap."})
          EXPECT_EQ(label.text.find(section), std::string::npos) << label.text;
}

TEST(Sheets, SameBytesTwice) {  // (1)
  for (const auto& c : cases()) {
    const auto a = draw(c), b = draw(c);
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_TRUE(a[i].svg == b[i].svg) << a[i].id;
  }
}

TEST(Sheets, PlanWithoutPostsStillGivesFirstSheetAndCautions) {
  job::Job job;
  job.name = "Nothing & <nobody>";
  const auto sheets = draw_sheets(job, Plan{}, testing::english());
  ASSERT_GE(sheets.size(), 2u);
  EXPECT_EQ(sheets.front().id, "first");
  EXPECT_TRUE(has_text(sheets.front(), "Nothing & <nobody>"));
  EXPECT_EQ(sheets.front().svg.find("<nobody>"), std::string::npos);
}

TEST(SitePlan, NamesEveryPostOnce) {
  const auto p = paddock();
  const auto labels = labels_of(sheet_of(draw_sheets(p.job, p.plan, testing::english()), "site-plan"));
  for (const auto& post : p.plan.layout.posts)
    EXPECT_EQ(std::count_if(labels.begin(), labels.end(), [&](const Label& l) { return l.text == post.name; }), 1) << post.name;
}

// A run whose bays differ, because a zone or a fat post made them so, is never written as so many of one pitch.
TEST(SitePlan, WritesUnequalBaysTruly) {
  auto p = paddock();
  const Shown shown(p.job);
  const auto& run = p.plan.layout.runs.back();
  auto& first = p.plan.layout.bays[static_cast<std::size_t>(run.first_bay)];
  const std::string usual = shown.tape(first.pitch), count = std::to_string(run.bay_count);
  first.pitch = first.pitch - Length::inches(10);
  const auto sheet = sheet_of(draw_sheets(p.job, p.plan, testing::english()), "site-plan");
  EXPECT_FALSE(has_text(sheet, run.name + ": " + count + " × " + usual));
  const std::string parts = run.name + ": 1 × " + shown.tape(first.pitch) + ", " + std::to_string(run.bay_count - 1) + " × " + usual;
  const std::string mixed = run.name + ": " + count + " bays of " + shown.tape(first.pitch) + " to " + usual;
  EXPECT_TRUE(has_text(sheet, parts) || has_text(sheet, mixed)) << parts;
}

TEST(SitePlan, AZoneWhoseIdSaysWhatItIsIsNamedOnce) {
  auto p = paddock();
  p.job.site.zones[0].id = p.plan.layout.zones[0].id = "Water line 2";
  const auto sheet = sheet_of(draw_sheets(p.job, p.plan, testing::english()), "site-plan");
  const auto labels = labels_of(sheet);
  for (const auto& label : labels) EXPECT_EQ(label.text.find("water line Water line"), std::string::npos);
  EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const Label& label) { return label.text.rfind("Water line 2", 0) == 0; }));
}

TEST(SitePlan, IsToScale) {
  const auto p = paddock();
  const Words words = testing::english();
  const Pack pack{p.job, p.plan, words, Paper::letter, Shown(p.job)};
  const View view = fit_view(pack, 0, 0, 30, 20, {0, 0, 250, 150});
  const Spot a = view.at(0, 0), b = view.at(30, 20);
  const double mm = std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
  EXPECT_NEAR(mm * view.scale.n / 1000, std::sqrt(30.0 * 30 + 20 * 20), 1e-9);
  EXPECT_LE(view.scale.paper(30), 250);
  EXPECT_GT(b.x, a.x);  // east to the right
  EXPECT_LT(b.y, a.y);  // north up
}

TEST(CutSheet, BeforeGapsAreMeasuredItIsForBuying) {
  const auto sheet = sheet_of(draw({"unmeasured", {}}), "cuts");
  EXPECT_TRUE(has_text(sheet, "For buying, not for cutting"));
  EXPECT_TRUE(has_text(sheet, "no plan can beat this by more than $3.10"));
  const auto p = paddock();
  for (const auto& label : labels_of(sheet)) EXPECT_NE(label.text, Shown(p.job).tape(p.plan.cuts[0].plan.sticks[0].marks[1]));
}

TEST(CutSheet, MeasuredGapsGiveTapeMarksIncludingKerf) {
  const auto p = paddock(sized(12, 8, 3, false, true, ""));
  const auto sheet = sheet_of(draw_sheets(p.job, p.plan, testing::english()), "cuts");
  EXPECT_TRUE(has_text(sheet, "Ready to cut"));
  // Two rails of 6 ft 11 7/8 in and a kerf of 1/8 in between: the second mark is at 13 ft 11 7/8 in.
  EXPECT_TRUE(has_text(sheet, "6' 11-7/8\""));
  EXPECT_TRUE(has_text(sheet, "13' 11-7/8\""));
}

TEST(CutSheet, RailsFirstMayBeCutWithoutMeasuring) {
  auto p = paddock();
  p.job.choices.cutting.order = job::WorkOrder::rails_first;
  EXPECT_TRUE(has_text(sheet_of(draw_sheets(p.job, p.plan, testing::english()), "cuts"), "Ready to cut"));
}

TEST(Bolting, TableNamesEveryRailOnceTheSheetFoldsThoseAlike) {
  const auto p = paddock();
  const auto all = tables(p.job, p.plan, testing::english());
  const auto table = std::find_if(all.begin(), all.end(), [](const Table& t) { return t.id == "bolting"; });
  ASSERT_NE(table, all.end());
  std::set<std::string> listed, planned;
  for (const auto& row : table->rows) listed.insert(row[1]);
  for (const auto& rail : p.plan.assembly.rails) planned.insert(rail.name);
  EXPECT_EQ(listed, planned);
  EXPECT_EQ(table->rows.size(), p.plan.assembly.rails.size());
  std::size_t lines = 0;
  for (const auto& sheet : draw_sheets(p.job, p.plan, testing::english()))
    if (sheet.id.rfind("bolting", 0) == 0)
      for (const auto& label : labels_of(sheet)) lines += label.text.rfind("rail ", 0) == 0 || label.text.rfind("rails ", 0) == 0;
  EXPECT_GT(lines, 0u);
  EXPECT_LT(lines, p.plan.assembly.rails.size());
}

TEST(RailMarks, PostsMarkedAlikeShareALine) {
  auto p = paddock();
  const auto shared_lines = [&] {
    const auto labels = labels_of(sheet_of(draw_sheets(p.job, p.plan, testing::english()), "rail-marks"));
    return std::count_if(labels.begin(), labels.end(), [](const Label& l) { return l.text.size() > 6 && l.text.rfind(" alike") == l.text.size() - 6; });
  };
  EXPECT_GT(shared_lines(), 0);
  // Every post a little higher than the one before: none are alike.
  for (auto& use : p.plan.assembly.uses) use.height += Length::inches(use.post) / 4;
  EXPECT_EQ(shared_lines(), 0);
}

TEST(Cautions, HatchedBandOnlyWhereThereIsOne) {
  auto p = paddock();
  EXPECT_TRUE(has_text(sheet_of(draw_sheets(p.job, p.plan, testing::english()), "site-plan"), "hatched band"));
  p.job.site.zones.clear();
  p.plan.layout.zones.clear();
  for (const auto& sheet : draw_sheets(p.job, p.plan, testing::english())) EXPECT_FALSE(has_text(sheet, "hatched")) << sheet.id;
}

TEST(Summary, FitsATerminal) {
  for (const auto& c : cases()) {
    const auto p = paddock(c.size);
    const std::string text = summary_text(p.job, p.plan, testing::english());
    EXPECT_EQ(text.back(), '\n');
    std::size_t columns = 0;
    for (const char ch : text) {
      columns = ch == '\n' ? 0 : columns + ((static_cast<unsigned char>(ch) & 0xC0) != 0x80);
      EXPECT_LE(columns, 80u);
    }
    EXPECT_NE(text.find("What to buy"), std::string::npos);
  }
}

TEST(Summary, DoesNotCallAPhonesHeightsLevelled) {
  auto p = paddock();
  for (auto& profile : p.plan.layout.profiles) {
    profile.source = ground::Source::levelled;
    profile.accuracy = 0.01;
  }
  EXPECT_NE(summary_text(p.job, p.plan, testing::english()).find("Ground: levelled"), std::string::npos);
  ASSERT_FALSE(p.plan.layout.profiles.empty());
  p.plan.layout.profiles.front().accuracy = 5;
  const std::string rough = summary_text(p.job, p.plan, testing::english());
  EXPECT_EQ(rough.find("Ground: levelled"), std::string::npos);
  EXPECT_NE(rough.find("good to about"), std::string::npos);
}

// Compared byte by byte in both builds. After a change that is meant: look at the sheet, then RAILWRIGHT_UPDATE=1.
TEST(Golden, SheetsAreAsLookedAt) {
  const auto sheets = draw({"golden", sized(5, 3, 3, false, true, "")});
  for (const char* id : {"site-plan", "cuts", "profile-1"}) {
    const std::string path = std::string(RAILWRIGHT_SOURCE_DIR) + "/tests/data/sheets/" + id + ".svg";
    const auto sheet = sheet_of(sheets, id);
    if (std::getenv("RAILWRIGHT_UPDATE")) std::ofstream(path, std::ios::binary) << sheet.svg;
    std::ifstream in(path, std::ios::binary);
    const std::string expected{std::istreambuf_iterator<char>(in), {}};
    EXPECT_TRUE(expected == sheet.svg) << id << ": differs from " << path;
  }
}

}  // namespace
}  // namespace railwright::sheets
