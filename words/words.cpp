// SPDX-License-Identifier: MIT
#include "words/words.h"

#include "railwright_words_embedded.h"

namespace railwright::words {

std::string_view catalogue_json(std::string_view language) {
  constexpr std::string_view kExtension = ".json";
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name.substr(0, file.name.size() - kExtension.size()) == language) return file.bytes;
  }
  return {};
}

}  // namespace railwright::words
