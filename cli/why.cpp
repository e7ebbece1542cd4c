// SPDX-License-Identifier: MIT
#include "cli/why.h"

#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "cli/console.h"
#include "cli/files.h"
#include "cli/plan_commands.h"
#include "engine/why/why.h"
#include "sheets/why_text.h"

namespace railwright::cli {
namespace {

// Letters to put in, take out or change to make one name of the other (Levenshtein 1966).
std::size_t edits(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row[b.size()];
}

int complain_of_figure(const Error& error, const std::string& asked, std::vector<std::string> figures, const std::string& file) {
  constexpr std::size_t kShown = 3;
  std::vector<std::pair<std::size_t, std::string>> near;
  for (std::string& figure : figures) near.emplace_back(edits(asked.substr(0, 200), figure), std::move(figure));
  std::sort(near.begin(), near.end());
  std::string names;
  for (std::size_t i = 0; i < std::min(kShown, near.size()); ++i) names += (i == 0 ? "" : ", ") + near[i].second;
  complain(error);
  return names.empty() ? kBadInput : complain({"command.nearest", {}, {{"names", names}, {"file", file}}});
}

}  // namespace

int run_why(int argc, char** argv) {
  const Result<Arguments> arguments = parse_arguments(argc, argv, {}, {"--list", "--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(
        "usage: railwright why JOB FIGURE ...\n"
        "       railwright why JOB --list\n\n"
        "Says why a figure of the plan is what it is: its formula, what went into it, and the source. --list names every figure that can be asked.\n\n"
        "example: railwright why examples/donkey-sanctuary/job.json price/all/total\n",
        stdout);
    return kSound;
  }
  Opened opened = open_job(*arguments);
  if (opened.code != kSound) return opened.code;
  if (arguments->positional.size() < 2 && !arguments->has("--list")) return complain({"command.missing", "FIGURE", {{"word", std::string("FIGURE")}}});
  const Plan plan = make_plan(opened.job, shipped_catalogue());
  if (arguments->has("--list")) {
    for (const std::string& figure : why::figures(opened.job, plan)) std::printf("%s\n", figure.c_str());
    return kSound;
  }
  for (std::size_t k = 1; k < arguments->positional.size(); ++k) {
    const auto answer = why::why(opened.job, plan, arguments->positional[k]);
    if (!answer) return complain_of_figure(answer.error(), arguments->positional[k], why::figures(opened.job, plan), arguments->positional[0]);
    std::fputs(sheets::why_lines(sheets::why_text(opened.job, words(opened.job.language), *answer)).c_str(), stdout);
  }
  return kSound;
}

}  // namespace railwright::cli
