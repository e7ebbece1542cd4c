// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "engine/measure/result.h"

namespace railwright::cli {

// Whole file as bytes. Errors: `file.missing`, `file.unreadable`, `file.too_large` (over `limit` bytes, refused before reading), `file.folder`.
Result<std::string> read_file(const std::string& path, std::size_t limit = 64u << 20);

// Writes beside `path` and renames, so that the file is whole or untouched. Errors: `file.unwritable`.
Result<void> write_file(const std::string& path, std::string_view bytes);

// Makes a folder with its parents. Errors: `file.unwritable`.
Result<void> make_folder(const std::string& path);

// Moves every file below `from` to the same place below `to`, replacing what stands there, and takes `from` away. Errors: `file.unwritable`.
Result<void> move_files(const std::string& from, const std::string& to);
// Takes a folder away with all that is in it; quietly, when there is none.
void remove_folder(const std::string& path);

}  // namespace railwright::cli
