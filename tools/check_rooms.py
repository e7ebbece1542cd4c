#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Fails when an #include crosses upward: a room may include only itself and rooms before it in the list of rooms in
CMakeLists.txt. The faces (cli, wasm) may not include each other. words stand beside the engine and include
nothing of it."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
FACES = {"cli", "wasm", "bench"}
ALONE = {"words", "engine/measure"}


def rooms():
    text = (ROOT / "CMakeLists.txt").read_text(encoding="utf-8")
    return re.search(r"set\(RAILWRIGHT_ALL_ROOMS\s+([^)]*)\)", text).group(1).split()


def room_of(path, order):
    return next((room for room in order if path.startswith(room + "/")), None)


def allowed(room, other, order):
    if room == other:
        return True
    if room in ALONE or other in FACES:
        return False
    return order.index(other) < order.index(room)


def faults(order):
    for room in order:
        for source in sorted((ROOT / room).glob("**/*")):
            if source.suffix not in {".h", ".cpp"}:
                continue
            for number, line in enumerate(source.read_text(encoding="utf-8").splitlines(), 1):
                found = re.match(r'\s*#include "([^"]+)"', line)
                other = found and room_of(found.group(1), order)
                if other and not allowed(room, other, order):
                    yield f"{source.relative_to(ROOT)}:{number}: {room} must not include {other}"


def main():
    found = list(faults(rooms()))
    for fault in found:
        print(fault)
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
