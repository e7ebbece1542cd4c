// SPDX-License-Identifier: MIT
#include <algorithm>

#include "sheets/first_sheet.h"
#include "sheets/type.h"

namespace railwright::sheets {
namespace {

bool any_fence(const Pack& pack, bool (*test)(const job::Fence&)) { return std::any_of(pack.job.choices.fences.begin(), pack.job.choices.fences.end(), test); }

// Keys of the cautions in the order in which the work meets them; what cannot happen on this job is left out.
std::vector<std::string> applying(const Pack& pack) {
  std::vector<std::string> keys{"advice", "local_code", "one_call", "hand_dig", "boundary", "overhead", "used_pipe", "transport", "lifting", "protection"};
  if (any_fence(pack, [](const job::Fence& f) { return f.setting == job::Setting::concrete; })) keys.push_back("cement");
  if (any_fence(pack, [](const job::Fence& f) { return f.setting == job::Setting::driven; })) keys.push_back("driving");
  for (const char* key : {"hot_work", "burn_ban", "cold_cut", "galvanised", "sharp"}) keys.push_back(key);
  if (any_fence(pack, [](const job::Fence& f) { return f.kind != job::FenceKind::rails && f.kind != job::FenceKind::panels; })) keys.push_back("wire");
  if (!pack.job.site.gates.empty()) keys.push_back("gate");
  keys.push_back("livestock");
  return keys;
}

}  // namespace

void draw_cautions(Book& book, const Pack& pack) {
  Page* page = &book.add("cautions", "cautions", Turn::upright);
  double y = page->box.y0 + 4;
  int sheet = 1, number = 0;
  for (const auto& key : applying(pack)) {
    const double width = page->box.x1 - page->box.x0 - 10;
    const auto words = wrap(pack.say("caution." + key + ".text"), width, 3.9);
    const auto source = wrap(pack.say("caution." + key + ".source"), width, kLeastType);
    const double height = 5.0 * static_cast<double>(words.size()) + 4.5 * static_cast<double>(source.size()) + 2.6;
    if (y + height - 4 > page->box.y1) {
      page = &book.add("cautions", "cautions-" + std::to_string(++sheet), Turn::upright);
      y = page->box.y0 + 4;
    }
    page->svg.text({page->box.x0 + 6, y}, std::to_string(++number), {3.9, true, Anchor::end, ink::primer});
    y = draw_lines(page->svg, {page->box.x0 + 10, y}, words, {3.9}, 5.0);
    y = draw_lines(page->svg, {page->box.x0 + 10, y - 0.3}, source, {kLeastType, false, Anchor::start, ink::grey}, 4.5) + 2.9;
  }
}

}  // namespace railwright::sheets
