// SPDX-License-Identifier: MIT
#include "sheets/spacing_lines.h"

namespace railwright::sheets {
namespace {

std::string cost_line(const Pack& pack, const spacing::Choice& choice) {
  const Money saved = choice.plain - choice.cost;
  std::string line = pack.say(saved > Money()   ? "spacing.saved"
                              : saved < Money() ? "spacing.dearer"
                                                : "spacing.nothing_saved",
                              {{"cost", pack.shown.money(choice.cost)},
                               {"plain", pack.shown.money(choice.plain)},
                               {"saved", pack.shown.money(saved)},
                               {"eight", pack.shown.money(choice.eight_foot)}});
  line += " " + pack.say(choice.proved ? "spacing.proved" : "spacing.bound",
                         {{"bound", pack.shown.money(choice.bound)}, {"gap", pack.shown.money(choice.cost - choice.bound)}});
  if (!choice.finished) line += " " + pack.say("spacing.unfinished");
  return line;
}

}  // namespace

std::vector<std::string> spacing_lines(const Pack& pack) {
  if (!pack.plan.spacing) return {};
  const spacing::Choice& choice = *pack.plan.spacing;
  std::vector<std::string> lines{cost_line(pack, choice)};
  if (choice.at_zero) {
    const bool possible = choice.at_double.has_value();
    lines.push_back(pack.say(possible ? "spacing.allowances" : "spacing.too_large",
                             {{"zero", pack.shown.money(*choice.at_zero)}, {"double", possible ? pack.shown.money(*choice.at_double) : std::string()}}));
  }
  for (const spacing::Looks& looks : choice.looks) {
    lines.push_back(pack.say("spacing.looks", {{"fence", pack.job.choices.fences[static_cast<std::size_t>(looks.fence)].id},
                                               {"shown", std::to_string(looks.shown)},
                                               {"limit", std::to_string(looks.limit)}}));
  }
  if (choice.without_limit) {
    lines.push_back(
        pack.say("spacing.looks_cost", {{"free", pack.shown.money(*choice.without_limit)}, {"more", pack.shown.money(choice.cost - *choice.without_limit)}}));
  }
  return lines;
}

}  // namespace railwright::sheets
