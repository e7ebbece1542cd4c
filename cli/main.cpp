// SPDX-License-Identifier: MIT
#include <cstdio>
#include <cstring>
#include <string>

#include "cli/console.h"
#include "cli/cut.h"
#include "cli/new.h"
#include "cli/plan_commands.h"
#include "cli/serve.h"
#include "cli/stakes.h"
#include "cli/survey.h"
#include "cli/why.h"

namespace {

using railwright::cli::kBadInput;
using railwright::cli::kSound;

struct Command {
  const char* word;
  int (*run)(int argc, char** argv);
  const char* what;
};

constexpr Command kCommands[] = {
    {"new", railwright::cli::run_new, "start a job, from a walk, survey or track where given"},
    {"plan", railwright::cli::run_plan, "plan a job and print what it comes to"},
    {"pack", railwright::cli::run_pack, "write the sheets (one PDF, SVG pages) and the tables (CSV)"},
    {"stakes", railwright::cli::run_stakes, "write where the posts stand, for a phone, an instrument or a drawing"},
    {"survey", railwright::cli::run_survey, "reduce taped legs and level notes: closure, adjusted points, area"},
    {"cut", railwright::cli::run_cut, "cut pieces from sticks at the least cost, with a proved bound"},
    {"why", railwright::cli::run_why, "say why a figure of the plan is what it is"},
    {"gaps", railwright::cli::run_gaps, "take measured gaps in, name the slips, plan again"},
    {"serve", railwright::cli::run_serve, "serve the page to this machine's browser"},
};

void print_help(std::FILE* to) {
  std::fputs(
      "railwright: from a walked line to posts, fittings, cut rails and a straight top rail\n\n"
      "usage: railwright COMMAND ...          railwright COMMAND --help shows an example\n\n",
      to);
  for (const Command& command : kCommands) std::fprintf(to, "  %-6s %s\n", command.word, command.what);
  std::fputs("\nexit code: 0 sound, 1 a finding stops work, 2 bad input\n", to);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    print_help(stderr);
    return kBadInput;
  }
  const std::string word = argv[1];
  if (word == "--help" || word == "-h" || word == "help") {
    print_help(stdout);
    return kSound;
  }
  for (const Command& command : kCommands) {
    if (word == command.word) return command.run(argc - 2, argv + 2);
  }
  return railwright::cli::complain({"command.unknown", word, {{"word", word}}});
}
