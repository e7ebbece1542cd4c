// SPDX-License-Identifier: MIT
#include "data/shipped.h"

#include "data/data.h"
#include "engine/job/read.h"

namespace railwright::data {

job::Catalogue shipped() {
  job::Catalogue rows;
  for (const std::string_view name : names()) job::read_catalogue(default_file(name), rows);
  return rows;
}

}  // namespace railwright::data
