// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <vector>

// The shipped catalogues (pipe, fittings, animals, ...), embedded at build time from `data/*.json`. A job may lay rows of
// its own over them.
namespace railwright::data {

// The file's bytes, by its name with extension ("pipe.json"); empty when there is no such file.
std::string_view default_file(std::string_view name);

// The names of all files, in byte order.
std::vector<std::string_view> names();

}  // namespace railwright::data
