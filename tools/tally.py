#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Prints "PASSED FAILED" for what a test runner reported.

  tally.py ctest BUILD     BUILD/ctest.xml and the reports of the test programs in BUILD/reports
  tally.py tap FILE        output of node --test --test-reporter=tap
  tally.py vitest FILE     its JSON report
  tally.py playwright FILE its JSON report
A runner that left no report counts as one failure: silence is not success."""
import json
import os
import re
import sys
import xml.etree.ElementTree as xml


def read_json(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def program(build, case):
    """One test program: its own report when it wrote one. A crash after or before it is a failure of its own."""
    sound = case.get("status") == "run"
    try:
        report = read_json(os.path.join(build, "reports", case.get("name") + ".json"))
    except (OSError, ValueError):
        return (1, 0) if sound else (0, 1)
    failed = report["failures"] + report.get("errors", 0)
    passed = report["tests"] - failed - report.get("disabled", 0)
    return passed, failed if sound or failed else 1


def ctest(build):
    cases = xml.parse(os.path.join(build, "ctest.xml")).getroot().iter("testcase")
    tallies = [program(build, case) for case in cases]
    return sum(passed for passed, _ in tallies), sum(failed for _, failed in tallies)


def tap(path):
    with open(path, encoding="utf-8") as file:
        text = file.read()
    count = {word: int(re.search(rf"^# {word} (\d+)$", text, re.M).group(1)) for word in ("pass", "fail", "cancelled")}
    return count["pass"], count["fail"] + count["cancelled"]


def vitest(path):
    report = read_json(path)
    broken_files = sum(not file["assertionResults"] and file["status"] == "failed" for file in report["testResults"])
    return report["numPassedTests"], report["numFailedTests"] + broken_files


def playwright(path):
    report = read_json(path)
    stats = report["stats"]
    return stats["expected"], stats["unexpected"] + stats["flaky"] + len(report.get("errors", []))


def main():
    runners = {"ctest": ctest, "tap": tap, "vitest": vitest, "playwright": playwright}
    if len(sys.argv) != 3 or sys.argv[1] not in runners:
        sys.exit(__doc__)
    try:
        passed, failed = runners[sys.argv[1]](sys.argv[2])
    except (OSError, ValueError, KeyError, AttributeError, xml.ParseError) as error:
        print(f"tally: no report of {sys.argv[1]} in {sys.argv[2]}: {error}", file=sys.stderr)
        passed, failed = 0, 1
    print(passed, failed)


if __name__ == "__main__":
    main()
