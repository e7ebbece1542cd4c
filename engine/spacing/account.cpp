// SPDX-License-Identifier: MIT
#include "engine/spacing/account.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

#include "engine/fittings/meetings.h"
#include "engine/spacing/floor.h"
#include "engine/spacing/steps.h"
#include "engine/spacing/tariff.h"
#include "engine/takeoff/remaining.h"

namespace railwright::spacing {

Trial try_out(const Site& site, const setout::Limits& limits) {
  const job::Job& job = site.job;
  Trial t;
  t.layout = setout::set_out(job, site.catalogue, limits, site.profiles, t.findings);
  t.heights = grade::rail_heights(job, site.catalogue, t.layout, {}, t.findings);
  Findings unused;
  t.built = asbuilt::take_in_gaps(job, t.layout, t.heights, unused);
  t.assembly = fittings::assemble(job, site.catalogue, t.layout, t.heights, t.built.readings, t.findings);
  t.posts = takeoff::size_posts(job, site.catalogue, t.layout, t.heights, t.assembly, t.findings);
  t.cuts = takeoff::gather_pieces(job, site.catalogue, t.layout, t.assembly, t.posts, t.findings);
  return t;
}

Money concrete_price(const Site& site, const Trial& trial) {
  double volume = 0;
  for (const takeoff::PostSize& post : trial.posts) volume += post.concrete_m3;
  if (!(volume > 0)) return {};
  Findings unused;
  const takeoff::Takeoff list = takeoff::take_off({site.job, site.catalogue, trial.layout, trial.heights, trial.assembly, trial.cuts}, trial.posts, unused);
  for (const takeoff::OrderLine& line : list.orders) {
    if (line.group == "concrete") return line.price.times(line.needed / volume);
  }
  return {};
}

Owners::Owners(const setout::Layout& layout) : post(layout.posts.size(), layout.runs.size()), bay(layout.bays.size(), layout.runs.size()) {
  for (std::size_t r = 0; r < layout.runs.size(); ++r) {
    const setout::Run& run = layout.runs[r];
    for (int b = 0; b < run.bay_count; ++b) {
      const auto at = static_cast<std::size_t>(run.first_bay + b);
      bay[at] = r;
      if (b + 1 < run.bay_count) post[static_cast<std::size_t>(layout.bays[at].to)] = r;
    }
  }
}

namespace {

constexpr int kStop = 1000;  // a finding that stops weighs more than any number of warnings there may be

class Accountant {
 public:
  Accountant(const Site& site, const Trial& trial, Table& table)
      : site_(site),
        tariff_(site.job, site.catalogue, table.concrete_per_m3),
        trial_(trial),
        table_(table),
        owners_(trial.layout),
        remaining_(site.job, trial.layout),
        shares_(trial.layout.runs.size() + 1) {
    for (std::size_t b = 0; b < trial.layout.bays.size(); ++b) bay_remains_.push_back(remaining_.bay(static_cast<int>(b)) ? 1 : 0);
  }

  std::vector<Share> shares() {
    count_faults();
    const Floor floor(site_, tariff_, trial_, owners_, may_stop());
    const Steps steps(site_, tariff_, trial_, may_stop());
    for (std::size_t r = 0; r + 1 < shares_.size(); ++r) stepped_.push_back(steps.ways(r).empty() ? 0 : 1);
    stepped_.push_back(0);
    count_posts(floor);
    count_bays(floor);
    for (const takeoff::PipeCuts& cuts : trial_.cuts) count_pieces(cuts, floor);
    for (std::size_t r = 0; r < trial_.layout.runs.size(); ++r) {
      if (stepped_[r] != 0) add_steps(r, least_of(steps.ways(r)));
      look_at(r);
    }
    for (Share& share : shares_) {
      share.faults += share.strays;
      gather(share.seen.pieces);
      gather(share.least.pieces);
    }
    return std::move(shares_);
  }

 private:
  bool has_fence(int fence) const { return fence >= 0 && static_cast<std::size_t>(fence) < site_.job.choices.fences.size(); }
  Share& of_post(std::size_t post) { return shares_[owners_.post[post]]; }
  Share& of_bay(int bay) { return shares_[owners_.bay[static_cast<std::size_t>(bay)]]; }
  std::vector<char> may_stop() const;
  void count_posts(const Floor& floor);
  void count_bays(const Floor& floor);
  void count_pieces(const takeoff::PipeCuts& cuts, const Floor& floor);
  void add_steps(std::size_t run, const StepWay& least);
  void count_faults();
  void look_at(std::size_t run);
  int pipe_index(const takeoff::PipeCuts& cuts);
  static void gather(std::vector<Piece>& pieces);

  const Site& site_;
  const Tariff tariff_;
  const Trial& trial_;
  Table& table_;
  const Owners owners_;
  takeoff::Remaining remaining_;
  std::vector<char> bay_remains_;
  std::vector<char> stepped_;  // by owner: what is least is known by the ways its levels may step
  std::vector<Share> shares_;
};

// Where the plain rule has no finding that stops, no choice may have one.
std::vector<char> Accountant::may_stop() const {
  std::vector<char> may;
  for (std::size_t r = 0; r < shares_.size(); ++r) {
    const bool shared = r + 1 == shares_.size();
    const bool first = table_.runs.empty();
    const int faults = first ? shares_[r].faults : shared ? table_.shared.faults : table_.runs[r].front().faults;
    may.push_back(faults >= kStop ? 1 : 0);
  }
  return may;
}

void Accountant::count_posts(const Floor& floor) {
  const std::size_t count = trial_.posts.size();
  std::vector<Money> parts(count);
  for (const fittings::Use& use : trial_.assembly.uses) {
    if (remaining_.use(use)) parts[static_cast<std::size_t>(use.post)] += tariff_.fitting(use.fitting);
  }
  for (std::size_t p = 0; p < count; ++p) {
    const setout::Post& post = trial_.layout.posts[p];
    const int index = static_cast<int>(p);
    Share& share = of_post(p);
    const bool counts = remaining_.post(index) && has_fence(post.fence);
    const Money own = counts ? tariff_.post(post.fence, post.diameter, trial_.posts[p].concrete_m3) : Money();
    share.seen.fixed += own + parts[p];
    if (floor.loose_post(index)) continue;
    share.least.fixed += own;
    if (stepped_[owners_.post[p]] == 0) share.least.fixed += floor.fittings(index, bay_remains_, parts[p]);
  }
}

void Accountant::count_bays(const Floor& floor) {
  const auto add = [&](int bay, Money cost, bool certain) {
    of_bay(bay).seen.fixed += cost;
    if (certain && !floor.loose_bay(bay)) of_bay(bay).least.fixed += cost;
  };
  for (std::size_t b = 0; b < trial_.layout.bays.size(); ++b) {
    const setout::Bay& bay = trial_.layout.bays[b];
    if (bay.kind == setout::BayKind::gate || bay_remains_[b] == 0 || !has_fence(bay.fence)) continue;
    add(static_cast<int>(b), tariff_.bay(bay.fence), true);
  }
  for (const fittings::Rail& rail : trial_.assembly.rails) {
    if (bay_remains_[static_cast<std::size_t>(rail.bay)] != 0) add(rail.bay, tariff_.rail(), !floor.uncertain(rail));
  }
}

int Accountant::pipe_index(const takeoff::PipeCuts& cuts) {
  for (std::size_t p = 0; p < table_.pipes.size(); ++p) {
    if (table_.pipes[p].pipe == cuts.pipe) return static_cast<int>(p);
  }
  PipeStock stock{cuts.pipe, cuts.instance.stocks(), cuts.instance.rules(), {}};
  for (const cutting::Stock& s : stock.stocks) stock.longest = measure::max(stock.longest, cuts.instance.usable(s));
  table_.pipes.push_back(std::move(stock));
  return static_cast<int>(table_.pipes.size()) - 1;
}

void Accountant::count_pieces(const takeoff::PipeCuts& cuts, const Floor& floor) {
  const int pipe = pipe_index(cuts);
  const Length longest = table_.pipes[static_cast<std::size_t>(pipe)].longest;
  const Money cut = tariff_.cut();
  for (const takeoff::PieceSource& source : cuts.pieces) {
    const auto at = static_cast<std::size_t>(source.index);
    const bool post = source.kind == takeoff::PieceKind::post;
    Piece piece{pipe, {}, false, 1};
    Length least;
    if (post) {
      piece.length = trial_.posts[at].length;
      if (!floor.loose_post(source.index)) least = floor.post(source.index, longest);
    } else {
      const fittings::Rail& rail = trial_.assembly.rails[at];
      piece.length = rail.cut;
      piece.grows = !rail.measured && site_.job.choices.cutting.order == job::WorkOrder::posts_first;
      if (!floor.loose_bay(rail.bay)) least = floor.rail(rail, longest);
    }
    Share& share = post ? of_post(at) : of_bay(trial_.assembly.rails[at].bay);
    share.seen.pieces.push_back(piece);
    share.seen.fixed += cut;
    if (piece.grows && piece.length + site_.job.choices.allowances.scatter > longest) ++share.strays;
    const bool stepped = stepped_[post ? owners_.post[at] : owners_.bay[static_cast<std::size_t>(trial_.assembly.rails[at].bay)]] != 0;
    if (least <= Length() || stepped) continue;
    piece.length = least;
    share.least.pieces.push_back(piece);
    share.least.fixed += cut;
  }
}

void Accountant::add_steps(std::size_t r, const StepWay& least) {
  const setout::Run& run = trial_.layout.runs[r];
  std::vector<Piece>& pieces = shares_[r].least.pieces;
  shares_[r].least.fixed += least.fittings;
  const auto add = [&](const std::string& name, const std::vector<Length>& lengths, bool grows) {
    const auto stock = std::find_if(table_.pipes.begin(), table_.pipes.end(), [&](const PipeStock& s) { return s.pipe == name; });
    if (stock == table_.pipes.end()) return;
    for (const Length length : lengths) {
      if (length <= Length()) continue;
      pieces.push_back({static_cast<int>(stock - table_.pipes.begin()), length, grows, 1});
      shares_[r].least.fixed += tariff_.cut();
    }
  };
  const setout::Bay& first = trial_.layout.bays[static_cast<std::size_t>(run.first_bay)];
  add(trial_.layout.posts[static_cast<std::size_t>(first.to)].pipe, least.posts, false);
  add(fittings::rail_pipe_of(site_.job.choices.fences[static_cast<std::size_t>(run.fence)]), least.rails,
      site_.job.choices.cutting.order == job::WorkOrder::posts_first);
}

// Findings name a run, a bay, a rail of a bay or a post.
void Accountant::count_faults() {
  std::map<std::string, std::size_t> run_of;
  const setout::Layout& layout = trial_.layout;
  for (std::size_t r = 0; r < layout.runs.size(); ++r) {
    run_of[layout.runs[r].name] = r;
    shares_[r].bays = layout.runs[r].bay_count;
  }
  for (std::size_t b = 0; b < layout.bays.size(); ++b) run_of[layout.bays[b].name] = owners_.bay[b];
  for (std::size_t p = 0; p < layout.posts.size(); ++p) run_of[layout.posts[p].name] = owners_.post[p];
  for (const Finding& finding : trial_.findings) {
    if (finding.severity == Severity::note) continue;
    const auto found = run_of.find(finding.where.substr(0, finding.where.find('/')));
    if (found == run_of.end()) continue;
    shares_[found->second].faults += finding.severity == Severity::stop ? kStop : 1;
  }
}

// Bays of a brace are no look of the fence, nor is a single bay.
void Accountant::look_at(std::size_t r) {
  const setout::Run& run = trial_.layout.runs[r];
  if (run.bay_count < 2) return;
  std::vector<Length>& looks = shares_[r].looks;
  for (int b = 0; b < run.bay_count; ++b) {
    const setout::Bay& bay = trial_.layout.bays[static_cast<std::size_t>(run.first_bay + b)];
    if (bay.kind == setout::BayKind::fence) looks.push_back(bay.gap);
  }
  std::sort(looks.begin(), looks.end());
  // Equal bays differ by the rounding of their stations to the nanometre.
  looks.erase(std::unique(looks.begin(), looks.end(), [](Length a, Length b) { return b - a < Length::from_nm(1000); }), looks.end());
}

auto key(const Piece& piece) { return std::tuple(piece.pipe, piece.length, piece.grows); }

void Accountant::gather(std::vector<Piece>& pieces) {
  std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return key(a) < key(b); });
  std::vector<Piece> together;
  for (const Piece& piece : pieces) {
    if (!together.empty() && key(together.back()) == key(piece))
      together.back().count += piece.count;
    else
      together.push_back(piece);
  }
  pieces = std::move(together);
}

}  // namespace

std::vector<Share> shares_of(const Site& site, const Trial& trial, Table& table) { return Accountant(site, trial, table).shares(); }

std::vector<Share> account_of(const Site& site, const std::vector<int>& bays, Table& table) {
  setout::Limits limits = site.limits;
  limits.forced_bays = bays;
  return shares_of(site, try_out(site, limits), table);
}

}  // namespace railwright::spacing
