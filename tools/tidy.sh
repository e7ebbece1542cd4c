#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs clang-tidy over our own sources, or over the files given. Configure the release preset first.
set -eu
cd "$(dirname "$0")/.."
[ -e build/native/compile_commands.json ] || cmake --preset release >/dev/null
if [ $# = 0 ]; then
  set -- $(git ls-files 'engine/*.cpp' 'sheets/*.cpp' 'formats/*.cpp' 'cli/*.cpp' 'words/*.cpp' 'data/*.cpp')
fi
printf '%s\n' "$@" | xargs -P "$(nproc)" -n 1 clang-tidy --quiet -p build/native
