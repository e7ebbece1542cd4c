// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/why/why.h"
#include "sheets/words.h"

namespace railwright::sheets {

// An answer to "why?" as a person reads it, in the job's units and the words given.
struct WhyText {
  struct Input {
    std::string name, value;
    std::string figure;  // can be asked in turn; empty: not
  };
  std::string figure, title, value;
  std::string formula;      // in words: gap − fitting takes off, first end − ...
  std::string filled;       // the same with the values put in
  std::string source, row;  // row: what the catalogue row says of its own source
  std::vector<Input> inputs;
  std::vector<std::string> where;  // names to be found in the drawing
};
WhyText why_text(const job::Job& job, const Words& words, const why::Answer& answer);

// For a terminal; ends with a line break.
std::string why_lines(const WhyText& text);

}  // namespace railwright::sheets
