// SPDX-License-Identifier: MIT
#include "engine/fittings/troubles.h"

#include <algorithm>

namespace railwright::fittings {
namespace {

const Length kMostShift = Length::inches(2);  // of a rail off its mark by a stack (common practice, no source)

}  // namespace

void Troubles::none_fits(Length post_diameter, int post, const Meeting& meeting) {
  None& none = none_[{post_diameter, meeting.direction.rail_diameter}];
  if (none.count++ == 0) none.post = post;
  none.tilt = std::max(none.tilt, meeting.direction.tilt_deg);
}

void Troubles::too_steep(const Meeting& meeting) {
  Steep& steep = steep_[meeting.end.bay];
  steep.bay = meeting.end.bay;
  ++steep.count;
  steep.tilt = std::max(steep.tilt, meeting.direction.tilt_deg);
}

void Troubles::shifted(int post, Length shift) {
  if (shift > kMostShift) shifts_.push_back({post, shift});
}

void Troubles::too_short(const std::string& rail, Length length, Length engaged) {
  short_.push_back({"fittings.rail_too_short", Severity::stop, rail, {{"length", value_of(length)}, {"needs", value_of(engaged)}}});
}

namespace {

// A rail longer than its two sleeves leave room for jams; one too short may pull out.
void check_cut(const Rail& rail, Length cut, Length depth, Length least, Length step, Findings& findings) {
  if (cut > rail.length + step) {
    findings.push_back({"fittings.rail_too_long",
                        Severity::stop,
                        rail.name,
                        {{"length", value_of(cut)}, {"fits", value_of(rail.length)}, {"over_by", value_of(cut - rail.length)}}});
    return;
  }
  const Length missing = (rail.length - cut) / 2;
  if (depth <= Length() || depth - missing >= least) return;
  findings.push_back({"fittings.engagement",
                      Severity::stop,
                      rail.name,
                      {{"length", value_of(cut)}, {"engaged", value_of(max(Length(), depth - missing))}, {"least", value_of(least)}}});
}

}  // namespace

void Troubles::check_rails(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout&, const Assembly& assembly, Findings& findings) {
  if (job.field.cut.empty()) return;
  std::map<std::string, std::size_t> rails;
  for (std::size_t r = 0; r < assembly.rails.size(); ++r) rails[assembly.rails[r].name] = r;
  // The shallower sleeve and the greater need of the fittings that hold each rail.
  std::map<std::pair<int, int>, std::pair<Length, Length>> sleeves;
  for (const Use& use : assembly.uses) {
    const job::Fitting& fitting = catalogue.fittings[use.fitting];
    for (const RailEnd& end : use.serves) {
      const auto [at, fresh] = sleeves.insert({{end.bay, end.number}, {fitting.sleeve_depth, fitting.least_engagement}});
      if (!fresh) at->second = {min(at->second.first, fitting.sleeve_depth), max(at->second.second, fitting.least_engagement)};
    }
  }
  for (const job::CutRail& cut : job.field.cut) {
    const auto found = rails.find(cut.rail);
    if (found == rails.end()) continue;
    const Rail& rail = assembly.rails[found->second];
    const auto sleeve = sleeves[{rail.bay, rail.number}];
    check_cut(rail, cut.length, sleeve.first, sleeve.second, job.choices.cutting.saw_step, findings);
  }
}

void Troubles::report(const setout::Layout& layout, Findings& findings) const {
  for (const auto& [diameters, none] : none_)
    findings.push_back({"fittings.none_fits",
                        Severity::stop,
                        layout.posts[none.post].name,
                        {{"post", value_of(diameters.first)}, {"rail", value_of(diameters.second)}, {"tilt", AngleValue{none.tilt}}, {"count", none.count}}});
  // Steep bays by leg: the steepest stands for all.
  std::map<int, Steep> worst;
  for (const auto& [bay, steep] : steep_) {
    Steep& leg = worst[layout.bays[bay].leg];
    const bool steeper = leg.count == 0 || steep.tilt > leg.tilt;
    leg = {steeper ? bay : leg.bay, leg.count + 1, std::max(leg.tilt, steep.tilt)};
  }
  for (const auto& [leg, steep] : worst)
    findings.push_back({"fittings.tilt", Severity::stop, layout.bays[steep.bay].name, {{"tilt", AngleValue{steep.tilt}}, {"count", steep.count}}});
  for (const auto& [post, shift] : shifts_)
    findings.push_back({"fittings.stack_too_tall", Severity::warning, layout.posts[post].name, {{"shift", value_of(shift)}}});
  findings.insert(findings.end(), short_.begin(), short_.end());
}

}  // namespace railwright::fittings
