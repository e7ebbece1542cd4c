#!/bin/sh
# SPDX-License-Identifier: MIT
# Usage: tools/fetch_real_data.sh
#
# Fetches the real data that the tests stand on into build/real, once; later calls do nothing. Nothing of it is kept in this tree.
#   volcano.json, volcano.asc   heights of Maunga Whau on a 10 m grid, 87 x 61 (npm package vega-datasets, BSD-3-Clause)
#   track.gpx, ride.gpx         recorded tracks (npm package stoplight, MIT)
#   run.gpx                     a track recorded once a second (npm package gpx-parse, MIT)
#   geojson/                    one sample of each geometry (npm package geojson-fixtures, ISC)
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
real=$root/build/real
mkdir -p "$real"
exec 9>"$real/lock"
flock 9
[ -e "$real/.complete" ] && exit 0

work=$real/work
rm -rf "$work"
mkdir -p "$work"

# unpack PACKAGE VERSION: the package's files under $work/PACKAGE
unpack() {
  (cd "$work" && npm pack --silent "$1@$2" >/dev/null && mkdir "$1" && tar xzf "$1-$2.tgz" -C "$1" --strip-components=1)
}
unpack vega-datasets 3.2.1
unpack stoplight 0.0.7
unpack gpx-parse 0.10.4
unpack geojson-fixtures 1.0.0

cp "$work/vega-datasets/data/volcano.json" "$real/volcano.json"
cp "$work/stoplight/gpx/sample.gpx" "$real/track.gpx"
cp "$work/stoplight/gpx/sample-ride.gpx" "$real/ride.gpx"
cp "$work/gpx-parse/tests/integration/data/route-1.1.gpx" "$real/run.gpx"
mkdir -p "$real/geojson"
find "$work/geojson-fixtures/data" -name '*.geojson' | while read -r file; do
  cp "$file" "$real/geojson/$(basename "$(dirname "$file")")-$(basename "$file")"
done

python3 - "$real/volcano.json" "$real/volcano.asc" <<'PYTHON'
import json
import sys

grid = json.load(open(sys.argv[1], encoding="utf-8"))
width, height, values = grid["width"], grid["height"], grid["values"]
assert len(values) == width * height
with open(sys.argv[2], "w", encoding="ascii") as out:
    out.write(f"ncols {width}\nnrows {height}\nxllcenter 0\nyllcenter 0\ncellsize 10\nNODATA_value -9999\n")
    for row in range(height):
        out.write(" ".join(str(v) for v in values[row * width:(row + 1) * width]) + "\n")
PYTHON
rm -rf "$work"
touch "$real/.complete"
