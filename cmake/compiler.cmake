# SPDX-License-Identifier: MIT
# One set of flags for every target: warnings are errors, and arithmetic is the same on every machine
# (no contraction into fused multiply-add, no reassociation).
add_library(railwright_flags INTERFACE)
target_compile_options(railwright_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Werror -ffp-contract=off)
# g++ 12 sees overlapping copies in `"text" + std::string` where there are none (GCC bug 105651).
target_compile_options(railwright_flags INTERFACE $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)
target_include_directories(railwright_flags INTERFACE ${CMAKE_SOURCE_DIR} ${CMAKE_BINARY_DIR}/generated)
if(EMSCRIPTEN)
  add_compile_options(-fwasm-exceptions)
  add_link_options(-fwasm-exceptions -sALLOW_MEMORY_GROWTH=1)
endif()
