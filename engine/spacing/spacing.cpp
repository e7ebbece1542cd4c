// SPDX-License-Identifier: MIT
#include "engine/spacing/spacing.h"

#include <algorithm>
#include <utility>

#include "engine/spacing/account.h"
#include "engine/spacing/limited.h"
#include "engine/spacing/search.h"

namespace railwright::spacing {
namespace {

// Work of cutting the answers that are reported.
constexpr std::int64_t kWorkToReport = 200;

std::vector<const Bill*> seen(const std::vector<Share>& shares) {
  std::vector<const Bill*> bills;
  for (const Share& share : shares) bills.push_back(&share.seen);
  return bills;
}

std::vector<int> bays_of(const Table& table, const std::vector<int>& choice) {
  std::vector<int> bays;
  for (std::size_t r = 0; r < choice.size(); ++r) bays.push_back(table.runs[r][static_cast<std::size_t>(choice[r])].bays);
  return bays;
}

// No run, and nothing that is shared, has a fault more than by the plain rule.
bool sound(const std::vector<Share>& shares, const Table& table) {
  for (std::size_t r = 0; r < table.runs.size(); ++r) {
    if (shares[r].faults > table.runs[r].front().faults) return false;
  }
  return shares.back().faults <= table.shared.faults;
}

// What these bays cost with each allowance so many times its size; none where a piece then fits no stick.
std::optional<Money> at_allowances(const Site& site, const std::vector<int>& bays, const Table& table, int times) {
  setout::Limits limits = site.limits;
  limits.forced_bays = bays;
  Trial trial = try_out(site, limits);
  job::Job other = site.job;
  job::Allowances& allowances = other.choices.allowances;
  for (Length* allowance : {&allowances.scatter, &allowances.squaring, &allowances.stick_tolerance}) *allowance = *allowance * times;
  const auto left_out = [](const Findings& findings) {
    return std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.code == "takeoff.piece_too_long"; });
  };
  const auto before = left_out(trial.findings);
  trial.findings.clear();
  trial.cuts = takeoff::gather_pieces(other, site.catalogue, trial.layout, trial.assembly, trial.posts, trial.findings);
  if (left_out(trial.findings) > before) return std::nullopt;
  Table pipes;
  pipes.concrete_per_m3 = table.concrete_per_m3;
  const Site with{other, site.catalogue, site.limits, site.profiles};
  const std::vector<Share> shares = shares_of(with, trial, pipes);
  for (const Share& share : shares) {
    if (share.strays > 0) return std::nullopt;
  }
  const Priced priced = PipeCost(pipes, allowances.scatter, kWorkToReport, Grain::exact).of(seen(shares));
  return priced.found ? std::optional<Money>(priced.cost) : std::nullopt;
}

}  // namespace

Options quick_options() { return {60, 8}; }

Options full_options(const job::Job& job) {
  Options options;
  if (job.choices.cutting.spacing_work_limit > 0) options.work_limit = job.choices.cutting.spacing_work_limit;
  return options;
}

bool wanted(const job::Job& job) {
  return std::any_of(job.site.legs.begin(), job.site.legs.end(), [&](const job::Leg& leg) {
    return std::any_of(job.choices.fences.begin(), job.choices.fences.end(),
                       [&](const job::Fence& fence) { return fence.id == leg.fence && fence.spacing.mode == job::SpacingMode::best; });
  });
}

// One choice counted on its true layout.
struct Counted {
  std::vector<int> choice;
  Money cost;
  bool sound = false;
};

struct Chooser::State {
  State(job::Job j, job::Catalogue c, setout::Limits l, std::vector<ground::Profile> p, const Options& o)
      : job(std::move(j)), catalogue(std::move(c)), limits(std::move(l)), profiles(std::move(p)), options(o), tabulator(site, o.most_more) {}

  const job::Job job;
  const job::Catalogue catalogue;
  const setout::Limits limits;
  const std::vector<ground::Profile> profiles;
  const Options options;
  const Site site{job, catalogue, limits, profiles};
  Tabulator tabulator;
  std::optional<Table> table;  // whole
  std::optional<Search> search;
  std::optional<Limited> limited;  // where the best found shows too many looks
  bool done = false;

  bool step();
  bool after_search();
  bool kept(const std::vector<int>& choice) const;
  void finish_table() {
    while (!table) step();
  }
  Counted count(const std::vector<int>& choice);
};

bool Chooser::State::step() {
  if (done) return false;
  if (!table) {
    if (tabulator.step()) return true;
    table.emplace(tabulator.take());
    search.emplace(*table, job.choices.allowances.scatter, options.work_limit);
    return true;
  }
  if (limited) {
    done = !limited->step();
  } else if (!search->step()) {
    done = !after_search();
  }
  return !done;
}

bool Chooser::State::kept(const std::vector<int>& choice) const {
  const std::vector<LookRule> rules = look_rules(job);
  return std::all_of(rules.begin(), rules.end(), [&](const LookRule& rule) { return looks_shown(*table, rule, choice) <= rule.limit; });
}

// True where a limit on looks is still to be kept.
bool Chooser::State::after_search() {
  if (kept(search->best()) || !search->first_relaxed().known) return false;
  limited.emplace(*table, job.choices.allowances.scatter, options.work_limit, look_rules(job), *search);
  return true;
}

Counted Chooser::State::count(const std::vector<int>& choice) {
  const std::vector<Share> shares = account_of(site, bays_of(*table, choice), *table);
  const Priced priced = PipeCost(*table, job.choices.allowances.scatter, kWorkToReport, Grain::exact).of(seen(shares));
  return {choice, priced.cost, priced.found && spacing::sound(shares, *table)};
}

Chooser::Chooser(job::Job job, job::Catalogue catalogue, setout::Limits limits, std::vector<ground::Profile> profiles, const Options& options)
    : state_(std::make_unique<State>(std::move(job), std::move(catalogue), std::move(limits), std::move(profiles), options)) {}

Chooser::~Chooser() = default;

bool Chooser::step() { return state_->step(); }

Progress Chooser::progress() const {
  Progress progress;
  progress.limit = state_->options.work_limit;
  progress.done = state_->done;
  if (!state_->search) return progress;
  const Search& search = *state_->search;
  const Limited* limited = state_->limited && state_->limited->found() ? &*state_->limited : nullptr;
  progress.known = search.started();
  progress.cost = limited ? limited->cost() : search.cost();
  progress.bound = limited ? limited->bound() : search.bound();
  progress.work = search.work_so_far() + (state_->limited ? state_->limited->work() : 0);
  return progress;
}

// What is reported is counted on true layouts: a line that reaches over several runs may differ from its columns in the table.
Choice Chooser::choice() {
  State& state = *state_;
  state.finish_table();
  const Table& table = *state.table;
  const Search& search = *state.search;
  const bool keeping = state.limited && state.limited->found();
  const std::vector<int> plain(table.runs.size(), 0);
  const std::vector<int>& best = keeping ? state.limited->best() : search.best();
  const bool best_keeps = keeping || state.kept(best);
  const Counted by_plain = state.count(plain), by_eight = state.count(table.eight_foot), by_best = state.count(best), *taken = &by_best;
  for (const Counted* rival : {&by_plain, &by_eight}) {
    if (rival == &by_eight && !by_eight.sound) continue;
    const bool rival_keeps = state.kept(rival->choice), better = !taken->sound || rival->cost < taken->cost;
    if ((rival_keeps || !best_keeps) && better) taken = rival;
  }
  Choice choice;
  choice.plain = by_plain.cost;
  choice.eight_foot = by_eight.cost;
  choice.cost = taken->cost;
  choice.bays = bays_of(table, taken->choice);
  choice.at_zero = at_allowances(state.site, choice.bays, table, 0);
  choice.at_double = at_allowances(state.site, choice.bays, table, 2);
  if (search.started()) choice.bound = std::min(choice.cost, keeping ? state.limited->bound() : search.bound());
  choice.proved = choice.bound == choice.cost;
  choice.finished = state.done;
  choice.work = progress().work;
  if (keeping) choice.without_limit = std::min(choice.cost, state.count(search.best()).cost);
  for (const LookRule& rule : look_rules(state.job)) choice.looks.push_back({rule.fence, rule.limit, looks_shown(table, rule, taken->choice)});
  for (const auto& run : table.runs) choice.free_runs += run.size() > 1 ? 1 : 0;
  return choice;
}

Choice choose(const job::Job& job, const job::Catalogue& catalogue, const setout::Limits& limits, const std::vector<ground::Profile>& profiles,
              const Options& options, const OnProgress& on_progress) {
  Chooser chooser(job, catalogue, limits, profiles, options);
  while (chooser.step()) {
    if (on_progress && !on_progress(chooser.progress())) break;
  }
  return chooser.choice();
}

}  // namespace railwright::spacing
