// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/job/job.h"
#include "sheets/words.h"

namespace railwright {
struct Plan;
}

// The plan on paper: drawings as SVG, tables, and a few lines for a terminal. Nothing of the trade is computed here: every figure shown
// stands in the plan or the job and is only formatted, scaled and placed.
//
// Properties
//  (1) Same job, plan, words and paper: same bytes, natively and in WebAssembly. Coordinates are printed to 0.01 mm.
//  (2) Every mark lies on the page; every text is at least 2.5 mm high (cap height), or the sheet does not carry it.
//  (3) No two labels of a sheet overlap.
//  (4) Letter and A4 come from one layout; only margins and the number of rows differ.
// Units on sheets follow Job::units; words follow the catalogue given, never the locale.
namespace railwright::sheets {

enum class Paper { letter, a4 };

struct Sheet {
  std::string id;  // stable, fit for a file name: "first", "site-plan", "cut-2"
  std::string title;
  std::string svg;  // one document, width and height in mm
};

// The whole pack in the order in which the job is done. Never empty and never fails: a plan with no posts gives the first sheet and the cautions.
std::vector<Sheet> draw_sheets(const job::Job& job, const Plan& plan, const Words& words, Paper paper = Paper::letter);

// A table for a spreadsheet. Lengths are decimal in the unit that the column names (in or mm), money without sign, so that a column can be added up.
struct Table {
  std::string id;  // "stakes", "corners", "posts", "rail-marks", "fittings", "rails", "cuts", "bays", "orders", "hours", "load", "checks", "findings"
  std::string title;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  // each as long as `columns`
};
std::vector<Table> tables(const job::Job& job, const Plan& plan, const Words& words);

// RFC 4180: CRLF, a field with comma, quote or line break is quoted, quotes doubled; the first record is the header.
std::string to_csv(const Table& table);
// A form for measured gaps, as the command `gaps` reads it: a line for each rail, the gap left to write, so that no planned figure passes for a reading.
std::string gap_form(const Plan& plan);

// What the plan comes to, for a terminal: at most 80 columns, ends with a line break.
std::string summary_text(const job::Job& job, const Plan& plan, const Words& words);

}  // namespace railwright::sheets
