// SPDX-License-Identifier: MIT
#include "cli/console.h"

#include <algorithm>
#include <cstdio>

#include "cli/files.h"
#include "data/shipped.h"
#include "words/words.h"

namespace railwright::cli {

bool speaks(const std::string& language) { return language == "en" || language == "es"; }

const sheets::Words& words(const std::string& language) {
  static const sheets::Words english = sheets::Words::parse(railwright::words::catalogue_json("en")).value_or(sheets::Words());
  if (language != "es") return english;
  static const sheets::Words other = [&] {
    sheets::Words both = english;
    if (const auto own = sheets::Words::parse(railwright::words::catalogue_json("es"))) both.add(*own);
    return both;
  }();
  return other;
}

const job::Catalogue& shipped_catalogue() {
  static const job::Catalogue catalogue = railwright::data::shipped();
  return catalogue;
}

bool Arguments::has(const std::string& name) const {
  return std::any_of(options.begin(), options.end(), [&](const auto& option) { return option.first == name; });
}

std::string Arguments::get(const std::string& name) const {
  for (const auto& [given, value] : options) {
    if (given == name) return value;
  }
  return {};
}

Result<Arguments> parse_arguments(int argc, char** argv, const std::vector<std::string>& names, const std::vector<std::string>& flags) {
  const auto among = [](const std::vector<std::string>& list, const std::string& name) { return std::find(list.begin(), list.end(), name) != list.end(); };
  Arguments arguments;
  for (int i = 0; i < argc; ++i) {
    std::string word = argv[i];
    if (word.rfind("--", 0) != 0) {
      arguments.positional.push_back(word);
      continue;
    }
    const std::size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    if (arguments.has(name)) return fail("command.repeated", name, {{"word", name}});
    if (among(flags, name)) {
      arguments.options.emplace_back(name, "");
    } else if (!among(names, name)) {
      return fail("command.option", name, {{"word", name}});
    } else if (equals != std::string::npos) {
      arguments.options.emplace_back(name, word.substr(equals + 1));
    } else if (i + 1 < argc) {
      arguments.options.emplace_back(name, argv[++i]);
    } else {
      return fail("command.value", name, {{"word", name}, {"text", std::string("nothing")}});
    }
  }
  return arguments;
}

int complain(const Error& error) {
  std::fprintf(stderr, "railwright: %s\n", sheets::error_text(words(), error).c_str());
  return kBadInput;
}

namespace {
// The heaviest first, else as the engine gave them.
std::vector<const Finding*> by_weight(const Findings& findings) {
  std::vector<const Finding*> sorted;
  for (const Finding& finding : findings) sorted.push_back(&finding);
  std::stable_sort(sorted.begin(), sorted.end(), [](const Finding* a, const Finding* b) { return a->severity > b->severity; });
  return sorted;
}
}  // namespace

void print_findings(const Findings& findings, const std::string& file, const std::string& language, const measure::LengthFormat& lengths, bool places) {
  for (const Finding* finding : by_weight(findings)) {
    const std::string sentence = sheets::finding_text(words(language), *finding, lengths);
    const std::string place = places && !finding->where.empty() ? finding->where + ": " : "";
    std::fprintf(stderr, "%s: %s%s\n", file.c_str(), place.c_str(), sentence.c_str());
  }
}

LoadedJob load_job(const std::string& path) {
  const Result<std::string> bytes = read_file(path);
  if (!bytes) {
    complain(bytes.error());
    return {};
  }
  job::ReadJob read = job::read_job(*bytes);
  const bool readable = read.sound();
  if (readable) {
    const job::Catalogue catalogue = job::overlay(shipped_catalogue(), read.job.choices.overrides);
    const Findings more = job::validate(read.job, catalogue);
    for (const Finding& finding : more) {
      const bool known =
          std::any_of(read.findings.begin(), read.findings.end(), [&](const Finding& old) { return old.code == finding.code && old.where == finding.where; });
      if (!known) read.findings.push_back(finding);
    }
  }
  print_findings(read.findings, path, speaks(read.job.language) ? read.job.language : "en", {}, true);
  if (read.sound() && !speaks(read.job.language)) {
    complain({"command.language", "/language", {{"language", read.job.language}}});
    return {};
  }
  return {read.sound(), std::move(read.job)};
}

}  // namespace railwright::cli
