// SPDX-License-Identifier: MIT
#include "engine/spacing/table.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

#include "engine/asbuilt/gaps.h"
#include "engine/fittings/assembly.h"
#include "engine/grade/heights.h"
#include "engine/spacing/tariff.h"
#include "engine/takeoff/remaining.h"
#include "engine/takeoff/takeoff.h"

// Outline: the whole job is set out once for each rank j, with j bays more than the fewest in every free run; each layout gives one column of the table.
namespace railwright::spacing {
namespace {

constexpr int kMostMore = 24;
constexpr Length kEightFeet = Length::feet(8);

// One layout with all that is counted on it.
struct Trial {
  setout::Layout layout;
  grade::Heights heights;
  fittings::Assembly assembly;
  std::vector<takeoff::PostSize> posts;
  std::vector<takeoff::PipeCuts> cuts;
  Findings findings;
};

Trial try_out(const Site& site, const setout::Limits& limits) {
  const job::Job& job = site.job;
  Trial t;
  t.layout = setout::set_out(job, site.catalogue, limits, site.profiles, t.findings);
  t.heights = grade::rail_heights(job, site.catalogue, t.layout, {}, t.findings);
  Findings unused;
  const asbuilt::AsBuilt built = asbuilt::take_in_gaps(job, t.layout, t.heights, unused);
  t.assembly = fittings::assemble(job, site.catalogue, t.layout, t.heights, built.readings, t.findings);
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

// Which run each post and bay of a layout belongs to; the last place is for what is shared.
struct Owners {
  std::vector<std::size_t> post, bay;
};

Owners owners_of(const setout::Layout& layout) {
  const std::size_t shared = layout.runs.size();
  Owners owners{std::vector<std::size_t>(layout.posts.size(), shared), std::vector<std::size_t>(layout.bays.size(), shared)};
  for (std::size_t r = 0; r < layout.runs.size(); ++r) {
    const setout::Run& run = layout.runs[r];
    for (int b = 0; b < run.bay_count; ++b) {
      const auto bay = static_cast<std::size_t>(run.first_bay + b);
      owners.bay[bay] = r;
      if (b + 1 < run.bay_count) owners.post[static_cast<std::size_t>(layout.bays[bay].to)] = r;
    }
  }
  return owners;
}

class Accountant {
 public:
  Accountant(const Site& site, const Tariff& tariff, const Trial& trial, Table& table)
      : site_(site), tariff_(tariff), trial_(trial), table_(table), owners_(owners_of(trial.layout)),
        remaining_(site.job, trial.layout), shares_(trial.layout.runs.size() + 1) {}

  std::vector<Share> shares() {
    for (std::size_t r = 0; r < trial_.layout.runs.size(); ++r) shares_[r].bays = trial_.layout.runs[r].bay_count;
    count_posts();
    count_bays();
    for (const takeoff::PipeCuts& cuts : trial_.cuts) count_pieces(cuts);
    count_faults();
    for (Share& share : shares_) gather(share);
    return std::move(shares_);
  }

 private:
  bool has_fence(int fence) const { return fence >= 0 && static_cast<std::size_t>(fence) < site_.job.choices.fences.size(); }
  void count_posts();
  void count_bays();
  void count_pieces(const takeoff::PipeCuts& cuts);
  void count_faults();
  Piece piece_of(const takeoff::PieceSource& source, int pipe, std::size_t& owner) const;
  int pipe_index(const takeoff::PipeCuts& cuts);
  static void gather(Share& share);

  const Site& site_;
  const Tariff& tariff_;
  const Trial& trial_;
  Table& table_;
  Owners owners_;
  takeoff::Remaining remaining_;
  std::vector<Share> shares_;
};

void Accountant::count_posts() {
  for (std::size_t p = 0; p < trial_.posts.size(); ++p) {
    const setout::Post& post = trial_.layout.posts[p];
    if (!remaining_.post(static_cast<int>(p)) || !has_fence(post.fence)) continue;
    shares_[owners_.post[p]].fixed += tariff_.post(post.fence, post.diameter, trial_.posts[p].concrete_m3);
  }
  for (const fittings::Use& use : trial_.assembly.uses) {
    if (remaining_.use(use)) shares_[owners_.post[static_cast<std::size_t>(use.post)]].fixed += tariff_.fitting(use.fitting);
  }
}

void Accountant::count_bays() {
  for (std::size_t b = 0; b < trial_.layout.bays.size(); ++b) {
    const setout::Bay& bay = trial_.layout.bays[b];
    if (bay.kind == setout::BayKind::gate || !remaining_.bay(static_cast<int>(b)) || !has_fence(bay.fence)) continue;
    shares_[owners_.bay[b]].fixed += tariff_.bay(bay.fence);
  }
  for (const fittings::Rail& rail : trial_.assembly.rails) {
    if (remaining_.bay(rail.bay)) shares_[owners_.bay[static_cast<std::size_t>(rail.bay)]].fixed += tariff_.rail();
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

Piece Accountant::piece_of(const takeoff::PieceSource& source, int pipe, std::size_t& owner) const {
  Piece piece;
  piece.pipe = pipe;
  piece.count = 1;
  if (source.kind == takeoff::PieceKind::post) {
    owner = owners_.post[static_cast<std::size_t>(source.index)];
    piece.length = piece.least = trial_.posts[static_cast<std::size_t>(source.index)].length;
    return piece;
  }
  const fittings::Rail& rail = trial_.assembly.rails[static_cast<std::size_t>(source.index)];
  owner = owners_.bay[static_cast<std::size_t>(rail.bay)];
  piece.length = piece.least = rail.cut;
  piece.grows = !rail.measured && site_.job.choices.cutting.order == job::WorkOrder::posts_first;
  const setout::Bay& bay = trial_.layout.bays[static_cast<std::size_t>(rail.bay)];
  const bool own_line = site_.job.choices.fences[static_cast<std::size_t>(bay.fence)].line == job::RailLine::follow;
  if (!own_line) {
    const Length level = (rail.gap - rail.take_off).round_down_to(site_.job.choices.cutting.saw_step);
    piece.least = measure::max(Length::from_nm(1), measure::min(rail.cut, level));
  }
  return piece;
}

void Accountant::count_pieces(const takeoff::PipeCuts& cuts) {
  const int pipe = pipe_index(cuts);
  const Money cut = tariff_.cut();
  for (const takeoff::PieceSource& source : cuts.pieces) {
    std::size_t owner = 0;
    const Piece piece = piece_of(source, pipe, owner);
    shares_[owner].pieces.push_back(piece);
    shares_[owner].fixed += cut;
  }
}

// Findings name a run, a bay, a rail of a bay or a post.
void Accountant::count_faults() {
  std::map<std::string, std::size_t> run_of;
  const setout::Layout& layout = trial_.layout;
  for (std::size_t r = 0; r < layout.runs.size(); ++r) run_of[layout.runs[r].name] = r;
  for (std::size_t b = 0; b < layout.bays.size(); ++b) run_of[layout.bays[b].name] = owners_.bay[b];
  for (std::size_t p = 0; p < layout.posts.size(); ++p) run_of[layout.posts[p].name] = owners_.post[p];
  for (const Finding& finding : trial_.findings) {
    if (finding.severity == Severity::note) continue;
    const auto found = run_of.find(finding.where.substr(0, finding.where.find('/')));
    if (found == run_of.end()) continue;
    shares_[found->second].faults += finding.severity == Severity::stop ? 1000 : 1;
  }
}

auto key(const Piece& piece) {
  return std::tuple(piece.pipe, piece.length, piece.least, piece.grows);
}

void Accountant::gather(Share& share) {
  std::sort(share.pieces.begin(), share.pieces.end(), [](const Piece& a, const Piece& b) { return key(a) < key(b); });
  std::vector<Piece> together;
  for (const Piece& piece : share.pieces) {
    if (!together.empty() && key(together.back()) == key(piece)) together.back().count += piece.count;
    else together.push_back(piece);
  }
  share.pieces = std::move(together);
}

// Line posts already issued between the ends of a run.
int issued_inside(const job::Job& job, const setout::Run& run) {
  int count = 0;
  for (const job::IssuedPost& post : job.issued.posts) {
    const bool here = !post.retired && post.leg == job.site.legs[static_cast<std::size_t>(run.leg)].id;
    if (here && post.station > run.start && post.station < run.end) ++count;
  }
  return count;
}

bool bay_issued(const job::Job& job, const setout::Layout& layout, const setout::Run& run) {
  const std::string& name = layout.bays[static_cast<std::size_t>(run.first_bay)].name;
  return std::any_of(job.issued.bays.begin(), job.issued.bays.end(), [&](const job::IssuedBay& bay) { return !bay.retired && bay.name == name; });
}

// How the counts of one run may vary: `least` to `most`.
struct Range { int least = 1, most = 1; };

Range range_of(const job::Job& job, const setout::Layout& layout, const setout::Run& run) {
  const job::Fence& fence = job.choices.fences[static_cast<std::size_t>(run.fence)];
  const setout::Bay& bay = layout.bays[static_cast<std::size_t>(run.first_bay)];
  const bool panels = fence.spacing.panel.nm() > 0 || fence.kind == job::FenceKind::panels;
  const int fewest = run.bay_count;
  if (fence.spacing.mode != job::SpacingMode::best || panels || bay.kind == setout::BayKind::brace) return {fewest, fewest};
  if (const int issued = issued_inside(job, run); issued > 0) return {issued + 1, issued + 1};
  if (fewest == 1 && bay_issued(job, layout, run)) return {1, 1};
  return {fewest, std::min(2 * fewest, fewest + kMostMore)};
}

std::vector<int> at_rank(const std::vector<Range>& ranges, int rank) {
  std::vector<int> bays;
  for (const Range& range : ranges) bays.push_back(std::min(range.least + rank, range.most));
  return bays;
}

void take_column(std::vector<Share> shares, Table& table) {
  table.least_shared = std::min(table.least_shared, shares.back().fixed);
  for (std::size_t r = 0; r < table.runs.size(); ++r) {
    std::vector<Share>& known = table.runs[r];
    const bool sound = shares[r].faults <= known.front().faults && shares[r].bays > known.back().bays;
    if (sound) known.push_back(std::move(shares[r]));
  }
}

void find_eight_foot(const Site& site, Table& table) {
  setout::Limits limits = site.limits;
  limits.forced_bays.clear();
  for (Length& cap : limits.pitch_cap) cap = measure::min(cap, kEightFeet);
  Findings unused;
  const setout::Layout layout = setout::set_out(site.job, site.catalogue, limits, site.profiles, unused);
  for (std::size_t r = 0; r < table.runs.size() && r < layout.runs.size(); ++r) {
    int at = 0;
    while (at + 1 < static_cast<int>(table.runs[r].size()) && table.runs[r][static_cast<std::size_t>(at)].bays < layout.runs[r].bay_count) ++at;
    table.eight_foot.push_back(at);
  }
  table.eight_foot.resize(table.runs.size());
}

}  // namespace

std::vector<Share> account_of(const Site& site, const std::vector<int>& bays, Table& table) {
  setout::Limits limits = site.limits;
  limits.forced_bays = bays;
  const Trial trial = try_out(site, limits);
  const Tariff tariff(site.job, site.catalogue, table.concrete_per_m3);
  return Accountant(site, tariff, trial, table).shares();
}

Table tabulate(const Site& site) {
  Table table;
  setout::Limits limits = site.limits;
  limits.forced_bays.clear();
  Trial plain = try_out(site, limits);
  std::vector<Range> ranges;
  int ranks = 0;
  for (const setout::Run& run : plain.layout.runs) {
    ranges.push_back(range_of(site.job, plain.layout, run));
    ranks = std::max(ranks, ranges.back().most - ranges.back().least);
  }
  limits.forced_bays = at_rank(ranges, 0);
  plain = try_out(site, limits);
  table.concrete_per_m3 = concrete_price(site, plain);
  const Tariff tariff(site.job, site.catalogue, table.concrete_per_m3);
  std::vector<Share> shares = Accountant(site, tariff, plain, table).shares();
  table.shared = std::move(shares.back());
  table.least_shared = table.shared.fixed;
  shares.pop_back();
  for (Share& share : shares) table.runs.push_back({std::move(share)});
  for (int rank = 1; rank <= ranks; ++rank) {
    limits.forced_bays = at_rank(ranges, rank);
    const Trial trial = try_out(site, limits);
    take_column(Accountant(site, tariff, trial, table).shares(), table);
  }
  find_eight_foot(site, table);
  return table;
}

}  // namespace railwright::spacing
