// SPDX-License-Identifier: MIT
#pragma once

#include "engine/job/job.h"

namespace railwright::data {

// The rows of all shipped files together. The files are sound; `tests/job/catalogue_test.cpp` sees to that.
job::Catalogue shipped();

}  // namespace railwright::data
