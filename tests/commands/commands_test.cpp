// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

// Commands of the program, each in a process of its own, as people type them.
namespace railwright {
namespace {

struct Ran {
  int code = -1;
  std::string said;  // on both outputs
};

class Commands : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string folder = (std::filesystem::temp_directory_path() / "railwright-XXXXXX").string();
    ASSERT_NE(mkdtemp(folder.data()), nullptr);
    folder_ = folder;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string path(const std::string& name) const { return folder_ + "/" + name; }

  static std::string contents(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }

  static Ran run(const std::string& arguments) {
    Ran ran;
    FILE* pipe = popen((std::string(RAILWRIGHT_PROGRAM) + " " + arguments + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return ran;
    std::array<char, 4096> buffer;
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe)) ran.said.append(buffer.data(), got);
    const int status = pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
  }

  std::string started() {
    EXPECT_EQ(run("new --animals cattle --out " + path("job.json")).code, 0);
    return path("job.json");
  }

 private:
  std::string folder_;
};

bool says(const Ran& ran, const std::string& words) { return ran.said.find(words) != std::string::npos; }

TEST_F(Commands, ARepeatedOptionIsRefused) {
  const Ran ran = run("new --animals sheep --animals goat --out " + path("job.json"));
  EXPECT_EQ(ran.code, 2);
  EXPECT_TRUE(says(ran, "--animals is given twice")) << ran.said;
  EXPECT_FALSE(std::filesystem::exists(path("job.json")));
}

TEST_F(Commands, ABlankFormOfGapsIsSaidToBeBlank) {
  const std::string job = started(), before = contents(job);
  std::ofstream(path("gaps.csv")) << "bay,rail,gap,way\nAB.1,1,,level\nAB.1,2,,level\n";
  const Ran ran = run("gaps " + job + " " + path("gaps.csv"));
  EXPECT_EQ(ran.code, 2);
  EXPECT_TRUE(says(ran, "holds no reading yet")) << ran.said;
  EXPECT_EQ(contents(job), before);
}

TEST_F(Commands, AllFaultsOfAFormAreNamedAtOnce) {
  const std::string job = started();
  std::ofstream(path("gaps.csv")) << "bay,rail,gap,way\nAB.1,x,7 ft,level\nAB.1,2,wide,uphill\n";
  const Ran ran = run("gaps " + job + " " + path("gaps.csv"));
  EXPECT_EQ(ran.code, 2);
  for (const char* place : {"2:6", "3:8", "3:13"}) EXPECT_TRUE(says(ran, place)) << place << ran.said;
}

TEST_F(Commands, AnUnknownFigureNamesThoseNearIt) {
  const Ran ran = run("why " + started() + " price/all/totl");
  EXPECT_EQ(ran.code, 2);
  EXPECT_TRUE(says(ran, "price/all/total")) << ran.said;
  EXPECT_TRUE(says(ran, "--list")) << ran.said;
}

TEST_F(Commands, OnlyWhatFallsShortOfALengthWorthKeepingIsScrap) {
  std::ofstream(path("pieces.csv")) << "label,length,count\nrail,6 ft,2\n";
  std::ofstream(path("sticks.csv")) << "name,length,price\npipe,21 ft,40\n";
  const std::string files = "cut " + path("pieces.csv") + " " + path("sticks.csv");
  const Ran plain = run(files);
  EXPECT_TRUE(says(plain, "drop 8 ft")) << plain.said;
  EXPECT_FALSE(says(plain, "scrap")) << plain.said;
  EXPECT_TRUE(says(run(files + " --keep-from 10ft"), "scrap"));
  EXPECT_TRUE(says(run(files + " --keep-from 5ft"), "keep"));
}

// Every writer of stakes names every post of the plan.
TEST_F(Commands, StakesAreWrittenInEveryFormat) {
  const std::string job = started();
  const Ran table = run("stakes " + job + " --out " + path("stakes.csv"));
  ASSERT_EQ(table.code, 0) << table.said;
  EXPECT_NE(contents(path("stakes.csv")).find("AB1"), std::string::npos);
  const Ran drawing = run("stakes " + job + " --out " + path("stakes.dxf"));
  ASSERT_EQ(drawing.code, 0) << drawing.said;
  EXPECT_NE(contents(path("stakes.dxf")).find("AB1"), std::string::npos);
  // A job without an origin has no latitude: refused, with the remedy, and nothing is written.
  const Ran track = run("stakes " + job + " --out " + path("stakes.gpx"));
  EXPECT_EQ(track.code, 2);
  EXPECT_FALSE(std::filesystem::exists(path("stakes.gpx")));
}

}  // namespace
}  // namespace railwright
