// SPDX-License-Identifier: MIT
#include <emscripten.h>

#include <cstddef>
#include <cstdlib>
#include <cstring>
#include <string>

#include "wasm/bindings.h"

// The page's worker may set `tell` on the module; it hears how far long work has come while rw_answer still runs.
EM_JS(void, rw_tell, (const char* text, std::size_t size), {
  if (Module["tell"]) Module["tell"](text, size);
});

// The C functions that the page's worker calls. A request is written into memory from rw_reserve; rw_answer returns the answer's length and keeps its
// bytes at rw_text until the next call.
namespace {
std::string& last_answer() {
  static std::string text;
  return text;
}
}  // namespace

extern "C" {

void* rw_reserve(std::size_t bytes) { return std::malloc(bytes); }
void rw_release(void* memory) { std::free(memory); }

std::size_t rw_answer(const char* method, std::size_t method_size, const char* request, std::size_t request_size) {
  railwright::wasm::listen([](const std::string& progress) { rw_tell(progress.data(), progress.size()); });
  last_answer() = railwright::wasm::answer({method, method_size}, {request, request_size});
  return last_answer().size();
}
const char* rw_text() { return last_answer().data(); }
}
