#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Merges JSON files of nested objects with sentences as leaves into one. A key given twice is an error, so that two
rooms cannot claim the same sentence."""
import argparse
import json
import sys


def object_without_repeats(pairs):
    merged = {}
    for key, value in pairs:
        if key in merged:
            raise ValueError(f'the key "{key}" stands twice in one object')
        merged[key] = value
    return merged


def lay_in(into, more, path, place):
    for key, value in more.items():
        here = f"{place}.{key}" if place else key
        if key not in into:
            into[key] = value
        elif isinstance(into[key], dict) and isinstance(value, dict):
            lay_in(into[key], value, path, here)
        else:
            raise ValueError(f'"{here}" is given already by an earlier file')


def merge(paths):
    merged = {}
    for path in paths:
        try:
            with open(path, encoding="utf-8") as file:
                words = json.load(file, object_pairs_hook=object_without_repeats)
            if not isinstance(words, dict):
                raise ValueError("the file must hold one object")
            lay_in(merged, words, path, "")
        except (OSError, ValueError) as error:
            sys.exit(f"merge_words: {path}: {error}")
    return merged


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", required=True)
    parser.add_argument("files", nargs="+")
    options = parser.parse_args()
    text = json.dumps(merge(options.files), ensure_ascii=False, indent=1, sort_keys=True)
    with open(options.out, "w", encoding="utf-8") as file:
        file.write(text + "\n")


if __name__ == "__main__":
    main()
