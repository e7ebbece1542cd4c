#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Usage: cut_track.py TRACK.gpx OUT.gpx FIXES

Cuts the first FIXES places from a recorded track and adds what a fence needs and a run has not: two gates on the line and a short lane that
meets it in a tee. The recorded places are copied as they are.
"""
import sys
import xml.etree.ElementTree as ET

GPX = "{http://www.topografix.com/GPX/1/1}"
source, target, count = sys.argv[1], sys.argv[2], int(sys.argv[3])
fixes = [f for f in ET.parse(source).getroot().iter(GPX + "trkpt")][:count]
assert len(fixes) == count, "the track is shorter than asked for"


def place(fix, east_deg=0.0):
    return f'lat="{fix.get("lat")}" lon="{float(fix.get("lon")) + east_deg:.7f}"'


def element(fix):
    height = fix.find(GPX + "ele")
    return f"<trkpt {place(fix)}>" + (f"<ele>{height.text}</ele>" if height is not None else "") + "</trkpt>"


lane = fixes[count * 3 // 5]
with open(target, "w", encoding="utf-8") as out:
    out.write('<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="cut_track" xmlns="http://www.topografix.com/GPX/1/1">\n')
    out.write(f'<wpt {place(fixes[count // 4])}><name>Gate 12 ft</name></wpt>\n')
    out.write(f'<wpt {place(fixes[count * 4 // 5])}><name>Gate 10 ft</name></wpt>\n')
    out.write(f"<rte><rtept {place(lane)}/><rtept {place(lane, 0.0008)}/></rte>\n<trk><trkseg>\n")
    out.writelines(element(fix) + "\n" for fix in fixes)
    out.write("</trkseg></trk>\n</gpx>\n")
