// SPDX-License-Identifier: MIT
#include "engine/plan/plan.h"
#include "sheets/sheets.h"

namespace railwright::sheets {
namespace {

void add_record(std::string& out, const std::vector<std::string>& fields) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (i) out += ',';
    if (fields[i].find_first_of(",\"\r\n") == std::string::npos) {
      out += fields[i];
      continue;
    }
    out += '"';
    for (const char c : fields[i]) out += c == '"' ? std::string("\"\"") : std::string(1, c);
    out += '"';
  }
  out += "\r\n";
}

}  // namespace

std::string to_csv(const Table& table) {
  std::string out;
  add_record(out, table.columns);
  for (const auto& row : table.rows) add_record(out, row);
  return out;
}

std::string gap_form(const Plan& plan) {
  std::string out;
  add_record(out, {"bay", "rail", "gap", "way"});
  for (const auto& rail : plan.assembly.rails)
    if (rail.number > 0) add_record(out, {plan.layout.bays[static_cast<std::size_t>(rail.bay)].name, std::to_string(rail.number), "", "level"});
  return out;
}

}  // namespace railwright::sheets
