// SPDX-License-Identifier: MIT
// The `cut` command as a person runs it: in its own process, with a terminal or without, interrupted or not.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "nlohmann/json.hpp"

namespace {

using Json = nlohmann::json;

struct Ran {
  int exit = -1;
  std::string out;
  std::string err;
};

std::string contents(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

class CutCommand : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = ::testing::TempDir() + "cutXXXXXX";
    ASSERT_NE(mkdtemp(pattern.data()), nullptr);
    folder_ = pattern + "/";
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string write(const std::string& name, const std::string& text) {
    std::ofstream(folder_ + name, std::ios::binary) << text;
    return folder_ + name;
  }
  std::string path(const std::string& name) const { return folder_ + name; }

  // Starts the program; `err` is where its error output goes, a file or a terminal's other end.
  pid_t start(const std::vector<std::string>& arguments, int err) {
    const pid_t child = fork();
    if (child != 0) return child;
    const int out = open(path("out").c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600);
    dup2(out, STDOUT_FILENO);
    dup2(err, STDERR_FILENO);
    std::vector<std::string> all = {RAILWRIGHT_PROGRAM, "cut"};
    all.insert(all.end(), arguments.begin(), arguments.end());
    std::vector<char*> raw;
    for (std::string& argument : all) raw.push_back(argument.data());
    raw.push_back(nullptr);
    execv(raw[0], raw.data());
    _exit(127);
  }

  Ran finish(pid_t child) {
    int status = 0;
    waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, contents(path("out")), {}};
  }

  Ran run(const std::vector<std::string>& arguments) {
    const int err = open(path("err").c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600);
    Ran ran = finish(start(arguments, err));
    close(err);
    ran.err = contents(path("err"));
    return ran;
  }

  // As at a terminal: error output goes to a pseudo-terminal. When `interrupt` is set, Ctrl-C follows the first progress.
  Ran run_at_terminal(const std::vector<std::string>& arguments, bool interrupt) {
    const int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    grantpt(terminal);
    unlockpt(terminal);
    const int other = open(ptsname(terminal), O_RDWR | O_NOCTTY);
    const pid_t child = start(arguments, other);
    close(other);
    std::string seen;
    char buffer[4096];
    for (ssize_t got = 0; (got = read(terminal, buffer, sizeof buffer)) > 0;) {
      seen.append(buffer, static_cast<std::size_t>(got));
      if (interrupt && seen.find("best ") != std::string::npos) {
        kill(child, SIGINT);
        interrupt = false;
      }
    }
    close(terminal);
    Ran ran = finish(child);
    ran.err = seen;
    return ran;
  }

  // Thousands of lengths a sixteenth apart: minutes would pass before this is proved.
  std::vector<std::string> long_job(const std::string& time) {
    std::string pieces = "label,length,count\n";
    std::uint64_t state = 7;
    for (int i = 0; i < 2500; ++i) {
      state = state * 6364136223846793005ULL + 1442695040888963407ULL;
      const auto sixteenths = 1000 + (state >> 33) % 880;
      pieces += "R" + std::to_string(i) + "," + std::to_string(static_cast<double>(sixteenths) * 0.0625) + "in,1\n";
    }
    return {write("pieces.csv", pieces), write("sticks.csv", "name,length,price\n21 ft,21ft,38.40\n24 ft,24ft,43.90\n32 ft,32ft,58.50\n"), "--time", time,
            "--json"};
  }

 private:
  std::string folder_;
};

TEST_F(CutCommand, CtrlCGivesTheBestPlanSoFar) {
  const Ran ran = run_at_terminal(long_job("600s"), true);
  ASSERT_EQ(ran.exit, 0) << ran.out << ran.err;
  const Json plan = Json::parse(ran.out);
  EXPECT_EQ(plan["status"], "cancelled");
  EXPECT_FALSE(plan["proved"].get<bool>());
  EXPECT_LE(std::stod(plan["bound"].get<std::string>()), std::stod(plan["cost"].get<std::string>()));
  std::size_t pieces = 0;
  for (const Json& stick : plan["sticks"]) pieces += stick["pieces"].size() * stick["count"].get<std::size_t>();
  EXPECT_EQ(pieces, 2500U);
}

TEST_F(CutCommand, ProgressIsShownAtATerminalOnly) {
  const std::vector<std::string> job = long_job("0.9s");
  EXPECT_NE(run_at_terminal(job, false).err.find("bound "), std::string::npos);
  const Ran ran = run(job);
  EXPECT_EQ(ran.exit, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(Json::parse(ran.out)["status"], "cancelled");  // the time was up
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t found = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++found;
  return found;
}

// Two sticks of 100 in cut into 60 and 39 in with a kerf of 1/2 in: one drawing stands for both, to scale, and the drop of 0 is not drawn;
// the third stick yields one piece of 20 in and leaves 79 1/2 in, which is kept.
TEST_F(CutCommand, DrawsSticksToScale) {
  const std::string svg = path("sticks.svg");
  const Ran ran = run({write("p.csv", "label,length,count\nA&B,60in,2\nC,39 1/2in,2\nD,20in,1\n"), write("s.csv", "name,length,price\nlong,100in,1\n"),
                       "--kerf", "1/2in", "--keep-from", "70in", "--svg", svg, "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const std::string drawing = contents(svg);
  EXPECT_EQ(drawing.compare(0, 4, "<svg"), 0);
  EXPECT_EQ(Json::parse(ran.out)["sticks_used"], 3);
  EXPECT_EQ(count(drawing, "class=\"stick\""), 2U);
  EXPECT_EQ(count(drawing, "class=\"piece\""), 3U);
  EXPECT_EQ(count(drawing, "class=\"kept\""), 1U);
  EXPECT_EQ(count(drawing, "width=\"1000.00\""), 2U);  // the longest stick is 1000 wide
  EXPECT_EQ(count(drawing, "width=\"600.00\""), 1U);
  EXPECT_EQ(count(drawing, "width=\"395.00\""), 1U);
  EXPECT_EQ(count(drawing, "width=\"795.00\""), 1U);
  EXPECT_NE(drawing.find("A&amp;B"), std::string::npos);
  EXPECT_NE(drawing.find("2 × long"), std::string::npos);
}

TEST_F(CutCommand, TooFewSticksIsToldApartFromBadInput) {
  const std::string sticks = write("s.csv", "name,length,price,count\nshort,10ft,9,2\n");
  const Ran few = run({write("p.csv", "label,length,count\nrail,6ft,3\n"), sticks});
  EXPECT_EQ(few.exit, 1);
  EXPECT_NE(few.out.find("do not suffice"), std::string::npos);
  for (const char* length : {"11ft", "0", "-3ft", "long"}) {
    const Ran bad = run({write("p.csv", std::string("label,length,count\nrail,") + length + ",3\n"), sticks});
    EXPECT_EQ(bad.exit, 2) << length;
    EXPECT_NE(bad.err, "") << length;
    EXPECT_EQ(bad.out, "") << length;
  }
}

TEST_F(CutCommand, NamesMayRepeat) {
  const Ran ran =
      run({write("p.csv", "label,length,count\nrail,5ft,2\nrail,4ft,2\n"), write("s.csv", "name,length,price\npipe,10ft,5\npipe,9ft 1/8in,4.4\n"), "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const Json plan = Json::parse(ran.out);
  EXPECT_EQ(plan["cost"], "8.80");
  EXPECT_TRUE(plan["proved"].get<bool>());
}

}  // namespace
