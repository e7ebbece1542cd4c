// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/measure/result.h"
#include "sheets/sheets.h"

namespace railwright::cli {

// All sheets as one PDF with an outline of their titles: lines stay lines, text stays text that can be selected and searched, fonts are embedded. Same
// sheets, same bytes: the creation date is fixed (1 January 2000), whatever the clock or the environment says.
// Errors: `pdf.bad_svg` (place: the page's number; value `reason`), `pdf.failed` (value `reason`).
Result<std::string> bind_pdf(const std::vector<sheets::Sheet>& pages);

}  // namespace railwright::cli
