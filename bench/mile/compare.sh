#!/bin/sh
# SPDX-License-Identifier: MIT
# Usage: bench/mile/compare.sh NATIVE_BIN_DIR WASM_BIN_DIR
#
# One run of mile_bench natively and in node, and the ratios: WebAssembly to native, and time per mile at 50 miles to time per mile at 1.
set -eu
native=$("$1/mile_bench" 101 | tail -n 2)
wasm=$(node --no-experimental-fetch "$2/mile_bench.cjs" 101 | tail -n 2)
printf 'native\n%s\nWebAssembly\n%s\n' "$native" "$wasm"
printf '%s\n%s\n' "$native" "$wasm" | awk -F, '
  { ms[NR] = $5; mile[NR] = $6 }
  END {
    printf "WebAssembly / native: %.2f at 1 mile, %.2f at 50 miles\n", ms[3] / ms[1], ms[4] / ms[2]
    printf "per mile at 50 / at 1: %.2f native, %.2f WebAssembly\n", mile[2] / mile[1], mile[4] / mile[3]
  }'
