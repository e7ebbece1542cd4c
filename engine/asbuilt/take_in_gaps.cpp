// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "engine/asbuilt/gaps.h"
#include "engine/asbuilt/run_adjustment.h"

// Outline
//  1. Every reading is placed: its bay and rail exist, it is taken once, made level, and is neither nil nor longer than its bay.
//  2. Run by run, a least-squares answer for the posts' places and leans is made from the plan and all readings. The reading that surprises most is set aside,
//     and so on until none surprises.
//  3. A reading set aside that is off by whole feet or inches is a slip of the tape; others are to be taped again. None of them is cut to.
//  4. Rails measured in every bay of a run are added up against the run; top and bottom gaps name leaning posts.
namespace railwright::asbuilt {
namespace {

constexpr Length kInch = Length::inches(1), kFoot = Length::feet(1);
// A tape is read to 1/16 in (common practice, no source); a recorded station of a set post is good to 1/8 in (likewise).
constexpr Length kReading = Length::sixty_fourths(4), kRecorded = Length::sixty_fourths(8);
// Over this many of its own sigmas a reading is set aside: one honest reading in 16 000 (normal distribution).
constexpr double kSurprise = 4;
// Readings this many bays apart hardly touch each other's answer, so that several can be set aside in one pass.
constexpr int kApart = 8;
constexpr int kPasses = 24;
// A gap may pass its bay's planned pitch by a badly set post, not by more than this.
constexpr Length kBeyondPitch = Length::inches(3);
// A lean of plumb tolerance over this height is one sigma.
constexpr double kPlumbHeight = 1.2;

struct Reading {
  int bay = 0, rail = 1;
  Length gap;  // as taped
  job::GapWay way = job::GapWay::level;
  Length level;
  Length surprise;   // level less expected
  double sigma = 0;  // of the surprise, metres
  bool used = true;
  bool impossible = false;
};

class Taker {
 public:
  Taker(const job::Job& job, const setout::Layout& layout, const grade::Heights& heights, Findings& findings)
      : job_(job), layout_(layout), heights_(heights), findings_(findings) {}
  AsBuilt take();

 private:
  int rails_of(int bay) const;
  Length planned(const Reading& r) const { return layout_.bays[r.bay].gap; }
  const std::string& bay_name(int bay) const { return layout_.bays[bay].name; }
  void report(const char* code, Severity severity, int bay, Values values) { findings_.push_back({code, severity, bay_name(bay), std::move(values)}); }
  void place_readings();
  void place_reading(const job::MeasuredGap& gap, int bay);
  void check_possible(Reading& r);
  bool name_whole(Reading& r, Length unit, Length window, const char* code);
  void name_slip(Reading& r);
  void check_run(const setout::Run& run);
  std::vector<PostPrior> priors_of(const setout::Run& run) const;
  std::vector<GapObservation> observations_of(const setout::Run& run, const std::vector<Reading*>& readings) const;
  void set_aside(const setout::Run& run, const std::vector<Reading*>& readings);
  void check_sums(const setout::Run& run, const std::vector<Reading*>& readings);
  void check_lean(const setout::Run& run, const std::vector<Reading*>& readings);
  void name_lean(const Reading& top, const Reading& bottom, double lean_from, double lean_to);
  void note_partly_measured();
  std::vector<Reading*> readings_of(const setout::Run& run);
  AsBuilt answer() const;

  const job::Job& job_;
  const setout::Layout& layout_;
  const grade::Heights& heights_;
  Findings& findings_;
  std::vector<Reading> readings_;  // by bay, then rail, once placed
};

int Taker::rails_of(int bay) const { return bay < static_cast<int>(heights_.bays.size()) ? static_cast<int>(heights_.bays[bay].rails.size()) : 0; }

void Taker::place_reading(const job::MeasuredGap& gap, int bay) {
  if (gap.rail < 1 || gap.rail > rails_of(bay)) {
    report("gaps.no_such_rail", Severity::stop, bay, {{"rail", std::int64_t{gap.rail}}, {"rails", std::int64_t{rails_of(bay)}}});
    return;
  }
  Reading r;
  r.bay = bay;
  r.rail = gap.rail;
  r.gap = gap.gap;
  r.way = gap.way;
  r.level = gap.gap;
  if (gap.way == job::GapWay::slope) {
    const grade::RailEnds& ends = heights_.bays[bay].rails[gap.rail - 1];
    const Length rise = ends.to - ends.from;
    r.level = gap.gap > measure::abs(rise) ? fittings::level_gap(gap.gap, rise) : Length();
  }
  readings_.push_back(r);
}

// The last reading of a rail counts: taping again is how a doubt is settled.
void Taker::place_readings() {
  std::map<std::string, int> bays;
  for (std::size_t b = 0; b < layout_.bays.size(); ++b) bays.emplace(layout_.bays[b].name, static_cast<int>(b));
  for (const job::MeasuredGap& gap : job_.field.gaps) {
    const auto bay = bays.find(gap.bay);
    if (bay == bays.end()) {
      findings_.push_back({"gaps.no_such_bay", Severity::stop, gap.bay, {{"rail", std::int64_t{gap.rail}}}});
    } else {
      place_reading(gap, bay->second);
    }
  }
  std::stable_sort(readings_.begin(), readings_.end(), [](const Reading& a, const Reading& b) { return a.bay != b.bay ? a.bay < b.bay : a.rail < b.rail; });
  std::vector<Reading> once;
  for (const Reading& r : readings_) {
    if (once.empty() || once.back().bay != r.bay || once.back().rail != r.rail) {
      once.push_back(r);
      continue;
    }
    report("gaps.twice", Severity::warning, r.bay, {{"rail", std::int64_t{r.rail}}, {"first", value_of(once.back().gap)}, {"second", value_of(r.gap)}});
    once.back() = r;
  }
  readings_ = std::move(once);
}

// Names a reading that is off by a whole number of units; the window says how well that can be told.
bool Taker::name_whole(Reading& r, Length unit, Length window, const char* code) {
  const Length whole = r.surprise.round_to(unit);
  if (whole == Length() || measure::abs(r.surprise - whole) > window) return false;
  report(code, Severity::stop, r.bay,
         {{"rail", std::int64_t{r.rail}}, {"measured", value_of(r.gap)}, {"off", value_of(measure::abs(whole))}, {"expected", value_of(r.level - r.surprise)}});
  return true;
}

void Taker::check_possible(Reading& r) {
  const setout::Bay& bay = layout_.bays[r.bay];
  r.surprise = r.level - bay.gap;
  if (r.level > Length() && r.level <= bay.pitch + kBeyondPitch) return;
  r.used = false;
  // A foot or two too long is more likely a slip: the rest of the run says how much.
  const Length feet = r.surprise.round_to(kFoot);
  if (r.level > Length() && measure::abs(r.surprise - feet) <= kBeyondPitch) return;
  r.impossible = true;
  report("gaps.impossible", Severity::stop, r.bay, {{"rail", std::int64_t{r.rail}}, {"measured", value_of(r.gap)}, {"planned", value_of(bay.gap)}});
}

void Taker::name_slip(Reading& r) {
  const auto sigmas = [&](double n) { return Length::from_metres(n * r.sigma); };
  const Length foot_window = measure::min(measure::max(kInch / 4, sigmas(3)), kInch * 3);
  if (name_whole(r, kFoot, foot_window, "gaps.slip_foot")) return;
  // An inch can only be told where other rails of the bay say to a fraction of it what the gap is.
  const bool sharp = sigmas(1) <= kInch / 4;
  if (sharp && name_whole(r, kInch, measure::max(kInch / 8, sigmas(2)), "gaps.slip_inch")) return;
  report("gaps.retape", Severity::warning, r.bay,
         {{"rail", std::int64_t{r.rail}}, {"measured", value_of(r.gap)}, {"expected", value_of(r.level - r.surprise)}});
}

std::vector<Reading*> Taker::readings_of(const setout::Run& run) {
  const auto first = std::lower_bound(readings_.begin(), readings_.end(), run.first_bay, [](const Reading& r, int bay) { return r.bay < bay; });
  std::vector<Reading*> found;
  for (auto it = first; it != readings_.end() && it->bay < run.first_bay + run.bay_count; ++it) {
    if (!it->impossible) found.push_back(&*it);
  }
  return found;
}

std::vector<PostPrior> Taker::priors_of(const setout::Run& run) const {
  const Length scatter = measure::max(job_.choices.allowances.scatter, kReading);
  const Length plumb = measure::max(job_.choices.plumb_tolerance, kReading);
  std::vector<PostPrior> priors;
  for (int i = 0; i <= run.bay_count; ++i) {
    const int post = i < run.bay_count ? layout_.bays[run.first_bay + i].from : run.to;
    const bool set = layout_.posts[post].set;
    priors.push_back({(set ? kRecorded : scatter).metres(), plumb.metres() / kPlumbHeight});
  }
  return priors;
}

std::vector<GapObservation> Taker::observations_of(const setout::Run& run, const std::vector<Reading*>& readings) const {
  std::vector<GapObservation> observations;
  for (const Reading* r : readings) {
    const setout::Bay& bay = layout_.bays[r->bay];
    const grade::RailEnds& ends = heights_.bays[r->bay].rails[r->rail - 1];
    GapObservation o;
    o.bay = r->bay - run.first_bay;
    o.height_from = ends.from.metres() - layout_.posts[bay.from].ground;
    o.height_to = ends.to.metres() - layout_.posts[bay.to].ground;
    o.excess = (r->level - bay.gap).metres();
    o.sigma = kReading.metres();
    o.used = r->used;
    observations.push_back(o);
  }
  return observations;
}

// Indices of the readings that surprise most within their neighbourhood, and too much.
std::vector<std::size_t> worst_of(const std::vector<GapObservation>& observations, const std::vector<ObservationCheck>& checks) {
  std::vector<std::pair<double, std::size_t>> over;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    const double ratio = std::fabs(checks[i].surprise) / checks[i].sigma;
    if (observations[i].used && ratio > kSurprise) over.emplace_back(-ratio, i);
  }
  std::sort(over.begin(), over.end());
  std::vector<std::size_t> worst;
  std::vector<int> bays;
  for (const auto& [ratio, i] : over) {
    const int bay = observations[i].bay;
    const bool near = std::any_of(bays.begin(), bays.end(), [&](int b) { return std::abs(b - bay) < kApart; });
    if (near) continue;
    worst.push_back(i);
    bays.push_back(bay);
  }
  return worst;
}

void Taker::set_aside(const setout::Run& run, const std::vector<Reading*>& readings) {
  const std::vector<PostPrior> priors = priors_of(run);
  std::vector<GapObservation> observations = observations_of(run, readings);
  RunAdjustment adjusted = adjust_run(priors, observations);
  for (int pass = 0; pass < kPasses; ++pass) {
    const auto worst = worst_of(observations, adjusted.checks);
    if (worst.empty()) break;
    for (const std::size_t i : worst) observations[i].used = false;
    adjusted = adjust_run(priors, observations);
  }
  for (std::size_t i = 0; i < readings.size(); ++i) {
    readings[i]->used = observations[i].used;
    readings[i]->surprise = Length::from_metres(adjusted.checks[i].surprise);
    readings[i]->sigma = adjusted.checks[i].sigma;
    if (!readings[i]->used) name_slip(*readings[i]);
  }
}

// Gaps and post diameters of a rail that is measured in every bay must add up to the run.
void Taker::check_sums(const setout::Run& run, const std::vector<Reading*>& readings) {
  std::map<int, std::pair<int, Length>> sums;  // per rail: bays, excess of the gaps over the plan
  for (const Reading* r : readings) {
    auto& [bays, excess] = sums[r->rail];
    ++bays;
    excess += r->level - layout_.bays[r->bay].gap;
  }
  const std::vector<PostPrior> priors = priors_of(run);
  const double ends = priors.front().place_sigma * priors.front().place_sigma + priors.back().place_sigma * priors.back().place_sigma;
  const double tapes = kReading.metres() * kReading.metres() * run.bay_count;
  const double plumb = job_.choices.plumb_tolerance.metres() * job_.choices.plumb_tolerance.metres() * 2;
  const Length allowed = Length::from_metres(3 * std::sqrt(ends + tapes + plumb));
  for (const auto& [rail, sum] : sums) {
    const auto& [bays, excess] = sum;
    if (bays < run.bay_count || bays < 2 || measure::abs(excess) <= allowed) continue;
    const Length length = run.end - run.start;
    findings_.push_back({"gaps.sum",
                         Severity::warning,
                         run.name,
                         {{"rail", std::int64_t{rail}},
                          {"sum", value_of(length + excess)},
                          {"length", value_of(length)},
                          {"off", value_of(measure::abs(excess))},
                          {"allowed", value_of(allowed)}}});
  }
}

void Taker::name_lean(const Reading& top, const Reading& bottom, double lean_from, double lean_to) {
  const setout::Bay& bay = layout_.bays[top.bay];
  const bool from = std::fabs(lean_from) >= std::fabs(lean_to);
  const double larger = std::max(std::fabs(lean_from), std::fabs(lean_to));
  const double smaller = std::min(std::fabs(lean_from), std::fabs(lean_to));
  Values values{{"top", value_of(top.level)},
                {"bottom", value_of(bottom.level)},
                {"differ", value_of(measure::abs(top.level - bottom.level))},
                {"post", layout_.posts[from ? bay.from : bay.to].name}};
  // With no reading beyond either post the two share the blame equally.
  const bool either = smaller > 0.8 * larger;
  if (either) values.emplace_back("other", layout_.posts[from ? bay.to : bay.from].name);
  report(either ? "gaps.lean_either" : "gaps.lean", Severity::warning, top.bay, std::move(values));
}

void Taker::check_lean(const setout::Run& run, const std::vector<Reading*>& readings) {
  const RunAdjustment adjusted = adjust_run(priors_of(run), observations_of(run, readings));
  for (std::size_t i = 0; i < readings.size();) {
    const int bay = readings[i]->bay;
    const Reading* top = nullptr;
    const Reading* bottom = nullptr;
    for (; i < readings.size() && readings[i]->bay == bay; ++i) {
      if (!readings[i]->used) continue;
      if (top == nullptr) top = readings[i];
      bottom = readings[i];
    }
    if (top == nullptr || top == bottom) continue;
    if (measure::abs(top->level - bottom->level) <= job_.choices.plumb_tolerance) continue;
    const int at = bay - run.first_bay;
    name_lean(*top, *bottom, adjusted.lean[at], adjusted.lean[at + 1]);
  }
}

void Taker::check_run(const setout::Run& run) {
  const std::vector<Reading*> readings = readings_of(run);
  if (readings.empty()) return;
  set_aside(run, readings);
  check_sums(run, readings);
  check_lean(run, readings);
}

// Rails without a reading keep the planned gap: said where others of the bay have one.
void Taker::note_partly_measured() {
  for (std::size_t i = 0; i < readings_.size();) {
    const int bay = readings_[i].bay;
    std::int64_t measured = 0;
    for (; i < readings_.size() && readings_[i].bay == bay; ++i) measured += readings_[i].used ? 1 : 0;
    if (measured == 0 || measured == rails_of(bay)) continue;
    report("gaps.partly", Severity::note, bay, {{"measured", measured}, {"rails", std::int64_t{rails_of(bay)}}});
  }
}

AsBuilt Taker::answer() const {
  AsBuilt result;
  const bool any = std::any_of(readings_.begin(), readings_.end(), [](const Reading& r) { return r.used; });
  if (any) {
    result.readings.resize(layout_.bays.size());
    for (std::size_t b = 0; b < layout_.bays.size(); ++b) result.readings[b].resize(rails_of(static_cast<int>(b)));
  }
  for (const Reading& r : readings_) {
    if (r.used) result.readings[r.bay][r.rail - 1] = {true, r.gap, r.way};
    result.reports.push_back({bay_name(r.bay), r.rail, planned(r), r.level, r.surprise, !r.used});
  }
  return result;
}

AsBuilt Taker::take() {
  place_readings();
  for (Reading& r : readings_) check_possible(r);
  for (const setout::Run& run : layout_.runs) check_run(run);
  note_partly_measured();
  return answer();
}

}  // namespace

AsBuilt take_in_gaps(const job::Job& job, const setout::Layout& layout, const grade::Heights& heights, Findings& findings) {
  if (job.field.gaps.empty()) return {};
  return Taker(job, layout, heights, findings).take();
}

}  // namespace railwright::asbuilt
