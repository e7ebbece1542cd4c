// SPDX-License-Identifier: MIT
#include "cli/files.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

namespace railwright::cli {
namespace fs = std::filesystem;

namespace {
tl::unexpected<Error> refuse(const char* code, const std::string& path) { return fail(code, path, {{"file", path}}); }
}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t limit) {
  std::error_code trouble;
  const fs::file_status status = fs::status(path, trouble);
  if (!fs::exists(status)) return refuse("file.missing", path);
  if (fs::is_directory(status)) return refuse("file.folder", path);
  const bool regular = fs::is_regular_file(status);
  if (regular && fs::file_size(path, trouble) > limit) return refuse("file.too_large", path);
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return refuse("file.unreadable", path);
  std::string bytes;
  char block[1 << 16];
  while (stream.read(block, sizeof block) || stream.gcount() > 0) {
    bytes.append(block, static_cast<std::size_t>(stream.gcount()));
    if (bytes.size() > limit) return refuse("file.too_large", path);
  }
  if (stream.bad()) return refuse("file.unreadable", path);
  return bytes;
}

Result<void> write_file(const std::string& path, std::string_view bytes) {
  // The temporary stands in the same folder, so that the rename is on one file system and atomic.
  const std::string beside = path + ".part";
  std::error_code trouble;
  {
    std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
    if (stream) stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    if (!stream) {
      fs::remove(beside, trouble);
      return refuse("file.unwritable", path);
    }
  }
  fs::rename(beside, path, trouble);
  if (trouble) {
    std::error_code ignored;
    fs::remove(beside, ignored);
    return refuse("file.unwritable", path);
  }
  return {};
}

Result<void> make_folder(const std::string& path) {
  std::error_code trouble;
  fs::create_directories(path, trouble);
  if (trouble || !fs::is_directory(path)) return refuse("file.unwritable", path);
  return {};
}

Result<void> move_files(const std::string& from, const std::string& to) {
  std::error_code trouble;
  for (auto at = fs::recursive_directory_iterator(from, trouble); !trouble && at != fs::recursive_directory_iterator(); at.increment(trouble)) {
    const fs::path target = fs::path(to) / fs::relative(at->path(), from);
    if (at->is_directory()) {
      if (auto made = make_folder(target.string()); !made) return made;
      continue;
    }
    std::error_code moved;
    fs::rename(at->path(), target, moved);
    if (moved) return refuse("file.unwritable", target.string());
  }
  if (trouble) return refuse("file.unwritable", to);
  remove_folder(from);
  return {};
}

void remove_folder(const std::string& path) {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

}  // namespace railwright::cli
