// SPDX-License-Identifier: MIT
#include "engine/fittings/meetings.h"

#include <algorithm>
#include <cmath>

namespace railwright::fittings {

const std::string& rail_pipe_of(const job::Fence& fence) { return fence.rail_pipe.empty() ? fence.strong_pipe : fence.rail_pipe; }

double tilt_deg(Length run, Length rise) {
  if (rise == Length()) return 0;
  if (run <= Length()) return 90;
  return std::round(std::atan(std::abs(rise / run)) * (180.0 / measure::kPi) * 100) / 100;
}

Meetings::Meetings(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights) : heights_(heights) {
  Length bolt_offset;
  for (const job::Fitting& fitting : catalogue.fittings) bolt_offset = max(bolt_offset, fitting.bolt_offset);
  const int bays = static_cast<int>(layout.bays.size());
  first_rail_.assign(1, 0);
  for (int b = 0; b < bays; ++b)
    first_rail_.push_back(first_rail_.back() + static_cast<int>(heights.bays[b].rails.size()) + (heights.bays[b].has_brace_rail ? 1 : 0));
  meetings_.reserve(2 * static_cast<std::size_t>(first_rail_.back()));
  for (int b = 0; b < bays; ++b) add_bay(job, catalogue, layout, b, bolt_offset);
  group(static_cast<int>(layout.posts.size()));
}

void Meetings::add_bay(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, int b, Length bolt_offset) {
  const int rails = rails_in(b);
  if (rails == 0) return;
  const setout::Bay& bay = layout.bays[b];
  const job::Pipe* pipe = catalogue.pipe(rail_pipe_of(job.choices.fences[bay.fence]));
  const Length diameter = pipe ? pipe->diameter : Length();
  const setout::Vec2 along = setout::direction_of(layout, bay);
  for (int k = 0; k < rails; ++k) {
    const bool brace = is_brace(b, k);
    const grade::RailEnds ends = brace ? heights_.bays[b].brace : heights_.bays[b].rails[k];
    const double tilt = tilt_deg(bay.gap - bolt_offset * 2, ends.to - ends.from);
    const int number = brace ? 0 : k + 1;
    meetings_.push_back({{b, number, true}, bay.from, ends.from, {{along.x, along.y}, diameter, tilt}});
    meetings_.push_back({{b, number, false}, bay.to, ends.to, {{-along.x, -along.y}, diameter, tilt}});
  }
}

void Meetings::group(int posts) {
  first_at_.assign(static_cast<std::size_t>(posts) + 1, 0);
  for (const Meeting& meeting : meetings_) ++first_at_[meeting.post + 1];
  for (int p = 0; p < posts; ++p) first_at_[p + 1] += first_at_[p];
  std::vector<int> next(first_at_.begin(), first_at_.end() - 1);
  order_.resize(meetings_.size());
  for (int place = 0; place < count(); ++place) order_[next[meetings_[place].post]++] = place;
  for (int p = 0; p < posts; ++p)
    std::sort(order_.begin() + first_at_[p], order_.begin() + first_at_[p + 1],
              [&](int a, int b) { return meetings_[a].height != meetings_[b].height ? meetings_[a].height < meetings_[b].height : a < b; });
}

}  // namespace railwright::fittings
