#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Fails when a code or key in the sources has no sentence in words/en, when the code of a sentence stands nowhere, or when
another language lacks a sentence or fills it with other placeholders."""
import pathlib
import re
import sys

from merge_words import merge

ROOT = pathlib.Path(__file__).resolve().parent.parent
SOURCES = ("engine", "formats", "cli", "wasm", "server", "sheets")
KEY = re.compile(r'"([a-z][a-z_0-9]*(?:\.[a-z][a-z_0-9]*)+)"')
PLACEHOLDER = re.compile(r"{\w+}")
# Told before there are words, or answered by the page with the findings themselves.
WORDLESS = {"words.not_json", "words.not_text", "job.unsound"}


def sentences(words, path=""):
    for key, value in words.items():
        here = f"{path}.{key}" if path else key
        if isinstance(value, dict):
            yield from sentences(value, here)
        else:
            yield here, value


def language(name):
    parts = [ROOT / "words" / f"{name}.json", *sorted((ROOT / "words" / name).glob("*.json"))]
    return dict(sentences(merge([str(part) for part in parts if part.exists()])))


def sources():
    for room in SOURCES:
        for path in sorted((ROOT / room).glob("**/*")):
            if path.suffix in {".h", ".cpp"}:
                yield path, path.read_text(encoding="utf-8")


# A key spelled out in a comment is an example.
def keys_in(text):
    code = "\n".join(line.split("//")[0] for line in text.splitlines() if not line.lstrip().startswith("#include"))
    return KEY.findall(code)


def without_sentence(english):
    for path, text in sources():
        for key in keys_in(text):
            if key not in WORDLESS and not any(f"{section}{key}" in english for section in ("findings.", "errors.", "")):
                yield f"{path.relative_to(ROOT)}: {key} has no sentence in words/en"


# A check's code is put together: "checks." and its name.
def without_code(english):
    everything = "\n".join(text for _, text in sources())
    page = "\n".join(p.read_text(encoding="utf-8") for p in (ROOT / "page" / "src").glob("**/*.ts"))
    for key in english:
        section, _, code = key.partition(".")
        if section in {"findings", "errors"}:
            spellings = (f'"{code}"', f"'{code}'", f'"{code.removeprefix("checks.")}"')
            if not any(spelling in everything or spelling in page for spelling in spellings):
                yield f"words/en: nothing reports {code}"


# The catalogues are English, so another language may have words for their rows besides.
def apart(english, other, name):
    for key, text in english.items():
        if key not in other:
            yield f"words/{name}: {key} is missing"
        elif set(PLACEHOLDER.findall(text)) != set(PLACEHOLDER.findall(other[key])):
            yield f"words/{name}: {key} has other placeholders than words/en"


def main():
    english = language("en")
    faults = [*without_sentence(english), *without_code(english), *apart(english, language("es"), "es")]
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
