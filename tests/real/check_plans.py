#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Usage: check_plans.py DIR

Checks the plans of make_jobs.sh against what their fences are made of, by figures that no plan computed: 600 ft at least, corners, a tee, two
gates, three rails a bay, and ground that rises and falls.
"""
import json
import math
import sys

folder = sys.argv[1]
for name in ("volcano", "track"):
    job = json.load(open(f"{folder}/{name}.json", encoding="utf-8"))
    plan = json.load(open(f"{folder}/{name}-plan.json", encoding="utf-8"))
    kinds = [post["kind"] for post in plan["posts"]]
    fence_bays = [bay for bay in plan["bays"] if bay["kind"] != "gate"]
    length_ft = sum(bay["pitch"] for bay in plan["bays"]) / 304.8
    heights = [post["ground"] for post in plan["posts"]]
    facts = {
        "at least 600 ft": length_ft >= 600,
        "corners": kinds.count("corner") >= 2,
        "a tee": kinds.count("tee") >= 1,
        "two gates": len(job["site"]["gates"]) == 2 and kinds.count("gate") == 4,
        "three rails a bay": len(plan["rails"]) == 3 * len(fence_bays),
        "ground that rises": max(heights) - min(heights) > 0,
        "no finding that stops work": all(f["severity"] != "stop" for f in plan["findings"]),
        "pitch at most 8 ft": all(bay["pitch"] <= 2438.4 + 1e-6 for bay in fence_bays),
        "finite rails": all(math.isfinite(rail["length"]) and rail["length"] > 0 for rail in plan["rails"]),
    }
    wrong = [fact for fact, true in facts.items() if not true]
    print(f"{name}: {length_ft:.0f} ft, {len(kinds)} posts, {len(plan['rails'])} rails" + (f"; NOT {wrong}" if wrong else ""))
    if wrong:
        sys.exit(1)
