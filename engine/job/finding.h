// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/measure/length.h"
#include "engine/measure/money.h"
#include "engine/measure/value.h"

namespace railwright {

// `note` informs; `warning` wants a look before buying or cutting; `stop` is a fault that stops work (exit code 1).
enum class Severity { note, warning, stop };

// Something the plan has to say. Words for `code` stand in the words catalogue; `where` names the thing (a post, bay, rail, leg, gate or a JSON
// pointer into the job); `values` fill the sentence's placeholders. Findings are ordered by the room that found them, then by place.
struct Finding {
  std::string code;
  Severity severity = Severity::note;
  std::string where;
  Values values;
};
using Findings = std::vector<Finding>;

inline Value value_of(measure::Length length) { return LengthValue{length.nm()}; }
inline Value value_of(measure::Money money) { return MoneyValue{money.units()}; }

}  // namespace railwright
