// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "engine/job/job.h"
#include "formats/survey_report.h"
#include "sheets/words.h"

namespace railwright::cli {

// A reduced field book for a terminal: decimal feet or metres, as surveyors write them.
std::string survey_text(const formats::SurveyReport& report, const sheets::Words& words, job::UnitSystem units);

// How the findings of a survey show lengths: metres, or feet and inches to 1/16.
measure::LengthFormat survey_lengths(job::UnitSystem units);

}  // namespace railwright::cli
