// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sheets/page.h"

namespace railwright::sheets {

// What the spacing costs, what the plain rules would cost, how much cheaper any division could be, what the allowances and a limit on different pitches cost. Empty
// where no fence asks for the best spacing.
std::vector<std::string> spacing_lines(const Pack& pack);

}  // namespace railwright::sheets
