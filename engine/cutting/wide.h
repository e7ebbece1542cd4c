// SPDX-License-Identifier: MIT
#pragma once

namespace railwright::cutting {

// Products of two 64-bit numbers, exact. An extension that g++, clang and Emscripten share.
__extension__ typedef __int128 Wide;

}  // namespace railwright::cutting
