#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Counts test cases in Meson's log: every TAP line of every program, one for a program without TAP.

Shows what failed, then ends on "N passed, N failed".  A skipped case counts as failed: it showed nothing.
"""
import json
import re
import sys

PLAN = re.compile(r"^1\.\.\d+", re.M)
CASE = re.compile(r"^(not )?ok\b(.*)$", re.M)


def count(test):
    """(passed, failed) of one test program."""
    fine = test["result"] == "OK"
    out = test.get("stdout", "")
    cases = CASE.findall(out) if PLAN.search(out) else []
    if not cases:
        return (1, 0) if fine else (0, 1)
    bad = sum(1 for no, rest in cases if no or re.search(r"#\s*(skip|todo)", rest, re.I))
    good = len(cases) - bad
    if not fine and bad == 0:
        bad = 1  # it broke off, leaked or timed out between its cases
    return good, bad


def show(test):
    print(f"\n---- failed: {test['name']} ({test['result']})")
    print("     " + " ".join(test.get("command", [])))
    lines = test.get("stdout", "").splitlines()
    print("\n".join(line for line in lines if not re.match(r"ok\b|#\s*(Start|End) of", line))[-8000:])
    print(test.get("stderr", "")[-8000:])


def main(path):
    with open(path, encoding="utf-8") as log:
        tests = [json.loads(line) for line in log if line.strip()]
    passed = failed = 0
    for test in tests:
        good, bad = count(test)
        passed += good
        failed += bad
        if bad:
            show(test)
    print(f"{passed} passed, {failed} failed")
    return 0 if failed == 0 and passed > 0 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
