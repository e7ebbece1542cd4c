// SPDX-License-Identifier: MIT
#include "engine/job/read.h"

#include <algorithm>
#include <map>
#include <set>

#include "engine/job/check.h"
#include "engine/job/from_json.h"

namespace railwright::job {
namespace {

constexpr int kVersion = 1;
constexpr std::size_t kMostFindings = 500;

const std::vector<Kind> kOwnKinds{Kind::point, Kind::leg, Kind::fence};
const std::vector<Kind> kRowKinds{Kind::pipe, Kind::animal, Kind::soil, Kind::supply};

// A newer program's document would drown in unknown keys; its version says enough.
bool is_newer(const Json& json, Findings& findings) {
  const auto version = json.is_object() ? json.find("version") : json.end();
  if (version == json.end() || !version->is_number_integer() || *version <= kVersion) return false;
  findings.push_back({"job.newer_version", Severity::stop, "/version", {{"version", version->get<std::int64_t>()}, {"known", std::int64_t{kVersion}}}});
  return true;
}

// A fence that names one pipe uses it for its stronger posts too. Filled in on reading, so that no room has to know the rule.
void fill_in_pipes(Job& job) {
  for (Fence& fence : job.choices.fences) {
    if (fence.line_pipe.empty()) fence.line_pipe = fence.strong_pipe;
    if (fence.strong_pipe.empty()) fence.strong_pipe = fence.line_pipe;
    if (fence.gate_pipe.empty()) fence.gate_pipe = fence.strong_pipe;
  }
}

// What the checks say of a value that could not be read in the first place is noise; so is the length of a leg between such points.
void append_new_places(Findings& findings, Findings more) {
  std::set<std::string> spoken_of;
  bool doubtful_points = false;
  for (const Finding& finding : findings) {
    spoken_of.insert(finding.where);
    doubtful_points = doubtful_points || finding.where.rfind("/site/points", 0) == 0;
  }
  for (Finding& finding : more) {
    const bool noise = spoken_of.count(finding.where) > 0 || (doubtful_points && finding.code == "job.leg_without_length");
    if (!noise) findings.push_back(std::move(finding));
  }
}

void shorten(Findings& findings) {
  if (findings.size() <= kMostFindings) return;
  const auto left_out = static_cast<std::int64_t>(findings.size() - kMostFindings);
  findings.resize(kMostFindings);
  findings.push_back({"job.more_faults", Severity::stop, {}, {{"count", left_out}}});
}

template <class Row>
void know_rows(Checker& checker, Kind kind, const std::vector<Row>& rows, std::string Row::*id) {
  for (const Row& row : rows) checker.know(kind, row.*id);
}

// The ids of a catalogue after the document's own have been checked, so that an override is no duplicate.
void know_catalogue(Checker& checker, const Catalogue& catalogue) {
  know_rows(checker, Kind::pipe, catalogue.pipes, &Pipe::id);
  know_rows(checker, Kind::animal, catalogue.animals, &Animal::id);
  know_rows(checker, Kind::soil, catalogue.soils, &Soil::id);
  know_rows(checker, Kind::supply, catalogue.supplies, &Supply::id);
}

Findings check_job(const Job& job, const Catalogue* catalogue) {
  Findings findings;
  Checker checker(findings);
  checker.check(job);
  checker.resolve(kOwnKinds);
  if (catalogue != nullptr) {
    know_catalogue(checker, *catalogue);
    checker.resolve(kRowKinds);
  }
  check_sense(job, findings);
  return findings;
}

template <class Row>
void lay_over(std::vector<Row>& rows, const std::vector<Row>& own, std::string Row::*id) {
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < rows.size(); ++i) places.try_emplace(rows[i].*id, i);
  for (const Row& row : own) {
    const auto [place, fresh] = places.try_emplace(row.*id, rows.size());
    if (fresh)
      rows.push_back(row);
    else
      rows[place->second] = row;
  }
}

}  // namespace

bool ReadJob::sound() const {
  return std::none_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.severity == Severity::stop; });
}

ReadJob read_job(std::string_view text) {
  ReadJob result;
  const Json json = parse_tree(text, result.findings);
  if (!result.findings.empty() || is_newer(json, result.findings)) return result;
  FromJson(result.findings).read(json, result.job);
  fill_in_pipes(result.job);
  append_new_places(result.findings, check_job(result.job, nullptr));
  shorten(result.findings);
  return result;
}

Findings validate(const Job& job, const Catalogue& catalogue) {
  Findings findings = check_job(job, &catalogue);
  shorten(findings);
  return findings;
}

Findings read_catalogue(std::string_view text, Catalogue& into) {
  Findings findings;
  const Json json = parse_tree(text, findings);
  if (!findings.empty()) return findings;
  Catalogue own;
  FromJson(findings).read(json, own);
  Findings more;
  Checker(more).check(own);
  check_sense(own, {}, more);
  append_new_places(findings, std::move(more));
  shorten(findings);
  if (findings.empty()) into = overlay(into, own);
  return findings;
}

Catalogue overlay(const Catalogue& shipped, const Catalogue& own) {
  Catalogue all = shipped;
  lay_over(all.pipes, own.pipes, &Pipe::id);
  lay_over(all.fittings, own.fittings, &Fitting::id);
  lay_over(all.animals, own.animals, &Animal::id);
  lay_over(all.soils, own.soils, &Soil::id);
  lay_over(all.prices, own.prices, &PriceRow::item);
  lay_over(all.supplies, own.supplies, &Supply::id);
  lay_over(all.hours, own.hours, &HourRow::operation);
  return all;
}

}  // namespace railwright::job
