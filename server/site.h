// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "engine/measure/result.h"

// The built page as it is handed out: read once, from memory afterwards, so that nothing outside its folder can ever be asked for.
namespace railwright::server {

struct Reply {
  int status = 404;       // 200, 304 or 404
  std::string_view body;  // lives as long as the Site
  std::string type;       // MIME type
  std::string encoding;   // "br", "gzip" or empty
  std::string etag;
  std::string cache;  // Cache-Control
};

class Site {
 public:
  // Reads every file under `folder`. Beside `name`, `name.br` and `name.gz` are its compressed forms and no files of their own.
  // Errors: `serve.no_page` (no index.html in the folder; place the folder), `file.unreadable`.
  static Result<Site> read(const std::string& folder);

  // `path` begins with a slash; "/" is index.html. `accept` is the Accept-Encoding of the request, `known` its If-None-Match.
  // Files whose names carry a hash of their content may be kept for ever, the others are asked for again.
  Reply get(std::string_view path, std::string_view accept, std::string_view known) const;

  std::size_t count() const { return files_.size(); }

 private:
  struct File {
    std::string plain, br, gz, etag;
  };
  std::map<std::string, File, std::less<>> files_;  // by path with a leading slash
};

// What every answer carries: no other origin, no frame, no guessing of types.
const std::map<std::string, std::string>& safe_headers();

}  // namespace railwright::server
