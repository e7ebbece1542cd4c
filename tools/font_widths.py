#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Write the advance widths of a font's everyday characters as a C++ table.

usage: font_widths.py Inter-Regular.otf Inter-Bold.otf > sheets/font_widths.inc

Reads the OpenType tables head, hhea, hmtx and cmap (format 4) itself, so that nothing need be installed. Widths are in
thousandths of the font size, rounded up; ranges: Latin (U+0020-U+017F) and the punctuation that sheets use.
"""
import struct
import sys

RANGES = [(0x20, 0x17F), (0x2010, 0x2044), (0x2190, 0x2193), (0x2212, 0x2212), (0x2260, 0x2265), (0x25A1, 0x25A1)]


def tables(data):
    count = struct.unpack(">H", data[4:6])[0]
    found = {}
    for i in range(count):
        tag, _, offset, length = struct.unpack(">4sIII", data[12 + 16 * i:28 + 16 * i])
        found[tag.decode()] = data[offset:offset + length]
    return found


def glyph_of(cmap):
    count = struct.unpack(">H", cmap[2:4])[0]
    for i in range(count):
        platform, encoding, offset = struct.unpack(">HHI", cmap[4 + 8 * i:12 + 8 * i])
        if struct.unpack(">H", cmap[offset:offset + 2])[0] == 4:
            return format4(cmap[offset:])
    raise SystemExit("no character map of format 4")


def format4(sub):
    segments = struct.unpack(">H", sub[6:8])[0] // 2
    words = lambda at, kind="H": struct.unpack(f">{segments}{kind}", sub[at:at + 2 * segments])
    ends, starts = words(14), words(16 + 2 * segments)
    deltas, offsets = words(16 + 4 * segments, "h"), words(16 + 6 * segments)

    def look(code):
        for i in range(segments):
            if starts[i] <= code <= ends[i]:
                if offsets[i] == 0:
                    return (code + deltas[i]) & 0xFFFF
                at = 16 + 6 * segments + 2 * i + offsets[i] + 2 * (code - starts[i])
                glyph = struct.unpack(">H", sub[at:at + 2])[0]
                return (glyph + deltas[i]) & 0xFFFF if glyph else 0
        return 0
    return look


def widths(path):
    t = tables(open(path, "rb").read())
    per_em = struct.unpack(">H", t["head"][18:20])[0]
    metrics = struct.unpack(">H", t["hhea"][34:36])[0]
    look = glyph_of(t["cmap"])
    for first, last in RANGES:
        for code in range(first, last + 1):
            glyph = min(look(code), metrics - 1)
            advance = struct.unpack(">H", t["hmtx"][4 * glyph:4 * glyph + 2])[0]
            if look(code):
                yield code, -(-advance * 1000 // per_em)


def main():
    regular, bold = (dict(widths(p)) for p in sys.argv[1:3])
    print("// Made by tools/font_widths.py from Inter Regular and Inter Bold (SIL Open Font License 1.1).")
    print("// {code point, width of Regular, width of Bold}, thousandths of the font size.")
    row = []
    for code in sorted(regular):
        row.append("{%d, %d, %d}" % (code, regular[code], bold.get(code, regular[code])))
        if len(row) == 6:
            print(", ".join(row) + ",")
            row = []
    if row:
        print(", ".join(row) + ",")


main()
