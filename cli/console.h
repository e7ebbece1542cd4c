// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/read.h"
#include "sheets/words.h"

// What every command of the command line shares: words, catalogues, arguments, and the exit codes.
namespace railwright::cli {

// 0 sound; 1 a finding stops work; 2 bad input, nothing written.
inline constexpr int kSound = 0;
inline constexpr int kStopped = 1;
inline constexpr int kBadInput = 2;

// The embedded sentences of a language, and the embedded catalogue rows. Both were tested when the program was built.
const sheets::Words& words(const std::string& language = "en");
// Whether there are sentences of a language; `load_job` refuses a job in any other.
bool speaks(const std::string& language);
const job::Catalogue& shipped_catalogue();

// Positional words and options of one command line. `--name value` and `--name=value`; names in `flags` take no value.
struct Arguments {
  std::vector<std::string> positional;
  std::vector<std::pair<std::string, std::string>> options;
  bool has(const std::string& name) const;
  std::string get(const std::string& name) const;  // empty when absent
};
// Errors: `command.option` (not in `names` or `flags`), `command.value` (no value), `command.repeated` (given twice: neither is dropped silently).
Result<Arguments> parse_arguments(int argc, char** argv, const std::vector<std::string>& names, const std::vector<std::string>& flags);

// Sentences on stderr, one a line, with the file and place first.
int complain(const Error& error);
void print_findings(const Findings& findings, const std::string& file, const std::string& language, const measure::LengthFormat& lengths, bool places);

// Reads and validates a job file; complaints are printed. Empty when it is not sound.
struct LoadedJob {
  bool sound = false;
  job::Job job;
};
LoadedJob load_job(const std::string& path);

}  // namespace railwright::cli
