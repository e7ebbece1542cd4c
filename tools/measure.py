#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Prints how long functions and files are, and how much of them is comment, room by room; then what exceeds the limits
of docs/hacking.md. `--strict` makes an excess an error. Needs universal-ctags."""
import argparse
import json
import pathlib
import statistics
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
FUNCTION_LIMIT = 80
FILE_LIMIT = 600


def tracked_sources():
    listed = subprocess.run(["git", "-C", str(ROOT), "ls-files", "*.h", "*.cpp"], capture_output=True, text=True, check=True)
    return [path for path in listed.stdout.split() if (ROOT / path).exists()]


def room_of(path):
    parts = path.split("/")
    return "/".join(parts[:2]) if parts[0] == "engine" else parts[0]


def functions(paths):
    """(path, name, first line, length) of each function with a body, as ctags sees it."""
    command = ["ctags", "--output-format=json", "--fields=+ne", "--kinds-C++=f", "--language-force=C++", "-f", "-", "-L", "-"]
    done = subprocess.run(command, input="\n".join(paths), capture_output=True, text=True, check=True, cwd=ROOT)
    for line in done.stdout.splitlines():
        tag = json.loads(line)
        if "end" in tag:
            yield tag["path"], tag["name"], tag["line"], tag["end"] - tag["line"] + 1


def comment_share(text):
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    comments = sum(line.startswith(("//", "/*", "*")) for line in lines)
    return comments / len(lines) if lines else 0.0


def percentile(values, share):
    return sorted(values)[min(len(values) - 1, int(len(values) * share))] if values else 0


def row(name, paths, found):
    texts = {path: (ROOT / path).read_text(encoding="utf-8") for path in paths}
    lengths = [length for path, _, _, length in found if path in texts]
    lines = [text.count("\n") for text in texts.values()]
    headers = "\n".join(text for path, text in texts.items() if path.endswith(".h"))
    sources = "\n".join(text for path, text in texts.items() if path.endswith(".cpp"))
    print(f"{name:18}{len(paths):6}{sum(lines):8}{statistics.median(lines):8.0f}{max(lines):6}{len(lengths):8}"
          f"{statistics.median(lengths) if lengths else 0:8.0f}{percentile(lengths, 0.9):6}{max(lengths, default=0):6}"
          f"{comment_share(headers):9.0%}{comment_share(sources):9.0%}")


def excesses(paths, found):
    for path in paths:
        lines = (ROOT / path).read_text(encoding="utf-8").count("\n")
        if lines > FILE_LIMIT:
            yield f"{path}: {lines} lines, more than {FILE_LIMIT}"
    for path, name, line, length in found:
        if length > FUNCTION_LIMIT:
            yield f"{path}:{line}: {name} has {length} lines, more than {FUNCTION_LIMIT}"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--strict", action="store_true")
    options = parser.parse_args()
    paths = tracked_sources()
    found = list(functions(paths))
    print(f"{'room':18}{'files':>6}{'lines':>8}{'median':>8}{'max':>6}{'funcs':>8}{'median':>8}{'p90':>6}{'max':>6}"
          f"{'// in .h':>9}{'.cpp':>9}")
    for room in sorted({room_of(path) for path in paths}):
        row(room, [path for path in paths if room_of(path) == room], found)
    row("all", paths, found)
    faults = list(excesses(paths, found))
    for fault in faults:
        print(fault)
    sys.exit(1 if faults and options.strict else 0)


if __name__ == "__main__":
    main()
