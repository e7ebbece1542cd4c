// SPDX-License-Identifier: MIT
#include "data/data.h"

#include "railwright_data_embedded.h"

namespace railwright::data {

std::string_view default_file(std::string_view name) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name == name) return file.bytes;
  }
  return {};
}

std::vector<std::string_view> names() {
  std::vector<std::string_view> out;
  for (const EmbeddedFile& file : embedded_files()) out.push_back(file.name);
  return out;
}

}  // namespace railwright::data
