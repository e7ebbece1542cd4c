// SPDX-License-Identifier: MIT
#include <algorithm>

#include "sheets/first_sheet.h"
#include "sheets/sheets.h"
#include "sheets/spacing_lines.h"

namespace railwright::sheets {
namespace {

constexpr std::size_t kColumns = 80;

// Characters, not bytes: continuation bytes do not count.
std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

// A paragraph with the first line after `lead` and the others below it.
void add_paragraph(std::string& out, const std::string& lead, const std::string& text) {
  const std::string indent(characters(lead), ' ');
  std::string line = lead;
  bool fresh = true;
  std::size_t at = 0;
  while (at < text.size()) {
    const auto blank = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, blank - at);
    at = blank + 1;
    if (!fresh && characters(line) + 1 + characters(word) > kColumns) {
      out += line + "\n";
      line = indent + word;
    } else {
      line += (fresh ? "" : " ") + word;
    }
    fresh = false;
  }
  out += line + "\n";
}

}  // namespace

std::string summary_text(const job::Job& job, const Plan& plan, const Words& words) {
  const Pack pack{job, plan, words, Paper::letter, Shown(job)};
  const Counts c = counts_of(plan);
  std::string out;
  add_paragraph(out, "", job.name + (job.invented ? " – " + pack.say("strip.invented") : ""));
  add_paragraph(out, "",
                pack.say("first.facts", {{"length", pack.shown.rough(Length::from_metres(c.fence_m))},
                                         {"posts", std::to_string(c.posts)},
                                         {"rails", std::to_string(c.rails)},
                                         {"bays", std::to_string(c.bays)},
                                         {"gates", std::to_string(c.gates)},
                                         {"fittings", std::to_string(c.fittings)}}));
  const auto buy = to_buy(pack, 10);
  if (!buy.empty()) out += "\n" + pack.say("first.buy") + "\n";
  std::size_t widest = 0;
  for (const auto& line : buy) widest = std::max(widest, line.first.size());
  for (const auto& line : buy) add_paragraph(out, "  " + std::string(widest - line.first.size(), ' ') + line.first + "  ", line.second);
  if (plan.takeoff.orders.size() > buy.size())
    add_paragraph(out, "  " + std::string(widest + 2, ' '), pack.say("first.more", {{"n", std::to_string(plan.takeoff.orders.size() - buy.size())}}));
  if (plan.takeoff.price.total > Money()) add_paragraph(out, "  ", pack.say("first.total", {{"total", pack.shown.money(plan.takeoff.price.total)}}));
  const auto spacing = spacing_lines(pack);
  if (!spacing.empty()) out += "\n" + pack.say("spacing.title") + "\n";
  for (const auto& line : spacing) add_paragraph(out, "  - ", line);
  const auto watch = watch_out(pack, 3);
  out += "\n" + pack.say("first.watch") + "\n";
  if (watch.empty()) add_paragraph(out, "  - ", pack.say("first.nothing"));
  for (const auto& line : watch) add_paragraph(out, "  - ", line);
  out += "\n" + pack.say("first.sure") + "\n";
  for (const auto& line : how_sure(pack)) add_paragraph(out, "  - ", line);
  out += "\n";
  add_paragraph(out, "", pack.say("strip.advice"));
  return out;
}

}  // namespace railwright::sheets
