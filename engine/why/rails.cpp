// SPDX-License-Identifier: MIT
// Rails: the gap that they fill, what the fittings take off, the slope, the length; how high they hang and where their bands are marked.
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

// The fitting at one end of a rail; none where no part fits.
struct End {
  const fittings::Use* use = nullptr;
  const job::Fitting* part = nullptr;
};

End end_of(const Asked& asked, const fittings::Rail& rail, bool at_from) {
  for (const fittings::Use& use : asked.plan.assembly.uses) {
    for (const fittings::RailEnd& served : use.serves) {
      if (served.bay != rail.bay || served.number != rail.number || served.at_from != at_from) continue;
      return {&use, &asked.plan.catalogue.fittings[static_cast<std::size_t>(use.fitting)]};
    }
  }
  return {};
}
Length take_off(const End& end) { return end.part == nullptr ? Length() : end.part->take_off; }
Length bolt(const End& end) { return end.part == nullptr ? Length() : end.part->bolt_offset; }

struct Here {
  const Asked& asked;
  const fittings::Rail& rail;
  const setout::Bay& bay;
  End from, to;

  std::string name(const char* part) const { return "rail/" + rail.name + "/" + part; }
  Answer say(Length value, std::string formula, std::vector<Input> inputs, std::string source) const {
    Answer made = answer(asked, value_of(value), std::move(formula), std::move(inputs), std::move(source), {bay.name});
    return made;
  }
};

// What the user taped, where that is what the rail is cut to.
const job::MeasuredGap* taped(const Here& here) {
  const job::MeasuredGap* last = nullptr;
  for (const job::MeasuredGap& gap : here.asked.job.field.gaps) {
    if (gap.bay == here.bay.name && gap.rail == here.rail.number) last = &gap;
  }
  return last;
}

Answer gap(const Here& here) {
  if (!here.rail.measured) {
    if (here.rail.gap != here.bay.gap) return plainly(here.asked, input("gap", here.rail.gap), "geometry", {here.bay.name});
    return here.say(here.rail.gap, "planned_gap", {figure("bay/" + here.bay.name + "/gap", "planned_gap", here.bay.gap)}, "geometry");
  }
  const job::MeasuredGap* tape = taped(here);
  if (tape != nullptr && tape->way == job::GapWay::slope && here.rail.rise.nm() != 0) {
    return here.say(here.rail.gap, "sqrt(slope_gap ^ 2 - rise ^ 2)", {input("slope_gap", tape->gap), figure(here.name("rise"), "rise", here.rail.rise)},
                    "measured");
  }
  return plainly(here.asked, input("measured_gap", here.rail.gap), "measured", {here.bay.name});
}

// Bolts at the two ends: of different height where the ground or the stack of bands is.
Answer rise(const Here& here) {
  if (here.from.use == nullptr || here.to.use == nullptr) return plainly(here.asked, input("rise", here.rail.rise), "geometry", {here.bay.name});
  const Length ground_from = Length::from_metres(here.asked.post(here.bay.from).ground), ground_to = Length::from_metres(here.asked.post(here.bay.to).ground);
  return here.say(
      here.rail.rise, "(ground_to + band_to) - (ground_from + band_from)",
      {input("ground_to", ground_to), input("band_to", here.to.use->height), input("ground_from", ground_from), input("band_from", here.from.use->height)},
      "geometry");
}

std::vector<Input> ends_of(const Here& here) { return {input("take_off_from", take_off(here.from)), input("take_off_to", take_off(here.to))}; }

std::string rows_of(const Here& here) {
  std::string rows = here.from.part == nullptr ? "" : here.from.part->source;
  if (here.to.part != nullptr && here.to.part != here.from.part && here.to.part->source != rows) rows += (rows.empty() ? "" : "; ") + here.to.part->source;
  return rows;
}

Answer true_length(const Here& here) {
  std::vector<Input> inputs = ends_of(here);
  inputs.insert(inputs.begin(), figure(here.name("gap"), "gap", here.rail.gap));
  std::string formula = "gap - take_off_from - take_off_to";
  if (here.rail.rise.nm() != 0) {
    inputs.push_back(figure(here.name("rise"), "rise", here.rail.rise));
    inputs.push_back(input("bolt_from", bolt(here.from)));
    inputs.push_back(input("bolt_to", bolt(here.to)));
    formula = "sqrt((gap - bolt_from - bolt_to) ^ 2 + rise ^ 2) - (take_off_from - bolt_from) - (take_off_to - bolt_to)";
  }
  Answer made = here.say(here.rail.length, formula, std::move(inputs), "rail_length");
  made.row = rows_of(here);
  return made;
}

Answer length(const Here& here) {
  const Length step = here.asked.job.choices.cutting.saw_step;
  return here.say(here.rail.cut, "round_down(true_length, saw_step)",
                  {figure(here.name("true_length"), "true_length", here.rail.length), input("saw_step", step)}, "saw_step");
}

// Height of a rail's centre above the ground at one of its posts.
std::optional<Answer> height(const Here& here, bool at_from) {
  const auto bay_index = static_cast<std::size_t>(here.rail.bay);
  if (bay_index >= here.asked.plan.heights.bays.size()) return std::nullopt;
  const grade::BayHeights& heights = here.asked.plan.heights.bays[bay_index];
  const auto k = static_cast<std::size_t>(here.rail.number - 1);
  const bool brace = here.rail.number == 0;
  if (brace ? !heights.has_brace_rail : k >= heights.rails.size()) return std::nullopt;
  const grade::RailEnds ends = brace ? heights.brace : heights.rails[k];
  const setout::Post& post = here.asked.post(at_from ? here.bay.from : here.bay.to);
  const Length ground = Length::from_metres(post.ground), line = at_from ? ends.from : ends.to, above = line - ground;
  const job::Fence* fence = here.asked.fence(here.bay.fence);
  const job::Pipe* pipe = fence == nullptr ? nullptr : here.asked.plan.catalogue.pipe(fence->rail_pipe);
  const bool by_rule =
      !brace && pipe != nullptr && fence->rail_centres.empty() && fence->rails > 0 && grade::centre_heights(*fence, pipe->diameter)[k] == above;
  if (by_rule) {
    Answer made = here.say(
        above, "height * (rails - above_it) / rails - diameter / 2",
        {input("height", fence->height), count("rails", fence->rails), count("above_it", here.rail.number - 1), input("diameter", pipe->diameter)}, "practice");
    made.where.push_back(post.name);
    return made;
  }
  Answer made = here.say(above, "line - ground", {input("line", line), figure("post/" + post.name + "/ground", "ground", ground)}, "rail_line");
  made.where.push_back(post.name);
  return made;
}

std::optional<Answer> rail(const Asked& asked) {
  const int index = index_where(asked.plan.assembly.rails, [&](const fittings::Rail& r) { return r.name == asked.thing; });
  if (index < 0) return std::nullopt;
  const fittings::Rail& found = asked.plan.assembly.rails[static_cast<std::size_t>(index)];
  const Here here{asked, found, asked.bay(found.bay), end_of(asked, found, true), end_of(asked, found, false)};
  if (asked.part == "gap") return gap(here);
  if (asked.part == "rise") return rise(here);
  if (asked.part == "take_off") {
    Answer made = here.say(found.take_off, "take_off_from + take_off_to", ends_of(here), "fitting_row");
    made.row = rows_of(here);
    return made;
  }
  if (asked.part == "true_length") return true_length(here);
  if (asked.part == "length") return length(here);
  if (asked.part == "from" || asked.part == "to") return height(here, asked.part == "from");
  return std::nullopt;
}

void list_rails(const job::Job&, const Plan& plan, const Listed& add) {
  for (const fittings::Rail& found : plan.assembly.rails) {
    for (const char* part : {"gap", "rise", "take_off", "true_length", "length", "from", "to"}) add(found.name, part);
  }
}

// Where a band is marked on its post, down from the top one. The thing is the post and the number of the band from the ground.
std::optional<Answer> mark(const Asked& asked) {
  const auto slash = asked.thing.rfind('/');
  if (slash == std::string::npos || asked.part != "below_top") return std::nullopt;
  const int post = post_named(asked.plan, asked.thing.substr(0, slash));
  const fittings::Use *top = nullptr, *found = nullptr;
  int number = 0;
  for (const fittings::Use& use : asked.plan.assembly.uses) {
    if (post < 0 || use.post != post) continue;
    if (top == nullptr || use.height > top->height) top = &use;
    if (std::to_string(++number) == asked.thing.substr(slash + 1)) found = &use;
  }
  if (found == nullptr) return std::nullopt;
  return answer(asked, value_of(found->below_top), "top_band - band_height", {input("top_band", top->height), input("band_height", found->height)}, "geometry",
                {asked.post(post).name});
}

void list_marks(const job::Job&, const Plan& plan, const Listed& add) {
  int post = -1, number = 0;
  for (const fittings::Use& use : plan.assembly.uses) {
    number = use.post == post ? number + 1 : 1;
    post = use.post;
    add(plan.layout.posts[static_cast<std::size_t>(post)].name + "/" + std::to_string(number), "below_top");
  }
}

}  // namespace

const Family kRails{"rail", rail, list_rails};
const Family kMarks{"mark", mark, list_marks};

}  // namespace railwright::why
