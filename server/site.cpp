// SPDX-License-Identifier: MIT
#include "server/site.h"

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace railwright::server {
namespace {

namespace fs = std::filesystem;

struct Type {
  std::string_view ending, mime;
};
constexpr Type kTypes[] = {{".html", "text/html; charset=utf-8"},
                           {".js", "text/javascript; charset=utf-8"},
                           {".mjs", "text/javascript; charset=utf-8"},
                           {".css", "text/css; charset=utf-8"},
                           {".wasm", "application/wasm"},
                           {".svg", "image/svg+xml"},
                           {".png", "image/png"},
                           {".json", "application/json"},
                           {".webmanifest", "application/manifest+json"},
                           {".woff2", "font/woff2"}};

bool ends_with(std::string_view text, std::string_view ending) { return text.size() >= ending.size() && text.substr(text.size() - ending.size()) == ending; }

std::string_view type_of(std::string_view path) {
  for (const Type& type : kTypes) {
    if (ends_with(path, type.ending)) return type.mime;
  }
  return "application/octet-stream";
}

// FNV-1a, 64 bits: an entity tag needs no secrecy, only to differ when the bytes do.
std::string etag_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037ull;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ull;
  static constexpr char kDigits[] = "0123456789abcdef";
  std::string text = "\"";
  for (int shift = 60; shift >= 0; shift -= 4) text += kDigits[(hash >> shift) & 15];
  return text + '"';
}

Result<std::string> bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  if (!in) return fail("file.unreadable", path.string());
  return bytes;
}

// A coding counts as accepted when it is named and not refused with q=0 (RFC 9110, section 12.5.3).
bool accepts(std::string_view header, std::string_view coding) {
  for (std::size_t begin = 0; begin < header.size();) {
    const std::size_t end = std::min(header.find(',', begin), header.size());
    std::string_view part = header.substr(begin, end - begin);
    while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
    const std::size_t semicolon = part.find(';');
    const std::string_view parameters = semicolon == std::string_view::npos ? std::string_view() : part.substr(semicolon);
    std::string_view name = part.substr(0, semicolon);
    while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
    if (name == coding) return parameters.find("q=0") == std::string_view::npos || parameters.find("q=0.") != std::string_view::npos;
    begin = end + 1;
  }
  return false;
}

// Without a query, and "/" as the first page.
std::string_view file_path(std::string_view path) {
  path = path.substr(0, path.find_first_of("?#"));
  return path == "/" ? std::string_view("/index.html") : path;
}

}  // namespace

Result<Site> Site::read(const std::string& folder) {
  Site site;
  std::error_code trouble;
  for (fs::recursive_directory_iterator it(folder, trouble), end; !trouble && it != end; it.increment(trouble)) {
    if (!it->is_regular_file(trouble)) continue;
    std::string name = "/" + fs::relative(it->path(), folder, trouble).generic_string();
    auto bytes = bytes_of(it->path());
    if (!bytes) return tl::unexpected(bytes.error());
    const bool br = ends_with(name, ".br"), gz = ends_with(name, ".gz");
    if (br || gz) name.resize(name.size() - 3);
    File& file = site.files_[name];
    (br ? file.br : gz ? file.gz : file.plain) = std::move(*bytes);
  }
  for (auto& [name, file] : site.files_) file.etag = etag_of(file.plain);
  if (site.files_.find("/index.html") == site.files_.end()) return fail("serve.no_page", folder);
  return site;
}

Reply Site::get(std::string_view path, std::string_view accept, std::string_view known) const {
  Reply reply;
  const std::string_view wanted = file_path(path);
  const auto found = files_.find(wanted);
  if (found == files_.end()) return reply;
  const File& file = found->second;
  reply.type = type_of(wanted);
  reply.etag = file.etag;
  reply.cache = wanted.substr(0, 8) == "/assets/" ? "public, max-age=31536000, immutable" : "no-cache";
  if (known.find(file.etag) != std::string_view::npos) {
    reply.status = 304;
    return reply;
  }
  reply.status = 200;
  reply.body = file.plain;
  if (!file.br.empty() && accepts(accept, "br")) {
    reply.body = file.br;
    reply.encoding = "br";
  } else if (!file.gz.empty() && accepts(accept, "gzip")) {
    reply.body = file.gz;
    reply.encoding = "gzip";
  }
  return reply;
}

const std::map<std::string, std::string>& safe_headers() {
  // Styles stand inside elements that the page itself makes; the sheets are pictures in data URLs; WebAssembly needs its own word.
  static const std::map<std::string, std::string> headers = {
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; "
       "font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(), microphone=(), geolocation=(self)"}};
  return headers;
}

}  // namespace railwright::server
