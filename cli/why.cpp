// SPDX-License-Identifier: MIT
#include "cli/why.h"

#include <cstdio>

#include "cli/console.h"
#include "cli/files.h"
#include "cli/plan_commands.h"
#include "engine/why/why.h"
#include "sheets/why_text.h"

namespace railwright::cli {

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
    if (!answer) return complain(answer.error());
    std::fputs(sheets::why_lines(sheets::why_text(opened.job, words(opened.job.language), *answer)).c_str(), stdout);
  }
  return kSound;
}

}  // namespace railwright::cli
