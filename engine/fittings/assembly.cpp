// SPDX-License-Identifier: MIT
#include "engine/fittings/assembly.h"

#include <cmath>

#include "engine/fittings/meetings.h"
#include "engine/fittings/post_parts.h"
#include "engine/fittings/troubles.h"

namespace railwright::fittings {
namespace {

double bearing_of(Vec2 away) {
  // Chords of regular curves lie half-way between two hundredths: the last bits must not decide.
  double bearing = std::floor(measure::bearing({away.y, away.x}) * (180.0 / measure::kPi) * 100 + 0.5 + 1e-7) / 100;
  if (bearing < 0) bearing += 360;
  return bearing >= 360 ? 0 : bearing;
}

const job::Fitting kNoFitting;  // takes nothing off a rail

// Where each rail end came to lie: the band's height and the part.
struct Landing {
  Length height;
  int fitting = -1;
};

class Assembler {
 public:
  Assembler(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights, const Readings& readings)
      : job_(job), catalogue_(catalogue), layout_(layout), readings_(readings), meetings_(job, catalogue, layout, heights), landings_(meetings_.count()) {
    for (int place = 0; place < meetings_.count(); ++place) landings_[place].height = meetings_.at(place).height;
  }

  Assembly make(Findings& findings) {
    assembly_.uses.reserve(landings_.size());
    assembly_.rails.reserve(landings_.size() / 2);
    PartChooser chooser(catalogue_, meetings_);
    for (int post = 0; post < static_cast<int>(layout_.posts.size()); ++post)
      if (meetings_.begin(post) != meetings_.end(post)) fit_post(post, chooser);
    for (int b = 0; b < static_cast<int>(layout_.bays.size()); ++b)
      for (int k = 0; k < meetings_.rails_in(b); ++k) add_rail(b, k);
    troubles_.check_rails(job_, catalogue_, layout_, assembly_, findings);
    troubles_.report(layout_, findings);
    return std::move(assembly_);
  }

 private:
  void fit_post(int post, PartChooser& chooser);
  void add_use(int post, const Band& band, Length top);
  void add_rail(int bay, int k);
  int place_of(const RailEnd& end) const { return meetings_.place(end.bay, end.number > 0 ? end.number - 1 : meetings_.rails_in(end.bay) - 1, end.at_from); }
  double nut_bearing(const Meeting& meeting) const;

  const job::Job& job_;
  const job::Catalogue& catalogue_;
  const setout::Layout& layout_;
  const Readings& readings_;
  Meetings meetings_;
  std::vector<Landing> landings_;
  Assembly assembly_;
  Troubles troubles_;
};

void Assembler::fit_post(int post, PartChooser& chooser) {
  const PostParts parts = chooser.choose(post, layout_.posts[post].diameter);
  for (const int place : parts.unserved) troubles_.none_fits(layout_.posts[post].diameter, post, meetings_.at(place));
  for (const int place : parts.too_steep) troubles_.too_steep(meetings_.at(place));
  if (parts.bands.empty()) return;
  Length shift;
  for (const Band& band : parts.bands) {
    shift = max(shift, abs(band.height - band.wish));
    landings_[band.part.first] = {band.height, band.part.fitting};
    if (band.part.second >= 0) landings_[band.part.second] = {band.height, band.part.fitting};
    add_use(post, band, parts.bands.back().height);
  }
  troubles_.shifted(post, shift);
}

// Square to the rail, on the side where no animals are.
double Assembler::nut_bearing(const Meeting& meeting) const {
  const setout::Bay& bay = layout_.bays[meeting.end.bay];
  const setout::Vec2 along = setout::direction_of(layout_, bay);
  const Vec2 walked{along.x, along.y};
  return bearing_of(job_.site.legs[bay.leg].animal_side == job::Side::left ? measure::right_of(walked) : measure::left_of(walked));
}

void Assembler::add_use(int post, const Band& band, Length top) {
  Use use;
  use.post = post;
  use.fitting = band.part.fitting;
  const Meeting& first = meetings_.at(band.part.first);
  use.serves.reserve(band.part.second >= 0 ? 2 : 1);
  use.serves.push_back(first.end);
  use.bearing_deg = bearing_of(first.direction.away);
  use.nut_bearing_deg = nut_bearing(first);
  if (band.part.second >= 0) {
    const Meeting& second = meetings_.at(band.part.second);
    use.serves.push_back(second.end);
    use.second_bearing_deg = bearing_of(second.direction.away);
  }
  use.height = band.height - Length::from_metres(layout_.posts[post].ground);
  use.below_top = top - band.height;
  use.stack = band.stack;
  assembly_.uses.push_back(std::move(use));
}

void Assembler::add_rail(int b, int k) {
  const setout::Bay& bay = layout_.bays[b];
  const Landing& from = landings_[meetings_.place(b, k, true)];
  const Landing& to = landings_[meetings_.place(b, k, false)];
  const job::Fitting& f = from.fitting < 0 ? kNoFitting : catalogue_.fittings[from.fitting];
  const job::Fitting& g = to.fitting < 0 ? kNoFitting : catalogue_.fittings[to.fitting];
  const bool brace = meetings_.is_brace(b, k);
  Rail rail;
  rail.name = bay.name + (brace ? std::string("/b") : "/" + std::to_string(k + 1));
  rail.bay = b;
  rail.number = brace ? 0 : k + 1;
  rail.pipe = rail_pipe_of(job_.choices.fences[bay.fence]);
  rail.rise = to.height - from.height;
  rail.gap = bay.gap;
  if (!brace && static_cast<std::size_t>(b) < readings_.size() && static_cast<std::size_t>(k) < readings_[b].size() && readings_[b][k].known) {
    const GapReading& reading = readings_[b][k];
    rail.gap = reading.way == job::GapWay::slope ? level_gap(reading.gap, rail.rise) : reading.gap;
    rail.measured = true;
  }
  rail.length = rail_length(rail.gap, rail.rise, f.take_off, f.bolt_offset, g.take_off, g.bolt_offset);
  rail.cut = max(Length(), rail.length.round_down_to(job_.choices.cutting.saw_step));
  rail.take_off = f.take_off + g.take_off;
  rail.tilt_deg = tilt_deg(rail.gap - f.bolt_offset - g.bolt_offset, rail.rise);
  const Length engaged = f.least_engagement + g.least_engagement;
  if (rail.cut <= Length() || rail.cut < engaged) troubles_.too_short(rail.name, rail.cut, engaged);
  assembly_.rails.push_back(std::move(rail));
}

}  // namespace

Assembly assemble(const job::Job& job, const job::Catalogue& catalogue, const setout::Layout& layout, const grade::Heights& heights, const Readings& readings,
                  Findings& findings) {
  return Assembler(job, catalogue, layout, heights, readings).make(findings);
}

}  // namespace railwright::fittings
